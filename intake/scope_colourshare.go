package intake

import (
	"slices"

	"strikeoff/rules"
)

// countAfter is the number of pieces that follows the colour in fact f at once, where it counts that colour: 0 for none.
func (s *scope) countAfter(st sentence, f int) int {
	r := s.r
	if f+1 >= st.f1 || s.amend {
		return 0
	}
	x, y := &r.facts[f], &r.facts[f+1]
	if y.kind != fNumber || y.sure != 0 || y.weak || y.dead || y.neg || r.at(int(x.i0)-1).kind == iNum && !(f-2 >= st.f0 && r.facts[f-1].kind == fNumber && r.facts[f-1].dead && r.facts[f-2].kind == fColour) {
		return 0
	}
	for i := int(x.i1); i < int(y.i0); i++ {
		if it := r.at(i); !(it.kind == iPunct && (it.ch == ':' || it.ch == '-' || it.ch == '=' || it.ch == '(' || it.ch == '|') || it.word == wX) {
			return 0
		}
	}
	n := r.at(int(y.i1))
	if m := r.at(int(y.i1) + 2); r.punct(int(x.i1), '(') && !r.punct(int(y.i1), ')') || r.at(int(y.i1)+1).kind == iNum && m.kind >= iPunct && f > st.f0 && r.facts[f-1].kind == fColour { // "green and black (20 and 20)"
		return 0
	}
	if n.kind != iPunct && n.kind != iBreak && n.kind != iPart && n.word != wAnd && n.word != wY && n.sense(sColour) == nil {
		return 0
	}
	return y.n
}

// takeShare makes the number of a line with a size run that number's share, once another colour has a run of its own: the number was the total.
func (s *scope) takeShare(l *line) {
	if n := l.Sizes.Total(); n > 0 && l.Quantity.Known && l.Quantity.Value > n && !l.split {
		l.total, l.Quantity = l.Quantity.Value, rules.Said(n)
	}
}

// halfOf splits the line spoken of where half of its pieces are in the colour of fact f: "60 tees, half black half white".
func (s *scope) halfOf(f int) bool {
	r := s.r
	x := &r.facts[f]
	i := int(x.i0) - 1
	for r.at(i).word == wIn || r.at(i).word == wOf || r.at(i).word == wThe || r.at(i).is(cOnes) || r.at(i).is(cHeather) || r.at(i).is(cPcs) && r.at(i).ntok > 1 || r.at(i).word != 0 && (vocab.names[r.at(i).word] == "are" || vocab.names[r.at(i).word] == "them") {
		i--
	}
	if len(s.lines) == 0 || s.amend && r.at(i).word != wordHalf {
		return false
	}
	if r.at(i).is(cRest) {
		return s.restOf(x)
	}
	if r.at(i).word != wordHalf && !(r.punct(i, '%') && r.at(i-1).kind == iNum && r.at(i-1).num == 50) {
		return false
	}
	k := s.newest()
	l := &s.lines[k]
	switch {
	case l.total > 0 && l.split && l.Quantity.Value*2 == l.total: // the other half
		k = s.clone(k, l.total/2)
		s.lines[k].counted = l.counted
	case s.alive() == 1 && len(l.Colours) == 1 && l.Quantity.Known && l.Quantity.Value%2 == 0 && !hasColour(l.Colours, x.s): // "make half of them white"
		n := l.Quantity.Value / 2
		l.Quantity, l.Sizes, l.split = rules.Said(n), nil, true
		k = s.clone(k, n)
		s.lines[k].counted = s.lines[k-1].counted
	case l.Quantity.Known && l.Quantity.Value%2 == 0 && len(l.Colours) == 0 && len(l.Sizes) == 0:
		l.total, l.split = l.Quantity.Value, true
		l.Quantity = rules.Said(l.total / 2)
	default:
		return false
	}
	s.lines[k].Colours = append(s.lines[k].Colours, x.s)
	s.colLine, s.lastCol, s.colInk = k, int(x.i1), false
	return true
}

// dropShare takes the share of the goods that is in the colour of a fact off the order, where they are had in others as well: "scrap the maroon".
func (s *scope) dropShare(x *fact) {
	for k := range s.lines {
		l := &s.lines[k]
		if l.drop || len(l.Colours) != 1 || l.Colours[0] != x.s {
			continue
		}
		for q := range s.lines {
			if o := &s.lines[q]; q != k && !o.drop && o.Garment == l.Garment {
				l.drop = true
				s.cur = slices.DeleteFunc(s.cur, func(c int) bool { return c == k })
				return
			}
		}
	}
}

// restOf adds a line for what the shares so far leave of a total: "50 tees, 30 of them black, the rest charcoal".
func (s *scope) restOf(x *fact) bool {
	k := s.newest()
	total, sum := 0, 0
	for q := range s.lines {
		if l := &s.lines[q]; !l.drop && l.split && l.Garment == s.lines[k].Garment {
			total, sum = max(total, l.total), sum+l.Quantity.Or(0)
		}
	}
	if total <= sum || len(s.lines[k].Colours) == 0 {
		return false
	}
	k = s.clone(k, total-sum)
	s.lines[k].Colours = append(s.lines[k].Colours, x.s)
	s.colLine, s.lastCol, s.colInk = k, int(x.i1), false
	return true
}

// shareTargets are the lines that a colour goes to: the newest, or every bare line named with it where the colour stands apart.
func (s *scope) shareTargets(st sentence, f, k int) []int {
	if s.wide || s.alone(f) && !s.clauseGarment(st, f) && s.npLine < 0 {
		out := []int{k}
		from := s.cur
		if s.wide && len(s.sl) == 0 {
			from = from[:0:0]
			for q := range s.lines {
				from = append(from, q)
			}
		}
		for _, q := range from {
			if q != k && len(s.lines[q].Colours) == 0 && !s.lines[q].drop {
				out = append(out, q)
			}
		}
		return out
	}
	return s.inOneColour(f, k)
}

// inOneColour are line k and the bare lines listed with it, where "in" and the colour of fact f stand after the last of the list: "40 dresses and 40
// tees in lilac". A line that has its colour said later is not meant.
func (s *scope) inOneColour(f, k int) []int {
	r := s.r
	x := &r.facts[f]
	out := []int{k}
	i := int(x.i0) - 1
	for r.at(i).is(cHeather) {
		i--
	}
	if s.amend || r.at(i).word != wIn || r.at(i-1).sense(sGarment) == nil || f == 0 || r.facts[f-1].kind != fGarment && r.facts[f-1].kind != fHeather {
		return out
	}
	for q := k - 1; q >= 0; q-- {
		l := &s.lines[q]
		if l.drop || l.made != s.cl || len(l.Colours) > 0 || len(l.Prints) > 0 || l.Garment == "" || !l.Quantity.Known || s.colouredLater(f, l.Garment) {
			break
		}
		out = append(out, q)
	}
	return out
}

// colouredLater reports whether a colour stands by the name of a garment after fact f.
func (s *scope) colouredLater(f int, g rules.Garment) bool {
	facts := s.r.facts
	for k := f + 1; k < len(facts); k++ {
		if x := &facts[k]; x.kind == fGarment && rules.Garment(x.s) == g {
			if p := &facts[k-1]; p.kind == fColour && k-1 > f && p.i1 == x.i0 {
				return true
			}
			if k+1 < len(facts) && facts[k+1].kind == fColour && int(facts[k+1].i0) <= int(x.i1)+2 && !s.r.at(int(facts[k+1].i1)).is(cInkWord) && !s.r.at(int(facts[k+1].i1)).is(cPrintWord) {
				return true
			}
		}
	}
	return false
}
