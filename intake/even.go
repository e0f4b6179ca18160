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
	share := l.Quantity.Value / n
	colours := l.Colours
	heather := l.Heather
	l.total, l.split, l.Quantity, l.Colours = l.Quantity.Value, true, rules.Said(share), colours[:1:1]
	for _, c := range colours[1:] {
		q := s.clone(k, share)
		s.lines[q].Colours, s.lines[q].Heather, s.lines[q].counted = rules.List[string]{c}, heather, s.lines[k].counted
	}
}
