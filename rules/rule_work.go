package rules

import (
	"math"

	"strikeoff/rules/source"
)

var workItTakes = &rule{
	id: "work-it-takes", basis: source.Invented,
	about: "Set-up and time per piece decide by quantity: screens cost set-up, digital print costs time on each.",
	judge: func(b *bench) {
		n := b.pieces
		if n <= 0 {
			n = 48
		}
		var mins [7]float64
		best := math.Inf(1)
		for i := range b.choices {
			e := b.effort(b.choices[i].Method)
			mins[i] = e.SetupMinutes + e.SecondsEach*float64(n)/60
			if b.choices[i].Verdict != No {
				best = min(best, mins[i])
			}
		}
		weight := 6.0
		if b.wish(LowCost) {
			weight = 9
		}
		for i := range b.choices {
			c := &b.choices[i]
			e := b.effort(c.Method)
			c.Effort = &e
			if c.Verdict == No {
				continue
			}
			if d := weight * math.Log2(mins[i]/best); d >= 0.05 {
				b.move(c.Method, -d, "About "+hours(mins[i])+" of work for "+itoa(n)+" pieces; the quickest here takes "+hours(best)+".")
			}
		}
		b.crossings()
	},
}
