package bottest

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
)

// Request is a request of the toy shop that needs a test print. The customer is invented.
const Request = "Hi, 72 tees in tri-blend, navy, white front print, for Larkspur Rowing"

// Run holds a door to the contract: each conversation on an empty ledger, with a door freshly opened.
func Run(t *testing.T, ledger NewLedger, open Open) {
	for _, c := range conversations {
		t.Run(c.name, func(t *testing.T) {
			clock, out := NewClock(), &Outage{Ledger: ledger(t)}
			d := NewDesk(out, clock)
			c.play(&scene{T: t, Stage: open(t, d), desk: d, clock: clock, outage: out})
		})
	}
}

// conversations are the contract. Each is a sentence about what a door must let happen.
var conversations = []struct {
	name string
	play func(*scene)
}{
	{"a request gets its plan in its thread, and the production room hears of the test", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.sees(at, "job 1", "test print", "low-bleed white", "wash", "Larkspur Rowing", "138 °C", "280 °F")
		s.sees(Production, "job 1", "wash test")
	}},
	{"ordinary talk gets no answer", func(s *scene) {
		at := s.say(Rep, "", "pass me the squeegee, please")
		s.silent(at)
	}},
	{"an answer in the thread decides what was open", func(s *scene) {
		at := s.say(Rep, "", "48 tees, navy, white front print, for Marsh Lane Choir")
		s.sees(at, "what are the garments made of")
		s.say(Rep, at, "they are cotton")
		s.sees(at, "no test print is needed")
	}},
	{"an answer can be given by a button", func(s *scene) {
		at := s.say(Rep, "", "48 tees, navy, white front print, for Marsh Lane Choir")
		s.press(Rep, at, "amend 1 they are cotton")
		s.sees(at, "no test print is needed")
	}},
	{"an amendment makes a new plan and says what changed", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.say(Rep, at, "make it 60, in black")
		s.sees(at, "60 instead of 72", "black instead of navy")
	}},
	{"a test print runs from the print to the sign-off", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.press(Lead, at, "printed 1")
		s.press(Lead, at, "pass 1 cure")
		s.press(Lead, at, "pass 1 wash")
		s.told(Lead, at, "cannot be read before")
		s.wait(25 * time.Hour)
		s.sees(Production, "job 1", "can be read")
		s.press(Lead, at, "fail 1 wash pink cast in the white")
		s.sees(at, "refused", "pink cast in the white")
		s.sees(at, "grey blocker")
		s.press(Lead, at, "sign 1")
		s.told(Lead, at, "there is nothing to sign off")
		s.press(Lead, at, "printed 1")
		s.wait(25 * time.Hour)
		s.press(Lead, at, "pass 1 cure wash")
		s.press(Lead, at, "sign 1")
		s.sees(at, "job 1", "cleared")
	}},
	{"the lead can type in the thread what the buttons say, without the number", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.say(Lead, at, "printed")
		s.say(Lead, at, "pass cure wash early: oven time was doubled")
		s.say(Lead, at, "sign")
		s.sees(at, "job 1", "cleared")
	}},
	{"a rep may not sign, and is told so", func(s *scene) {
		at := s.say(Rep, "", "48 tees, cotton, navy, white front print, for Marsh Lane Choir")
		s.press(Rep, at, "sign 1")
		s.told(Rep, at, "only a production lead")
		s.press(Lead, at, "sign 1")
		s.sees(at, "job 1", "cleared")
	}},
	{"a redelivery does nothing", func(s *scene) {
		again, can := s.Stage.(Redeliverer)
		if !can {
			s.Skip("this platform delivers once")
		}
		at := s.say(Rep, "", Request)
		before := len(s.Seen(at))
		again.Redeliver()
		Settle(s, s.desk)
		if after := len(s.Seen(at)); after != before || before == 0 {
			s.Errorf("%d posts before the redelivery and %d after, want the same, more than none", before, after)
		}
		s.noJob(2)
	}},
	{"the customer's words are shown, and are harmless", func(s *scene) {
		const ps = "PS: <!channel> @everyone <@U123> [here](https://example.com) *bold* `x` <b>y</b> & done"
		at := s.say(Rep, "", Request+". "+ps)
		s.sees(at, "job 1")
		if g, can := s.Stage.(Guard); can {
			g.Harmless(s.T, at, ps)
		}
	}},
	{"while the ledger is down, people are told that nothing was kept", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.outage.Down.Store(true)
		s.Press(Lead, at, "printed 1")
		s.told(Lead, at, "nothing was kept")
		lost := s.Say(Rep, "", "48 tees, cotton, navy, white front print, for Marsh Lane Choir")
		if r, can := s.Stage.(Retrier); !can || !r.Retries() {
			s.told(Rep, lost, "nothing was kept")
		}
		s.outage.Down.Store(false)
		Settle(s, s.desk)
		s.press(Lead, at, "printed 1")
		s.sees(at, "made by")
	}},
	{"an edited request is read again", func(s *scene) {
		e, can := s.Stage.(Editor)
		if !can {
			s.Skip("this platform does not let people edit")
		}
		at := s.say(Rep, "", Request)
		e.Edit(Rep, at, strings.Replace(Request, "72", "60", 1))
		Settle(s, s.desk)
		s.sees(at, "60 instead of 72")
		s.noJob(2)
	}},
	{"a request that is taken back closes its job", func(s *scene) {
		e, can := s.Stage.(Deleter)
		if !can {
			s.Skip("this platform does not let people delete")
		}
		at := s.say(Rep, "", Request)
		e.Delete(Rep, at)
		Settle(s, s.desk)
		j, err := s.desk.Job(s.Context(), 1)
		if err != nil || j.State != bot.Closed {
			s.Errorf("job 1 is %q, %v; want closed", j.State, err)
		}
	}},
	{"any message can be asked to be read as an order, once", func(s *scene) {
		a, can := s.Stage.(Asker)
		if !can {
			s.Skip("this platform has no way to ask")
		}
		at := s.say(Rep, "", "the usual for the choir")
		a.Ask(Rep, at, "the usual for the choir")
		Settle(s, s.desk)
		s.sees(at, "job 1")
		a.Ask(Rep, at, "the usual for the choir")
		Settle(s, s.desk)
		s.noJob(2)
	}},
	{"the jobs can be listed and looked at", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.press(Rep, at, "jobs")
		s.told(Rep, at, "72", "Larkspur Rowing")
		s.press(Rep, at, "why 1 sublimation")
		s.told(Rep, at, "shows no white")
		s.press(Rep, at, "help")
		s.told(Rep, at, "pass N STEP")
	}},
}

// scene is one conversation being played.
type scene struct {
	*testing.T
	Stage
	desk   *bot.Desk
	clock  *Clock
	outage *Outage
}

// say has a person write, and lets the desk come to rest.
func (s *scene) say(who Who, thread, text string) string {
	s.Helper()
	at := s.Say(who, thread, text)
	Settle(s, s.desk)
	return at
}

// press has a person press a button, and lets the desk come to rest.
func (s *scene) press(who Who, thread, command string) {
	s.Helper()
	s.Press(who, thread, command)
	Settle(s, s.desk)
}

// wait moves the clock on, and lets the desk come to rest.
func (s *scene) wait(d time.Duration) {
	s.Helper()
	s.clock.Move(d)
	Settle(s, s.desk)
}

// sees fails where no post of the thread holds all the words.
func (s *scene) sees(thread string, words ...string) {
	s.Helper()
	seen := s.Seen(thread)
	if !slices.ContainsFunc(seen, func(post string) bool { return holds(post, words...) }) {
		s.Errorf("no post in %s holds all of %q; its posts:\n%s", thread, words, strings.Join(seen, "\n---\n"))
	}
}

// silent fails where anything was said in a thread.
func (s *scene) silent(thread string) {
	s.Helper()
	if seen := s.Seen(thread); len(seen) > 0 {
		s.Errorf("said in %s, where nothing was asked: %q", thread, seen)
	}
}

// noJob fails where there is a job with that number.
func (s *scene) noJob(id bot.JobID) {
	s.Helper()
	if j, err := s.desk.Job(s.Context(), id); !errors.Is(err, bot.ErrNoJob) {
		s.Errorf("job %d is %q, %v; want no such job", id, j.State, err)
	}
}

// told fails where neither the person alone nor, at a door with no private posts, the thread was told all the words.
func (s *scene) told(who Who, thread string, words ...string) {
	s.Helper()
	all := append(s.Private(who), s.Seen(thread)...)
	if !slices.ContainsFunc(all, func(post string) bool { return holds(post, words...) }) {
		s.Errorf("%s was not told %q; what was shown:\n%s", who, words, strings.Join(all, "\n---\n"))
	}
}

// holds reports whether a text holds all the words, whatever their case.
func holds(text string, words ...string) bool {
	text = strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for _, w := range words {
		if !strings.Contains(text, strings.ToLower(w)) {
			return false
		}
	}
	return true
}
