package bot_test

import (
	"fmt"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/intake"
	"strikeoff/rules"
)

// BenchmarkOrder is one request from its keeping to the saved job and its posts, read and decided for real, on a ledger file that is not
// flushed.
func BenchmarkOrder(b *testing.B) {
	d := bottest.NewDesk(openBolt(b), bottest.NewClock())
	d.Read, d.Amend, d.Decide = intake.Read, intake.Amend, rules.Decide
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		at := fmt.Sprintf("r%d", n)
		in := bot.Inbound{Key: "paper:" + at, Anchor: at, Place: bot.Place{Door: bottest.Door, Room: "orders"}, By: rep,
			Text: "72 tri-blend tees in navy, white front print 11x12 and left chest, for Larkspur Rowing, by Dec 18"}
		if _, err := d.Keep(b.Context(), in); err != nil {
			b.Fatal(err)
		}
		if n%32 == 0 {
			if _, err := d.Work(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	}
	if jobs, err := d.Jobs(b.Context(), nil, 0, 1); err != nil || len(jobs) != 1 {
		b.Fatalf("%d jobs, %v", len(jobs), err)
	}
}
