package intake

import "strikeoff/rules"

// heading reports whether the place in fact f only leads to one that says it finer: "Front: left chest", "the front is left chest only".
func (s *scope) heading(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.s != "front" && x.s != "back" && x.s != "sleeve" || f+1 >= st.f1 || x.neg || x.dead {
		return false
	}
	y := &s.r.facts[f+1]
	if y.kind != fPlace || y.neg || y.dead || y.weak || int(y.i0) > int(x.i1)+6 {
		return false
	}
	if y.i0 == x.i1 { // "front LC"
		return x.s == "front" && (y.s == "left-chest" || y.s == "right-chest") || x.s == "back" && y.s == "nape"
	}
	if s.r.at(int(y.i0)-1).is(cOn) && s.r.at(int(x.i0)-1).is(cOn) || s.r.at(int(x.i0)-1).word == wIn { // "in front only a small text on left chest"
		return !s.cutBetween(int(x.i1), int(y.i0))
	}
	led := (int(y.i0) == int(x.i1) || s.r.punct(int(x.i1), '(') && int(y.i0) == int(x.i1)+1) && partOfPlace(x.s, y.s) // "front LC", "back (yoke)"
	if led {
		return true
	}
	for i := int(x.i1); i < int(y.i0); i++ {
		it := s.r.at(i)
		switch {
		case it.kind == iPunct && (it.ch == ':' || it.ch == '=') || it.word == wIs:
			led = true
		case it.word == wThe, it.word == wA, it.is(cOnly), it.is(cOn), it.is(cPrintWord), it.sense(sSize) != nil && it.end-it.start > 3:
		default:
			return false
		}
	}
	return led
}

// ofGarment are the lines that a place in fact f which is not wanted is said of: "no back on the jackets", "nothing on the back of the polos".
func (s *scope) ofGarment(st sentence, f int) []int {
	r := s.r
	i := int(r.facts[f].i1)
	if o := r.at(i); f+1 >= st.f1 || !o.is(cOn) && o.word != wOf {
		return nil
	}
	for i++; r.at(i).word == wThe || r.at(i).is(cPrintWord); i++ {
	}
	g, colour := f+1, ""
	if r.facts[g].kind == fColour && g+1 < st.f1 {
		colour = r.facts[g].s
		i = int(r.facts[g].i1)
		g++
	}
	if r.facts[g].kind != fGarment || int(r.facts[g].i0) != i {
		return nil
	}
	var hit []int
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && string(l.Garment) == r.facts[g].s && (colour == "" || hasColour(l.Colours, colour)) {
			hit = append(hit, k)
		}
	}
	if len(hit) > 0 {
		for k := f + 1; k <= g; k++ {
			r.facts[k].done = true
		}
	}
	return hit
}

// namesOf reports whether the people at item i are only what a print shows: "the names of the pupils".
func (r *reader) namesOf(i int) bool {
	for i--; determiners[r.at(i).word] || r.at(i).is(cAll); i-- {
	}
	return r.at(i).word != 0 && r.at(i).word == wOf && (r.at(i-1).is(cPrintWord) || r.at(i-1).word == wordName)
}

var wordName = vocab.intern("names")

// onlyBack reports whether the "back" in fact f says no more than where the place before it lies: "under the collar at the back".
func (s *scope) onlyBack(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.s != "back" || x.neg || f == st.f0 {
		return false
	}
	y := &s.r.facts[f-1]
	if y.kind != fPlace || y.neg || y.dead || y.s != "nape" && y.s != "inside-neck" && y.s != "hood" && y.s != "neck" && y.s != "hem" {
		return false
	}
	i := int(y.i1)
	for ; i < int(x.i0); i++ {
		if it := s.r.at(i); !it.is(cOn) && it.word != wThe && it.word != wIn {
			return false
		}
	}
	return i > int(y.i1)
}

// soleLeft takes every other print off the lines where a correction leaves only the one in fact f: "sorry, right leg only".
func (s *scope) soleLeft(st sentence, f int, places []rules.Place) {
	x := &s.r.facts[f]
	if !x.fix || s.added || !s.r.at(int(x.i1)).is(cOnly) && !s.r.at(int(x.i0)-1).is(cOnly) || len(places) != 1 {
		return
	}
	for k := st.f0; k < st.f1; k++ {
		if y := &s.r.facts[k]; k != f && (y.kind == fPlace || y.kind == fNumber || y.kind == fGarment) && !y.neg && !y.dead {
			return
		}
	}
	for _, h := range s.sp {
		for q := len(s.lines[h.line].Prints) - 1; q >= 0; q-- {
			if p := s.lines[h.line].Prints[q].Place; p != places[0] {
				seg := s.seg
				s.seg = []int{h.line}
				s.unprint(p, &fact{kind: fPlace, neg: true})
				s.seg = seg
			}
		}
	}
}

// compared reports whether the place in fact f is only what another print is like: "same ink as the front".
func (s *scope) compared(f int) bool {
	if !s.sameInk && !s.same || len(s.sp) == 0 {
		return false
	}
	i := int(s.r.facts[f].i0) - 1
	if w := s.r.at(i).word; w == wThe || w != 0 && w == wordOn {
		i--
	}
	it := s.r.at(i)
	return (it.is(cAs) || it.is(cSame) && i != s.sameItem) && it.kind == iPhrase
}

// sideOf reads "on the front, left side" as the left chest.
func (s *scope) sideOf(st sentence, f int) {
	x := &s.r.facts[f]
	if x.s != "front" || f+1 >= st.f1 {
		return
	}
	y := &s.r.facts[f+1]
	if y.kind != fPlace || y.s != "side" || int(y.i0) > int(x.i1)+3 {
		return
	}
	for i := int(x.i1); i < int(y.i0); i++ {
		if it := s.r.at(i); !(it.kind == iPunct && it.ch == ',' || it.is(cOn) || it.word == wThe) {
			return
		}
	}
	switch s.r.toks[s.r.items[y.i0].tok].word {
	case wordLeft:
		x.s = "left-chest"
	case wordRight:
		x.s = "right-chest"
	default:
		return
	}
	y.done = true
}

// partOfPlace reports whether a place lies within a larger one.
func partOfPlace(whole, part string) bool {
	switch part {
	case "left-chest", "right-chest", "pocket":
		return whole == "front"
	case "nape", "neck":
		return whole == "back"
	case "left-sleeve", "right-sleeve":
		return whole == "sleeve"
	}
	return false
}

// finer moves the front print of the sentence to the side of the chest on which the clause that describes it puts it: "front: 1 col, forest, 9 cm wide on
// the left chest". It reports whether it did.
func (s *scope) finer(st sentence, f int, p rules.Place) bool {
	r := s.r
	x := &r.facts[f]
	if p != "left-chest" && p != "right-chest" || f == st.f0 || len(s.sp) == 0 || s.detailed(st, f) {
		return false
	}
	i := int(x.i0) - 1
	if r.at(i).word == wThe {
		i--
	}
	y := &r.facts[f-1]
	if !r.at(i).is(cOn) || int(y.i1) != i || y.kind != fDim && y.kind != fColour && y.kind != fInks {
		return false
	}
	for _, h := range s.sp {
		if s.at(h).Place != "front" || s.printOn(h.line, p) != nil {
			return false
		}
	}
	for _, h := range s.sp {
		s.at(h).Place = p
		s.noted(f, h)
	}
	s.last = append(s.last[:0], s.sp...)
	return true
}
