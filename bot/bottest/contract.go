package bottest

import (
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
	{"a request gets a plan in its thread", func(s *scene) {
		at := s.say(Rep, "", Request)
		s.sees(at, "test print", "Larkspur Rowing")
		s.sees(Production, "Job 1")
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
