package intake

import (
	"bytes"
	"encoding/json"
	"slices"

	"strikeoff/rules"
)

// finish makes the order of what was joined.
func (r *reader) finish(s *scope, name string, was *Reading) Reading {
	o := rules.Order{Customer: s.name, Due: s.due, Wishes: s.wishes}
	if name != "" {
		o.Customer = rules.Name(name)
	}
	for _, u := range s.uses {
		if !slices.Contains(s.noUse, string(u)) {
			o.Uses = append(o.Uses, u)
		}
	}
	for k := range s.lines {
		l := &s.lines[k]
		if l.drop || l.idle() || was == nil && l.noQty && !l.Quantity.Known && len(l.Sizes) == 0 && len(l.Colours) == 0 && len(l.Prints) == 0 && s.counted() {
			continue
		}
		out := l.Line
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
		o.Lines = append(o.Lines, out)
	}
	out := Reading{Order: o, Odd: r.odd}
	out.IsOrder = was != nil || r.isOrder(&o)
	if !out.IsOrder {
		out.Order = rules.Order{}
	}
	return out
}

// idle reports whether nothing was said of a line.
func (l *line) idle() bool {
	return !l.Quantity.Known && len(l.Sizes) == 0 && l.Garment == "" && len(l.Colours) == 0 && l.Fabric == "" && len(l.Prints) == 0
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

// isOrder judges whether a message asks for goods to be printed.
func (r *reader) isOrder(o *rules.Order) bool {
	score := 0
	for _, l := range o.Lines {
		v := 0
		if l.Garment != "" {
			v++
			if l.Quantity.Known {
				v += 2
			}
		} else if l.Quantity.Known && len(l.Colours) > 0 {
			v++
		}
		if len(l.Sizes) > 1 {
			v++
		}
		for _, p := range l.Prints {
			if p.Place != "" && (len(p.Inks) > 0 || p.InkCount.Known || p.WidthMM.Known || p.FullColour) {
				v += 2
			} else {
				v++
			}
		}
		if l.Fabric != "" || len(l.Colours) > 0 {
			v++
		}
		score = max(score, v)
	}
	if score == 0 {
		return false
	}
	if o.Customer != "" {
		score++
	}
	if o.Due != "" {
		score++
	}
	talk := 0
	for i := range r.items {
		it := &r.items[i]
		if it.kind != iPhrase && it.kind != iWord {
			continue
		}
		if it.is(cTalk) && !it.is(cOrderVerb) && !it.fact && !it.is(cGreet) {
			talk++
		}
	}
	return score-min(2*talk, 5) >= 3
}
