package intake

import (
	"slices"

	"strikeoff/rules"
)

// place takes in a place: a print there, or the word that there is none.
func (s *scope) place(st sentence, f int) {
	x := &s.r.facts[f]
	if x.weak && !s.weakPlace(st, f) {
		return
	}
	if (x.s == "front" || x.s == "back" || x.s == "sleeve") && s.r.punct(int(x.i1), ':') && f+1 < st.f1 && s.r.facts[f+1].kind == fPlace && int(s.r.facts[f+1].i0) == int(x.i1)+1 {
		return // "Front: left chest": a heading
	}
	places := s.placesOf(st, f)
	if (x.s == "sleeve" || x.s == "leg") && !x.neg && s.sided(x.s) {
		return // "down the arm" says more of the sleeve print in focus
	}
	if !x.neg && !x.dead && slices.Contains(s.denied, places[0]) && !s.detailed(st, f) {
		return
	}
	if x.neg || x.dead {
		s.denied = append(s.denied, places...)
		for _, p := range places {
			s.unprint(p, x)
		}
		if x.s == "sleeve" {
			s.unprint("left-sleeve", x)
			s.unprint("right-sleeve", x)
		}
		return
	}
	if s.samePl && f > st.f0-1 && s.sameBefore(st, f) {
		s.copyPlace(st, places)
		s.touch(x)
		return
	}
	s.wide = s.wide || s.wideAfter(st, int(x.i1))
	s.aim(st, f)
	targets := s.printLines()
	joined := s.joins(st, f) // "front and back": both take what follows
	if !joined {
		s.sp = s.sp[:0]
	}
	s.touch(x)
	s.placed = true
	moved := x.fix && s.movedFrom(st, f)
	if s.amend && s.moves(st, f) {
		return
	}
	for _, k := range targets {
		for _, p := range places {
			h := s.printAt(k, p, moved)
			s.lines[k].printed = true
			if !slices.Contains(s.sp, h) {
				s.sp = append(s.sp, h)
			}
			if !slices.Contains(s.all, h) {
				s.all = append(s.all, h)
			}
			s.noted(f, h)
			if s.pend.any {
				s.merge(s.at(h), &s.pend.p, x.fix)
				s.arrive(&s.pend, h)
			} else if joined && s.before.any { // "white ink front and back"
				s.merge(s.at(h), &s.before.p, false)
				s.arrive(&s.before, h)
			}
		}
	}
	if s.pend.any || !joined {
		s.before = s.pend
	}
	s.pend = pending{}
	s.last = append(s.last[:0], s.sp...)
	s.describe(st, f)
	if s.sameInk {
		s.copyInks()
		s.sameInk = false
	}
}

// descWords are what prints are of, where it tells one print from another.
var descWords = map[int32]uint8{vocab.intern("number"): 1, vocab.intern("numbers"): 1, vocab.intern("name"): 2, vocab.intern("names"): 2, vocab.intern("numeros"): 1,
	vocab.intern("nombres"): 2, vocab.intern("logo"): 4, vocab.intern("logos"): 4, vocab.intern("crest"): 8, vocab.intern("crests"): 8, vocab.intern("flag"): 16, vocab.intern("flags"): 16}

// describe notes what the prints just placed are of, by the words of their clause.
func (s *scope) describe(st sentence, f int) {
	x := &s.r.facts[f]
	var what uint8
	for i := int(x.i0) - 1; i >= st.i0 && i > int(x.i0)-8; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && (it.ch == ',' || it.ch == ':') || it.sense(sPlace) != nil {
			break
		}
		what |= descWords[it.word]
	}
	for i := int(x.i1); i < st.i1 && i < int(x.i1)+6; i++ {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' || it.sense(sPlace) != nil || it.word == wAnd {
			break
		}
		what |= descWords[it.word]
	}
	if what == 0 {
		return
	}
	for _, h := range s.sp {
		s.desc = append(s.desc, described{h, what})
	}
}

// spokenOf are the prints that the subject of the clause of fact f means by what they are of: "numbers are heat transfer".
func (s *scope) spokenOf(st sentence, f int) []ref {
	if len(s.desc) == 0 {
		return nil
	}
	for _, k := range s.seg {
		if s.lines[k].made == s.cl {
			return nil
		}
	}
	var what uint8
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' {
			break
		}
		if it.sense(sPlace) != nil && !it.sense(sPlace).weak || it.sense(sGarment) != nil {
			return nil
		}
		what |= descWords[it.word]
	}
	if what == 0 {
		return nil
	}
	var out []ref
	for _, d := range s.desc {
		if d.what&what != 0 && d.line < len(s.lines) && d.print < len(s.lines[d.line].Prints) && !slices.Contains(s.all, d.ref) {
			out = append(out, d.ref)
		}
	}
	return out
}

// copyMethod gives the prints of the sentence the method of the prints before.
func (s *scope) copyMethod() {
	var m rules.Method
	for k := range s.lines {
		if slices.Contains(s.sl, k) {
			continue
		}
		for q := range s.lines[k].Prints {
			if w := s.lines[k].Prints[q].Method; w != "" {
				m = w
			}
		}
	}
	hs := s.all
	if len(hs) == 0 {
		hs = s.last
	}
	for _, h := range hs {
		if p := s.at(h); p.Method == "" {
			p.Method = m
		}
	}
}

// copyInks gives the prints in focus the inks of another print of their line.
func (s *scope) copyInks() {
	for _, h := range s.sp {
		p := s.at(h)
		if len(p.Inks) > 0 {
			continue
		}
		for q := range s.lines[h.line].Prints {
			if from := &s.lines[h.line].Prints[q]; q != h.print && len(from.Inks) > 0 {
				p.Inks = slices.Clone(from.Inks)
				if !p.InkCount.Known {
					p.InkCount = from.InkCount
				}
				break
			}
		}
	}
}

// moves reports whether the place in fact f is where the print in focus goes to: "put the front print on the left chest instead". It is moved then.
func (s *scope) moves(st sentence, f int) bool {
	if f == st.f0 || len(s.all) == 0 || s.r.facts[f-1].kind != fPlace {
		return false
	}
	word := false
	for i := st.i0; i < st.i1; i++ {
		switch w := s.r.at(i).word; {
		case w == 0:
		case w == wordMove, w == wordPut, w == wordInstead:
			word = true
		case w == wAnd && i > int(s.r.facts[f-1].i1) && i < int(s.r.facts[f].i0):
			return false
		}
	}
	if !word {
		return false
	}
	p := s.placesOf(st, f)[0]
	for _, h := range s.all {
		if s.printOn(h.line, p) != nil {
			return false
		}
	}
	for _, h := range s.all {
		s.at(h).Place = p
		s.noted(f, h)
	}
	s.sp = append(s.sp[:0], s.all...)
	s.last = append(s.last[:0], s.all...)
	return true
}

// aim makes the lines that a garment after the place names those that the print goes on: "full back gold on the hoodies only".
func (s *scope) aim(st sentence, f int) {
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		switch y.kind {
		case fPlace, fNumber, fSizes:
			return
		case fGarment:
		default:
			continue
		}
		i := int(y.i0) - 1
		for s.r.at(i).word == wThe || s.r.at(i).sense(sColour) != nil {
			i--
		}
		if !s.r.at(i).is(cOn) || y.neg || y.dead || s.same || s.samePl {
			return
		}
		var hit []int
		for q := range s.lines {
			if !s.lines[q].drop && string(s.lines[q].Garment) == y.s && s.colourMatches(st, k, q) {
				hit = append(hit, q)
			}
		}
		if len(hit) == 0 {
			return
		}
		s.seg, s.wide = append(s.seg[:0], hit...), false
		for _, q := range hit {
			if !slices.Contains(s.sl, q) {
				s.sl = append(s.sl, q)
			}
		}
		s.cur = append(s.cur[:0], hit...)
		y.done = true
		return
	}
}

// onlySide is the place of the one print on a sleeve (or leg) that stands, "" where there is none or there are several.
func (s *scope) onlySide(part string) rules.Place {
	var hit rules.Place
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			if p := s.lines[k].Prints[q].Place; (string(p) == "left-"+part || string(p) == "right-"+part) && p != hit {
				if hit != "" {
					return ""
				}
				hit = p
			}
		}
	}
	return hit
}

// sided reports whether a print on a sleeve (or leg) of a known side is in focus.
func (s *scope) sided(part string) bool {
	for _, h := range s.sp {
		if p := string(s.at(h).Place); p == "left-"+part || p == "right-"+part {
			return true
		}
	}
	return false
}

// detailed reports whether facts about a print follow the place in fact f.
func (s *scope) detailed(st sentence, f int) bool {
	if f+1 < st.f1 {
		switch s.r.facts[f+1].kind {
		case fInks, fDim, fColour, fMethod, fEffect:
			return int(s.r.facts[f+1].i0) <= int(s.r.facts[f].i1)+2
		}
	}
	return false
}

// placesOf are the places that fact f names.
func (s *scope) placesOf(st sentence, f int) []rules.Place {
	x := &s.r.facts[f]
	switch x.s {
	case "both-sleeves":
		return []rules.Place{"left-sleeve", "right-sleeve"}
	case "both-legs":
		return []rules.Place{"left-leg", "right-leg"}
	case "neck":
		for i := int(x.i0) - 3; i < int(x.i1)+5; i++ {
			if w := s.r.at(i).word; i >= st.i0 && i < st.i1 && (w == wordInside || w == wordDentro) {
				return []rules.Place{"inside-neck"}
			}
		}
		return []rules.Place{"nape"}
	case "sleeve", "leg":
		for i := int(x.i0) - 2; i < int(x.i1)+3; i++ { // "sleeve: right"
			if i < st.i0 || i >= st.i1 {
				continue
			}
			switch s.r.at(i).word {
			case wordLeft:
				return []rules.Place{rules.Place("left-" + x.s)}
			case wordRight:
				return []rules.Place{rules.Place("right-" + x.s)}
			}
		}
		if p := s.onlySide(x.s); p != "" {
			return []rules.Place{p}
		}
		return []rules.Place{""}
	}
	return []rules.Place{rules.Place(x.s)}
}

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
	if s.wide && len(s.lines) > 0 {
		var out []int
		for k := range s.lines {
			if !s.lines[k].drop && !s.lines[k].blank {
				out = append(out, k)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	if s.amend && len(s.all) == 0 && len(s.cur) <= 1 {
		var out []int
		for k := range s.lines {
			if !s.lines[k].drop && !s.lines[k].blank {
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
		if l.drop || l.blank {
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

// mostPrints is how many prints a garment may have.
const mostPrints = 24

// movedFrom reports whether a correction names another place that the print leaves: "the back, not the front".
func (s *scope) movedFrom(st sentence, f int) bool {
	for i := st.i0; i < st.i1; i++ { // "right chest, not left"
		if it := s.r.at(i); it.is(cInsteadOf) && it.kind == iPhrase {
			switch n := s.r.at(i + 1); {
			case n.kind > iPhrase:
			case s.r.text[n.start:n.end] == "left", s.r.text[n.start:n.end] == "right":
				return true
			}
		}
	}
	for k := st.f0; k < st.f1; k++ {
		x := &s.r.facts[k]
		if k == f || x.kind != fPlace || !x.neg && !x.dead {
			continue
		}
		for q := range s.lines {
			for _, p := range s.lines[q].Prints {
				if string(p.Place) == x.s {
					return true
				}
			}
		}
	}
	return false
}

// joins reports whether the place in fact f is named in one breath with the place before it, so that what follows is said of both.
func (s *scope) joins(st sentence, f int) bool {
	if f == st.f0 || len(s.sp) == 0 {
		return false
	}
	p := &s.r.facts[f-1]
	if p.kind != fPlace || p.neg {
		return false
	}
	for i := int(p.i1); i < int(s.r.facts[f].i0); i++ {
		it := s.r.at(i)
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+' || it.ch == '/' || it.ch == ',') || it.word == wAnd || it.word == wY || it.word == wThe || it.word == wEl || it.is(cOn) || it.word == wordPrint && s.r.at(i-1).kind != iPunct {
			continue
		}
		return false
	}
	// what was given to the place before belongs to it alone
	return true
}

// unprint takes the print at a place off the lines spoken of.
func (s *scope) unprint(p rules.Place, x *fact) {
	lines := s.seg
	if len(lines) == 0 && !s.amend { // the lines spoken of last, if they have such a print or nothing is taken back
		for _, k := range s.cur {
			for q := range s.lines[k].Prints {
				if s.lines[k].Prints[q].Place == p {
					lines = s.cur
				}
			}
		}
		if len(lines) == 0 && !x.fix && s.alive() > 1 {
			return
		}
	}
	if len(lines) == 0 {
		lines = lines[:0:0]
		for k := range s.lines {
			lines = append(lines, k)
		}
	}
	moving := x.dead || x.fix && s.replacedPlace(x)
	if moving {
		return
	}
	for _, k := range lines {
		l := &s.lines[k]
		for q := len(l.Prints) - 1; q >= 0; q-- {
			if l.Prints[q].Place != p {
				continue
			}
			l.Prints = slices.Delete(l.Prints, q, q+1)
			fix := func(hs []ref) []ref {
				out := hs[:0]
				for _, h := range hs {
					if h.line == k && h.print == q {
						continue
					}
					if h.line == k && h.print > q {
						h.print--
					}
					out = append(out, h)
				}
				return out
			}
			s.last, s.sp, s.all, s.spoke = fix(s.last), fix(s.sp), fix(s.all), fix(s.spoke)
		}
	}
}

// replacedPlace reports whether another place in the sentence of x takes its print over.
func (s *scope) replacedPlace(x *fact) bool {
	k := int(x.id)
	for q := k - 1; q >= 0 && q > k-4; q-- {
		y := &s.r.facts[q]
		if y.kind == fPlace && !y.neg && !y.dead && y.fix && int(x.i0)-int(y.i1) < 6 {
			return true
		}
	}
	return false
}

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
	if x.weak && !s.pairPlace(st, f) || x.neg {
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

// sameBefore reports whether "same" stands before the place in fact f: "same back as the tees".
func (s *scope) sameBefore(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0 && i > int(s.r.facts[f].i0)-5; i-- {
		if s.r.at(i).is(cSame) {
			return true
		}
		if it := s.r.at(i); it.kind == iPunct && it.ch == ',' || it.sense(sPlace) != nil {
			return false
		}
	}
	return false
}

// sources are the lines that "same" points at: those named after "as", else the ones before the lines spoken of.
func (s *scope) sources(st sentence) []int {
	if len(s.as) > 0 {
		return s.as
	}
	for i := st.i0; i < st.i1; i++ { // "as the tees" further on
		if !s.r.at(i).is(cAs) {
			continue
		}
		for k := i + 1; k < i+4; k++ {
			if g := s.r.at(k).sense(sGarment); g != nil {
				var out []int
				for q := range s.lines {
					if string(s.lines[q].Garment) == g.val && !s.lines[q].drop {
						out = append(out, q)
					}
				}
				if len(out) > 0 {
					return out
				}
			}
		}
	}
	first := len(s.lines)
	targets := s.seg
	if len(targets) == 0 {
		targets = s.sl
	}
	for _, k := range targets {
		first = min(first, k)
	}
	for k := first - 1; k >= 0; k-- {
		if len(s.lines[k].Prints) > 0 && !s.lines[k].drop {
			return []int{k}
		}
	}
	for k := range s.lines {
		if len(s.lines[k].Prints) > 0 && !s.lines[k].drop && !slices.Contains(s.sl, k) {
			return []int{k}
		}
	}
	return nil
}

// copyPlace gives the lines spoken of the print that another line has at these places.
func (s *scope) copyPlace(st sentence, places []rules.Place) {
	src := s.sources(st)
	targets := s.printLines()
	s.sp = s.sp[:0]
	for _, p := range places {
		var from *rules.Print
		for _, k := range src {
			for q := range s.lines[k].Prints {
				if s.lines[k].Prints[q].Place == p && from == nil {
					from = &s.lines[k].Prints[q]
				}
			}
		}
		for _, k := range targets {
			if slices.Contains(src, k) {
				continue
			}
			var keep rules.Print
			if from != nil {
				keep = copyPrints(rules.List[rules.Print]{*from})[0]
			}
			h := s.printAt(k, p, false)
			s.lines[k].printed = true
			if from != nil {
				pl := s.at(h)
				s.merge(pl, &keep, false)
				s.copied = true
			}
			s.noted(s.factAt(st, p), h)
			if s.pend.any {
				s.merge(s.at(h), &s.pend.p, true)
				s.arrive(&s.pend, h)
			}
			s.sp, s.all = append(s.sp, h), append(s.all, h)
		}
	}
	s.pend = pending{}
	s.last = append(s.last[:0], s.sp...)
}

// factAt is the fact that names a place in the sentence.
func (s *scope) factAt(st sentence, p rules.Place) int {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fPlace && x.s == string(p) {
			return k
		}
	}
	return st.f0
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
	}
}

// end closes a sentence: what is the same is copied, and print facts that found no place get a print of their own or go to the one before.
func (s *scope) end(st sentence) {
	s.npLine = -1
	if s.sameSize {
		s.copySizes(st)
	}
	if s.same {
		s.copyAll(st)
	}
	if s.sameInk {
		s.copyInks()
	}
	if s.sameWay {
		s.copyMethod()
	}
	if s.common.any {
		hs := s.all
		if len(hs) == 0 {
			hs = s.spoke
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
		s.spoke = append(s.spoke[:0], s.all...)
	}
	if !s.pend.any && !(s.newPrint && len(s.all) == 0 && !s.amend) {
		return
	}
	p := s.pend
	s.pend = pending{}
	if !p.sub && !s.newPrint && len(s.seg) == 0 && len(s.last) > 0 {
		for _, h := range s.last {
			if q := s.at(h); len(q.Inks) == 0 {
				q.Inks = slices.Clone(p.p.Inks)
				s.arrive(&p, h)
			}
		}
		return
	}
	if len(s.all) > 0 {
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
		q := copyPrints(rules.List[rules.Print]{p.p})[0]
		l.Prints = append(l.Prints, q)
		l.printed = true
		hs = append(hs, ref{k, len(l.Prints) - 1})
		s.arrive(&p, hs[len(hs)-1])
	}
	if len(hs) > 0 {
		s.last = append(hs, s.flushed...)
	}
}

// copyAll gives the lines spoken of the prints of the lines they are said to be the same as.
func (s *scope) copyAll(st sentence) {
	src := s.sources(st)
	if len(src) == 0 {
		return
	}
	// "same again on the back": the print before, at another place of the same lines
	if len(s.sl) == 0 && len(s.all) > 0 {
		for _, h := range s.all {
			l := &s.lines[h.line]
			if h.print > 0 {
				prev := l.Prints[h.print-1]
				s.inherit(s.at(h), &prev)
			}
		}
		return
	}
	var hs []ref
	for _, k := range s.sl {
		if slices.Contains(src, k) || s.lines[k].drop {
			continue
		}
		l := &s.lines[k]
		if len(s.lines[src[0]].Prints) == 1 && len(s.all) == 1 && s.all[0].line == k && !s.addedAfter(s.sameItem) && s.at(s.all[0]).Place != s.lines[src[0]].Prints[0].Place {
			from := s.lines[src[0]].Prints[0] // "same print but on the front"
			s.inherit(s.at(s.all[0]), &from)
			continue
		}
		for _, p := range copyPrints(s.lines[src[0]].Prints) {
			have := -1
			for q := range l.Prints {
				if l.Prints[q].Place == p.Place {
					have = q
				}
			}
			if have >= 0 {
				s.inherit(&l.Prints[have], &p)
				continue
			}
			l.Prints = append(l.Prints, p)
			hs = append(hs, ref{k, len(l.Prints) - 1})
			if s.pend.any {
				s.merge(&l.Prints[len(l.Prints)-1], &s.pend.p, true)
			}
		}
		l.printed = true
		if l.method == "" {
			l.method = s.lines[src[0]].method
		}
	}
	if len(hs) > 0 {
		s.pend = pending{}
		s.last = hs
	}
}

// addedAfter reports whether "plus", "also" or the like stands in the sentence after item i.
func (s *scope) addedAfter(i int) bool {
	for k := i + 1; k < len(s.r.items) && k < i+12; k++ {
		it := s.r.at(k)
		if it.kind == iBreak || it.kind == iPart || s.r.punct(k, '.') {
			return false
		}
		if it.is(cAdd) && it.kind == iPhrase && it.word != wAnd || it.kind == iPunct && it.ch == '+' {
			return true
		}
	}
	return false
}

// inherit fills what a print lacks from another.
func (s *scope) inherit(p, from *rules.Print) {
	if !p.WidthMM.Known && !p.HeightMM.Known {
		p.WidthMM, p.HeightMM = from.WidthMM, from.HeightMM
	}
	if len(p.Inks) == 0 {
		p.Inks = slices.Clone(from.Inks)
		if !p.InkCount.Known {
			p.InkCount = from.InkCount
		}
	}
	if p.Method == "" {
		p.Method = from.Method
	}
	p.FullColour = p.FullColour || from.FullColour
	if len(p.Effects) == 0 {
		p.Effects = slices.Clone(from.Effects)
	}
}

// copySizes gives the lines spoken of the size run of the line before.
func (s *scope) copySizes(st sentence) {
	for _, k := range s.sl {
		if len(s.lines[k].Sizes) > 0 {
			continue
		}
		for q := k - 1; q >= 0; q-- {
			if len(s.lines[q].Sizes) == 0 {
				continue
			}
			m := make(rules.Sizes, len(s.lines[q].Sizes))
			for z, n := range s.lines[q].Sizes {
				m[z] = n
			}
			if t := s.lines[k].Quantity; !t.Known || t.Value == m.Total() {
				s.lines[k].Sizes = m
			}
			break
		}
	}
}
