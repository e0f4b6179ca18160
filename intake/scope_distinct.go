package intake

import (
	"slices"

	"strikeoff/rules"
)

// totalAhead reports whether a number is said to be the total: "so 30 polos in total".
func (s *scope) totalAhead(x *fact) bool {
	for i := int(x.i1); i < int(x.i1)+4; i++ {
		it := s.r.at(i)
		if it.kind > iPhrase {
			return false
		}
		if it.is(cPcs) && it.kind == iPhrase {
			switch vocab.names[s.r.toks[it.tok+it.ntok-1].word] {
			case "total", "totals", "all", "altogether":
				return true
			}
		}
	}
	return false
}

// distinct reports whether the words after a restated number name another colour or fabric than the line has.
func (s *scope) distinct(x *fact) bool { return s.distinctFrom(x, s.newest()) }

// wearers tells whether item i says that goods are for children, 1, or for adults, 2; 0 where it says neither.
func (r *reader) wearers(i int) int {
	switch it := r.at(i); {
	case it.is(cYouth):
		return 1
	case it.is(cAdult):
		return 2
	}
	return 0
}

// distinctFrom reports the same of line k.
func (s *scope) distinctFrom(x *fact, k int) bool {
	if c := s.lines[k].counted; c > 0 {
		if a, b := s.r.wearers(int(x.i1)), s.r.wearers(int(s.r.facts[c-1].i1)); a != 0 && b != 0 && a != b {
			return true
		}
	}
	for i := int(x.i1); i < int(x.i1)+6; i++ {
		it := s.r.at(i)
		if it.kind == iBreak || it.kind == iPart {
			break
		}
		if c := it.sense(sColour); c != nil && len(s.lines[k].Colours) > 0 && !slices.Contains(s.lines[k].Colours, c.val) {
			return true
		}
	}
	return false
}

// someOf reports whether a number counts some of the goods named before: "4 of them".
func (s *scope) someOf(x *fact) bool {
	it := s.r.at(int(x.i1) - 1)
	if it.ntok < 2 || !it.is(cPcs) || it.kind != iPhrase {
		return false
	}
	switch vocab.names[s.r.toks[it.tok+it.ntok-1].word] {
	case "them", "those", "these", "em", "which":
		return true
	}
	return false
}

// share takes in a number of one colour: "40 in charcoal and 40 in wine". The first share takes the line over, each later one is a line like it.
func (s *scope) share(x *fact) {
	k := s.newest()
	l := &s.lines[k]
	l.sent = s.cl
	s.took++
	if s.someOf(x) && l.Quantity.Known && l.Quantity.Value > x.n && len(l.Colours) > 0 { // "36 navy polos. 4 of them should be white"
		l.Quantity, l.Sizes, l.split = rules.Said(l.Quantity.Value-x.n), nil, true
		s.lines[s.clone(k, x.n)].counted = x.id + 1
		return
	}
	if x.fix && s.parts > 1 && s.alive() == 1 && s.took == 1 && l.Quantity.Known && !s.added { // "split it: 20 red, 20 black"
		l.total = l.Quantity.Value
		l.Quantity, l.split, l.Colours, l.Sizes = rules.Said(x.n), true, nil, nil
		l.counted = x.id + 1
		s.speakOf(k)
		return
	}
	if x.fix && s.parts > 1 && s.took > 1 {
		x.fix = false
	}
	if x.fix && l.Quantity.Known && !s.added && s.alive() > 1 && l.split && !s.amend {
		sum := 0
		for q := range s.lines {
			if !s.lines[q].drop && s.lines[q].split && s.lines[q].Garment == l.Garment {
				sum += s.lines[q].Quantity.Or(0)
			}
		}
		if sum == x.n { // all in one colour after all
			first := -1
			for q := range s.lines {
				if s.lines[q].drop || !s.lines[q].split || s.lines[q].Garment != l.Garment {
					continue
				}
				if first < 0 {
					first = q
					continue
				}
				s.lines[q].drop = true
			}
			s.lines[first].Quantity, s.lines[first].Colours, s.lines[first].Heather = rules.Said(x.n), nil, false
			s.lines[first].counted = x.id + 1
			s.seg = s.seg[:0]
			s.speakOf(first)
			return
		}
	}
	if x.fix && l.Quantity.Known && !s.added {
		if s.alive() == 1 {
			s.setQuantity(k, x)
			s.speakOf(k)
			return
		}
	}
	if !l.split && len(l.Colours) == 0 && (!l.Quantity.Known || l.Quantity.Value >= x.n) {
		if l.Quantity.Known {
			l.total = l.Quantity.Value
		}
		l.Quantity, l.split, l.open = rules.Said(x.n), true, false
		l.counted = x.id + 1
		s.speakOf(k)
		return
	}
	if l.Garment == "" && !l.split && s.alive() > 0 && l.Quantity.Known {
		n := line{}
		n.Quantity, n.counted = rules.Said(x.n), x.id+1
		n.split = true
		s.newLine(n)
		return
	}
	s.lines[s.clone(k, x.n)].counted = x.id + 1
}
