package intake

import (
	"fmt"

	"strikeoff/rules"
)

// sizes takes in a size run.
func (s *scope) sizes(st sentence, x *fact) {
	if (x.neg || x.dead) && !x.weak {
		return
	}
	run := s.r.runs[x.n : x.n+x.m]
	fix := x.fix || s.r.setsTo(x)
	targets := s.cur
	if g := int(x.id) - 1; !s.wide && !s.wideAfter(st, int(x.i1)) || g >= st.f0 && s.r.facts[g].kind == fGarment && s.r.facts[g].i1 == x.i0 { // "polos M 5 L 10"
		targets = []int{s.newest()}
	} else if len(s.sl) == 0 || len(targets) < 2 {
		targets = nil
		for k := range s.lines {
			if !s.lines[k].drop && len(s.lines[k].Sizes) == 0 {
				targets = append(targets, k)
			}
		}
		if len(targets) > 1 && !s.fitsAll(targets, run) { // "(all under two) 20 bodysuits: ten in 6-12M and ten in 12-18M"
			targets = targets[:0]
		}
		if len(targets) == 0 {
			targets = append(targets, s.newest())
		}
	}
	if hit := s.goodsAfter(st, x); hit != nil {
		targets = hit
	} else if s.sharesOut(run, x) {
		return
	} else if k := s.fits(run, x); len(targets) == 1 && k >= 0 {
		targets = []int{k}
	}
	for _, k := range targets {
		l := &s.lines[k]
		l.open = false
		old := l.Sizes.Total()
		if len(run) == 1 && run[0].n >= everyPiece && run[0].n <= onePiece {
			if n := l.piecesOf(run[0].n); n > 0 {
				if l.Sizes == nil {
					l.Sizes = rules.Sizes{}
				}
				l.Sizes[run[0].size] += n
			}
			continue
		}
		if x.weak { // counts that go up or down, or a size taken off the run
			if len(l.Sizes) == 0 {
				continue
			}
			for _, z := range run {
				if z.n == gone {
					delete(l.Sizes, z.size)
					continue
				}
				l.Sizes[z.size] += z.n
				if l.Sizes[z.size] <= 0 {
					delete(l.Sizes, z.size)
				}
			}
			if !l.Quantity.Known || l.Quantity.Value == old {
				l.Quantity = rules.Said(l.Sizes.Total())
			}
			continue
		}
		plus := s.r.at(int(x.i0)-1).is(cAdd) && !s.r.setsTo(x) || s.r.punct(int(x.i0)-1, '+') || s.added && x.m == 1 && !s.r.setsTo(x)
		if len(l.Sizes) > 0 && (fix && (x.m == 1 || partOf(run, l.Sizes) || s.r.slipped(x)) || l.mends(run) || plus) {
			for _, z := range run {
				if plus {
					l.Sizes[z.size] += z.n
				} else {
					l.Sizes[z.size] = z.n
				}
				if l.Sizes[z.size] <= 0 {
					delete(l.Sizes, z.size)
				}
			}
			if l.Quantity.Known && l.Quantity.Value == old || !l.Quantity.Known {
				l.Quantity = rules.Said(l.Sizes.Total())
			}
			continue
		}
		if len(l.Sizes) > 0 && x.fix && l.Quantity.Known && x.m > 1 && old < l.Quantity.Value && apart(run, l.Sizes) { // "half youth: …, half adult: …"
			for _, z := range run {
				l.Sizes[z.size] += z.n
			}
			continue
		}
		if len(l.Sizes) > 0 && !x.fix {
			n := 0
			for _, z := range run {
				n += z.n
			}
			if more := l.Quantity.Known && x.m > 1 && old+n <= l.Quantity.Value; !more && (s.named && s.cl != l.made || x.m == 1) {
				for _, z := range run {
					l.Sizes[z.size] = z.n
				}
				if old > 0 && l.Quantity.Known && l.Quantity.Value == old { // a size of a full run, said anew
					l.Quantity = rules.Said(l.Sizes.Total())
				}
				continue
			}
			if l.Quantity.Known && l.Quantity.Value > old || !l.Quantity.Known { // the run goes on
				for _, z := range run {
					l.Sizes[z.size] += z.n
				}
				continue
			}
			continue
		}
		m := make(rules.Sizes, len(run))
		for _, z := range run {
			m[z.size] += z.n
		}
		for z, n := range m {
			if n <= 0 {
				delete(m, z)
			}
		}
		l.Sizes = m
		if x.fix && l.Quantity.Known && l.Quantity.Value == old && old > 0 {
			l.Quantity = rules.Said(m.Total())
		}
	}
}

// fits is the one line that a run adds up to, where the line spoken of has another number of pieces; -1 for none.
func (s *scope) fits(run []sized, x *fact) int {
	if x.weak || x.fix || len(run) < 2 || s.alive() < 2 {
		return -1
	}
	n, hit := 0, -1
	for _, z := range run {
		n += z.n
	}
	if l := &s.lines[s.newest()]; len(l.Sizes) > 0 || l.Quantity.Or(n) == n {
		return -1
	}
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && l.Quantity.Known && l.Quantity.Value == n && len(l.Sizes) == 0 {
			if hit >= 0 {
				return -1
			}
			hit = k
		}
	}
	return hit
}

// mends reports whether a run that is shorter than the line's own makes up the line's quantity together with the sizes that it does not name.
func (l *line) mends(run []sized) bool {
	n, own := 0, 0
	for _, z := range run {
		n += z.n
		own += l.Sizes[z.size]
	}
	return len(run) < len(l.Sizes) && l.Quantity.Known && n != l.Quantity.Value && l.Sizes.Total()-own+n == l.Quantity.Value
}

// slipped reports whether the run in a fact goes on one that broke off at the size it begins with: "11 medium, 9 large, sorry 10 large, 4 XL".
func (r *reader) slipped(x *fact) bool {
	if x.id == 0 || x.m < 2 {
		return false
	}
	y := &r.facts[x.id-1]
	return y.kind == fSizes && !y.weak && y.m > 0 && r.runs[y.n+y.m-1].size == r.runs[x.n].size && x.i0 <= y.i1+4
}

// setsTo reports whether the run in a fact says what a size is to be: "and smalls down to 5".
func (r *reader) setsTo(x *fact) bool {
	for i := int(x.i0); i < int(x.i1); i++ {
		if it := r.at(i); it.is(cTo) || it.is(cFix) {
			return true
		}
	}
	return false
}

// apart reports whether a run names no size that another has.
func apart(run []sized, sizes rules.Sizes) bool {
	for _, z := range run {
		if _, ok := sizes[z.size]; ok {
			return false
		}
	}
	return true
}

// partOf reports whether a run names some of the sizes of another and no size more, so that it changes those alone: "mediums to 14 and larges to 10".
func partOf(run []sized, sizes rules.Sizes) bool {
	for _, z := range run {
		if _, ok := sizes[z.size]; !ok {
			return false
		}
	}
	return len(run) < len(sizes)
}

// fitsAll reports whether a run adds up to the pieces of every one of the lines that have a quantity.
func (s *scope) fitsAll(lines []int, run []sized) bool {
	n := 0
	for _, z := range run {
		n += z.n
	}
	for _, k := range lines {
		if s.lines[k].Quantity.Or(n) != n {
			return false
		}
	}
	return true
}

// sharesOut gives a run to several lines that lack one, where it falls apart into stretches that add up to their quantities: "youth S 10 M 20,
// adult S 5 M 15" for 30 and 20 hoodies.
func (s *scope) sharesOut(run []sized, x *fact) bool {
	if x.weak || x.fix || len(run) < 2 {
		return false
	}
	var open []int
	sum, total := 0, 0
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && len(l.Sizes) == 0 && l.Quantity.Known {
			open = append(open, k)
			sum += l.Quantity.Value
		}
	}
	for _, z := range run {
		total += z.n
	}
	if len(open) < 2 || sum != total {
		return false
	}
	if s.lines[open[0]].split && s.lines[open[0]].Quantity.Value != run[0].n { // one run for all colours together
		at, fits := 0, true
		for _, k := range open {
			n := 0
			for at < len(run) && n < s.lines[k].Quantity.Value {
				n += run[at].n
				at++
			}
			fits = fits && n == s.lines[k].Quantity.Value
		}
		if !fits {
			s.r.oddity("sizes-together", linePath(open[0], 1), fmt.Sprintf("The sizes add up to %d, which is all colours together. They were not shared out. Type the sizes of each colour, for example: %s S 10 M 20.", total, colourOf(&s.lines[open[0]])))
			return true
		}
	}
	cuts, at := make([]int, 0, len(open)), 0
	for _, k := range open {
		n := 0
		for at < len(run) && n < s.lines[k].Quantity.Value {
			n += run[at].n
			at++
		}
		if n != s.lines[k].Quantity.Value {
			return false
		}
		cuts = append(cuts, at)
	}
	from := 0
	for q, k := range open {
		m := make(rules.Sizes)
		for _, z := range run[from:cuts[q]] {
			if z.n > 0 {
				m[z.size] += z.n
			}
		}
		s.lines[k].Sizes = m
		from = cuts[q]
	}
	return true
}

// colourOf is a colour to speak of a line by.
func colourOf(l *line) string {
	if len(l.Colours) > 0 {
		return l.Colours[0]
	}
	return "black"
}
