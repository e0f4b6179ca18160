package webhook

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot"
)

// schedule is how long to wait after each failed attempt, ten attempts over a little more than three days. Source: the example schedule
// of the Standard Webhooks specification.
var schedule = []time.Duration{5 * time.Second, 5 * time.Minute, 30 * time.Minute, 2 * time.Hour, 5 * time.Hour, 10 * time.Hour, 14 * time.Hour, 20 * time.Hour, 24 * time.Hour}

// longestWait bounds what a target's Retry-After can ask for.
const longestWait = 24 * time.Hour

// Saver keeps an alert; every bot.Ledger is one.
type Saver interface {
	Save(ctx context.Context, c bot.Change) error
}

// SenderConfig is what a Sender is made of. Targets, Now and Ledger are required.
type SenderConfig struct {
	Targets []Target
	Now     func() time.Time
	Ledger  Saver         // where the alert about an event that was set aside is kept
	Alerts  bot.Place     // the room that is told of it; a zero place tells only the log and the meters
	Source  string        // the events' source: this shop's address; "" is "/strikeoff"
	Timeout time.Duration // for one attempt; 0 is 12 s, less than the desk allows a call
	Meters  *Meters       // nil counts nothing
	Log     *slog.Logger  // nil is silence
}

// Sender sends events to targets. It is the bot.Poster of this door: put it in bot.Desk.Doors under Door.
type Sender struct {
	c       SenderConfig
	targets map[string]*outTarget
}

type outTarget struct {
	Target
	client *http.Client
}

// NewSender checks the settings and makes a Sender.
func NewSender(c SenderConfig) (*Sender, error) {
	if c.Now == nil || c.Ledger == nil {
		return nil, errors.New("a sender needs a clock and a ledger")
	}
	if c.Source == "" {
		c.Source = "/strikeoff"
	}
	if c.Timeout <= 0 {
		c.Timeout = 12 * time.Second
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	s := &Sender{c: c, targets: map[string]*outTarget{}}
	for _, t := range c.Targets {
		if err := t.check(); err != nil {
			return nil, err
		}
		if s.targets[t.Name] != nil {
			return nil, fmt.Errorf("two targets are called %s", t.Name)
		}
		s.targets[t.Name] = &outTarget{t, t.client()}
	}
	return s, nil
}

// Pace is how fast one target is told: twenty events a second, forty at once.
func (s *Sender) Pace() (perSecond float64, burst int) { return 20, 40 }

// Listens reports whether a place is a target's. A room that is none is a source's own: nobody listens there, the API tells what became of
// its orders.
func (s *Sender) Listens(p bot.Place) bool { return s.targets[p.Room] != nil }

// Post sends a parcel to the target that its room names; one to nobody is dropped. A target that is told of every change needs no cards; plain sentences go to it as replies.
func (s *Sender) Post(ctx context.Context, p bot.Parcel) (string, error) {
	t := s.targets[p.Place.Room]
	if t == nil {
		return "", nil
	}
	ev, ok := s.dress(p)
	if !ok {
		return "", nil
	}
	body, err := json.Marshal(ev)
	if err != nil {
		return "", bot.Permanent(fmt.Errorf("event %s: %w", ev.ID, err))
	}
	again, err := s.attempt(ctx, t, ev.ID, body)
	log := s.c.Log.With("target", t.Name, "job", ev.Subject, "message", ev.ID, "tries", p.Tries)
	if err == nil {
		s.c.Meters.event(t.Name, "done")
		log.Debug("event sent")
		return ev.ID, nil
	}
	tries := max(p.Tries, 1)
	if again >= 0 && tries <= len(schedule) {
		s.c.Meters.event(t.Name, "retry")
		wait := schedule[tries-1]
		wait += time.Duration((rand.Float64() - 0.5) * 0.4 * float64(wait)) // a fifth either way, so that many do not come at once
		return "", bot.After(err, max(wait, again))
	}
	if err := s.giveUp(ctx, t, ev, tries, err); err != nil {
		return "", bot.After(err, time.Minute) // the alert could not be kept: the event is not given up without one
	}
	s.c.Meters.event(t.Name, "given-up")
	log.Error("event set aside", "error", err)
	return "", bot.Permanent(err)
}

// dress makes a parcel an event, and reports whether there is one in it.
func (s *Sender) dress(p bot.Parcel) (cloudEvent, bool) {
	if n := p.Post.News; n != nil {
		return event(*n, s.c.Source), true
	}
	if p.Post.Text == "" || p.Post.Card != nil {
		return cloudEvent{}, false
	}
	sum := sha256.Sum256([]byte(p.Key))
	data, _ := json.Marshal(map[string]any{"job": 0, "state": "", "was": "", "revision": 0, "plan_revision": 0,
		"by": personView{ID: "strikeoff", Name: "strikeoff", Role: "desk"}, "url": "", "text": p.Post.Text})
	return cloudEvent{SpecVersion: "1.0", ID: "reply-" + hex.EncodeToString(sum[:12]), Source: s.c.Source, Type: "strikeoff.reply",
		Time: s.c.Now().UTC().Format(time.RFC3339), Subject: "0", Sequence: "00000000", ContentType: "application/json", Data: data}, true
}

// attempt sends once. Where it fails, again is how long the target asks to be left alone, or -1 where it never wants this one again.
func (s *Sender) attempt(ctx context.Context, t *outTarget, id string, body []byte) (again time.Duration, err error) {
	ctx, cancel := context.WithTimeout(ctx, s.c.Timeout)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, t.URL, bytes.NewReader(body))
	if err != nil {
		return -1, fmt.Errorf("target %s: its address cannot be used", t.Name)
	}
	t.Keys.Sign(req.Header, id, s.c.Now(), body)
	req.Header.Set("Content-Type", "application/cloudevents+json; charset=utf-8")
	req.Header.Set("User-Agent", "strikeoff")
	resp, err := t.client.Do(req)
	if err != nil {
		return 0, fmt.Errorf("target %s: %w", t.Name, scrub(err))
	}
	defer resp.Body.Close()
	_, _ = io.CopyN(io.Discard, resp.Body, 4<<10) // enough to use the connection again
	switch code := resp.StatusCode; {
	case code/100 == 2:
		return 0, nil
	case code == http.StatusGone:
		return -1, fmt.Errorf("target %s answered 410: it wants this no more", t.Name)
	case code/100 == 3:
		return 0, fmt.Errorf("target %s answered with a redirect (%d), which is not followed", t.Name, code)
	default:
		return retryAfter(resp.Header.Get("Retry-After"), s.c.Now()), fmt.Errorf("target %s answered %d", t.Name, code)
	}
}

// scrub takes the address out of a client's error: it may hold a secret.
func scrub(err error) error {
	if inner := errors.Unwrap(err); inner != nil && strings.Contains(err.Error(), "://") {
		return inner
	}
	return err
}

// retryAfter reads the header, a number of seconds or a date (RFC 9110, section 10.2.3), within bounds.
func retryAfter(s string, now time.Time) time.Duration {
	wait := time.Duration(0)
	if secs, err := strconv.Atoi(s); err == nil && secs > 0 {
		wait = time.Duration(min(secs, int(longestWait/time.Second))) * time.Second
	} else if at, err := http.ParseTime(s); err == nil {
		wait = at.Sub(now)
	}
	return min(max(wait, 0), longestWait)
}

// giveUp keeps the alert about an event that is set aside.
func (s *Sender) giveUp(ctx context.Context, t *outTarget, ev cloudEvent, tries int, why error) error {
	if s.c.Alerts.Room == "" {
		return nil
	}
	text := fmt.Sprintf("The program %s was not told of a change of job %s (event %s): after %d tries it was set aside. Last, %v. When it is well again, whoever runs strikeoff can send it once more: strikeoff events replay %s",
		t.Name, ev.Subject, ev.ID, tries, why, ev.Subject)
	payload, err := json.Marshal(bot.Post{Text: text, Loud: true, Anew: true})
	if err != nil {
		return err
	}
	o := bot.Outbound{Key: "lost:" + t.Name + ":" + ev.ID, Place: s.c.Alerts, Payload: payload, At: s.c.Now().UTC()}
	if err := s.c.Ledger.Save(ctx, bot.Change{Out: []bot.Outbound{o}}); err != nil {
		return fmt.Errorf("keep the alert about event %s: %w", ev.ID, err)
	}
	return nil
}
