package intake

// determiners lead to the thing that a print shows: "a red fox", "our black sheep".
var determiners = internAll("a", "an", "the", "our", "my", "his", "her", "their", "your", "its", "this", "that", "small", "little", "big", "large", "tiny", "huge", "un", "una", "nuestro", "nuestra")

// fruits are colours that are things as well, besides those that the word files call weak.
var fruits = internAll("orange", "olive", "lime", "coral", "violet", "lavender", "lilac", "gold", "silver")

// artwork lets go of colours that say what a print shows and not what it is printed in: the fox of "a red fox in one colour, black", the sunflower
// on the front, the Gold Rush logo.
func (s *scope) artwork(st sentence) {
	for f := st.f0; f < st.f1; f++ {
		x := &s.r.facts[f]
		if x.kind != fColour || x.swatch || x.dead || x.neg || s.wearsColour(x.s) && x.weak {
			continue
		}
		if s.motif(st, f) {
			x.dead = true
		}
	}
}

// pictures are kinds of image: a thing named before one is what it shows.
var pictures = internAll("photo", "photos", "photograph", "picture", "painting", "pic", "snapshot", "watercolour", "watercolor", "scene", "foto")

// underWords are coats that lie under a print's inks.
var underWords = internAll("underbase", "underlay", "base", "underprint", "undercoat", "backing", "flash")

// ideaWords are what no colour is the look of: "with the whole green story".
var ideaWords = internAll("story", "energy", "policy", "initiative", "credentials", "lifestyle", "movement", "idea", "thinking", "promise", "values", "mission", "agenda", "pledge")

// showsIn lead to a colour that something has or takes on by itself: "the team across town wears gold", "the mustard goes grey".
var showsIn = internAll("wears", "turns", "turned", "goes", "went")

// visible are words of what can be seen on a ground.
var visible = internAll("up", "out", "show", "shows", "seen", "visible", "readable", "pop", "pops", "works", "work")

// tooMuch reports whether "too" and a word follow at item i, or after "is": "is too stark".
func (r *reader) tooMuch(i int) bool {
	if w := r.at(i).word; w == wIs || w != 0 && vocab.names[w] == "s" {
		i++
	}
	n := r.at(i + 1)
	return r.at(i).word == wordToo && (n.kind == iWord || n.kind == iPhrase && n.ntok == 1 && !n.is(cBut) && !n.is(cOn) && !n.is(cWith) && !n.is(cAdd) && !n.is(cAs))
}

// fullAfter reports whether the print is said to be in full colour further on in the sentence, before another place.
func (s *scope) fullAfter(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		switch x := &s.r.facts[k]; x.kind {
		case fFull:
			return !x.neg && !x.dead
		case fPlace, fGarment, fNumber:
			return false
		}
	}
	return false
}

// motif reports whether the colour in fact f is part of what a print shows.
func (s *scope) motif(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	i, j := int(x.i0), int(x.i1)
	p, n := r.at(i-1), r.at(j)
	led := determiners[p.word]
	if p.is(cOn) && r.speaks(r.at(i-2), visible) || r.tooMuch(j) { // "any ink that shows up on grey", "white's too stark"
		return true
	}
	if led && f > st.f0 && r.at(i-2).word == wOf && r.facts[f-1].kind == fFull && int(r.facts[f-1].i1) == i-2 { // a photo of the red barn
		return true
	}
	if x.weak && led && n.is(cPrintWord) && n.ntok == 1 && s.inkedLater(st, f) { // our wheat logo
		return true
	}
	if underWords[n.word] || ideaWords[n.word] || showsIn[p.word] {
		return true
	}
	if led && n.kind <= iPhrase && !n.is(cInkWord) && !n.is(cPrintWord) && s.fullAfter(st, f) { // "a red barn under a blue sky, full colour"
		return true
	}
	if r.at(i-2).word == wIn || r.at(i-2).is(cColourWord) || r.at(i-2).is(cInkWord) || p.is(cSame) {
		return false
	}
	if led && r.at(i).upper && n.upper && thing(n) && n.kind <= iPhrase { // the Gold Rush logo
		for k := f + 1; k < st.f1 && int(r.facts[k].i0) == j; k++ {
			r.facts[k].dead = true
		}
		return true
	}
	listed := r.at(i-2).sense(sColour) != nil || r.punct(i-2, ':') || r.punct(i-2, '-') || r.punct(i-2, '(')                          // "3 colors: cream red mustard"
	if x.weak && (p.sense(sColour) != nil && !listed || p.is(cFull)) && n.sense(sGarment) == nil && !n.is(cInkWord) && !n.is(cOnes) { // a grey moon
		return true
	}
	if x.weak && (led && n.is(cFull) || p.word == wOf && !r.at(i-2).is(cColourWord)) { // the sunset photo, three ears of wheat
		return true
	}
	if x.weak && led && f > st.f0 && r.facts[f-1].kind == fFull { // in full colour, off the bottle label
		return true
	}
	noun := x.weak || fruits[r.at(i).word]
	if noun && (pictures[n.word] || n.kind == iWord && pictures[r.at(j+1).word]) { // the sunset photo, our lavender field picture
		return true
	}
	switch {
	case noun && (n.is(cOn) && r.placeSoon(j+1) || n.sense(sPlace) != nil) && (led || i == st.i0 || p.kind == iPunct): // a rose on the left chest
		return led && x.weak || (led || s.colourLater(st, f)) && s.inkedLater(st, f) // not "gold on the left chest, one colour"
	case noun && led && x.weak && n.sense(sSize) != nil: // the sunflower small on the left chest
		return true
	case noun && p.word == wOf && p.word != 0: // three ears of wheat
		return s.inkedLater(st, f)
	case noun && led && n.word == wIn:
		return s.inkedLater(st, f)
	case led && n.kind <= iPhrase && thing(n) || noun && led && n.kind == iPunct:
		return s.inkedLater(st, f)
	}
	return false
}

// colourLater reports whether the sentence names a colour after fact f.
func (s *scope) colourLater(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		if y := &s.r.facts[k]; y.kind == fColour && !y.dead && !y.neg {
			return true
		}
	}
	return false
}

// thing reports whether an item can name what a print shows.
func thing(it *item) bool {
	if it.kind == iWord {
		return true
	}
	return it.kind == iPhrase && it.sense(sColour) == nil && it.sense(sGarment) == nil && it.sense(sPlace) == nil && it.sense(sFabric) == nil && it.sense(sFibre) == nil &&
		it.sense(sMethod) == nil && it.sense(sEffect) == nil && it.sense(sSize) == nil && !it.is(cInkWord) && !it.is(cPrintWord) && !it.is(cColourWord) && !it.is(cOn) &&
		!it.is(cWith) && !it.is(cOnes) && !it.is(cHeather) && !it.is(cAdult) && !it.is(cYouth) && !it.is(cGarmentWord) && !it.is(cFix) && !it.is(cAdd) && !it.is(cWant) &&
		!it.is(cPcs) && !it.is(cOnly) && !it.is(cAll) && !it.is(cEach) && !it.is(cTo) && !it.is(cInsteadOf)
}

// inkedLater reports whether the print that the colour in fact f speaks of is given its inks outright further on, before the next place.
func (s *scope) inkedLater(st sentence, f int) bool {
	r := s.r
	placed := f > st.f0 && r.facts[f-1].kind == fPlace && !s.cutBetween(int(r.facts[f-1].i1), int(r.facts[f].i0))
	for k := f + 1; k < st.f1; k++ {
		y := &r.facts[k]
		switch y.kind {
		case fInks:
			return true
		case fPlace:
			if placed {
				return false
			}
			placed = !y.neg && !y.dead
		case fGarment, fSizes:
			return false
		case fNumber:
			if y.sure >= 2 {
				return false
			}
		case fColour:
			p, n := r.at(int(y.i0)-1), r.at(int(y.i1))
			if placed && n.sense(sPlace) != nil { // "cream front, cream hood"
				return false
			}
			if p.word == wIn || p.kind == iPunct && p.ch != '/' && p.ch != '&' || p.is(cInkWord) || n.is(cInkWord) {
				return !determiners[p.word]
			}
			if p.sense(sColour) != nil {
				return false
			}
		}
	}
	return false
}
