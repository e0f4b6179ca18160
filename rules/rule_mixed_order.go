package rules

import (
	"slices"
	"strings"

	"strikeoff/rules/source"
)

var mixedOrder = &rule{
	id: "mixed-order", basis: source.CommonPractice,
	about: "One artwork over several fabrics: one ink system for all where it works, else where to split and what will look different.",
	close: func(s *sheet, r *rule) {
		if len(s.order.Lines) < 2 {
			return
		}
		picks, works, cloths := map[Method]bool{}, map[Method]int{}, map[string]bool{}
		n := 0
		for _, b := range s.benches {
			if !b.cloth.known {
				continue
			}
			n++
			if b.pick != "" && !b.held {
				picks[b.pick] = true
			}
			cloths[b.cloth.word()] = true
			for i := range b.choices {
				if b.choices[i].Verdict != No {
					works[b.choices[i].Method]++
				}
			}
		}
		if len(cloths) < 2 || n < 2 {
			return
		}
		names := make([]string, 0, len(cloths))
		for c := range cloths {
			names = append(names, c)
		}
		slices.Sort(names)
		s.fired[r.at] = true
		if len(picks) == 1 {
			m := Method("")
			for p := range picks {
				m = p
			}
			s.caution(r, "mixed-fabrics", Info, "Several fabrics: "+m.Plain()+" serves all of them, so colours stay close, but not in one set-up: split the run by fabric. "+s.setups()+".")
			return
		}
		common := ""
		for _, m := range []Method{Plastisol, HeatTransfer, DTF, WaterBased, Sublimation, DTG, Discharge} {
			if works[m] == n {
				common = m.Plain()
				break
			}
		}
		text := "Several fabrics (" + and(names) + ") with different methods: split the run, and expect the same art to differ in brightness and feel from one to the other."
		if common != "" {
			text += " If it must match, " + common + " can do all of them."
		} else {
			text += " No one method does all of them."
		}
		s.caution(r, "mixed-fabrics", Care, text)
	},
}

// setups says what every fabric of the order is set up with, a fabric once.
func (s *sheet) setups() string {
	var out []string
	for _, b := range s.benches {
		if b.pick == "" || b.held {
			continue
		}
		c := b.choice(b.pick)
		parts := []string{c.Setup.Base.Plain()}
		for _, a := range c.Setup.Additives {
			parts = append(parts, a.Plain())
		}
		if h := c.Setup.Heat; h != nil {
			parts = append(parts, degrees(h.TempC[0], h.TempC[1]))
		}
		if line := upper(b.cloth.word()) + ": " + strings.Join(parts, ", "); !slices.Contains(out, line) {
			out = append(out, line)
		}
	}
	slices.Sort(out)
	return strings.Join(out, ". ")
}
