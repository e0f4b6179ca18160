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
		if l.drop || l.idle() || was == nil && l.noQty && !l.Quantity.Known && len(l.Sizes) == 0 && len(l.Colours) == 0 && l.Fabric == "" && l.unplaced() && s.counted() {
			continue
		}
		out := l.Line
		if len(out.Colours) == 0 && len(s.everyOne) > 0 {
			out.Colours = slices.Clone(s.everyOne)
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

// isOrder judges whether a message asks for goods to be printed: what it says of goods, against the words of those who sell, ask about a job or chat.
func (r *reader) isOrder(o *rules.Order, s *scope) bool {
	score, counted := 0, false
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
		placed := false
		for _, p := range l.Prints {
			if p.Place != "" && (len(p.Inks) > 0 || p.InkCount.Known || p.WidthMM.Known || p.FullColour) {
				v += 2
				placed = true
			} else {
				v++
			}
		}
		if l.Fabric != "" || len(l.Colours) > 0 {
			v++
		}
		if l.Quantity.Known && (l.Garment != "" || len(l.Colours) > 0 || len(l.Prints) > 0) || l.Garment != "" && placed {
			counted = true
		}
		score = max(score, min(v, 8))
	}
	if !counted {
		return false
	}
	if !s.counted() {
		score -= 3
		for i := range r.items {
			if it := &r.items[i]; it.is(cOrderVerb) && it.kind == iPhrase && !it.is(cPrintWord) && it.word != wFor {
				score++
				break
			}
		}
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
		if it.kind != iPhrase || it.fact {
			continue
		}
		if it.is(cSeller) {
			talk += 4
		} else if it.is(cTalk) && !it.is(cOrderVerb) && !it.is(cGreet) {
			talk += 2
		}
	}
	if score >= 7 && o.Customer != "" && o.Due != "" && r.wants() {
		talk = min(talk, 3) // a long letter may chat as well
	}
	score -= min(talk, 12)
	if s.asked > 0 && s.asked == s.counts {
		score -= 6
	}
	return score >= 3
}

// wants reports whether somebody wants, needs or asks for something.
func (r *reader) wants() bool {
	for i := range r.items {
		it := &r.items[i]
		if it.kind == iPhrase && (it.is(cWant) && it.is(cOrderVerb) || it.is(cDue) && it.is(cOrderVerb)) && !it.is(cPrintWord) {
			return true
		}
	}
	return false
}

// inquires reports whether a sentence asks about something that was or is, and not for something.
func (r *reader) inquires(st sentence) bool {
	if st.i1 >= len(r.items) || !r.punct(st.i1, '?') {
		return false
	}
	for i := st.i0; i < st.i1 && i < st.i0+6; i++ {
		it := r.at(i)
		if it.kind > iPhrase {
			continue
		}
		switch foldWord(r.text[it.start:min(it.end, it.start+8)]) {
		case "did", "does", "have", "has", "was", "were", "where", "when", "who", "which", "whose", "why", "whats", "wheres", "hows", "is", "are", "what":
			for k := i + 1; k < st.i1; k++ {
				switch foldWord(r.text[r.at(k).start:min(r.at(k).end, r.at(k).start+12)]) {
				case "possible", "price", "cost", "quote", "room", "capacity", "able", "would", "pricing", "run", "charge", "available":
					return false
				}
			}
			return true
		}
		if it.is(cOrderVerb) && !it.is(cGreet) && it.word != wFor {
			return false
		}
	}
	return false
}
