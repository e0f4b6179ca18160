package intake

// nearby lead to where somebody is, and never to what is printed: "the pub by the green".
var nearby = internAll("by", "near", "beside", "behind", "opposite", "off", "facing", "overlooking", "around", "past", "from", "across", "to", "at")

// grounds stand before a green that is grass: "the village green".
var grounds = internAll("village", "bowling", "bowls", "town", "putting", "college", "church", "school", "parish", "common", "playing")

// lawn reports whether the colour word at item i is a stretch of grass: "they play on the village green", "the Ferret (pub on the green)".
func (r *reader) lawn(i int) bool {
	switch r.wordAt(i) {
	case "green", "greens":
	default:
		return false
	}
	n := r.at(i + 1)
	if n.kind <= iPhrase && (len(vocab.nodes[n.node].senses) > 0 || n.is(cOnes) || n.is(cInkWord) || n.is(cPrintWord)) {
		return false
	}
	p := r.at(i - 1)
	if p.word != 0 && grounds[p.word] {
		return true
	}
	if !r.theBefore(i) {
		return false
	}
	k := i - 1
	if p.word == wThe {
		k--
	}
	at := r.at(k)
	if p.word != wThe && p.ntok > 1 || at.word != 0 && nearby[at.word] { // "across from the", "by the"
		return !at.is(cFrom) || at.word == wFrom
	}
	q := r.at(k - 1)
	return at.word == wOn && (q.kind == iWord || q.is(cSport) || q.is(cOccasion) || r.punct(k-1, ',') && n.word != 0 && (nearby[n.word] || n.word == wIn)) && !q.is(cInkWord) && !q.is(cPrintWord) && r.onlyLawn(i)
}

// onlyLawn reports whether no other word green stands in the message before item i, so that "the green" points at no garment.
func (r *reader) onlyLawn(i int) bool {
	for f := range r.facts {
		if x := &r.facts[f]; x.kind == fColour && hasColour([]string{x.s}, "green") {
			return false
		}
	}
	return true
}

// addressed reports whether the colour at item i paints where the goods are to go: "deliver to the white house with the red gate".
func (r *reader) addressed(i int) bool {
	if n := r.at(i + 1); n.kind > iPhrase || len(vocab.nodes[n.node].senses) > 0 || n.is(cOnes) || n.is(cPrintWord) || n.is(cInkWord) || n.is(cGarmentWord) {
		return false
	}
	k := i - 1
	for ; k >= 0 && k > i-14; k-- {
		it := r.at(k)
		if it.kind >= iBreak || it.kind == iPunct && it.ch != ',' && it.ch != '\'' && it.ch != '-' || it.sense(sGarment) != nil || it.sense(sPlace) != nil || it.is(cPrintWord) || it.kind == iNum {
			break
		}
	}
	for k++; k < i && (r.at(k).is(cGreet) || r.at(k).is(cOrderVerb)); k++ {
	}
	it := r.at(k)
	return k < i && it.ntok > 0 && senders[r.toks[it.tok].word]
}

// senders begin a sentence on where goods are to go.
var senders = internAll("deliver", "delivery", "drop", "bring", "leave", "collect", "send", "ship", "pickup", "pick")

// thing reports whether the word in fact f, which is a colour and a thing, is the thing: "our cafe has a stone floor and pine tables".
func (s *scope) thing(f int) bool {
	x := &s.r.facts[f]
	if !x.weak || s.listed(f) {
		return false
	}
	p, n := s.r.at(int(x.i0)-1), s.r.at(int(x.i1))
	if n.is(cInkWord) || n.is(cPrintWord) || n.is(cOnes) || n.is(cHeather) || n.sense(sGarment) != nil || n.sense(sColour) != nil || n.sense(sPlace) != nil {
		return false
	}
	if p.word != 0 && determiners[p.word] && p.word != wThe && p.word != wA {
		return true
	}
	if s.r.at(int(x.i1)+1).is(cOn) && s.r.placeSoon(int(x.i1)+2) { // "a bone moth on the hood"
		return false
	}
	return n.kind == iWord && n.ntok == 1 && !n.upper && (p.word == wA || p.word == wThe || p.kind == iWord && p.word != wIn || p.word == wAnd) && n.word != wOn && n.word != wIs && n.word != wAnd
}
