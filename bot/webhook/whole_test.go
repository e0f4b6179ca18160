package webhook

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
	"strikeoff/bot/ledger/boltledger"
)

// whole is a desk with a ledger in a file, this door with one target, and the recording platform beside it.
type whole struct {
	*rig
	clock  *bottest.Clock
	desk   *bot.Desk
	ledger bot.Ledger
	paper  *bottest.Platform
	ear    *ear
}

func newWhole(t *testing.T) *whole {
	t.Helper()
	c := bottest.NewClock()
	l, err := boltledger.Open(filepath.Join(t.TempDir(), "jobs.bolt"), boltledger.Options{NoSyncForTests: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	d := bottest.NewDesk(l, c)
	w := &whole{clock: c, desk: d, ledger: l, paper: bottest.NewPlatform(t, d), ear: &ear{t: t, keys: Keys{newSecret(t)}, now: c.Now}}
	srv := httptest.NewServer(w.ear)
	t.Cleanup(srv.Close)
	s, err := NewSender(SenderConfig{Targets: []Target{{Name: "office", URL: srv.URL, Keys: w.ear.keys, Private: true}}, Now: c.Now, Ledger: l,
		Alerts: bot.Place{Door: bottest.Door, Room: "production"}})
	if err != nil {
		t.Fatal(err)
	}
	d.Doors[Door] = s
	d.Also = Announcer{Targets: []string{"office"}}.Also
	w.rig = newRig(t, func(cfg *Config) { cfg.Desk, cfg.Jobs, cfg.Now = d, l, c.Now })
	return w
}

// order hands in one order and returns its job.
func (w *whole) order(t *testing.T, id, body string) job.ID {
	t.Helper()
	w.now = w.clock.Now()
	if got := w.send(w.signed(id, "application/json", body)); got.Code != http.StatusAccepted {
		t.Fatal(got.Code, got.Body)
	}
	bottest.Settle(t, w.desk)
	n, err := w.ledger.FromMessage(context.Background(), "webhook:web-form:"+id)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// life takes a job through its test print by chat.
func (w *whole) life(t *testing.T, id job.ID) {
	t.Helper()
	for _, c := range []string{"printed %d", "pass %d cure", "pass %d wash", "sign %d"} {
		w.paper.Say(bottest.Lead, "", fmt.Sprintf(c, id))
		bottest.Settle(t, w.desk)
		w.clock.Move(25 * time.Hour)
	}
	if j, err := w.ledger.Load(context.Background(), id); err != nil || j.State != job.Cleared {
		t.Fatalf("job %d is %s, %v", id, j.State, err)
	}
}

const tested = `{"text":"72 tees in tri-blend, navy, white front print, for Larkspur Rowing"}`

func TestOrderHandedInAsDataIsNotRead(t *testing.T) {
	w := newWhole(t)
	id := w.order(t, "m1", `{"text":"10 tees, cotton","order":{"lines":[{"quantity":72,"garment":"t-shirt","fabric":"tri-blend","prints":[{"place":"back"}]}]}}`)
	j, err := w.ledger.Load(context.Background(), id)
	if err != nil || j.Order.Lines[0].Quantity.Or(0) != 72 || j.Order.Lines[0].Prints[0].Place != "back" || j.State != job.TestDue {
		t.Fatalf("%+v, %v", j.Order, err)
	}
	hist, err := w.ledger.History(context.Background(), id)
	if err != nil || !hist[0].Data || hist[0].By.ID != "source:web-form" || hist[0].By.Role != job.Rep {
		t.Errorf("opened as %+v, %v", hist[0], err)
	}
}

// TestProgramGivesNoCommands: what a program sends is an order, whatever its words say.
func TestProgramGivesNoCommands(t *testing.T) {
	w := newWhole(t)
	id := w.order(t, "m1", tested)
	w.paper.Say(bottest.Lead, "", fmt.Sprintf("printed %d", id))
	bottest.Settle(t, w.desk)
	before, _ := w.ledger.Load(context.Background(), id)
	for i, words := range []string{"sign 1", "close 1 gone", "pass 1 cure"} {
		w.order(t, fmt.Sprintf("x%d", i), fmt.Sprintf(`{"text":%q,"from":{"name":"Lin Ode (invented)"}}`, words))
	}
	if after, _ := w.ledger.Load(context.Background(), id); after.Revision != before.Revision {
		t.Errorf("a program's words changed job %d from revision %d to %d", id, before.Revision, after.Revision)
	}
}

// TestEventsComeInOrderThroughTrouble: with a target that fails two requests in three, every change arrives, and each job's in order.
func TestEventsComeInOrderThroughTrouble(t *testing.T) {
	w := newWhole(t)
	w.ear.answer = func(n int) int {
		if n%3 == 0 {
			return 200
		}
		return 503
	}
	a, b := w.order(t, "m1", tested), w.order(t, "m2", tested)
	w.life(t, a)
	w.life(t, b)
	for range 60 {
		w.clock.Move(2 * time.Hour)
		bottest.Settle(t, w.desk)
	}
	for _, id := range []job.ID{a, b} {
		hist, err := w.ledger.History(context.Background(), id)
		if err != nil {
			t.Fatal(err)
		}
		var want, got []string
		for _, e := range hist {
			want = append(want, fmt.Sprintf("job-%d-%d", id, e.Seq))
		}
		for _, ev := range w.ear.ids() {
			if strings.HasPrefix(ev, fmt.Sprintf("job-%d-", id)) && !slices.Contains(got, ev) {
				got = append(got, ev)
			}
		}
		if len(want) < 5 || !slices.Equal(got, want) {
			t.Errorf("job %d: told %v, happened %v", id, got, want)
		}
	}
}

// TestDeafTarget: a target that is down for a week loses its events to the side, the room is told, and a replay brings them back.
func TestDeafTarget(t *testing.T) {
	w := newWhole(t)
	deaf := true
	w.ear.answer = func(int) int {
		if deaf {
			return 500
		}
		return 200
	}
	id := w.order(t, "m1", tested)
	for hour := range 24 * 7 {
		w.clock.Move(time.Hour)
		bottest.Settle(t, w.desk)
		if h, err := w.ledger.Health(context.Background(), w.clock.Now()); hour == 55 && (err != nil || h.SetAside > 0) { // the schedule less a fifth is 60 hours
			t.Errorf("given up after %d hours: %+v, %v", hour, h, err)
		}
	}
	h, err := w.ledger.Health(context.Background(), w.clock.Now())
	if err != nil || h.SetAside == 0 {
		t.Fatalf("after a week nothing is set aside: %+v, %v", h, err)
	}
	if tries := w.ear.n; tries < len(schedule)+1 {
		t.Errorf("given up after %d tries, the schedule has %d", tries, len(schedule)+1)
	}
	if seen := strings.Join(w.paper.Seen(bottest.Production), "\n"); !strings.Contains(seen, "was not told of a change of job") {
		t.Errorf("production was not told: %q", seen)
	}
	deaf = false
	n, err := Replay(context.Background(), w.ledger, Announcer{Targets: []string{"office"}}, id, 1, w.clock.Now())
	if err != nil || n == 0 {
		t.Fatal(n, err)
	}
	for range 30 { // what still waited for its turn goes first
		w.clock.Move(time.Hour)
		bottest.Settle(t, w.desk)
	}
	for seq := range n {
		if ev := fmt.Sprintf("job-%d-%d", id, seq+1); !slices.Contains(w.ear.ids(), ev) {
			t.Errorf("replayed %d, heard %v", n, w.ear.ids())
		}
	}
}
