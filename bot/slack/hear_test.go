package slack

import (
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// Ensure that what is said in an orders channel is kept as the desk wants it, over both transports.
func TestHear(t *testing.T) {
	for _, by := range []transport{overHTTP, overSocket} {
		t.Run(string(by), func(t *testing.T) {
			clock := bottest.NewClock()
			d := bottest.NewDesk(newLedger(t), clock)
			s := open(t, d, by, nil)
			ts := s.Say(bottest.Rep, "", "72 tees & <caps>, navy")
			s.Say(bottest.Lead, ts, "make it 60")
			got := kept(t, d.Ledger, clock.Now())
			if len(got) != 2 {
				t.Fatalf("%d messages were kept, want 2: %+v\n%s", len(got), got, s.logs.text())
			}
			m := got[0]
			if m.Key != "slack:T0TEST:C0ORDERS:"+ts || m.Anchor != ts || m.Place != (bot.Place{Door: "slack", Room: orders}) || m.Text != "72 tees & <caps>, navy" ||
				m.By.ID != repID || m.By.Name != "Rea Ito" || m.Called {
				t.Errorf("kept %+v", m)
			}
			if r := got[1]; r.Place.Thread != ts || r.Anchor != ts || len(r.By.Groups) != 1 || r.By.Groups[0] != leads {
				t.Errorf("kept %+v", r)
			}
		})
	}
}
