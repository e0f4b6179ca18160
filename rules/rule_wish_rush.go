package rules

import "strikeoff/rules/source"

var rushWish = &rule{
	id: "rush", basis: source.CommonPractice,
	about: "In a hurry, what needs no trial and no screens gains.",
	judge: func(b *bench) {
		if !b.wish(Rush) {
			return
		}
		b.move(Discharge, -8, "Trials take time that a rush does not have.")
		b.move(DTF, 3, "No screens to make.")
		b.move(DTG, 3, "No screens to make.")
	},
	after: func(b *bench) {
		if b.wish(Rush) && b.pick != "" && b.choice(b.pick).Verdict != Yes {
			b.caution("rush", Care, "A rush, but this print needs a test print with a wash test first. Say so to the customer now: the waits cannot be cut safely.")
		}
	},
}
