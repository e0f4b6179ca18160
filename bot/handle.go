package bot

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"runtime/debug"
	"strings"

	"strikeoff/bot/job"
)

// mostStale is how often a turn is played again because the job changed meanwhile. Each time somebody else got further, so more means
// that something is wrong.
const mostStale = 20

// handle answers one kept message, whole or not at all. One that was answered before is done.
func (d *Desk) handle(ctx context.Context, in Inbound) error {
	err := d.try(ctx, in)
	if errors.Is(err, job.ErrDone) {
		return nil // a redelivery, or a lease that ran out while another desk worked
	}
	return err
}

// try is handle that says job.ErrDone of a message that was answered before.
func (d *Desk) try(ctx context.Context, in Inbound) (err error) {
	ctx, end := d.Around.Begin(ctx, "handle message", in.Key)
	defer func() { end(err) }()
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("handling message %s panicked: %v\n%s", in.Key, r, debug.Stack())
		}
	}()
	for range mostStale {
		t := d.turn(ctx, in)
		if err := t.play(); err != nil {
			return fmt.Errorf("message %s: %w", in.Key, err)
		}
		switch err := t.save(); {
		case errors.Is(err, job.ErrStale):
		case err != nil:
			return fmt.Errorf("save what message %s does: %w", in.Key, err)
		default:
			return nil
		}
	}
	return fmt.Errorf("message %s met a changed job %d times: %w", in.Key, mostStale, job.ErrStale)
}

// play does what a message of its sort asks for.
func (t *turn) play() error {
	if standsAlone(t.in) {
		return t.alone()
	}
	switch t.in.Sort {
	case job.Edited:
		return t.edited()
	case job.Deleted:
		return t.deleted()
	case job.Shortcut:
		return t.shortcut()
	case job.Command:
		return t.commanded()
	}
	return t.message()
}

// calledByName is the program's name at the head of a message, in rooms that have no mentions.
var calledByName = regexp.MustCompile(`(?i)^\s*@?strikeoff\b[,:]?\s*`)

// message answers something written: a command, a change of the thread's job, an order, or nothing.
func (t *turn) message() error {
	if at := calledByName.FindStringIndex(t.in.Text); at != nil {
		t.in.Text, t.in.Called = t.in.Text[at[1]:], true
	}
	if !t.in.By.Bot {
		if done, err := t.command(); done || err != nil {
			return err
		}
	}
	id, err := t.here()
	if err != nil {
		return err
	}
	if id != 0 {
		if t.in.By.Bot {
			return nil
		}
		return t.talk(id)
	}
	r := t.d.Read(t.in.Text, t.options())
	if r.IsOrder {
		if _, err := t.d.Ledger.FromMessage(t.ctx, t.in.Key); err == nil {
			return nil // an edit of it overtook it, and opened the job
		} else if !errors.Is(err, job.ErrNoJob) {
			return err
		}
		return t.open(r)
	}
	if t.in.Called {
		t.unreadable(oddWords(r.Odd))
	}
	return nil
}

// unreadable is the one line for somebody who called and was not understood.
func (t *turn) unreadable(odd []string) {
	text := "I read no order in that, and no command. Paste the customer's request, or type help to see what can be said."
	if strings.TrimSpace(t.in.Text) == "" {
		text = "Paste the customer's request here, or type help to see what can be said."
	}
	text += t.hinted()
	if len(odd) > 0 {
		text = strings.Join(odd, "\n") + "\n" + text
	}
	t.say(text)
}

// hinted says how the command is typed that the message began like.
func (t *turn) hinted() string {
	if t.hint == "" {
		return ""
	}
	return " Was a command meant? It is typed: " + t.hint
}

// commanded answers a button, a slash command or a modal: always.
func (t *turn) commanded() error {
	done, err := t.command()
	if done || err != nil {
		return err
	}
	if strings.TrimSpace(t.in.Text) == "" {
		return t.run(helpCommand, args{})
	}
	if r := t.d.Read(t.in.Text, t.options()); r.IsOrder {
		return t.open(r)
	}
	t.say(fmt.Sprintf("There is no command in %q. Type help to see what can be said.", short(t.in.Text, 60)))
	return nil
}

// short is a text's beginning on one line, at most n characters.
func short(s string, n int) string {
	s = strings.Join(strings.Fields(plain(s)), " ")
	if r := []rune(s); len(r) > n {
		return string(r[:n]) + "…"
	}
	return s
}
