package slack

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// posting is a stage whose door is posted through directly.
func posting(t *testing.T) (*stage, *bottest.Clock, bot.Place) {
	s, clock := hearing(t, nil)
	root, d := s.slack.Say(orders, repID, "", "72 tees")
	s.settle(d)
	return s, clock, bot.Place{Door: Name, Room: orders, Thread: root}
}

// ours are the app's own messages of a thread.
func (s *stage) ours(at bot.Place) []fake.Message {
	var out []fake.Message
	for _, m := range s.slack.Thread(at.Room, at.Thread) {
		if m.BotID == fake.BotID {
			out = append(out, m)
		}
	}
	return out
}

func (s *stage) mustPost(p bot.Parcel) string {
	s.t.Helper()
	ref, err := s.door.Post(s.t.Context(), p)
	if err != nil {
		s.t.Fatal(err)
	}
	return ref
}

// longCard is a card of so many lines, each with a print that takes about 150 characters to say.
func longCard(lines int) *bot.Card {
	c := &bot.Card{Job: 7, State: "test-due", PlanRev: 1, Headline: "Make a test print of every line.", Customer: "Larkspur Rowing",
		Actions: []bot.Action{{Label: "Test print made", Command: "printed 7 plan 1", Lead: true, Group: "job"}, {Label: "Close", Command: "close 7", Needs: "reason", Group: "job"}}}
	for range lines {
		c.Lines = append(c.Lines, bot.Line{What: "72 t-shirts, navy, tri-blend; S 10, M 30, L 32", Migration: "dye migration: high with plain ink, low with this setup",
			Prints: []bot.Print{{Where: "front, 280 x 300 mm, white, 1 ink", Do: "plastisol on a low-bleed white base; cure at 132 to 138 °C (270 to 280 °F) for 60 to 75 s", Why: []string{"because"}}}})
	}
	return c
}

// Ensure that a post is brought up to date in place, grows and shrinks by whole messages, and is made anew where somebody took it away.
func TestUpdate(t *testing.T) {
	s, _, at := posting(t)
	p := bot.Parcel{Key: "k1", Place: at, Post: bot.Post{Card: longCard(1)}}
	ref := s.mustPost(p)
	first := s.ours(at)
	if len(first) != 1 {
		t.Fatalf("%d messages", len(first))
	}
	for _, n := range []int{100, 1, 200, 60} {
		p.Key, p.Ref, p.Post = "k"+ref, ref, bot.Post{Card: longCard(n)}
		ref = s.mustPost(p)
		_, parts := dress(p.Post, s.door.c.Limits.Parts)
		now := s.ours(at)
		if len(now) != len(parts) || now[0].TS != first[0].TS {
			t.Errorf("%d lines: %d messages for %d parts, the first is %s and was %s", n, len(now), len(parts), now[0].TS, first[0].TS)
		}
		_, refs := readRef(ref)
		var there []string
		for _, m := range now {
			there = append(there, m.TS)
		}
		slices.Sort(refs)
		if !slices.Equal(refs, there) {
			t.Errorf("the reference names %q and there are %q", refs, there)
		}
	}
	p.Ref, p.Post = orders+"/1.000001", bot.Post{Text: "still here"}
	ref = s.mustPost(p)
	if now := s.ours(at); !strings.Contains(fake.Words(now[len(now)-1].Blocks), "still here") || ref == p.Ref {
		t.Errorf("a post that was taken away was not made anew: %q", ref)
	}
}

// Ensure that a post whose answer was lost is not made twice, be it one message or several, in this process or the next.
func TestLostAnswer(t *testing.T) {
	for _, thread := range []bool{true, false} {
		s, _, at := posting(t)
		if !thread {
			at.Thread = ""
		}
		p := bot.Parcel{Key: "k1", Place: at, Post: bot.Post{Card: longCard(150)}, Tries: 1}
		s.slack.Fail("chat.postMessage", fake.Fault{}, fake.Fault{CutAfter: true})
		if _, err := s.door.Post(t.Context(), p); err == nil {
			t.Fatal("a lost answer is no error")
		}
		s.slack.Fail("chat.postMessage", fake.Fault{CutBefore: true})
		if _, err := s.door.Post(t.Context(), p); err == nil {
			t.Fatal("a lost call is no error")
		}
		ref := s.mustPost(p)
		_, parts := dress(p.Post, s.door.c.Limits.Parts)
		_, refs := readRef(ref)
		if n := len(s.ours(at)); n != len(parts) || len(refs) != len(parts) || len(parts) < 3 {
			t.Errorf("%d messages and %d in the reference, want %d, three at least", n, len(refs), len(parts))
		}
		// The next process knows of no doubt, but that it was tried before.
		s.door.doubts = doubts{}
		p.Tries = 2
		if again := s.mustPost(p); again != ref {
			t.Errorf("posted again as %q, was %q", again, ref)
		}
	}
}

// Ensure that a 429 shuts that method for that channel and no other, for as long as Slack says, without more calls.
func TestRateLimit(t *testing.T) {
	s, clock, at := posting(t)
	s.slack.Fail("chat.postMessage", fake.Fault{RetryAfter: 30})
	p := bot.Parcel{Key: "k1", Place: at, Post: bot.Post{Text: "one"}}
	for range 3 {
		_, err := s.door.Post(t.Context(), p)
		if err == nil || bot.Wait(err) <= 0 || bot.Wait(err) > 30*time.Second {
			t.Fatalf("error %v, wait %v", err, bot.Wait(err))
		}
	}
	if n := len(s.slack.Calls("chat.postMessage")); n != 1 {
		t.Errorf("%d calls while shut, want 1", n)
	}
	s.mustPost(bot.Parcel{Key: "k2", Place: bot.Place{Door: Name, Room: production}, Post: bot.Post{Text: "elsewhere"}})
	clock.Move(30 * time.Second)
	ref := s.mustPost(p)
	s.slack.Fail("chat.update", fake.Fault{RetryAfter: 10})
	p.Ref = ref
	if _, err := s.door.Post(t.Context(), p); bot.Wait(err) != 10*time.Second {
		t.Errorf("error %v", err)
	}
	if _, err := s.door.Post(t.Context(), bot.Parcel{Key: "k3", Place: at, Post: bot.Post{Text: "two"}}); err != nil {
		t.Errorf("a shut chat.update shut chat.postMessage too: %v", err)
	}
}

// Ensure that what trying again will not mend is said to be so, and the rest is not.
func TestPermanent(t *testing.T) {
	s, _, at := posting(t)
	for _, c := range []struct {
		fault fake.Fault
		want  bool
	}{{fake.Fault{Error: "is_archived"}, true}, {fake.Fault{Error: "channel_not_found"}, true}, {fake.Fault{Error: "invalid_auth"}, false}, {fake.Fault{Error: "internal_error"}, false},
		{fake.Fault{Status: 503}, false}, {fake.Fault{CutBefore: true}, false}} {
		s.slack.Fail("chat.postMessage", c.fault)
		_, err := s.door.Post(t.Context(), bot.Parcel{Key: "k", Place: at, Post: bot.Post{Text: "x"}})
		if err == nil || bot.IsPermanent(err) != c.want {
			t.Errorf("%+v: %v, permanent %v, want %v", c.fault, err, bot.IsPermanent(err), c.want)
		}
	}
}

// Ensure that where Slack finds a message too long after all, it is split further and not lost.
func TestTooLongAfterAll(t *testing.T) {
	s, _, at := posting(t)
	_, usual := dress(bot.Post{Card: longCard(90)}, 8)
	s.slack.Fail("chat.postMessage", fake.Fault{Error: "msg_blocks_too_long"})
	s.mustPost(bot.Parcel{Key: "k", Place: at, Post: bot.Post{Card: longCard(90)}})
	got := s.ours(at)
	if len(got) <= len(usual) {
		t.Errorf("%d messages, more than %d wanted", len(got), len(usual))
	}
	n := 0
	for _, m := range got {
		n += strings.Count(fake.Words(m.Blocks), "72 t-shirts")
	}
	if n != 90 {
		t.Errorf("%d lines of 90 arrived", n)
	}
}

// Ensure that a private post finds its way: in the channel, else by the response URL, else in a direct message.
func TestPrivateWays(t *testing.T) {
	s, _, at := posting(t)
	p := bot.Parcel{Key: "k", Place: at, To: leadID, Post: bot.Post{Text: "for you"}}
	s.mustPost(p)
	if e := s.slack.Ephemerals(leadID); len(e) != 1 || e[0].ThreadTS != at.Thread {
		t.Errorf("private: %+v", e)
	}
	p.Place = bot.Place{Door: Name}
	s.mustPost(p)
	dm := s.slack.DM(leadID)
	if dm == "" || len(s.slack.Thread(dm, "")) != 1 {
		t.Errorf("no direct message")
	}
	p.Place.Room = elsewhere
	s.mustPost(p)
	if n := len(s.slack.Thread(dm, "")); n != 2 {
		t.Errorf("%d direct messages, want 2", n)
	}
	p.Reply = back{user: leadID, url: s.door.urls.keep("https://evil.example/steal")}.token()
	p.Key = "k2"
	s.mustPost(p)
	for _, e := range s.slack.Ephemerals(leadID) {
		if e.ByURL {
			t.Errorf("sent to a URL that is not Slack's")
		}
	}
	if _, err := s.door.Post(t.Context(), bot.Parcel{Key: "k", Post: bot.Post{Text: "x"}}); err == nil || !bot.IsPermanent(err) {
		t.Errorf("a post to nowhere: %v", err)
	}
	if err := errors.Unwrap(s.door.failed("m", "", errors.New("x"))); err == nil {
		t.Error("the cause is lost")
	}
}

// Ensure that reply tokens say what they were made of, and foreign ones nothing.
func TestBack(t *testing.T) {
	for _, b := range []back{{}, {user: "U1"}, {user: "U1", view: "V1"}, {user: "U1", home: true}, {user: "U1", url: "ab-1"}, {user: "U1", view: "V1", home: true, url: "x"}} {
		if got := backFrom(b.token()); got != b {
			t.Errorf("%+v came back as %+v", b, got)
		}
	}
	for _, s := range []string{"", "x", "a/b", "a/b/c/d/e"} {
		if got := backFrom(s); got != (back{}) {
			t.Errorf("%q is %+v", s, got)
		}
	}
}
