package intake

// lettering leaves out what a print says: the words between quotation marks, and words in capitals beside a place. "LOST?" on the back asks
// nothing, "NOT FUNNY" denies nothing, and CREW across the back orders no crewnecks.
func (r *reader) lettering() {
	for i := 0; i < len(r.items); i++ {
		switch it := &r.items[i]; it.kind {
		case iPunct:
			if it.ch != '"' && it.ch != '\'' {
				continue
			}
			if j := r.closingQuote(i); j > i && !r.plainQuote(i+1, j) && !r.quotedName(i) {
				for k := i; k <= j; k++ {
					r.mute(k)
				}
				i = j
			}
		case iPhrase:
			if it.shout && it.end-it.start > 3 && !r.shouting(i) && r.printedWord(i) {
				r.mute(i)
			}
		}
	}
}

// mostQuoted is how many items the lettering of a print has: what is longer is somebody's message.
const mostQuoted = 9

// closingQuote is the item that closes the quotation opened at item i; i where none is opened there. The mark of an inch opens nothing: it
// stands close behind its number.
func (r *reader) closingQuote(i int) int {
	ch := r.items[i].ch
	if r.items[i].glued && !(r.at(i-1).kind == iPunct && r.at(i-1).ch != ch) || !r.at(i+1).glued || r.at(i+1).kind == iPunct {
		return i
	}
	for k := i + 1; k < len(r.items) && k <= i+mostQuoted; k++ {
		switch it := &r.items[k]; {
		case it.kind == iBreak, it.kind == iPart:
			return i
		case it.kind == iPunct && it.ch == ch && it.glued:
			if n := r.at(k + 1); n.glued && n.kind != iPunct && n.kind != iBreak {
				return i
			}
			return k
		}
	}
	return i
}

// quotedName reports whether the quotation opened at item i is what a team, shop or band is called: "the league team "Net Losses"".
func (r *reader) quotedName(i int) bool {
	it := r.at(i - 1)
	return r.at(i+1).upper && it.kind <= iPhrase && it.word != 0 && !it.upper && !it.is(cPrintWord) && (it.word == wordCalled || it.word == wordTeam || orgs[it.word] && it.sense(sUse) == nil)
}

// plainQuote reports whether items i to j are said and not printed: they measure something, or are nothing but the trade's words in small letters.
func (r *reader) plainQuote(i, j int) bool {
	known := true
	for k := i; k < j; k++ {
		it := &r.items[k]
		if it.kind == iNum && (r.at(k+1).is(cMM) || r.at(k+1).is(cCM) || r.at(k+1).is(cInch) || r.at(k+1).is(cColourWord)) {
			return true
		}
		if !it.upper && (it.sense(sWish) != nil || it.sense(sMethod) != nil || it.sense(sEffect) != nil) { // "soft soft soft" she said
			return true
		}
		if it.kind != iPunct && (it.shout || it.sense(sColour) == nil && it.sense(sPlace) == nil && it.sense(sGarment) == nil && it.sense(sFabric) == nil && it.sense(sFibre) == nil) {
			known = false
		}
	}
	return known
}

// shouting reports whether the words around item i are in capitals as well.
func (r *reader) shouting(i int) bool {
	n := 0
	for k := max(0, i-4); k < i+5; k++ {
		if it := r.at(k); k != i && it.kind <= iPhrase && it.end-it.start > 2 && it.shout {
			n++
		}
	}
	return n > 1
}

// printedWord reports whether the word in capitals at item i is lettering: it would be a use or a loose name of a garment, and a place stands by.
func (r *reader) printedWord(i int) bool {
	it := &r.items[i]
	if g := it.sense(sGarment); it.sense(sUse) == nil && (g == nil || !g.weak) || it.sense(sPlace) != nil || it.sense(sColour) != nil {
		return false
	}
	if r.at(i+1).is(cOn) && r.placeSoon(i+2) || r.at(i+1).sense(sPlace) != nil {
		return true
	}
	for k := i - 1; k > i-4; k-- {
		p := r.at(k)
		if p.kind == iBreak || p.kind == iPart || p.sense(sGarment) != nil {
			return false
		}
		if p.sense(sPlace) != nil {
			return true
		}
	}
	return false
}

// mute makes item k a word that means nothing. It counts as read.
func (r *reader) mute(k int) {
	it := &r.items[k]
	it.node, it.word, it.ch, it.fact = 0, 0, 0, true
	if it.kind != iPunct {
		it.kind = iWord
	}
}
