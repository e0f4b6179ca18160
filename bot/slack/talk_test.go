package slack

import (
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// talk is a stage with the toy shop at work, on a clock that stands until it is moved.
type talk struct {
	*stage
	clock *bottest.Clock
}

// talking runs a conversation over both transports.
func talking(t *testing.T, f func(*talk)) {
	for _, by := range []transport{overHTTP, overSocket} {
		t.Run(string(by), func(t *testing.T) {
			clock := bottest.NewClock()
			f(&talk{open(t, bottest.NewDesk(newLedger(t), clock), by, nil), clock})
		})
	}
}

// rest lets what follows a delivery happen.
func (k *talk) rest(d *fake.Delivery) {
	k.t.Helper()
	if !k.settle(d) {
		k.t.Fatalf("not acknowledged\nlog:\n%s", k.logs.text())
	}
	bottest.Settle(k.t, k.desk)
}

// card is the thread's message with buttons on it.
func (k *talk) card(thread string) fake.Message {
	k.t.Helper()
	for _, m := range k.slack.Thread(orders, thread) {
		if m.BotID == fake.BotID && slices.ContainsFunc(fake.Buttons(m.Blocks), func(b string) bool { return b == "Close" || b == "Reopen" }) {
			return m
		}
	}
	k.t.Fatalf("there is no card in the thread; it says %q", k.Seen(thread))
	return fake.Message{}
}

// tap presses the button with that label on the thread's card.
func (k *talk) tap(user, thread, label string) {
	k.t.Helper()
	d, err := k.slack.Press(user, orders, k.card(thread).TS, label)
	if err != nil {
		k.t.Fatal(err)
	}
	k.rest(d)
}

// write presses a button that opens a form, fills the form in, and sends it.
func (k *talk) write(user, thread, label, words string) {
	k.t.Helper()
	k.tap(user, thread, label)
	k.rest(k.slack.Submit(user, k.form(user), words))
	k.until("the form closed", func() bool { return len(k.slack.Views(user)) == 0 })
}

// form is the form that a person has open.
func (k *talk) form(user string) fake.View {
	k.t.Helper()
	vs := k.slack.Views(user)
	if len(vs) == 0 || !vs[len(vs)-1].Submit {
		k.t.Fatalf("%s has no form open: %+v", user, vs)
	}
	return vs[len(vs)-1]
}

// thread fails where no post of the thread holds the words.
func (k *talk) sees(thread string, words ...string) {
	k.t.Helper()
	seen := k.Seen(thread)
	if !slices.ContainsFunc(seen, func(s string) bool { return holdsAll(s, words) }) {
		k.t.Errorf("no post holds all of %q:\n%s", words, strings.Join(seen, "\n---\n"))
	}
}

// told fails where the person was not shown the words alone.
func (k *talk) told(who bottest.Who, words ...string) {
	k.t.Helper()
	seen := k.Private(who)
	if !slices.ContainsFunc(seen, func(s string) bool { return holdsAll(s, words) }) {
		k.t.Errorf("%s was not told all of %q:\n%s", who, words, strings.Join(seen, "\n---\n"))
	}
}

func holdsAll(s string, words []string) bool {
	s = strings.Join(strings.Fields(strings.ToLower(s)), " ")
	return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(s, strings.ToLower(w)) })
}

// Ensure that a test print can be taken from the print to the sign-off by buttons and forms alone, on one card that is kept up to date.
func TestTalkByButtons(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request)
		bottest.Settle(t, k.desk)
		card := k.card(at)
		k.tap(repID, at, "Test print made")
		k.told(bottest.Rep, "only a production lead")
		k.tap(leadID, at, "Test print made")
		k.write(leadID, at, "Passed, with a note", "  no cracks\nat 200 % stretch ")
		k.sees(at, "cure check. passed.", "no cracks at 200 % stretch")
		k.tap(leadID, at, "Failed: Wash test")
		f := k.form(leadID)
		if !strings.Contains(f.Title, "Failed: Wash") {
			t.Errorf("the form is headed %q", f.Title)
		}
		d := k.slack.Submit(leadID, f, "   ") // Slack lets blanks through
		k.rest(d)
		if r, _ := d.Wait(); !strings.Contains(string(r), `"errors"`) || !strings.Contains(string(r), "note is empty") {
			t.Errorf("a form without words was answered %s", r)
		}
		k.slack.CloseView(f.ID)
		k.clock.Move(25 * time.Hour)
		bottest.Settle(t, k.desk)
		k.write(leadID, at, "Failed: Wash test", "pink cast in the white")
		k.sees(at, "refused", "pink cast in the white")
		k.sees(at, "grey blocker")
		k.tap(leadID, at, "Test print made")
		k.clock.Move(25 * time.Hour)
		bottest.Settle(t, k.desk)
		k.tap(leadID, at, "Passed: Cure check")
		k.tap(leadID, at, "Passed: Wash test")
		k.tap(leadID, at, "Sign off")
		k.sees(at, "signed off", "Lin Ode")
		if now := k.card(at); now.TS != card.TS || now.Updates < 5 {
			t.Errorf("the card was made anew: %s then %s, %d updates", card.TS, now.TS, now.Updates)
		}
		roots := 0
		for _, m := range k.slack.Thread(orders, "") {
			if m.BotID == fake.BotID {
				roots++
			}
		}
		if roots > 0 {
			t.Errorf("%d posts stand outside the thread", roots)
		}
	})
}

// Ensure that a late press says what has happened since.
func TestLatePress(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", "48 tees, cotton, navy, white front print, for Marsh Lane Choir")
		bottest.Settle(t, k.desk)
		old := k.card(at)
		k.tap(leadID, at, "Clear for the run")
		b := fake.FindButton(old.Blocks, "Clear for the run")
		k.rest(k.slack.PressCommand(leadID, orders, at, b["action_id"].(string), b["value"].(string)))
		k.told(bottest.Lead, "job 1 was signed off already", "Lin Ode")
	})
}

// Ensure that another method, a refusal with its reason, an amendment and a closing can be told by buttons.
func TestTalkPickRefuseAmendClose(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request)
		bottest.Settle(t, k.desk)
		pick := ""
		for _, b := range fake.Buttons(k.card(at).Blocks) {
			if strings.HasPrefix(b, "Use ") {
				pick = b
			}
		}
		if pick == "" {
			t.Fatalf("no other method can be picked: %q", fake.Buttons(k.card(at).Blocks))
		}
		k.tap(repID, at, pick)
		k.sees(at, "plan 2")
		k.write(repID, at, "Amend", "make it 60, in black")
		k.sees(at, "60 instead of 72", "black instead of navy")
		k.tap(leadID, at, "Test print made")
		k.write(leadID, at, "Refuse", "art is off by 4 mm")
		k.sees(at, "refused", "art is off by 4 mm")
		k.write(repID, at, "Close", "customer went elsewhere")
		k.sees(at, "closed", "customer went elsewhere")
	})
}

// Ensure that reasons and alternatives are one tap away, in a modal that first says to wait.
func TestWhyInModal(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request)
		bottest.Settle(t, k.desk)
		d, err := k.slack.Press(repID, orders, k.card(at).TS, "Why")
		if err != nil {
			t.Fatal(err)
		}
		k.settle(d)
		vs := k.slack.Views(repID)
		if len(vs) != 1 || !strings.Contains(fake.Words(vs[0].Blocks), "One moment") {
			t.Fatalf("views: %+v", vs)
		}
		bottest.Settle(t, k.desk)
		vs = k.slack.Views(repID)
		if len(vs) != 1 || vs[0].Updates != 1 || !strings.Contains(fake.Words(vs[0].Blocks), "dye moves at cure heat") {
			t.Errorf("views: %+v", vs)
		}
		// Closed before the answer came: it is shown in the thread instead, to that person alone.
		k.slack.CloseView(vs[0].ID)
		d, _ = k.slack.Press(repID, orders, k.card(at).TS, "Why")
		k.settle(d)
		k.slack.CloseView(k.slack.Views(repID)[0].ID)
		bottest.Settle(t, k.desk)
		if e := k.slack.Ephemerals(repID); len(e) != 1 || e[0].ThreadTS != at || !strings.Contains(fake.Words(e[0].Blocks), "dye moves") {
			t.Errorf("private: %+v", e)
		}
	})
}

// Ensure that a trigger that is too old loses nothing: the person is told what to do, and a look answers in the thread.
func TestExpiredTrigger(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request)
		bottest.Settle(t, k.desk)
		k.slack.SlowTriggers(2900 * time.Millisecond)
		k.tap(repID, at, "Close")
		k.slack.CloseView(k.form(repID).ID)
		k.slack.SlowTriggers(3100 * time.Millisecond)
		k.tap(repID, at, "Close")
		k.told(bottest.Rep, "did not open in time", "nothing was kept", "close 1 and the reason")
		k.tap(repID, at, "Why")
		k.told(bottest.Rep, "dye moves at cure heat")
	})
}

// Ensure that a form's words are not lost when the ledger is down: the form stays, says so, and can be sent again.
func TestFormOutage(t *testing.T) {
	clock := bottest.NewClock()
	out := &bottest.Outage{Ledger: newLedger(t)}
	k := &talk{open(t, bottest.NewDesk(out, clock), overHTTP, nil), clock}
	at := k.Say(bottest.Rep, "", bottest.Request)
	bottest.Settle(t, k.desk)
	k.tap(repID, at, "Close")
	f := k.form(repID)
	out.Down.Store(true)
	d := k.slack.Submit(repID, f, "went elsewhere")
	k.settle(d)
	if r, err := d.Wait(); err != nil || !strings.Contains(string(r), "Nothing was kept") || !strings.Contains(string(r), `"words"`) {
		t.Fatalf("answered %s, %v", r, err)
	}
	out.Down.Store(false)
	for range 2 { // sent twice: once counts
		d = k.slack.Submit(repID, f, "went elsewhere")
		k.rest(d)
	}
	if r, _ := d.Wait(); len(r) != 0 {
		t.Errorf("answered %s, want nothing", r)
	}
	k.sees(at, "closed", "went elsewhere")
}

// Ensure that the Home tab lists the open jobs, and that one can be looked at from there.
func TestHome(t *testing.T) {
	talking(t, func(k *talk) {
		k.rest(k.slack.OpenHome(repID))
		if h, ok := k.slack.Home(repID); !ok || !strings.Contains(fake.Words(h.Blocks), "No such jobs") {
			t.Errorf("an empty Home: %+v", h)
		}
		k.Say(bottest.Rep, "", bottest.Request)
		k.Say(bottest.Rep, "", "48 tees, cotton, navy, white front print, for Marsh Lane Choir")
		k.rest(k.slack.OpenHome(repID))
		h, _ := k.slack.Home(repID)
		if w := fake.Words(h.Blocks); !strings.Contains(w, "Larkspur Rowing") || !strings.Contains(w, "Marsh Lane Choir") || h.Updates != 1 {
			t.Errorf("Home: %+v", h)
		}
		d, err := k.slack.PressView(repID, h, "Look")
		if err != nil {
			t.Fatal(err)
		}
		k.rest(d)
		vs := k.slack.Views(repID)
		if len(vs) != 1 || !strings.Contains(fake.Words(vs[0].Blocks), "Marsh Lane Choir") {
			t.Errorf("views: %+v", vs)
		}
		for _, b := range fake.Buttons(vs[0].Blocks) {
			if b != "Why, and what else" {
				t.Errorf("a modal has the button %q, which could not work there", b)
			}
		}
	})
}

// Ensure that where the app is not in a channel, who asks there is answered all the same, and told how to let it in.
func TestShortcutOutside(t *testing.T) {
	talking(t, func(k *talk) {
		ts, d := k.slack.Say(elsewhere, repID, "", "the usual for the choir")
		k.settle(d)
		k.rest(k.slack.Shortcut(repID, elsewhere, ts, "read_as_order"))
		k.told(bottest.Rep, "nothing was kept", "not in this channel", "/invite")
		k.rest(k.slack.Slash(repID, elsewhere, "/strikeoff", "jobs"))
		k.told(bottest.Rep, "no such jobs")
		if e := k.slack.Ephemerals(repID); !slices.ContainsFunc(e, func(e fake.Ephemeral) bool { return e.ByURL }) {
			t.Errorf("nothing came by the response URL: %+v", e)
		}
	})
}

// Ensure that no secret is ever in the logs of a conversation with faults.
func TestLogsHoldNoSecret(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request)
		k.slack.Fail("chat.postMessage", fake.Fault{CutAfter: true}, fake.Fault{Status: 500}, fake.Fault{RetryAfter: 1}, fake.Fault{Error: "invalid_auth"})
		k.slack.Fail("views.open", fake.Fault{CutBefore: true})
		for range 6 {
			bottest.Settle(t, k.desk)
			k.clock.Move(time.Minute)
		}
		k.tap(repID, at, "Close")
		k.slack.DropSockets()
		log := k.logs.text()
		if log == "" {
			t.Fatal("nothing was logged, though much went wrong")
		}
		for _, secret := range []string{botToken, appToken, signing, "/respond/", "/socket/", "ticket-", bottest.Request[:20]} {
			if strings.Contains(log, secret) {
				t.Errorf("the log holds %q:\n%s", secret, log)
			}
		}
	})
}
