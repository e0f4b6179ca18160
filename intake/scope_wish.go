package intake

import (
	"slices"

	"strikeoff/rules"
)

// wideAfter reports whether "both", "each" or "all" follows at item i.
func (s *scope) wideAfter(st sentence, i int) bool {
	for k := i; k < st.i1 && k < i+4; k++ {
		it := s.r.at(k)
		if it.kind == iPunct {
			return false
		}
		if it.is(cBoth) || it.is(cEach) && (it.ntok > 1 || s.r.at(k-1).word == wFor || s.r.at(k-1).word == wIn) || it.is(cAll) {
			return true
		}
	}
	return false
}

// byThen takes the day named before it in the sentence as due: "they open saturday so we need it by then".
func (s *scope) byThen(st sentence, i int) {
	for k := st.f1 - 1; k >= st.f0; k-- {
		if x := &s.r.facts[k]; x.kind == fDate && int(x.i1) <= i && !x.dead && !x.neg {
			s.due, s.dueSet, s.tier = x.date, true, 4
			return
		}
	}
}

// wish takes in a quality asked for, or takes it back.
func (s *scope) wish(x *fact) {
	w := rules.Wish(x.s)
	if x.neg {
		s.wishes = slices.DeleteFunc(s.wishes, func(o rules.Wish) bool { return o == w })
		return
	}
	if !slices.Contains(s.wishes, w) {
		s.wishes = append(s.wishes, w)
	}
}

// use takes in what the garments are for. "-children" says that those called kids are older.
func (s *scope) use(x *fact) {
	if x.s == "" || x.neg {
		return
	}
	if x.s[0] == '-' {
		s.noUse = append(s.noUse, x.s[1:])
		return
	}
	if u := rules.Use(x.s); !slices.Contains(s.uses, u) {
		s.uses = append(s.uses, u)
	}
}
