package intake

import (
	"fmt"
	"slices"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// described is what a print is of.
type described struct {
	ref
	what uint8
}

// beforeGarment reports whether fact f, a colour or fabric, stands just before the name of a garment with no number before it.
func (s *scope) beforeGarment(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.kind != fColour && x.kind != fHeather && x.kind != fBlend && x.kind != fFabric {
		return false
	}
	if int(x.i0) > st.i0 && s.r.at(int(x.i0)-1).sense(sGarment) != nil { // "tees 50/50 hoodies 80/20"
		return false
	}
	end := x.i1
	for k := f + 1; k < st.f1 && k < f+5; k++ {
		y := &s.r.facts[k]
		for i := int(end); i < int(y.i0); i++ {
			it := s.r.at(i)
			if !(it.kind == iPunct && (it.ch == '/' || it.ch == '-' || it.ch == '&') || it.word == wAnd || it.is(cAdult) || it.is(cYouth) || it.kind == iWord && !it.upper && y.kind == fGarment && i == int(end)) {
				return false
			}
		}
		end = y.i1
		switch y.kind {
		case fGarment:
			return !y.neg && !y.dead && (!y.weak || !s.strongGarment())
		case fColour, fHeather, fBlend, fFabric, fUse:
			continue
		}
		return false
	}
	return false
}

// heather marks the fabric of the line spoken of.
func (s *scope) heather(st sentence, f int) {
	if s.inPrint && s.attrAt > int(s.r.facts[f].i0)-6 && !s.garmentNear(st, f) {
		return
	}
	x := &s.r.facts[f]
	if f+1 < st.f1 && s.r.facts[f+1].kind == fColour && s.r.facts[f+1].i0 <= x.i1+1 && !s.r.facts[f+1].neg {
		s.hthr = true
		return
	}
	k := s.newest()
	if s.lastCol >= 0 && s.colLine >= 0 && int(x.i0) <= s.lastCol+1 {
		k = s.colLine
		for _, q := range s.colTargets() { // "26 long sleeves and 14 tees, both in blue melange"
			s.lines[q].Heather = true
		}
	}
	s.lines[k].Heather = true
	s.lines[k].open = false
}

// garmentNear reports whether the next fact or two lead to a garment.
func (s *scope) garmentNear(st sentence, f int) bool {
	for k := f + 1; k < st.f1 && k < f+4; k++ {
		switch s.r.facts[k].kind {
		case fGarment:
			return true
		case fColour, fHeather, fFabric, fBlend:
			continue
		}
		return false
	}
	return false
}

// fabric takes in a blend or the name of a fabric.
func (s *scope) fabric(st sentence, f int) {
	x := &s.r.facts[f]
	if x.weak && !s.garmentNear(st, f) {
		return
	}
	if s.ofAll(st, f) {
		l := &line{}
		s.setFabric(l, x)
		s.everyBlend = l
		return
	}
	targets := []int{s.newest()}
	if s.wide || s.wideAfter(st, int(x.i1)) {
		targets = append(targets[:0], s.cur...)
		for _, k := range s.sl { // said of some of them in between: "20 in sand (they wanted 15), all cotton"
			if l := &s.lines[k]; !slices.Contains(targets, k) && l.made == s.cl && l.Fibres == nil && l.Fabric == "" {
				targets = append(targets, k)
			}
		}
		if len(s.sl) == 0 || s.everyLine(x) {
			targets = targets[:0]
			for k := range s.lines {
				targets = append(targets, k)
			}
		}
		if len(targets) == 0 {
			targets = append(targets, s.newest())
		}
	} else if len(s.seg) == 0 && !x.fix && s.alive() > 1 {
		k := s.newest()
		targets = targets[:0]
		for q := k; q >= 0; q-- {
			l := &s.lines[q]
			if l.drop || q != k && (l.Fabric != "" && x.kind == fFabric || l.Fibres != nil || l.made != s.lines[k].made && !((l.split && s.lines[k].split || l.Fabric == "" && l.made >= s.cl-3) && l.Garment == s.lines[k].Garment)) {
				break
			}
			targets = append(targets, q)
		}
	} else if len(s.cur) > 1 {
		if s.npLine < 0 && s.clauseGarment(st, f) { // "hoodies 80/20, tees 100% cotton": every line of the garment
			g := s.lines[targets[0]].Garment
			for _, k := range s.cur {
				l := &s.lines[k]
				again := l.Garment != g && l.made != s.cl && s.lines[targets[0]].made != s.cl && slices.Contains(s.seg, k) // "hoodies and crews are 80/20"
				if k != targets[0] && (again || l.Garment == g) && (l.made != s.cl || l.split && s.lines[targets[0]].split) && l.Fibres == nil && l.Fabric == "" {
					targets = append(targets, k)
				}
			}
		} else if s.npLine < 0 {
			targets = targets[:0]
			for _, k := range s.cur {
				l := &s.lines[k]
				if k == s.cur[len(s.cur)-1] || l.Fibres == nil && l.Fabric == "" && (l.split || s.lines[s.cur[len(s.cur)-1]].Fabric == "" && s.bareLine(k)) {
					targets = append(targets, k)
				}
			}
		}
	}
	if k := targets[0]; len(targets) == 1 && s.lines[k].split && s.npLine < 0 && s.alone(f) && !s.clauseGarment(st, f) { // "24 black with white logo, 12 white with black logo, cotton"
		for _, q := range s.sl {
			if l := &s.lines[q]; q != k && l.split && l.Garment == s.lines[k].Garment && l.made >= s.cl-1 && l.Fibres == nil && l.Fabric == "" {
				targets = append(targets, q)
			}
		}
	}
	for _, k := range targets {
		l := &s.lines[k]
		l.open = false
		if x.kind == fFabric && !x.fix && (l.Fibres != nil || l.Fabric != "") || x.kind == fBlend && l.Fibres != nil && !x.fix && s.alive() > 1 && l.made != s.cl && s.wide {
			continue
		}
		s.setFabric(l, x)
	}
}

// ofAll reports whether the fabric in fact f is said of all goods before any is named: "two things, both 100% cotton".
func (s *scope) ofAll(st sentence, f int) bool {
	x := &s.r.facts[f]
	if s.alive() > 0 || s.npLine >= 0 || s.amend || s.ownGoods(st) {
		return false
	}
	return s.r.at(int(x.i0)-1).is(cAll) || s.r.at(int(x.i0)).is(cAll) || s.r.at(int(x.i1)).is(cAll)
}

// setFabric gives a line the blend or the fabric of a fact.
func (s *scope) setFabric(l *line, x *fact) {
	if x.kind == fFabric {
		if x.fix {
			l.Fibres = nil
		}
		l.Fabric = rules.Fabric(x.s)
		return
	}
	b := make(fibre.Blend, x.m)
	unknown := 0.0
	for _, p := range s.r.parts[x.n : x.n+x.m] {
		if p.fibre == "" {
			unknown += p.percent
			continue
		}
		if p.percent > 0 {
			b[p.fibre] += p.percent
		}
	}
	if len(b) == 0 && unknown == 0 { // nought percent of everything
		return
	}
	l.Fibres = b
	l.Fabric = fibre.ClassOf(b)
	if unknown > 0 {
		s.r.oddity("unknown-fibre", linePath(max(0, len(s.lines)-1), 3), fmt.Sprintf("%q names a fibre that an order has no word for. The fabric was taken as another blend. Type the nearest, for example: it is like cotton.", s.r.text[s.r.items[x.i0].start:s.r.items[x.i1-1].end]))
		l.Fabric = fibre.Other
		if len(b) == 0 {
			l.Fibres = nil
		}
	}
}

// everyLine reports whether the sentence speaks of all lines and names none.
func (s *scope) everyLine(x *fact) bool { return !s.named && len(s.seg) == 0 }

// bareLine reports whether a line has nothing but a number and a garment; a colour besides where it is the newest line's garment too.
func (s *scope) bareLine(k int) bool {
	l := &s.lines[k]
	return l.Fabric == "" && len(l.Prints) == 0 && (len(l.Colours) == 0 || l.Garment == s.lines[s.newest()].Garment || slices.Equal(l.Colours, s.lines[s.newest()].Colours))
}

// clauseGarment reports whether a garment or its number stands between fact f and the last comma before it.
func (s *scope) clauseGarment(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' {
			return false
		}
		if it.sense(sGarment) != nil {
			return true
		}
	}
	return false
}
