package discord

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot"
	"strikeoff/rules"
)

const (
	choicesLimit = 25
	choiceLimit  = 100
	completeTime = 1500 * time.Millisecond // a suggestion that comes later is not shown
	lookedAt     = 200                     // open jobs that are looked through for a suggestion
)

// choice is one suggestion: what is shown, and what is put into the command.
type choice struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
}

// complete suggests values for the option that is being typed. Where the ledger does not answer in time there are none, and the value can
// still be typed.
func (c *Chat) complete(ctx context.Context, d actionData) []choice {
	ctx, cancel := context.WithTimeout(ctx, completeTime)
	defer cancel()
	out := []choice{}
	for _, o := range d.Options.V {
		if !o.Focused {
			continue
		}
		typed := strings.ToLower(strings.TrimSpace(o.text()))
		switch o.Name {
		case "job":
			return c.offerJobs(ctx, d.Name, typed)
		case "method":
			for _, m := range rules.Methods {
				if strings.Contains(string(m), typed) {
					out = append(out, choice{string(m), string(m)})
				}
			}
		case "which":
			for _, w := range []string{"all", string(bot.Asking), string(bot.Planned), string(bot.TestDue), string(bot.OnTest), string(bot.Refused),
				string(bot.Cleared), string(bot.Closed)} {
				if strings.Contains(w, typed) {
					out = append(out, choice{w, w})
				}
			}
		case "step":
			return c.offerSteps(ctx, d, typed)
		}
	}
	return out
}

// offerJobs suggests open jobs, or closed ones for opening again, by number or by the words of their row.
func (c *Chat) offerJobs(ctx context.Context, command, typed string) []choice {
	states := bot.OpenStates
	switch command {
	case "reopen":
		states = []bot.State{bot.Closed}
	case "job", "why":
		states = nil
	}
	out := []choice{}
	jobs, err := c.cfg.Desk.Jobs(ctx, states, 0, lookedAt)
	if err != nil {
		c.log.Warn("jobs could not be suggested", "err", err)
		return out
	}
	for _, j := range jobs {
		r := c.cfg.Desk.RowOf(j)
		name := fmt.Sprintf("%d %s", r.Job, r.What)
		if r.Customer != "" {
			name += ", " + r.Customer
		}
		if (strings.HasPrefix(strconv.FormatInt(int64(r.Job), 10), typed) || strings.Contains(strings.ToLower(name), typed)) && len(out) < choicesLimit {
			out = append(out, choice{clip(strings.Join(strings.Fields(name), " "), choiceLimit), r.Job})
		}
	}
	return out
}

// offerSteps suggests the checks of the job that was named before.
func (c *Chat) offerSteps(ctx context.Context, d actionData, typed string) []choice {
	out := []choice{}
	for _, o := range d.Options.V {
		if o.Name != "job" {
			continue
		}
		n, err := strconv.ParseInt(o.text(), 10, 64)
		if err != nil {
			return out
		}
		j, err := c.cfg.Desk.Job(ctx, bot.JobID(n))
		if err != nil {
			return out
		}
		for _, s := range c.cfg.Desk.CardOf(j).Steps {
			if s.Mark == "passed" || s.Mark == "failed" || len(s.Code) > choiceLimit || len(out) == choicesLimit {
				continue
			}
			name := s.Code
			if s.Title != "" {
				name += ": " + s.Title
			}
			if strings.Contains(strings.ToLower(name), typed) {
				out = append(out, choice{clip(name, choiceLimit), s.Code})
			}
		}
	}
	return out
}
