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
	if s.heading(st, f) || s.compared(f) {
		return
	}
	if s.onlyBack(st, f) || s.narrowed(st, f) {
		return
	}
	s.sideOf(st, f)
	places := s.placesOf(st, f)
	if (x.s == "sleeve" || x.s == "leg") && !x.neg && s.sided(x.s) {
		return // "down the arm" says more of the sleeve print in focus
	}
	if !x.neg && !x.dead && slices.Contains(s.denied, places[0]) && !s.detailed(st, f) {
		return
	}
	if !x.neg && !x.dead && slices.Contains(s.never, places[0]) && !s.detailed(st, f) && s.r.tellsWish(st) { // "no back. The pastor wanted a verse there"
		return
	}
	if x.neg || x.dead {
		if x.neg && !s.amend {
			s.never = append(s.never, places...)
		}
		s.denied = append(s.denied, places...)
		if s.pend.any && !s.cutBetween(int(s.r.facts[s.pend.facts[0]].i0), int(x.i0)) { // what it would have been
			s.pend = pending{}
		}
		seg := s.seg
		if named := s.ofGarment(st, f); len(named) > 0 {
			s.seg = named
		}
		if places[0] == "" { // "no sleeves"
			places = []rules.Place{rules.Place("left-" + x.s), rules.Place("right-" + x.s)}
			for _, h := range s.all {
				if s.at(h).Place == "" { // of this very sentence: "on the sleeve they wanted something, so without sleeve"
					places = append(places, "")
					break
				}
			}
		}
		for _, p := range places {
			s.unprint(p, x)
		}
		s.seg = seg
		return
	}
	if s.samePl && f > st.f0-1 && s.sameBefore(st, f) {
		s.copyPlace(st, places)
		s.touch(x)
		return
	}
	if s.finer(st, f, places[0]) {
		return
	}
	s.wide = s.wide || s.wideAfter(st, int(x.i1))
	s.aim(st, f)
	targets := s.printLines()
	joined := s.joins(st, f) && !s.copied // "front and back": both take what follows
	s.copied = false
	if !joined {
		s.sp = s.sp[:0]
	}
	s.touch(x)
	s.placed = true
	moved := x.fix && (s.movedFrom(st, f) || s.relocates(st, f)) || s.corrects(st, f)
	if (s.amend || x.fix) && s.moves(st, f) {
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
			if s.pend.any && len(s.pend.p.Inks) > 0 && !s.lead.any && len(s.all) == len(s.sp) {
				s.lead = s.pend
			}
			if !s.pend.any && s.lead.any && len(s.at(h).Inks) == 0 && s.afterAnd(f) {
				s.led = append(s.led, h)
			}
			if s.pend.any {
				s.merge(s.at(h), &s.pend.p, x.fix)
				s.arrive(&s.pend, h)
			} else if joined && s.before.any { // "white ink front and back"
				s.merge(s.at(h), &s.before.p, false)
				s.arrive(&s.before, h)
			}
		}
	}
	for _, h := range s.flushed { // said of the lines before as well, whose prints had no place yet
		if q := s.at(h); q.Place == "" && len(places) == 1 && h.print < len(s.lines[h.line].Prints) {
			q.Place = places[0]
			s.sp, s.all = append(s.sp, h), append(s.all, h)
			s.noted(f, h)
		}
	}
	if s.pend.any || !joined {
		s.before = s.pend
	}
	s.pend = pending{}
	s.soleLeft(st, f, places)
	s.last = append(s.last[:0], s.sp...)
	s.describe(st, f)
	if s.sameInk {
		s.copyInks()
		s.sameInk = false
	}
}

var wordChest = vocab.intern("chest")

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
	case "both-sides":
		return []rules.Place{"front", "back"}
	case "front":
		if x.weak || s.amend && s.r.toks[s.r.at(int(x.i0)).tok].word == wordChest { // "flock on the chest": the chest print that stands
			if p := s.onlySide("chest"); p != "" {
				return []rules.Place{p}
			}
		}
		return []rules.Place{"front"}
	case "both-legs":
		return []rules.Place{"left-leg", "right-leg"}
	case "neck":
		for i := int(x.i0) - 3; i < int(x.i1)+5; i++ {
			in := s.r.at(i).sense(sPlace) // "Neck: inside tag"
			if w := s.r.at(i).word; i >= st.i0 && i < st.i1 && (w == wordInside || w == wordDentro || in != nil && in.val == "inside-neck") {
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
			if i >= int(x.i1) && s.r.at(i).is(cBoth) && s.r.punct(i-1, '(') { // "sleeves (both)"
				return []rules.Place{rules.Place("left-" + x.s), rules.Place("right-" + x.s)}
			}
		}
		if p := s.onlySide(x.s); p != "" {
			return []rules.Place{p}
		}
		return []rules.Place{""}
	}
	return []rules.Place{rules.Place(x.s)}
}

// narrowed reports whether the place in fact f only says on which side of the garment the next one is: "in front small: left chest 8 cm".
func (s *scope) narrowed(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if x.s != "front" || x.neg || x.dead {
		return false
	}
	for k := f + 1; k < st.f1; k++ {
		y := &r.facts[k]
		if y.kind == fSizes && int(y.i0) > int(x.i1)+3 || y.kind != fSizes && y.kind != fPlace {
			return false
		}
		if y.kind == fSizes {
			continue
		}
		if y.s != "left-chest" && y.s != "right-chest" || y.neg || y.dead || k+1 < st.f1 && r.facts[k+1].kind == fPlace && s.afterAnd(k+1) {
			return false
		}
		for i := int(x.i1); i < int(y.i0); i++ {
			switch it := r.at(i); {
			case it.kind == iPunct && (it.ch == ',' || it.ch == ':' || it.ch == '(' || it.ch == '-'):
			case it.kind != iPunct && (it.word == wThe || it.word == wA || it.is(cOn) || it.word == wIn || it.is(cPrintWord) || it.sense(sSize) != nil):
			default:
				return false
			}
		}
		return true
	}
	return false
}
