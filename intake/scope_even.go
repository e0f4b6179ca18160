package intake

import "strikeoff/rules"

// deal shares the pieces of the line spoken of out among its colours, where they are said to be evenly split: "80 tees, split evenly black and
// charcoal".
func (s *scope) deal() {
	if !s.even || len(s.lines) == 0 {
		return
	}
	k := s.newest()
	l := &s.lines[k]
	n := len(l.Colours)
	if n < 2 || !l.Quantity.Known || l.Quantity.Value%n != 0 || len(l.Sizes) > 0 {
		return
	}
	s.even = false
	shares := make([]int, n)
	for q := range shares {
		shares[q] = l.Quantity.Value / n
	}
	s.split(k, shares)
}

// split makes one line a colour of line k, which has as many colours as there are shares.
func (s *scope) split(k int, shares []int) {
	l := &s.lines[k]
	colours, heather := l.Colours, l.Heather
	l.total, l.split, l.Quantity, l.Colours = l.Quantity.Value, true, rules.Said(shares[0]), colours[:1:1]
	for z, c := range colours[1:] {
		q := s.clone(k, shares[z+1])
		s.lines[q].Colours, s.lines[q].Heather, s.lines[q].counted = rules.List[string]{c}, heather, s.lines[k].counted
	}
}

// apportion takes the numbers from fact f on for the shares of the colours just named, where there is one for each and they make up the whole: "40
// hoodies, green and black (20 and 20)".
func (s *scope) apportion(st sentence, f int) bool {
	if s.amend || len(s.lines) == 0 {
		return false
	}
	k := s.newest()
	l := &s.lines[k]
	n := len(l.Colours)
	if n < 2 || len(l.Sizes) > 0 || l.split || !l.Quantity.Known {
		return false
	}
	var shares []int
	sum, end := 0, int(s.r.facts[f].i0)
	for q := f; q < st.f1 && len(shares) < n; q++ {
		x := &s.r.facts[q]
		if x.kind == fPair && len(shares) == 0 && n == 2 && x.weak {
			shares, sum = append(shares, x.n, x.m), x.n+x.m
			break
		}
		for i := end; i < int(x.i0); i++ {
			if it := s.r.at(i); it.kind != iPunct && it.word != wAnd {
				return false
			}
		}
		if x.kind != fNumber || x.sure > 0 || x.dead || x.neg {
			return false
		}
		shares, sum, end = append(shares, x.n), sum+x.n, int(x.i1)
	}
	if len(shares) != n || sum != l.Quantity.Value {
		return false
	}
	for q := f + 1; q < st.f1 && int(s.r.facts[q].i0) < end; q++ {
		s.r.facts[q].done = true
	}
	s.split(k, shares)
	return true
}
