package bot_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/rules"
)

// deliver works and delivers once.
func (p *play) deliver(t *testing.T) int {
	t.Helper()
	if _, err := p.desk.Work(t.Context()); err != nil {
		t.Fatal(err)
	}
	n, err := p.desk.Deliver(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// A post that the platform turns away goes out later, in its order, and no later than the platform asks.
func TestPostsAreTriedAgain(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		wait time.Duration // by when it has gone out
		not  time.Duration // and when it has not yet
	}{
		{"the network fails", errors.New("connection reset"), 2 * time.Second, 500 * time.Millisecond},
		{"the platform asks for a pause", bot.After(errors.New("too many"), 40*time.Second), 40 * time.Second, 39 * time.Second},
		{"a wrapped pause", fmt.Errorf("posting: %w", bot.After(errors.New("too many"), 40*time.Second)), 40 * time.Second, 39 * time.Second},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := newPlay(t)
			p.FailWith(func(bot.Parcel) error { return c.err })
			at := p.Say(bottest.Rep, "", bottest.Request)
			p.Say(bottest.Rep, at, "make it 60")
			if n := p.deliver(t); n != 0 || len(p.Seen(at)) != 0 {
				t.Fatalf("%d posts went out through a platform that is down", n)
			}
			p.FailWith(nil)
			p.clock.Move(c.not)
			if n := p.deliver(t); n != 0 {
				t.Fatalf("%d posts went out too early", n)
			}
			p.clock.Move(c.wait - c.not)
			bottest.Settle(t, p.desk)
			seen := p.Seen(at)
			if len(seen) != 2 || !strings.Contains(seen[0]+seen[1], "60 t-shirts") || !strings.Contains(seen[0]+seen[1], "60 instead of 72") {
				t.Errorf("the thread shows:\n%s", strings.Join(seen, "\n---\n"))
			}
		})
	}
}

// A post that can never go out is set aside, to be seen in Health, and holds up nothing behind it.
func TestPostsAreSetAside(t *testing.T) {
	p := newPlay(t)
	p.FailWith(func(x bot.Parcel) error {
		if x.Post.Card != nil {
			return bot.Permanent(errors.New("the room is gone"))
		}
		return nil
	})
	at := p.Say(bottest.Rep, "", "48 tees, cotton, black")
	p.Say(bottest.Lead, at, "sign")
	bottest.Settle(t, p.desk)
	h, err := p.desk.Health(t.Context())
	if err != nil || h.SetAside == 0 || h.Outbox != 0 {
		t.Errorf("health is %+v, %v; want something aside and nothing waiting", h, err)
	}
	p.answered(t, at, "cleared for the run")
}

// A card that somebody deleted on the platform is put up anew when the job changes.
func TestDeletedCardComesBack(t *testing.T) {
	p := newPlay(t)
	at := p.Say(bottest.Rep, "", "48 tees, cotton, black")
	bottest.Settle(t, p.desk)
	p.FailWith(func(x bot.Parcel) error {
		if x.Ref != "" {
			return bot.Permanent(errors.New("no such post"))
		}
		return nil
	})
	p.Say(bottest.Rep, at, "make it 60")
	bottest.Settle(t, p.desk)
	p.answered(t, at, "60 t-shirts")
	h, err := p.desk.Health(t.Context())
	if err != nil || h.SetAside != 0 {
		t.Errorf("health is %+v, %v", h, err)
	}
}

// A door that panics loses its post and nothing else.
func TestDoorPanics(t *testing.T) {
	p := newPlay(t)
	p.FailWith(func(x bot.Parcel) error {
		if x.Post.Card == nil {
			panic("planted")
		}
		return nil
	})
	at := p.Say(bottest.Rep, "", "48 tees, cotton, black")
	p.Say(bottest.Lead, at, "sign")
	bottest.Settle(t, p.desk)
	p.answered(t, at, "clear to run")
}

// A post for a door that this program does not have waits for a program that has it.
func TestPostWaitsForItsDoor(t *testing.T) {
	p := newPlay(t)
	p.desk.Production[bottest.Door] = bot.Place{Door: "elsewhere", Room: "production"}
	p.Say(bottest.Rep, "", bottest.Request)
	bottest.Settle(t, p.desk)
	h, err := p.desk.Health(t.Context())
	if err != nil || h.Outbox != 1 || h.SetAside != 0 {
		t.Errorf("health is %+v, %v; want one post waiting", h, err)
	}
}

// A door that says how fast its platform may be posted to is not posted to faster.
func TestPace(t *testing.T) {
	p := newPlay(t)
	paced := pacedDoor{Platform: p.Platform}
	p.desk.Limits.PerSecond, p.desk.Doors = 0, map[string]bot.Poster{bottest.Door: paced}
	for range 4 {
		p.Say(bottest.Rep, "", "48 tees, cotton, black")
	}
	if n := p.deliver(t); n != 2 {
		t.Errorf("%d cards went out at once, want the 2 that the pace allows", n)
	}
	p.clock.Move(time.Hour)
	if n := p.deliver(t); n != 1 {
		t.Errorf("%d cards went out an hour later, want 1", n)
	}
}

// pacedDoor allows 2 posts at once and one an hour.
type pacedDoor struct{ *bottest.Platform }

func (pacedDoor) Pace() (float64, int) { return 1.0 / 3600, 2 }

// A message that the desk cannot handle is tried again, then set aside and told of; those behind it in its thread are answered.
func TestPoison(t *testing.T) {
	p := newPlay(t)
	decide := p.desk.Decide
	p.desk.Decide = func(o rules.Order, s rules.Shop, r rules.Record) rules.Plan {
		if len(o.Lines) > 0 && o.Lines[0].Quantity.Value == 13 {
			panic("planted")
		}
		return decide(o, s, r)
	}
	bad := p.Say(bottest.Rep, "", "13 tees, cotton, black")
	p.Say(bottest.Rep, bad, "help")
	good := p.Say(bottest.Rep, "", "14 tees, cotton, black")
	for range 8 {
		bottest.Settle(t, p.desk)
		p.clock.Move(5 * time.Minute)
	}
	p.answered(t, good, "14 t-shirts")
	p.answered(t, bad, "I could not handle what Rea Ito (invented) wrote")
	p.answered(t, bad, "pass N STEP")
	h, err := p.desk.Health(t.Context())
	if err != nil || h.SetAside != 1 || h.Inbox != 0 {
		t.Errorf("health is %+v, %v; want the one message aside", h, err)
	}
	if n := strings.Count(strings.Join(p.Seen(bad), "\n"), "I could not handle"); n != 1 {
		t.Errorf("the room was told %d times, want once", n)
	}
}

// What a person is told when the ledger fails says whether what they said is kept.
func TestDown(t *testing.T) {
	f := &flaky{Ledger: openBolt(t)}
	d := bottest.NewDesk(f, bottest.NewClock())
	p := bottest.NewPlatform(t, d)
	p.Say(bottest.Rep, "", "48 tees, cotton, black")
	f.fail = f.calls + 1
	_, err := d.Work(context.Background())
	if err == nil || !strings.Contains(bot.Down(err), "is kept") {
		t.Errorf("work failed with %v, of which people are told %q", err, bot.Down(err))
	}
	for _, c := range []struct {
		err  error
		want string
	}{
		{fmt.Errorf("keep: %w", bot.ErrDown), "say it again in a minute"},
		{errors.New("anything"), "Nothing was kept"},
		{nil, ""},
	} {
		if got := bot.Down(c.err); !strings.Contains(got, c.want) || c.err == nil && got != "" {
			t.Errorf("Down(%v) = %q, want %q", c.err, got, c.want)
		}
	}
	if _, err := d.Keep(t.Context(), bot.Inbound{Text: "no key"}); !errors.Is(err, bot.ErrNoKey) {
		t.Errorf("a message without a key: %v", err)
	}
}
