package intake

import (
	"slices"

	"strikeoff/rules"
)

// recolour is how the inks of a print that is the same as another differ from it.
type recolour struct {
	from, to string   // one ink in the place of another
	inks     []string // or these in the place of all
}

// on changes the inks of a print.
func (c recolour) on(p *rules.Print) {
	n := len(p.Inks)
	if c.from != "" {
		if k := slices.Index(p.Inks, c.from); k >= 0 {
			p.Inks[k] = c.to
		}
		return
	}
	if p.InkCount.Known && p.InkCount.Value == n {
		p.InkCount = rules.Maybe[int]{}
	}
	p.Inks = slices.Clone(c.inks)
}

// recolour changes the inks of a copy as the sentence says.
func (s *scope) recolour(p *rules.Print) {
	for _, c := range s.recol {
		c.on(p)
	}
}

var wordWhere, wordWherever = vocab.intern("where"), vocab.intern("wherever")

// recolours takes in a colour that says how a print which is the same as one before differs from it: "same print but in navy", "same print with navy
// instead of the gold", "same art, gold becomes navy", "same front, black where the white is".
func (s *scope) recolours(st sentence, f int) bool {
	r, x := s.r, &s.r.facts[f]
	if !(s.same || s.copied) || int(x.i0) <= s.sameItem || s.sameItem < st.i0 || x.neg || x.dead || !s.hasColours() {
		return false
	}
	if n := len(s.recol); n > 0 && s.recol[n-1].from == "" && s.listed(f) {
		s.recol[n-1].inks = append(s.recol[n-1].inks, x.s)
	} else if y := s.exchanged(st, f); y != nil {
		y.done = true
		s.recol = append(s.recol, recolour{from: y.s, to: x.s})
	} else if s.becomes(st, f) {
		y := &r.facts[f+1]
		y.done = true
		s.recol = append(s.recol, recolour{from: x.s, to: y.s})
	} else if s.allInks(st, f) {
		s.recol = append(s.recol, recolour{inks: []string{x.s}})
	} else {
		return false
	}
	x.m = inkFact
	s.lastCol, s.colInk = int(x.i1), true
	if s.copied {
		for _, h := range s.sp {
			s.recol[len(s.recol)-1].on(s.at(h))
		}
	}
	return true
}

// nextColour is the colour fact of the sentence that begins at item i, small words aside; nil for none.
func (s *scope) nextColour(st sentence, f, i int) *fact {
	for s.r.at(i).kind <= iPhrase && (s.r.at(i).word == wThe || s.r.at(i).word == wA || s.r.at(i).word == wordOur || s.r.at(i).is(cAll) || s.r.at(i).is(cInkWord)) && s.r.at(i).sense(sColour) == nil {
		i++
	}
	for k := f + 1; k < st.f1; k++ {
		if y := &s.r.facts[k]; y.kind == fColour && int(y.i0) == i {
			return y
		}
	}
	return nil
}

// exchanged is the ink that the colour in fact f takes the place of in what is the same otherwise.
func (s *scope) exchanged(st sentence, f int) *fact {
	i := int(s.r.facts[f].i1)
	if s.r.at(i).is(cInkWord) {
		i++
	}
	switch n := s.r.at(i); {
	case n.is(cInsteadOf) && n.kind == iPhrase, n.word == wFor && n.word != 0, n.word == wordWhere, n.word == wordWherever:
		if y := s.nextColour(st, f, i+1); y != nil && s.printsColour(y.s) {
			return y
		}
	}
	return nil
}

// becomes reports whether the ink in fact f turns into the colour of the fact after it: "gold becomes navy", "gold to navy", "swap gold for navy".
func (s *scope) becomes(st sentence, f int) bool {
	x := &s.r.facts[f]
	if f+1 >= st.f1 || s.r.facts[f+1].kind != fColour || !s.printsColour(x.s) {
		return false
	}
	for i := int(x.i1); i < int(s.r.facts[f+1].i0); i++ {
		switch it := s.r.at(i); {
		case it.is(cFix), it.is(cTo) && it.kind == iPhrase, it.word == wordInto, it.word == wFor && s.r.swapped(int(x.i0)):
			return true
		}
	}
	return false
}

// allInks reports whether the colour in fact f is said to be that of the whole print: "same print but in navy", "same art in black".
func (s *scope) allInks(st sentence, f int) bool {
	x := &s.r.facts[f]
	n := s.r.at(int(x.i1))
	if n.sense(sGarment) != nil || n.is(cOnes) || n.sense(sFabric) != nil || n.sense(sFibre) != nil {
		return false
	}
	p := s.r.at(int(x.i0) - 1)
	if p.is(cOnly) {
		p = s.r.at(int(x.i0) - 2)
	}
	return (p.word == wIn && s.r.at(int(x.i0)-2).kind != iNum || p.is(cBut) && p.kind == iPhrase) && s.sameItem >= int(x.i0)-7
}
