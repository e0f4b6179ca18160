package rules

import "strikeoff/rules/source"

var askedMethod = &rule{
	id: "asked-method", basis: source.CommonPractice,
	about: "What the customer asks for is honoured where it works, and refused with the reason and the nearest thing where it does not.",
	judge: func(b *bench) {
		for _, c := range b.rec.Chosen {
			if c.Line == b.at[0] && c.Print == b.at[1] && c.Method != "" {
				b.chosen(c.Method, true, c.After)
				return
			}
		}
		switch m := b.print.Method; m {
		case "":
		case Screen:
			best := Choice{Verdict: No}
			for _, s := range []Method{Plastisol, WaterBased, Discharge} {
				if c := b.choice(s); c.Verdict != No && b.dropped[s].why == "" && (best.Verdict == No || c.Score-3*float64(rank(c.Verdict)) > best.Score-3*float64(rank(best.Verdict))) {
					best = *c
				}
			}
			if best.Method != "" {
				b.move(best.Method, 0, "Screen print was asked for; this is the screen ink that suits best.")
				b.pick = best.Method
			} else {
				b.refused = Screen
			}
		default:
			b.chosen(m, false, 0)
		}
	},
	after: func(b *bench) {
		if b.refused != "" {
			b.sayRefused()
		} else if b.pick != "" && b.pick == b.print.Method {
			b.sayDifference()
		}
	},
}

// chosen takes a method that the customer, or a person of the shop, named.
func (b *bench) chosen(m Method, byPerson bool, after int) {
	known := false
	for _, k := range Methods {
		known = known || k == m
	}
	if !known {
		return
	}
	d, failed := b.dropped[m]
	if b.choice(m).Verdict == No || failed && (!byPerson || after <= d.at) {
		b.refused, b.byPerson = m, byPerson
		b.fire()
		return
	}
	text := "The customer asked for it, and it works."
	if byPerson {
		text = "Picked by a person of the shop."
		b.person, b.held = true, false
	}
	b.move(m, 0, text)
	b.weigh(m, 100)
	b.pick = m
}
