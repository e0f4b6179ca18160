package intake

import (
	"bytes"
	"encoding/json"
	"slices"

	"strikeoff/rules"
)

// finish makes the order of what was joined.
func (r *reader) finish(s *scope, name string, who candidate, was *Reading) Reading {
	o := rules.Order{Customer: s.name, Due: s.due, Wishes: s.wishes}
	if name != "" {
		o.Customer = rules.Name(name)
	}
	for _, u := range s.uses {
		if !slices.Contains(s.noUse, string(u)) {
			o.Uses = append(o.Uses, u)
		}
	}
	if g := r.pastGarment(); g != "" { // "originally 30 aprons, now 40"
		for k := range s.lines {
			if l := &s.lines[k]; !l.drop && l.Garment == "" && !l.idle() && s.alive() == 1 {
				l.Garment = rules.Garment(g)
			}
		}
	}
	index := make([]int, len(s.lines))
	for k := range s.lines {
		l := &s.lines[k]
		index[k] = -1
		if l.drop || l.idle() || was == nil && l.noQty && !l.Quantity.Known && len(l.Sizes) == 0 && len(l.Colours) == 0 && l.Fabric == "" && l.unplaced() && s.counted() || was == nil && l.bare() && s.goods() {
			continue
		}
		out := l.Line
		if len(out.Colours) == 0 && len(s.everyOne) > 0 {
			out.Colours = slices.Clone(s.everyOne)
		}
		if b := s.everyBlend; b != nil && out.Fibres == nil && out.Fabric == "" {
			out.Fibres, out.Fabric = copyBlend(b.Fibres), b.Fabric
		}
		for z, n := range out.Sizes {
			if n <= 0 {
				delete(out.Sizes, z)
			}
		}
		if !out.Quantity.Known && len(out.Sizes) > 0 {
			out.Quantity = rules.Said(out.Sizes.Total())
		}
		if l.blank {
			out.Prints = nil
		}
		for q := range out.Prints {
			p := &out.Prints[q]
			if p.Method == "" {
				p.Method = l.method
			}
			if p.Method == "" || p.Method == rules.Screen && s.method != "" {
				if s.method != "" {
					p.Method = s.method
				}
			}
			if !p.InkCount.Known && len(p.Inks) > 0 {
				p.InkCount = rules.Said(len(p.Inks))
			}
		}
		index[k] = len(o.Lines)
		o.Lines = append(o.Lines, out)
	}
	if was == nil && len(o.Lines) > 1 {
		var to []int
		o.Lines, to = joinSizes(o.Lines)
		for k := range index {
			if index[k] >= 0 {
				index[k] = to[index[k]]
			}
		}
	}
	out := Reading{Order: o, Odd: r.odd}
	out.IsOrder = was != nil || r.isOrder(&o, s)
	if !out.IsOrder {
		out.Order = rules.Order{}
		return out
	}
	out.Order.Unread = r.unread()
	out.Marks = r.marks(s, &out.Order, index, who)
	r.judge(&out)
	return out
}

// pastGarment is the one garment that the message names, where it names it only in what was said before.
func (r *reader) pastGarment() string {
	g := ""
	for k := range r.facts {
		x := &r.facts[k]
		if x.kind != fGarment || x.weak {
			continue
		}
		if !x.dead && !x.neg || g != "" && g != x.s {
			return ""
		}
		g = x.s
	}
	return g
}

// idle reports whether nothing was said of a line.
func (l *line) idle() bool {
	return !l.Quantity.Known && len(l.Sizes) == 0 && l.Garment == "" && len(l.Colours) == 0 && l.Fabric == "" && len(l.Prints) == 0
}

// bare reports whether nothing was said of a line but a fabric or a print of no place: "does reflective stick to 50/50?".
func (l *line) bare() bool {
	return !l.Quantity.Known && len(l.Sizes) == 0 && l.Garment == "" && len(l.Colours) == 0 && l.unplaced()
}

// goods reports whether some line has a garment and how many of it.
func (s *scope) goods() bool {
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && l.Garment != "" && (l.Quantity.Known || len(l.Sizes) > 0) {
			return true
		}
	}
	return false
}

// unplaced reports whether a line has no print at a place.
func (l *line) unplaced() bool {
	for k := range l.Prints {
		if l.Prints[k].Place != "" {
			return false
		}
	}
	return true
}

// counted reports whether some line has a quantity.
func (s *scope) counted() bool {
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && (l.Quantity.Known || len(l.Sizes) > 0) {
			return true
		}
	}
	return false
}

// sameOrder reports whether two orders say the same.
func sameOrder(a, b rules.Order) bool {
	a.Unread, b.Unread = nil, nil
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}
