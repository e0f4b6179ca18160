package discord

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// inThread is a parcel for the thread of a request.
func inThread(m *fakeMessage, p bot.Post) bot.Parcel {
	return bot.Parcel{Key: "k/" + p.Text, Place: bot.Place{Door: Door, Room: m.Channel, Thread: m.ID}, Post: p}
}

// long is a text of so many characters that takes pages.
func long(n int) string { return strings.TrimSpace(strings.Repeat("print it twice ", n/15+1)) }

// Ensure a post is changed in place, grows and shrinks by pages, and is made anew where somebody deleted it.
func TestBringUpToDate(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	p := inThread(m, bot.Post{Text: "first"})
	ref, err := chat.Post(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text  string
		pages int
	}{{"second", 1}, {long(5000), 2}, {long(9000), 3}, {"short again", 1}} {
		p.Ref, p.Post.Text, p.Key = ref, c.text, "k/"+c.text[:5]
		if ref, err = chat.Post(t.Context(), p); err != nil {
			t.Fatal(err)
		}
		posts := f.posts(m.ID)
		var all []string
		for _, x := range posts {
			all = append(all, rendered(x))
		}
		if got := strings.Join(all, " "); len(posts) != c.pages || strings.Join(strings.Fields(got), " ") != c.text {
			t.Errorf("%d pages with %d characters, want %d with %d", len(posts), len(got), c.pages, len(c.text))
		}
	}
	f.mu.Lock()
	f.channels[m.ID].messages = nil
	f.mu.Unlock()
	p.Ref, p.Post.Text, p.Key = ref, "once more", "k/other"
	fresh, err := chat.Post(t.Context(), p)
	if err != nil || fresh == ref || len(f.posts(m.ID)) != 1 {
		t.Errorf("a deleted post became %s, %v with %d posts; want another and 1", fresh, err, len(f.posts(m.ID)))
	}
}

// Ensure a post in a thread that fell asleep is changed after the thread is woken.
func TestSleepingThread(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	p := inThread(m, bot.Post{Text: "first"})
	var err error
	if p.Ref, err = chat.Post(t.Context(), p); err != nil {
		t.Fatal(err)
	}
	f.mu.Lock()
	f.channels[m.ID].archived = true
	f.mu.Unlock()
	p.Post.Text = "second"
	if _, err := chat.Post(t.Context(), p); err != nil || rendered(f.posts(m.ID)[0]) != "second" {
		t.Errorf("the post says %q, %v; want the second text", rendered(f.posts(m.ID)[0]), err)
	}
}

// Ensure the answer finds its place wherever a thread cannot be started, and threads that are there are used.
func TestWhereAnswersGo(t *testing.T) {
	t.Run("a thread that another copy started", func(t *testing.T) {
		f, _, chat, _, _ := stand(t, same)
		m := f.say(fakeRep, fakeOrders, "a request")
		f.channels[m.ID] = &fakeChannel{ID: m.ID, Type: kindPublicThread, Guild: fakeGuild, Parent: fakeOrders, Owner: fakeBot}
		if _, err := chat.Post(t.Context(), inThread(m, bot.Post{Text: "x"})); err != nil || len(f.posts(m.ID)) != 1 {
			t.Errorf("%d posts in the thread, %v", len(f.posts(m.ID)), err)
		}
	})
	t.Run("a thread that stands on no message", func(t *testing.T) {
		f, _, chat, _, _ := stand(t, same)
		f.channels["7777"] = &fakeChannel{ID: "7777", Type: kindPublicThread, Guild: fakeGuild, Parent: fakeOrders, Owner: fakeRep}
		if _, err := chat.Post(t.Context(), inThread(&fakeMessage{ID: "7777", Channel: fakeOrders}, bot.Post{Text: "x"})); err != nil || len(f.posts("7777")) != 1 {
			t.Errorf("%d posts in the thread, %v", len(f.posts("7777")), err)
		}
	})
	t.Run("no permission to start one", func(t *testing.T) {
		f, _, chat, _, _ := stand(t, same)
		m := f.say(fakeRep, fakeOrders, "a request")
		f.fault = func(r *http.Request) *fakeAnswer {
			if strings.HasSuffix(r.URL.Path, "/threads") {
				return &fakeAnswer{status: 403, body: `{"code":50013,"message":"Missing Permissions"}`}
			}
			return nil
		}
		if _, err := chat.Post(t.Context(), inThread(m, bot.Post{Text: "x"})); err != nil {
			t.Fatal(err)
		}
		if p := f.posts(fakeOrders); len(p) != 1 || p[0].Reference["message_id"] != m.ID {
			t.Errorf("posts in the room: %+v, want one that answers the request", p)
		}
	})
	t.Run("the thread was deleted with its request", func(t *testing.T) {
		f, _, chat, _, _ := stand(t, same)
		m := f.say(fakeRep, fakeOrders, "a request")
		if _, err := chat.Post(t.Context(), inThread(m, bot.Post{Text: "x"})); err != nil {
			t.Fatal(err)
		}
		f.mu.Lock()
		delete(f.channels, m.ID)
		f.cut(fakeOrders, m.ID)
		f.mu.Unlock()
		if _, err := chat.Post(t.Context(), inThread(m, bot.Post{Text: "y"})); err != nil || len(f.posts(fakeOrders)) != 1 {
			t.Errorf("%d posts in the room, %v; want 1", len(f.posts(fakeOrders)), err)
		}
	})
}

// Ensure a whole conversation is possible in a direct message, where there are no threads: answers quote what they answer, and a reply to
// one of them belongs to its job.
func TestDirectMessage(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	f.start(t, chat)
	m := f.say(fakeRep, fakeDM, "48 tees, navy, white front print, for Marsh Lane Choir", func(m *fakeMessage) { m.Member = nil })
	f.await("the request", func() bool { return len(w.all()) == 1 })
	bottest.Settle(t, d)
	posts := f.posts(fakeDM)
	if len(posts) != 1 || posts[0].Reference["message_id"] != m.ID {
		t.Fatalf("%d posts, want one that answers the request", len(posts))
	}
	f.say(fakeRep, fakeDM, "they are cotton", func(r *fakeMessage) {
		r.Type, r.Member, r.Referenced = typeReply, nil, posts[0]
		r.Reference = map[string]any{"message_id": posts[0].ID, "channel_id": fakeDM}
	})
	f.await("the reply", func() bool { return len(w.all()) == 2 })
	bottest.Settle(t, d)
	if got := rendered(f.posts(fakeDM)[0]); !strings.Contains(got, "no test print is needed") {
		t.Errorf("the card was not brought up to date:\n%s", got)
	}
}

// Ensure an answer for one person comes as a follow-up while that can be, and as an ordinary post after fifteen minutes.
func TestAnswerInTime(t *testing.T) {
	f, _, chat, _, clock := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	for _, c := range []struct {
		name  string
		after time.Duration
		alone bool
	}{{"at once", 0, true}, {"after fourteen minutes", 14 * time.Minute, true}, {"after sixteen minutes", 16 * time.Minute, false}} {
		t.Run(c.name, func(t *testing.T) {
			in, body := f.interact(fakeRep, m.ID, interCommand, map[string]any{"name": "jobs", "type": 1}, nil)
			f.overHTTP(chat.Interactions())(in, body)
			clock.Move(c.after)
			p := inThread(m, bot.Post{Text: c.name})
			p.To, p.Reply = fakeRep, reply{Waits: true, App: fakeApp, ID: in.id, Token: in.token}.String()
			before := len(f.posts(m.ID))
			if _, err := chat.Post(t.Context(), p); err != nil {
				t.Fatal(err)
			}
			seen, all := f.private(fakeRep), len(f.posts(m.ID))-before
			if alone := len(seen) > 0 && seen[len(seen)-1] == c.name; alone != c.alone || (all == 1) == c.alone {
				t.Errorf("shown alone: %v, to all: %d; want alone %v", alone, all, c.alone)
			}
		})
	}
}

// Ensure an answer that overtakes the acknowledgement of its command still reaches its one reader alone.
func TestOvertaking(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	in, body := f.interact(fakeRep, fakeOrders, interCommand, map[string]any{"name": "jobs", "type": 1}, nil)
	late := f.overHTTP(chat.Interactions())
	n := 0
	chat.rest.wait = func(ctx context.Context, d time.Duration) error {
		if n++; n == 3 {
			late(in, body)
		}
		return ctx.Err()
	}
	p := inThread(m, bot.Post{Text: "the list"})
	p.To, p.Reply = fakeRep, reply{Waits: true, App: fakeApp, ID: in.id, Token: in.token}.String()
	if _, err := chat.Post(t.Context(), p); err != nil {
		t.Fatal(err)
	}
	if got := f.private(fakeRep); len(got) != 1 || got[0] != "the list" || len(f.posts(m.ID)) != 0 {
		t.Errorf("shown alone %q, to all %d", got, len(f.posts(m.ID)))
	}
}

// Ensure "thinking" becomes the first answer, a second one follows it, and an answer for all ends it with where to look.
func TestThinking(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	ask := func() (bot.Parcel, *fakeInteraction) {
		in, body := f.interact(fakeRep, fakeOrders, interCommand, map[string]any{"name": "jobs", "type": 1}, nil)
		f.overHTTP(chat.Interactions())(in, body)
		if in.original == nil || in.original.Flags&flagLoading == 0 {
			t.Fatal("the command does not show that the bot thinks")
		}
		p := inThread(m, bot.Post{Text: "one"})
		p.To, p.Reply = fakeRep, reply{Waits: true, App: fakeApp, ID: in.id, Token: in.token}.String()
		return p, in
	}
	p, in := ask()
	for i, text := range []string{"one", "two"} {
		p.Post.Text = text
		if _, err := chat.Post(t.Context(), p); err != nil {
			t.Fatal(err)
		}
		if got := f.private(fakeRep); len(got) != i+1 || got[i] != text || rendered(in.original) != "one" {
			t.Errorf("shown %q, the first answer is %q", got, rendered(in.original))
		}
	}
	p, in = ask()
	p.To = ""
	if _, err := chat.Post(t.Context(), p); err != nil || !strings.Contains(in.original.Content, "<#"+m.ID+">") {
		t.Errorf("thinking ended with %q, %v; want where to look", in.original.Content, err)
	}
	p, in = ask()
	r, _ := parseReply(p.Reply)
	chat.stopThinking(r)
	if in.original.Flags&flagLoading != 0 || !strings.HasPrefix(in.original.Content, "Kept.") {
		t.Errorf("thinking goes on: %q", in.original.Content)
	}
}

// Ensure a button whose command is too long for Discord still does it, in another copy of the program too.
func TestLongButton(t *testing.T) {
	f, d, chat, w, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	command := "amend 1 " + strings.Repeat("they are cotton and ", 10) + "navy"
	p := inThread(m, bot.Post{Text: "x", Quick: []bot.Action{{Label: "All of it", Command: command}, {Label: "With a reason", Command: command + " too", Needs: "reason"}}})
	if _, err := chat.Post(t.Context(), p); err != nil {
		t.Fatal(err)
	}
	other := f.door(t, d, same)
	w.on(other)
	cs := f.posts(m.ID)[0].Components[0].Components
	for _, c := range cs {
		if !strings.HasPrefix(c.Custom, refPrefix) {
			t.Fatalf("the button carries %q, want a reference", c.Custom)
		}
	}
	send := f.overHTTP(other.Interactions())
	in, body := f.interact(fakeRep, m.ID, interComponent, map[string]any{"custom_id": cs[0].Custom, "component_type": 2}, f.posts(m.ID)[0])
	send(in, body)
	in, body = f.interact(fakeRep, m.ID, interComponent, map[string]any{"custom_id": cs[1].Custom, "component_type": 2}, f.posts(m.ID)[0])
	f.form(send, fakeRep, m.ID, "because", f.posts(m.ID)[0], send(in, body))
	kept, err := d.Ledger.Take(t.Context(), f.now(), time.Minute, 10)
	if err != nil || len(kept) != 2 || kept[0].Text != command || kept[1].Text != command+" too because" {
		t.Errorf("kept %+v, %v; want the whole command twice", kept, err)
	}
}

// Ensure what a person typed into a form comes back to them where the ledger is down.
func TestFormWhileDown(t *testing.T) {
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	out := &bottest.Outage{Ledger: newLedger(t)}
	chat := f.door(t, bottest.NewDesk(out, clock), same)
	out.Down.Store(true)
	in, body := f.interact(fakeLead, fakeOrders, interModal, map[string]any{"custom_id": "in note:fail 1 wash", "components": []any{
		map[string]any{"type": 18, "component": map[string]any{"type": 4, "custom_id": formField, "value": "pink cast, dE 2.1"}}}}, nil)
	f.overHTTP(chat.Interactions())(in, body)
	got := f.private(fakeLead)
	if len(got) != 1 || !strings.Contains(got[0], "Nothing was kept") || !strings.Contains(got[0], "pink cast, dE 2.1") {
		t.Errorf("told %q, want that nothing was kept, and the words", got)
	}
}
