package discord

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// Ensure a message is handed in as its writer saw it, with who wrote it, and only where it is the desk's business.
func TestInbound(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	f.start(t, chat)
	f.channels["800"] = &fakeChannel{ID: "800", Type: kindPublicThread, Guild: fakeGuild, Parent: fakeOrders, Owner: fakeRep}
	f.channels["801"] = &fakeChannel{ID: "801", Type: kindPublicThread, Guild: fakeGuild, Parent: fakeQuiet, Owner: fakeRep}
	f.channels["802"] = &fakeChannel{ID: "802", Type: kindPublicThread, Guild: fakeGuild, Parent: fakeQuiet, Owner: fakeBot}
	botCalled := func(m *fakeMessage) {
		m.Mentions = []map[string]any{{"id": fakeBot, "username": "strikeoff"}, {"id": fakeLead, "username": "lin"}}
	}
	const at = "<@" + fakeBot + ">"
	for _, c := range []struct {
		name, room, text string
		more             func(*fakeMessage)
		want             *bot.Inbound // nil: not the desk's business
	}{
		{"in the orders room", fakeOrders, "48 tees", nil, &bot.Inbound{Text: "48 tees", Place: bot.Place{Room: fakeOrders}}},
		{"in another room", fakeQuiet, "48 tees", nil, nil},
		{"in another room, called", fakeQuiet, at + " 48 tees for <@" + fakeLead + "> <:shirt:77>", botCalled,
			&bot.Inbound{Text: "48 tees for @lin :shirt:", Place: bot.Place{Room: fakeQuiet}, Called: true}},
		{"in a thread of the orders room", "800", "make it 60", nil, &bot.Inbound{Text: "make it 60", Place: bot.Place{Room: fakeOrders, Thread: "800"}}},
		{"in a thread of another room", "801", "make it 60", nil, nil},
		{"in a thread of ours in another room", "802", "make it 60", nil, &bot.Inbound{Text: "make it 60", Place: bot.Place{Room: fakeQuiet, Thread: "802"}}},
		{"in a direct message", fakeDM, "48 tees", func(m *fakeMessage) { m.Member = nil }, &bot.Inbound{Text: "48 tees", Place: bot.Place{Room: fakeDM}, Called: true}},
		{"a notice of Discord's", fakeOrders, "pinned", func(m *fakeMessage) { m.Type = 6 }, nil},
		{"our own words", fakeOrders, "Job 1", func(m *fakeMessage) { m.Author = map[string]any{"id": fakeBot, "bot": true} }, nil},
		{"our own answer to a command", fakeOrders, "Job 1", func(m *fakeMessage) { m.Application = fakeApp }, nil},
		{"nothing at all", fakeOrders, "", nil, nil},
		{"another program's form", fakeOrders, "", func(m *fakeMessage) {
			m.Author = map[string]any{"id": "600", "username": "form", "bot": true}
			m.Embeds = []embed{{Title: "New request", Description: "48 tees", Fields: []embedField{{"Colour", "navy"}}}}
		}, &bot.Inbound{Text: "New request\n48 tees\nColour: navy", Place: bot.Place{Room: fakeOrders}, By: bot.Person{Bot: true}}},
		{"a file alone", fakeOrders, "", func(m *fakeMessage) {
			m.Attachments = []map[string]any{{"id": "55", "filename": "logo.png", "content_type": "image/png", "size": 1234, "url": "https://cdn.discordapp.com/x"}}
		}, &bot.Inbound{Place: bot.Place{Room: fakeOrders}, Files: []bot.File{{Name: "logo.png", Type: "image/png", Bytes: 1234}}}},
		{"a reply to a message with a thread", fakeOrders, "make it 60", func(m *fakeMessage) {
			m.Type, m.Referenced = typeReply, &fakeMessage{ID: "800", Channel: fakeOrders, Author: map[string]any{"id": fakeRep}, Flags: flagHasThread}
		}, &bot.Inbound{Text: "make it 60", Place: bot.Place{Room: fakeOrders, Thread: "800"}}},
		{"a reply to a message without one", fakeOrders, "48 tees", func(m *fakeMessage) {
			m.Type, m.Referenced = typeReply, &fakeMessage{ID: "299", Channel: fakeOrders, Author: map[string]any{"id": fakeRep}}
		}, &bot.Inbound{Text: "48 tees", Place: bot.Place{Room: fakeOrders}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := len(w.all())
			m := f.say(fakeRep, c.room, c.text, func(m *fakeMessage) {
				if c.more != nil {
					c.more(m)
				}
			})
			mark := f.say(fakeLead, c.room, at+" mark", botCalled) // comes after it in the same channel
			f.await("the mark", func() bool { return slices.Contains(w.all(), messageKey(c.room, mark.ID)) })
			kept := w.all()[before:]
			ins, err := d.Ledger.Take(t.Context(), f.now(), time.Hour, 10)
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range ins {
				if err := d.Ledger.Put(t.Context(), x.Key, time.Time{}); err != nil {
					t.Fatal(err)
				}
			}
			if c.want == nil {
				if len(kept) != 1 {
					t.Errorf("kept %q, want the mark alone", kept)
				}
				return
			}
			if len(ins) != 2 {
				t.Fatalf("%d kept, want 2", len(ins))
			}
			in, want := ins[0], *c.want
			if in.Key != messageKey(c.room, m.ID) {
				in = ins[1] // two anchors, two lanes
			}
			if in.Text != want.Text || in.Place != (bot.Place{Door: Door, Room: want.Place.Room, Thread: want.Place.Thread}) || in.Called != want.Called ||
				in.Anchor != anchorOf(in.Place, m.ID) || !in.Said.Equal(snowTime(m.ID)) || in.By.Bot != want.By.Bot || len(in.Files) != len(want.Files) {
				t.Errorf("kept %+v, want %+v", in, want)
			}
			for i, x := range in.Files {
				if x.Name != want.Files[i].Name || x.Type != want.Files[i].Type || x.Bytes != want.Files[i].Bytes || x.ID != fileID(c.room, m.ID, "55") {
					t.Errorf("file %+v, want %+v", x, want.Files[i])
				}
			}
			if c.room != fakeDM && !want.By.Bot && (in.By.ID != fakeRep || in.By.Name != "Rea Ito (invented)" || !slices.Equal(in.By.Groups, []string{"899"})) {
				t.Errorf("by %+v", in.By)
			}
		})
	}
}

// Ensure a request from a room that is not read can be changed and taken back like any other, and other talk there stays unread.
func TestRequestElsewhere(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	f.start(t, chat)
	talk, m := f.say(fakeRep, fakeQuiet, "lunch?"), f.say(fakeRep, fakeQuiet, bottest.Request)
	f.readAs(f.overGateway(), fakeRep, fakeQuiet, m.ID)
	bottest.Settle(t, d)
	f.edit(fakeQuiet, talk.ID, "lunch at one?")
	f.edit(fakeQuiet, m.ID, strings.Replace(bottest.Request, "72", "60", 1))
	f.await("the change", func() bool { return len(w.all()) == 2 })
	bottest.Settle(t, d)
	if j, err := d.Job(t.Context(), 1); err != nil || j.Order.Lines[0].Quantity.Or(0) != 60 {
		t.Errorf("the job is for %v, %v; want 60", j.Order.Lines[0].Quantity, err)
	}
	f.remove(fakeQuiet, talk.ID)
	f.remove(fakeQuiet, m.ID)
	f.await("the taking back", func() bool { return len(w.all()) == 3 })
	bottest.Settle(t, d)
	if j, err := d.Job(t.Context(), 1); err != nil || j.State != bot.Closed {
		t.Errorf("the job is %q, %v; want closed", j.State, err)
	}
}

// Ensure a change that nobody wrote (a link that grew a picture, a thread that grew) is no change, and taking many back at once is heard.
func TestChangesOfDiscords(t *testing.T) {
	t.Parallel()
	f, _, chat, w, _ := stand(t, same)
	f.start(t, chat)
	a, b := f.say(fakeRep, fakeOrders, order(48)), f.say(fakeRep, fakeOrders, order(49))
	f.dispatch("MESSAGE_UPDATE", a)
	f.dispatch("MESSAGE_UPDATE", map[string]any{"id": a.ID, "channel_id": fakeOrders, "embeds": []any{}})
	f.dispatch("MESSAGE_DELETE_BULK", map[string]any{"ids": []string{a.ID, b.ID}, "channel_id": fakeOrders, "guild_id": fakeGuild})
	f.await("all of it", func() bool { return len(w.all()) >= 4 })
	ka, kb := messageKey(fakeOrders, a.ID), messageKey(fakeOrders, b.ID)
	if got := w.all(); !slices.Equal(got, []string{ka, kb, ka + ":d", kb + ":d"}) {
		t.Errorf("kept %q, want two requests and two takings back", got)
	}
}

// sink keeps files, and fails the first time.
type sink struct {
	mu    sync.Mutex
	fails int
	got   map[string]string
}

func (s *sink) KeepFile(_ context.Context, in bot.Inbound, f bot.File, r io.Reader) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.fails++; s.fails == 1 {
		return errors.New("the disk is full")
	}
	b, err := io.ReadAll(r)
	s.got[f.Name] = string(b)
	return err
}

// Ensure the files of a message reach the sink, by a fresh address from Discord's own hosts and no other, and never past the limit.
func TestFiles(t *testing.T) {
	t.Parallel()
	s := &sink{got: map[string]string{}}
	f, _, chat, w, _ := stand(t, func(c *Config) { c.Files = s })
	chat.pause = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	f.start(t, chat)
	file := func(id, name, address string, size int) map[string]any {
		return map[string]any{"id": id, "filename": name, "content_type": "image/png", "size": size, "url": address}
	}
	m := f.say(fakeRep, fakeOrders, "48 tees", func(m *fakeMessage) {
		m.Attachments = []map[string]any{file("51", "logo.png", "https://cdn.discordapp.com/attachments/logo.png", 30), file("52", "huge.tif", "https://cdn.discordapp.com/huge", FileLimit+1),
			file("53", "else.png", "https://files.example.com/else.png", 30), file("54", "plain.png", "http://cdn.discordapp.com/plain.png", 30), file("55", "last.png", "https://media.discordapp.net/last.png", 30)}
	})
	f.await("the files", func() bool { s.mu.Lock(); defer s.mu.Unlock(); return s.got["last.png"] != "" })
	s.mu.Lock()
	if len(s.got) != 2 || s.got["logo.png"] != "bytes of /attachments/logo.png" {
		t.Errorf("got %q, want the two from Discord's own hosts", s.got)
	}
	s.mu.Unlock()
	var buf bytes.Buffer
	if err := chat.Fetch(t.Context(), bot.File{ID: fileID(fakeOrders, m.ID, "51")}, &buf); err != nil || buf.String() != "bytes of /attachments/logo.png" {
		t.Errorf("fetched %q, %v", buf.String(), err)
	}
	for _, bad := range []string{"", "1/2", "1/2/../3", "300/" + m.ID + "/99", "300/1/51", "a/b/c"} {
		if err := chat.Fetch(t.Context(), bot.File{ID: bad}, io.Discard); !errors.Is(err, ErrNoFile) {
			t.Errorf("file %q: %v, want %v", bad, err, ErrNoFile)
		}
	}
	if n := len(w.all()); n != 1 {
		t.Errorf("%d messages kept, want 1", n)
	}
	// A body without a declared length still ends at the limit.
	r := &limited{ReadCloser: io.NopCloser(strings.NewReader("123456")), left: 5}
	if b, err := io.ReadAll(r); string(b) != "12345" || !errors.Is(err, ErrFileLarge) {
		t.Errorf("read %q, %v; want five bytes and %v", b, err, ErrFileLarge)
	}
	r = &limited{ReadCloser: io.NopCloser(strings.NewReader("12345")), left: 5}
	if b, err := io.ReadAll(r); string(b) != "12345" || err != nil {
		t.Errorf("read %q, %v; want five bytes", b, err)
	}
}

// Ensure a picture is put up in a request's thread with the words for those who cannot see it.
func TestPutFile(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	m := f.say(fakeRep, fakeOrders, "a request")
	id, err := chat.PutFile(t.Context(), bot.Place{Door: Door, Room: fakeOrders, Thread: m.ID}, "foreseen.png", "swatches", []byte("not really a picture"))
	if err != nil || !strings.HasPrefix(id, m.ID+"/") {
		t.Fatalf("put up as %q, %v", id, err)
	}
	if p := f.posts(m.ID); len(p) != 1 || len(p[0].Attachments) != 1 || p[0].Attachments[0]["filename"] != "foreseen.png" {
		t.Errorf("posts %+v, want one with the file", p)
	}
	f.fault = func(r *http.Request) *fakeAnswer {
		return &fakeAnswer{status: 413, body: `{"code":40005,"message":"Request entity too large"}`}
	}
	if _, err := chat.PutFile(t.Context(), bot.Place{Room: fakeOrders}, "x", "", nil); err == nil {
		t.Error("a refusal was not told")
	}
}
