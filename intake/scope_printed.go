package intake

import (
	"slices"

	"strikeoff/rules"
)

// printLines are the lines that a print in this sentence goes on.
func (s *scope) printLines() []int {
	if len(s.seg) > 0 {
		out := s.seg[:0:0]
		for _, k := range s.seg {
			if !s.lines[k].drop && !s.lines[k].blank {
				out = append(out, k)
			}
		}
		if s.wide && len(s.sl) > len(out) {
			out = append(out[:0:0], s.sl...)
			slices.Sort(out)
		}
		if len(out) > 0 {
			return out
		}
	}
	if s.wide || s.amend && len(s.all) == 0 && len(s.cur) <= 1 {
		var out []int
		for k := range s.lines {
			if !s.lines[k].drop && !s.lines[k].blank && !s.mention(k) {
				out = append(out, k)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	if len(s.all) > 0 { // the same lines as the print before
		var out []int
		for _, h := range s.all {
			if !slices.Contains(out, h.line) {
				out = append(out, h.line)
			}
		}
		return out
	}
	// lines at the end of the list that have no print yet
	var out []int
	for k := len(s.lines) - 1; k >= 0; k-- {
		l := &s.lines[k]
		if l.drop || l.blank || s.mention(k) {
			continue
		}
		if l.printed {
			break
		}
		out = append(out, k)
	}
	slices.Reverse(out)
	if len(out) > 0 {
		return out
	}
	for k := range s.lines { // lines whose print has no place yet
		if l := &s.lines[k]; !l.drop && len(l.Prints) == 1 && l.Prints[0].Place == "" && !l.Prints[0].WidthMM.Known {
			out = append(out, k)
		}
	}
	if len(out) > 1 {
		return out
	}
	out = out[:0]
	for _, h := range s.last {
		if !s.lines[h.line].drop && !slices.Contains(out, h.line) {
			out = append(out, h.line)
		}
	}
	if len(out) > 0 {
		return out
	}
	return []int{s.newest()}
}

// printAt is the print of line k at a place; it is made where there is none. moved takes the line's only other print to the new place.
func (s *scope) printAt(k int, p rules.Place, moved bool) ref {
	l := &s.lines[k]
	for q := range l.Prints {
		if l.Prints[q].Place == p {
			return ref{k, q}
		}
	}
	for q := range l.Prints { // a print whose place was still unsaid
		if l.Prints[q].Place == "" && p != "" && (slices.Contains(s.last, ref{k, q}) || l.Prints[q].InkCount == (rules.Maybe[int]{}) && l.split) && !s.given(k) && len(l.Prints) == 1 {
			l.Prints[q].Place = p
			return ref{k, q}
		}
	}
	if moved {
		for q := range l.Prints {
			if slices.Contains(s.last, ref{k, q}) || len(l.Prints) == 1 {
				l.Prints[q].Place = p
				return ref{k, q}
			}
		}
	}
	if len(l.Prints) >= mostPrints {
		return ref{k, len(l.Prints) - 1}
	}
	l.Prints = append(l.Prints, rules.Print{Place: p})
	return ref{k, len(l.Prints) - 1}
}

// given reports whether line k was given a print in this sentence.
func (s *scope) given(k int) bool {
	for _, h := range s.all {
		if h.line == k {
			return true
		}
	}
	return false
}

// unprintedSeg reports whether the lines named since the last place have no print yet: "… on the left chest, and 60 bandanas, one colour teal".
func (s *scope) unprintedSeg() bool {
	for _, k := range s.seg {
		if l := &s.lines[k]; l.drop || l.blank || len(l.Prints) > 0 {
			return false
		}
	}
	return len(s.seg) > 0
}

// spokeBare reports whether nothing is known of the prints of the sentence before but their places.
func (s *scope) spokeBare() bool {
	for _, h := range s.spoke {
		if !onlyPlaced(s.at(h)) {
			return false
		}
	}
	return len(s.spoke) > 0
}

// onlyPlaced reports whether nothing is known of a print but its place.
func onlyPlaced(p *rules.Print) bool {
	return p.Place != "" && len(p.Inks) == 0 && !p.InkCount.Known && !p.WidthMM.Known && !p.HeightMM.Known && !p.FullColour && len(p.Effects) == 0
}

// mostPrints is how many prints a garment may have.
const mostPrints = 24

// merge gives what was said before its place to a print.
func (s *scope) merge(p, q *rules.Print, fix bool) {
	if q.WidthMM.Known && (!p.WidthMM.Known || fix) {
		p.WidthMM = q.WidthMM
	}
	if q.HeightMM.Known && (!p.HeightMM.Known || fix) {
		p.HeightMM = q.HeightMM
	}
	if len(q.Inks) > 0 {
		if fix {
			p.Inks = nil
		}
		for _, c := range q.Inks {
			if !slices.Contains(p.Inks, c) {
				p.Inks = append(p.Inks, c)
			}
		}
	}
	if q.InkCount.Known && (!p.InkCount.Known || fix) {
		p.InkCount = q.InkCount
	}
	p.FullColour = p.FullColour || q.FullColour
	if q.Coverage.Known {
		p.Coverage = q.Coverage
	}
	if q.Method != "" && (p.Method == "" || fix) {
		p.Method = q.Method
	}
	for _, e := range q.Effects {
		if !slices.Contains(p.Effects, e) {
			p.Effects = append(p.Effects, e)
		}
	}
}

// pair takes in "2c/1c": inks on the front and on the back.
func (s *scope) pair(st sentence, f int) {
	x := &s.r.facts[f]
	if x.neg || x.weak && (s.apportion(st, f) || x.n > 12 || !s.pairPlace(st, f)) {
		return
	}
	s.touch(x)
	for _, k := range s.printLines() {
		s.lines[k].printed = true
		for q, p := range []rules.Place{"front", "back"} {
			n := x.n
			if q == 1 {
				n = x.m
			}
			if n == 0 {
				continue
			}
			h := s.printAt(k, p, false)
			s.at(h).InkCount = rules.Said(n)
			s.noted(f, h)
			s.sp = append(s.sp, h)
			s.all = append(s.all, h)
		}
	}
	s.last = append(s.last[:0], s.sp...)
}

// pairPlace reports whether a bare "2/1" stands where ink counts do: after a colour, a garment or a fabric, or before a word for a print.
func (s *scope) pairPlace(st sentence, f int) bool {
	x := &s.r.facts[f]
	p, n := s.r.at(int(x.i0)-1), s.r.at(int(x.i1))
	if p.kind == iPunct && p.ch == ',' {
		p = s.r.at(int(x.i0) - 2)
	}
	return p.sense(sColour) != nil || p.sense(sGarment) != nil || p.sense(sFabric) != nil || p.sense(sFibre) != nil || n.is(cPrintWord) || n.is(cInkWord) || p.is(cPrintWord)
}

// blankLines takes in that the lines spoken of stay unprinted.
func (s *scope) blankLines(st sentence, f int) {
	x := &s.r.facts[f]
	w := s.r.at(int(x.i0))
	if s.r.at(int(x.i0) - 1).is(cSame) {
		return
	}
	if w.word != 0 && vocab.names[w.word] == "blanks" || x.dead {
		return
	}
	if w.ntok > 1 && s.r.at(int(x.i1)).sense(sPlace) != nil || s.r.at(int(x.i1)).is(cOn) && s.r.placeSoon(int(x.i1)+1) {
		return // "no print on the back" is said of a place
	}
	lines := s.seg
	if len(lines) == 0 {
		if len(s.lines) == 0 {
			return
		}
		lines = []int{s.newest()}
	}
	for _, k := range lines {
		if s.lines[k].made != s.cl && len(s.lines[k].Prints) > 0 && len(s.seg) == 0 {
			continue
		}
		s.lines[k].blank, s.lines[k].Prints, s.lines[k].printed = true, nil, true
		for _, hs := range []*[]ref{&s.last, &s.sp, &s.all, &s.spoke, &s.led, &s.flushed} { // none of them is spoken of any longer
			*hs = slices.DeleteFunc(*hs, func(h ref) bool { return h.line == k })
		}
	}
}

// end closes a sentence: what is the same is copied, and print facts that found no place get a print of their own or go to the one before.
func (s *scope) end(st sentence) {
	s.npLine = -1
	s.deal()
	if s.sameSize {
		s.copySizes(st)
	}
	if s.same {
		s.copyAll(st)
	}
	if s.sameInk {
		s.copyInks()
	}
	s.copyOnly(st)
	if s.sameWay {
		s.copyMethod()
	}
	for _, h := range s.led { // "white print on the back 30x35 and left chest 9 cm"
		if p := s.at(h); len(p.Inks) == 0 && !p.InkCount.Known && !p.FullColour {
			p.Inks = slices.Clone(s.lead.p.Inks)
		}
	}
	if s.common.any {
		hs := s.all
		if len(hs) == 0 {
			hs = s.spoke
		}
		if len(hs) == 0 && !s.amend {
			s.every = s.common
		}
		for _, h := range hs {
			q := s.at(h)
			keep := q.Inks
			s.merge(q, &s.common.p, false)
			s.arrive(&s.common, h)
			if len(keep) > 0 {
				q.Inks = keep
			}
		}
	}
	if len(s.all) > 0 {
		s.spoke, s.spokeAt = append(s.spoke[:0], s.all...), s.cl
	} else if s.spokeAt == s.cl-1 && (s.r.takenBack(st) || s.spokeBare() && s.r.answers(st)) {
		s.unsay()
	}
	if !s.pend.any && !(s.newPrint && len(s.all) == 0 && !s.amend) {
		return
	}
	p := s.pend
	s.pend = pending{}
	if s.wide && len(s.all) == 0 && len(s.sl) == 0 && !s.newPrint && !s.amend && len(s.everyPrint()) == 0 && s.alive() < 2 { // "ink white throughout": every print to come
		s.every = p
		return
	}
	if !p.sub && !s.newPrint && len(s.seg) == 0 && len(s.last) > 0 {
		for _, h := range s.last {
			if q := s.at(h); len(q.Inks) == 0 {
				q.Inks = slices.Clone(p.p.Inks)
				s.arrive(&p, h)
			}
		}
		return
	}
	if len(s.all) > 0 && (len(s.sp) > 0 || !s.unprintedSeg()) {
		for _, h := range s.sp {
			s.merge(s.at(h), &p.p, false)
			s.arrive(&p, h)
		}
		return
	}
	var hs []ref
	for _, k := range s.printLines() {
		l := &s.lines[k]
		if l.drop || l.blank {
			continue
		}
		if l.printed && len(l.Prints) == 1 && len(s.seg) > 0 && l.made != s.cl {
			s.merge(&l.Prints[0], &p.p, true)
			s.arrive(&p, ref{k, 0})
			hs = append(hs, ref{k, 0})
			continue
		}
		if len(l.Prints) > 0 && len(s.seg) == 0 && !s.newPrint || len(l.Prints) >= mostPrints {
			continue
		}
		if len(l.Prints) == 1 && !s.newPrint && onlyPlaced(&l.Prints[0]) { // "front only: 70 tees, black print 28 cm"
			s.merge(&l.Prints[0], &p.p, false)
			s.arrive(&p, ref{k, 0})
			hs = append(hs, ref{k, 0})
			continue
		}
		q := copyPrints(rules.List[rules.Print]{p.p})[0]
		if len(q.Inks) > 0 && !q.WidthMM.Known && !q.HeightMM.Known && len(q.Effects) == 0 && !s.newPrint && !s.amend { // "white print. Front 10 in, back 12 in"
			s.every = pending{p: rules.Print{Inks: q.Inks, InkCount: q.InkCount}, any: true}
			s.everyOn = append(s.everyOn, k)
		}
		l.Prints = append(l.Prints, q)
		l.printed = true
		hs = append(hs, ref{k, len(l.Prints) - 1})
		s.arrive(&p, hs[len(hs)-1])
	}
	if len(hs) > 0 {
		s.last = append(hs, s.flushed...)
	}
}
