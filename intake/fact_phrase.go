package intake

func weakFull(w string) bool {
	switch w {
	case "photo", "photos", "foto", "fotos", "painting", "gradient", "gradients", "photograph":
		return true
	}
	return false
}

// parseWords emits what a phrase means by itself. A phrase can mean several things: scrubs are a garment and say who wears them.
func (r *reader) parseWords(i int) int {
	it := &r.items[i]
	if it.typo && it.upper && r.at(i+1).is(cHere) { // "Marva here for the Grange" is no mauve
		return i + 1
	}
	part := it.sense(sGarment) != nil && it.sense(sPlace) != nil && r.partOf(i)
	for _, s := range vocab.nodes[it.node].senses {
		f := fact{s: s.val, weak: s.weak}
		if part && s.kind == sGarment {
			continue
		}
		switch s.kind {
		case sGarment:
			f.kind = fGarment
			if n := len(r.facts); n > 0 && r.facts[n-1].kind == fDate && int(r.facts[n-1].i1) == i && r.latest(i) {
				continue
			}
			if s.weak && (r.lineStart(i) && r.punct(i+1, ':') || r.at(i-1).kind == iNum || (r.at(i-1).is(cEach) || r.at(i-1).is(cPcs)) && r.at(i-2).kind == iNum) {
				f.weak = vocab.names[it.word] == "shirt" || vocab.names[it.word] == "shirts" || vocab.names[it.word] == "top" || vocab.names[it.word] == "tops"
			}
			if it.ntok == 1 && it.end-it.start <= 2 && !r.shortGarment(i) || s.weak && r.monthDay(i-1) {
				continue
			}
			if r.compound(i, i+1, s.val, f.weak) {
				continue
			}
		case sColour:
			f.kind = fColour
			if r.lawn(i) || r.addressed(i) || it.sense(sPlace) != nil && r.backNotBlack(i) {
				continue
			}
			if it.ntok == 1 && it.end-it.start <= 3 && it.upper && !it.shout && s.val != "red" && s.val != "tan" && !(r.lineStart(i) && r.punct(i+1, ':')) { // "Ash" may be somebody, "Ash: S 15" is a shade
				continue
			}
			if n := r.at(i + 1); it.upper && n.upper && !it.shout && !n.shout && n.kind == iPhrase && n.sense(sColour) != nil && !r.lineStart(i) && (s.weak || n.sense(sColour).weak) && r.at(i+2).sense(sGarment) == nil && !r.at(i+2).is(cInkWord) && !r.at(i+2).is(cPrintWord) { // "Rose Dust"
				r.emit(i, i+2, fact{kind: fColour, s: lower(r.text[it.start:n.end])})
				return i + 2
			}
			if s.val == "athletic" {
				r.emit(i, i+1, fact{kind: fHeather})
			}
		case sFabric:
			f.kind = fFabric
			if s.val == "cotton-poly" {
				f.s = "cvc"
			}
		case sFibre:
			f.kind = fFabric
			f.s = classOfFibre(s.val)
			if s.val == "other" {
				f.weak = true
			}
		case sPlace:
			f.kind = fPlace
			if s.weak && it.sense(sGarment) != nil && !part && r.at(i-1).kind == iNum { // "20 hoods"
				continue
			}
			if it.sense(sColour) != nil && !r.backNotBlack(i) || s.val == "back" && r.comesBack(i) || (s.val == "back" || s.val == "front") && r.whoseAt(i) {
				continue
			}
			if it.ntok == 1 && it.end-it.start <= 2 && (!r.shortPlace(i) || s.weak && it.shout) {
				continue
			}
		case sMethod:
			f.kind = fMethod
		case sEffect:
			f.kind = fEffect
		case sWish:
			f.kind = fWish
			if s.val == "durable" && r.givesWay(i) {
				continue
			}
		case sUse:
			f.kind = fUse
			if it.ntok == 1 && it.end-it.start <= 2 && !it.shout {
				continue
			}
			if w := r.wordAt(i - 1); s.val == "uniform" && (w == "gift" || w == "gifts" || w == "present" || w == "presents") { // "gifts for the staff"
				continue
			}
			if s.val == "event" && r.onlyMentioned(i) || s.val == "athletic" && r.notDone(i) {
				continue
			}
			if r.pictured(i) || (s.val == "children" || s.val == "infant") && speaks[r.wordAt(i+1)] {
				continue
			}
			if r.namesOf(i) {
				continue
			}
			if (s.val == "children" || s.val == "infant") && r.at(i+1).sense(sSize) != nil { // "Toddler 2T 3": sizes are no use
				continue
			}
		default:
			continue
		}
		r.emit(i, i+1, f)
	}
	return i + 1
}

// partOf reports whether the word at item i, the name of a garment and of a part of one, is the part: "on the bib".
func (r *reader) partOf(i int) bool {
	p := r.at(i - 1)
	return p.is(cOn) && p.word != wFor || p.word == wThe && (r.at(i-2).is(cOn) || r.at(i-2).kind > iNum) || r.punct(i+1, ':') || r.inkCountAt(i+1) && p.kind != iNum
}

// shortGarment reports whether "t", "ts", "ls" at item i is a garment: it stands after a number or a colour, or is written "T".
func (r *reader) shortGarment(i int) bool {
	it, p := r.at(i), r.at(i-1)
	switch vocab.names[it.word] {
	case "t":
		return it.upper && (p.kind == iNum && !p.glued || p.sense(sColour) != nil) && !it.glued
	case "ts":
		return !it.glued || p.kind == iNum
	}
	if vocab.names[r.at(i).word] == "ls" && (r.inkCountAt(i+1) || r.at(i+1).is(cPrintWord)) && !(p.kind == iNum && !p.glued) {
		return false
	}
	return p.kind == iNum || p.sense(sColour) != nil || p.sense(sFabric) != nil || r.at(i+1).sense(sGarment) != nil
}

// monthDay reports whether the number at item i is a day, said after its month: "May 28 tops".
func (r *reader) monthDay(i int) bool {
	return r.at(i).kind == iNum && r.at(i).num <= 31 && r.at(i-1).sense(sMonth) != nil
}

// theBefore reports whether "the" stands before item i, by itself or at the end of a phrase.
func (r *reader) theBefore(i int) bool {
	t := r.at(i).tok - 1
	return t >= 0 && r.toks[t].word == wThe
}

// whoseAt reports whether the place at item i is where those are who wear the goods: "they're for the bakers at the back".
func (r *reader) whoseAt(i int) bool {
	k := i - 1
	if r.at(k).word == wThe {
		k--
	}
	if r.at(i).ntok > 1 { // "at the back" may be one phrase
		k = i
	}
	if it := r.at(k); it.ntok == 0 || !atWords[r.toks[it.tok].word] {
		return false
	}
	who := r.at(k - 1)
	if who.kind > iPhrase || !(who.is(cWorker) || who.sense(sUse) != nil || who.word != 0 && (roles[who.word] || who.is(cPupil)) || who.kind == iWord && who.end-who.start > 3 && r.text[who.end-1] == 's') || who.is(cPrintWord) {
		return false
	}
	for k -= 2; k > i-8 && r.at(k).kind <= iPhrase; k-- {
		if it := r.at(k); it.is(cPrintWord) || len(vocab.nodes[it.node].senses) > 0 {
			return false
		} else if it.word != 0 && leadsTo[it.word] {
			return true
		}
	}
	return false
}

var atWords = internAll("at", "in", "out", "round")

// comesBack reports whether the "back" at item i is no place: "when she gets back".
func (r *reader) comesBack(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if r.at(i).ntok == 1 && n.word == wordTo && !r.theBefore(i) && (r.at(i+2).kind == iNum || r.at(i+2).sense(sMethod) != nil || r.at(i+2).sense(sColour) != nil || r.at(i+2).sense(sEffect) != nil) { // "so back to water based"
		return true
	}
	if w := r.wordAt(i - 1); r.at(i).ntok == 1 && (w == "all" || w == "are" || w == "is" || w == "be" || w == "im") && (r.clauseEnds(i+1) || n.word == wFrom) { // "when the slips are all back"
		return true
	}
	if r.at(i).ntok > 1 || p.word == 0 || p.word != wordGet && p.word != wordGets {
		return false
	}
	return !(n.kind == iNum || n.sense(sColour) != nil || n.sense(sEffect) != nil || n.sense(sMethod) != nil || n.is(cPrintWord) || n.is(cFull) || n.kind == iPunct && (n.ch == ':' || n.ch == '('))
}

// shortPlace reports whether "rs", "fb", "ff" at item i is a place.
func (r *reader) shortPlace(i int) bool {
	it := r.at(i)
	if n := vocab.names[it.word]; (n == "ll" || n == "rl") && !it.shout {
		return false
	}
	return it.kind == iPhrase && (!it.glued || r.at(i-1).kind == iPunct && r.at(i-1).ch != '\'' && r.at(i-1).ch != '-') && !(vocab.names[it.word] == "ls" && r.shortGarment(i))
}

// backNotBlack reports whether a word for a colour and a place, such as "bk" at item i, is the place: "bk print 1c gold", "wht, bk 10in wide".
func (r *reader) backNotBlack(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if p.sense(sPlace) != nil || p.kind == iPunct && p.ch == ':' && r.at(i-2).sense(sPlace) != nil { // "fr: bk logo"
		return false
	}
	if n.is(cPrintWord) && !n.is(cGarmentWord) || r.inkCountAt(i+1) || n.kind == iNum && r.at(i+2).word == wX || r.punct(i+1, ':') || n.sense(sPlace) != nil && r.at(i+2).is(cPrintWord) {
		return true
	}
	if n.kind == iPunct && (n.ch == '/' || n.ch == '&') || n.sense(sGarment) != nil || n.is(cInkWord) || n.is(cHeather) || n.sense(sFabric) != nil || n.sense(sFibre) != nil {
		return false
	}
	if l := r.readLength(i + 1); l.end > i+1 && l.unit != 0 && p.kind != iNum && p.sense(sPlace) == nil {
		return true
	}
	return p.is(cOn) && p.word != wFor || p.sense(sColour) != nil || n.sense(sColour) != nil && p.kind > iNum || r.lineStart(i) && n.kind == iWord
}

func classOfFibre(f string) string {
	switch f {
	case "cotton", "polyester", "nylon", "acrylic", "wool", "linen":
		return f
	}
	return "other"
}
