package rules

import (
	"cmp"
	"slices"
	"strings"
)

// Decide answers an order: what to print with, why, and what to test first. It is a pure function of its arguments and safe for
// concurrent use. It never panics: an order it cannot answer gets questions.
func Decide(o Order, shop Shop, rec Record) Plan {
	s := work(&o, &shop, &rec)
	return s.plan()
}

// work runs the policy over an order.
func work(o *Order, shop *Shop, rec *Record) *sheet {
	s := &sheet{order: o, shop: shop, rec: rec, fired: make([]bool, len(policy)), checks: map[string]Check{}, seen: map[string]bool{}}
	for li := range o.Lines {
		for pi := range o.Lines[li].Prints {
			b := newBench(s, li, pi)
			b.judge()
			s.benches = append(s.benches, b)
		}
	}
	for _, r := range policy {
		if r.after != nil {
			for _, b := range s.benches {
				b.now = r
				r.after(b)
			}
		}
		if r.close != nil {
			r.close(s, r)
		}
	}
	return s
}

// judge weighs the seven methods for one print and picks.
func (b *bench) judge() {
	b.assess()
	for _, r := range policy {
		if r.judge != nil {
			b.now = r
			r.judge(b)
		}
	}
	b.settle()
	if !b.sheet.draft && b.pick != "" && !b.held && !b.person {
		b.whatIf()
	}
}

// settle closes the scores, ranks the choices and takes the pick.
func (b *bench) settle() {
	for i := range b.choices {
		c := &b.choices[i]
		switch c.Verdict {
		case Test:
			c.Score -= 3
		case Expert:
			c.Score -= 18
		case No:
			c.Score, c.Setup, c.Effort = min(c.Score, 0), Setup{Base: NoBase}, nil
		}
		c.Score = min(100, max(0, c.Score))
		if c.Verdict != No {
			c.Score = max(c.Score, 1)
		}
		c.Score = float64(int(c.Score*10+0.5)) / 10
		c.Expect.Vividness = b.vividness(c.Method)
		slices.Sort(c.Setup.Additives)
	}
	slices.SortStableFunc(b.choices[:], func(x, y Choice) int {
		if c := cmp.Compare(rank(x.Verdict)/3, rank(y.Verdict)/3); c != 0 {
			return c // what does not work stands last
		}
		return cmp.Compare(y.Score, x.Score)
	})
	if b.pick == "" && b.choices[0].Verdict != No {
		b.pick = b.choices[0].Method
	}
	if b.held || b.pick == "" || b.choice(b.pick).Verdict == No {
		b.pick = ""
	}
	b.orderReasons()
	b.weighMigration()
}

// orderReasons puts what weighs most first: what ruled a method out, what limited it, then for the pick what speaks for it and for the
// others what speaks against.
func (b *bench) orderReasons() {
	for i := range b.choices {
		c := &b.choices[i]
		heft := b.heft[slot(c.Method)]
		for k := range c.Why {
			points := c.Why[k].Points
			if c.Why[k].Rule == usualChoice.id {
				points /= 2 // what a method is like in general tells less than what it does here
			}
			switch {
			case c.Method == b.pick:
				heft[k] += points
			default:
				heft[k] -= points
			}
		}
		// A short list, kept in the policy's order where weights are even.
		for x := 1; x < len(c.Why); x++ {
			for y := x; y > 0 && heft[y] > heft[y-1]; y-- {
				heft[y], heft[y-1] = heft[y-1], heft[y]
				c.Why[y], c.Why[y-1] = c.Why[y-1], c.Why[y]
			}
		}
	}
}

// plan writes out the sheet.
func (s *sheet) plan() Plan {
	p := Plan{Lines: make(List[LinePlan], len(s.order.Lines)), Migration: make(List[Migration], len(s.order.Lines))}
	for i := range s.order.Lines {
		p.Lines[i].Prints = make(List[PrintPlan], len(s.order.Lines[i].Prints))
		p.Migration[i] = Migration{Risk: RiskUnknown, After: RiskUnknown}
		if len(s.order.Lines[i].Prints) == 0 {
			p.Migration[i] = bareBench(s, i).riskNow()
		}
	}
	for _, b := range s.benches {
		pick := b.pick
		if b.held {
			pick = ""
		}
		p.Lines[b.at[0]].Prints[b.at[1]] = PrintPlan{Pick: pick, Choices: b.choices[:]}
		p.Migration[b.at[0]] = worseOf(p.Migration[b.at[0]], b.riskNow())
	}
	p.TestPrint = s.testPrint()
	p.WashTest = p.TestPrint
	slices.SortStableFunc(s.cautions, func(x, y placed[Caution]) int {
		if c := cmp.Compare(weight(y.it.Severity), weight(x.it.Severity)); c != 0 {
			return c
		}
		if c := cmp.Compare(x.rank, y.rank); c != 0 {
			return c
		}
		return strings.Compare(x.it.Text, y.it.Text)
	})
	for _, c := range s.cautions {
		p.Cautions = append(p.Cautions, c.it)
	}
	slices.SortStableFunc(s.questions, func(x, y weighed[Question]) int {
		if c := cmp.Compare(y.weight, x.weight); c != 0 {
			return c
		}
		return strings.Compare(x.it.Text, y.it.Text)
	})
	for _, q := range s.questions {
		p.Questions = append(p.Questions, q.it)
	}
	slices.SortFunc(s.assumptions, func(x, y Assumption) int {
		return cmp.Or(strings.Compare(x.Field, y.Field), strings.Compare(x.Text, y.Text))
	})
	p.Assumptions = s.assumptions
	p.Checklist = s.checklist()
	p.Inspection, p.Schedule = s.inspections, s.dates
	p.Summary = s.summary(p)
	return p
}

func weight(s Severity) int {
	switch s {
	case Stop:
		return 2
	case Care:
		return 1
	}
	return 0
}
