package console

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/ledger/boltledger"
)

// Ensure the console passes the contract that every door passes.
func TestContract(t *testing.T) {
	bottest.Run(t, func(t *testing.T) bot.Ledger {
		l, err := boltledger.Open(filepath.Join(t.TempDir(), "jobs.db"), boltledger.Options{NoSyncForTests: true})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := l.Close(); err != nil {
				t.Error(err)
			}
		})
		return l
	}, openStage)
}

// stage is a console that nobody sits at: what is said is handed to its session, and what it shows is kept apart by thread and person.
type stage struct {
	t       *testing.T
	session *Session
	out     bytes.Buffer
	threads map[string][]string
	alone   map[string][]string
}

func openStage(t *testing.T, d *bot.Desk) bottest.Stage {
	s := &stage{t: t, threads: map[string][]string{}, alone: map[string][]string{}}
	screen := &Screen{Out: &s.out, Width: 100}
	s.session = &Session{Desk: d, Screen: screen, Name: "test", Now: d.Now}
	screen.Saw = s.session.saw
	d.Doors = map[string]bot.Poster{Door: poster(func(ctx context.Context, p bot.Parcel) (string, error) {
		s.own(s.session.who.ID)
		ref, err := screen.Post(ctx, p)
		if text := s.out.String(); text != "" && p.To != "" {
			s.alone[p.To] = append(s.alone[p.To], text)
		} else if text != "" {
			where := p.Place.Thread
			if p.Place.Room == ProductionRoom {
				where = bottest.Production
			}
			s.threads[where] = append(s.threads[where], text)
		}
		s.out.Reset()
		return ref, err
	})}
	d.Roster = map[string]bot.Leads{Door: {People: []string{LeadID}}}
	d.Production = map[string]bot.Place{Door: {Door: Door, Room: ProductionRoom}}
	return s
}

type poster func(context.Context, bot.Parcel) (string, error)

func (f poster) Post(ctx context.Context, p bot.Parcel) (string, error) { return f(ctx, p) }

// own takes what the console said by itself as said to whoever is speaking.
func (s *stage) own(id string) {
	if s.out.Len() > 0 {
		s.alone[id] = append(s.alone[id], s.out.String())
		s.out.Reset()
	}
}

func (s *stage) Say(who bottest.Who, thread, text string) string {
	s.as(who)
	s.session.thread = thread
	s.session.hand(s.t.Context(), text)
	s.own(s.session.who.ID)
	if thread == "" {
		return s.session.last
	}
	return thread
}

func (s *stage) Press(who bottest.Who, thread, command string) { s.Say(who, thread, command) }

func (s *stage) Seen(thread string) []string { return s.threads[thread] }

func (s *stage) Private(who bottest.Who) []string {
	s.own(s.session.who.ID)
	return s.alone[role(who)]
}

func (s *stage) as(who bottest.Who) {
	if err := s.session.Speak(role(who), string(who)); err != nil {
		s.t.Fatal(err)
	}
}

func role(who bottest.Who) string {
	if who == bottest.Lead {
		return LeadID
	}
	return RepID
}
