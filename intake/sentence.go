package intake

// sentence is a stretch of items, and of the facts in it, that says one thing.
type sentence struct {
	i0, i1 int // items
	f0, f1 int // facts
	part   int // how many parts of the message came before
}

// endsSentence reports whether the item at i closes a sentence.
func (r *reader) endsSentence(i int) bool {
	it := &r.items[i]
	switch it.kind {
	case iBreak, iPart:
		return true
	case iPunct:
		switch it.ch {
		case '?':
			return !(r.at(i+1).is(cNo) && r.at(i+1).ntok == 1 && r.at(i-1).sense(sPlace) != nil && r.closes(i+2)) // "back? none."
		case '!', ';':
			return true
		case '.':
			if r.at(i-1).kind == iNum && it.glued && r.lineStart(i-1) && r.at(i-1).num < 30 && !r.at(i+1).glued { // the number of a list
				return false
			}
			n := r.at(i + 1)
			if n.glued && n.kind != iPunct && n.kind != iBreak { // 3.5, co.uk, ok.thanks
				return n.kind == iWord && n.upper
			}
			p := r.at(i - 1)
			if it.glued && p.is(cPcs) && p.end-p.start <= 3 && r.at(i-2).kind == iNum && n.kind <= iPhrase && !n.upper { // "30 pcs. vest"
				return false
			}
			if it.glued && p.kind == iNum && isDozen(&item{word: r.toks[p.tok+p.ntok-1].word}) && n.kind <= iPhrase && !n.upper { // "2 doz. navy"
				return false
			}
			if r.roughly(i - 1) {
				return false
			}
			if it.glued && rowWords[p.word] && n.kind == iNum && r.lineStart(i-1) { // "Pos. 2"
				return false
			}
			if it.glued && p.kind <= iPhrase && p.end-p.start <= 2 && p.word != 0 && (vocab.names[p.word] == "st" || vocab.names[p.word] == "ms" || vocab.names[p.word] == "mr" || vocab.names[p.word] == "dr") {
				return false
			}
			return true
		}
	}
	return false
}

// settle decides for the facts of a sentence which of them hold: which are denied, which tell of the past, which replace what was said before.
// It reports whether the sentence announces a change without naming it, so that the next one does.
func (r *reader) settle(s sentence, carry bool) bool {
	var (
		neg, dead, paren bool
		fix              = carry
		negAt            = -10
		f                = s.f0
		said             = false // a change is announced and not yet named
		fromAt           = -10
		insteadOf        = false
		swapAt           = -10
		lastKind         factKind
		wasAt            = -10
		stated           bool // "the back is …": what follows is so, whatever was said before
	)
	for i := s.i0; i < s.i1; {
		if f < s.f1 && int(r.facts[f].i0) == i {
			end := i + 1
			for f < s.f1 && int(r.facts[f].i0) == i {
				x := &r.facts[f]
				if x.kind == fBlank && r.at(i).ntok > 1 { // "no print on the back"
					neg, negAt = true, i
				}
				if x.kind == fBlank && r.at(i).ntok == 1 && r.leftBare(i) { // "right leg blank"
					r.goneBefore(s, f, i)
					x.done = true
				} else if x.kind == fBlank && r.turnedBare(i) {
					r.bare(s, f)
					x.done = true
				}
				end = max(end, int(x.i1))
				if x.kind == fColour && !x.dead && (r.at(i-1).word == wThe || r.punct(int(x.i1), '\'') || r.at(int(x.i1)).word == wIs) && r.deadBefore(s, f, x) { // "we wanted yellow, but the yellow gets dirty"
					x.dead = true
				}
				x.fix = x.fix || fix || stated && (x.kind == fInks || x.kind == fColour || x.kind == fDim) || x.kind == fDim && r.resized(s, i)
				if x.kind != fUse && x.kind != fWish || x.i1-x.i0 > 0 {
					said = false
				}
				x.dead = dead && !(x.kind == fWish && r.at(i).is(cDamaged) && r.notAgain(s, i)) || paren && x.dead
				if x.kind == fGarment && dead && lastKind == fNumber && wasAt >= 0 && int(r.facts[f-1].i0) == wasAt+1 { // "was 40 hoodies, now 44": hoodies they are still
					x.dead = false
				}
				if x.kind == fDate && dead && !paren && r.wrapped(i) && r.at(end).kind >= iBreak { // a line that is a date and no more goes on with nothing
					x.dead = false
				}
				if x.kind == fDate && dead && (r.wordAt(end) == "now" || r.wordAt(i-1) == "say" || r.wordAt(i-1) == "says") { // "was the 4th, he bumped it, the 9th now"
					x.dead, x.fix = false, true
				}
				if x.kind == fColour && !x.dead && r.givenUp(s, f, x) {
					x.dead = true
				}
				if x.kind == fGarment && lastKind == fPlace && s.f0 < f && r.facts[f-1].neg { // "nothing on the back of the polos"
					neg = false
				}
				if neg && x.kind == fGarment && lastKind == fPlace && f > s.f0 && r.facts[f-1].neg { // "no back on the jackets"
					neg = false
				}
				if neg && i-negAt <= 6 && !(x.kind == fGarment && lastKind == fNumber && s.f0 < f && r.facts[f-1].dead) { // "not 50 hoodies, 65"
					x.neg = true
				}
				if (x.kind == fEffect || x.kind == fMethod) && (!x.fix && r.deniedIn(s, f, x) || r.disliked(s, x)) { // "no glitter, she ordered glitter"
					x.neg = true
				}
				if insteadOf && i-negAt <= 4 {
					if p := r.lastOf(s, f, x); p >= 0 {
						x.dead, x.neg = true, x.kind == fColour || x.kind == fEffect || x.kind == fMethod
						r.facts[p].fix = true
					} else if x.kind == fNumber && r.at(negAt-1).kind == iNum && !r.at(negAt-1).fact { // "suite 210 not 201"
						x.dead = true
					} else if x.kind == fNumber || x.kind == fDate || x.kind == fSizes || x.kind == fInks {
						x.dead = true
						fix, insteadOf, neg = true, false, neg && x.kind != fNumber
					}
				}
				if x.kind == fPlace && r.dashed(end) {
					x.neg = true
				}
				if r.itIs(end) { // "so plastisol it is"
					x.fix = true
					if p := r.lastOf(s, f, x); p >= 0 && r.facts[p].kind == x.kind {
						y := &r.facts[p]
						y.dead, y.neg = true, y.kind == fColour || y.kind == fMethod || y.kind == fEffect
					}
				}
				if int(fromAt) == i-1 && !r.at(end).is(cTo) && (x.kind == fDate || x.kind == fNumber) {
					if p := r.lastOf(s, f, x); p >= 0 && int(r.facts[p].i1) >= i-2 && r.at(int(r.facts[p].i0)-1).is(cTo) { // "to 3/12 from 3/19"
						x.dead = true
						r.facts[p].fix = true
					}
				}
				if swapAt >= 0 && i-swapAt <= 3 && (r.at(end).word == wFor || r.at(end).is(cTo) || r.at(end).is(cWith)) && f+1 < s.f1 && r.facts[f+1].kind == x.kind { // "swap white for cream"
					x.dead, x.neg = true, x.kind == fColour || x.kind == fMethod || x.kind == fEffect
					fix = true
				}
				if int(fromAt) == i-1 && r.at(end).is(cTo) {
					x.dead = true
					fix = true
				}
				lastKind = x.kind
				f++
			}
			i = end
			continue
		}
		it := &r.items[i]
		if it.kind == iPunct {
			switch it.ch {
			case ',', '-', ':', '/', '+', '&':
				if it.ch == ',' || it.ch == '-' && !it.glued || it.ch == ':' {
					if !(neg && r.moreDenied(i+1)) {
						neg, insteadOf = false, false
					}
				}
				if it.ch == ',' && dead && r.punctDead(i) || it.ch == ':' {
					dead = false
				}
			case '(':
				paren = true
			case ')':
				if paren && dead {
					dead = false
				}
				paren = false
			}
			i++
			continue
		}
		if it.word != 0 && it.word == wordRather {
		}
		if w := it.word; w != 0 && (w == wordSwap || w == wordReplace || w == wordSwitch || w == wordChange) || it.ntok > 1 && r.toks[it.tok].word == wordChange {
			swapAt = i
		}
		if swapAt >= 0 && i-swapAt < 9 && (it.word == wFor && it.word != 0 || it.is(cTo) || it.is(cWith)) && r.swapsGoods(s, swapAt, f, i) {
			fix, swapAt = true, -10
		}
		if it.kind == iPhrase || it.kind == iNum {
			switch {
			case it.is(cReset):
				fix, said = true, true
			case it.is(cBut) && dead:
				dead, fix = false, true
			case dead && i > s.i0 && r.willing(i): // "the 30 quoted, we will take 45"
				dead, fix = false, true
			case it.is(cPast) && (r.at(i-1).word == wOf || r.at(i-1).word == wFrom || r.at(i-1).sense(sDay) != nil || r.at(i-1).is(cDays) || r.at(i-1).is(cWeek)): // "12 more of the crews from last month (80/20)", "the Tuesday before that"
			case it.is(cPast) && it.word != wordWas && it.word != wordWere && !it.is(cAdd):
				dead = true
			case (it.word == wordWas || it.word == wordWere) && (paren || r.valueNext(i)):
				dead, wasAt = true, i
			}
			if it.is(cOnly) && i == s.i0 && r.asked(i) { // "green/white?? just green"
				fix = true
			}
			if it.word == wordSorry && s.f0 > 0 && i == s.i0 && (r.punct(i+1, '-') || r.at(i+1).kind == iNum) || it.word == wordSorry && f > s.f0 && r.at(i-1).kind == iPunct && (r.punct(i+1, ',') || r.punct(i+1, '-') || r.at(i+1).kind == iNum || lastKind == fColour && r.at(i+1).sense(sColour) != nil) { // "20 sweatshirts, sorry, hoodies"
				fix, said = true, true
			}
			if it.is(cFix) && !it.is(cHere) {
				fix, said, dead = true, true, false
				if it.ntok > 2 && !it.is(cNo) && !it.is(cGone) { // "instead of tees let's go with tanks"
					neg, insteadOf = false, false
				}
			}
			if it.word == wordNo && r.at(i+1).kind == iNum && (lastKind == fNumber || lastKind == fGarment || lastKind == fDate) && r.punct(i-1, ',') { // "70, no 60"
				neg, insteadOf, negAt = true, true, i
			}
			if it.word != wordNo || r.at(i+1).kind != iNum {
				if it.word == wordNo && (i == s.i0 && r.asked(i) && r.at(i+1).sense(sWish) == nil && r.at(i+1).sense(sPlace) == nil || (r.punct(i+1, ',') || r.punct(i+1, ':')) && !r.at(i+2).is(cNo) || r.at(i+1).is(cOnly) || r.at(i+1).is(cFix) || r.at(i+1).word == wordSorry && r.at(i+1).kind <= iPhrase || lastKind == fColour && f > s.f0 && int(r.facts[f-1].i1) == i && r.otherColour(i+1)) { // "red... no, wine", "red no wine"
					fix, said = true, true
				} else if it.is(cNo) {
					neg, negAt = true, i
					if r.nothing(i) {
						r.goneBefore(s, f, i)
					}
				}
				if it.is(cInsteadOf) {
					insteadOf, negAt = true, i
				}
			}
			if it.is(cGone) && r.leadsTo(i) {
				fix = true
			} else if it.is(cGone) && r.conditional(s, i) {
				// only supposed
			} else if it.is(cGone) && it.ntok > 1 && r.at(i+1).is(cOn) && r.at(i+1).kind == iPhrase && r.at(i+1).word != wFor && r.at(i-1).sense(sPlace) == nil && !r.paper(i+2) { // "we do not want it on the left"
				neg, negAt = true, i
			} else if it.is(cGone) && !it.is(cNo) || it.is(cGone) && it.ntok > 1 || it.is(cNo) && r.deniedBack(i) {
				r.goneBefore(s, f, i)
				neg = neg && it.word != wordNo // what follows is another thing
			}
			if r.verdict(i) && r.overrule(s, f, i) {
				neg = false
			}
			if it.is(cRefuse) && it.ntok > 1 && r.toks[it.tok+it.ntok-1].word == wordNo && r.at(i+1).sense(sPlace) != nil && r.clauseEnds(i+2) { // "the treasurer says no left chest"
				neg, negAt = true, i
			}
			if it.is(cUnfit) && f == s.f0+1 && r.facts[s.f0].kind == fGarment && (int(r.facts[s.f0].i1) == i || int(r.facts[s.f0].i1) == i-1) { // "trousers are no good, so it's leggings"
				r.facts[s.f0].dead = true
			}
			if it.is(cPast) && it.ntok > 1 {
				r.pastBefore(s, f, i)
			}
			if it.word == wFrom || it.ntok > 1 && r.toks[it.tok+it.ntok-1].word == wFrom {
				fromAt = i
			}
			if it.is(cBut) || it.is(cAdd) && negAt != i-1 {
				neg, insteadOf = false, false
			}
		}
		if it.word != 0 && it.word == wordThan && r.preferred(s, i) { // "I'd rather have screen print than a transfer"
			neg, negAt = true, i
		}
		if it.is(cPast) && it.ntok > 2 && r.at(i-1).kind != iWord && r.neverMind(s, i) { // "right sleeve - was gonna be a sponsor, isnt"
			r.goneBefore(s, f, i)
		}
		if (it.word == wIs || it.word == wordAre && it.word != 0) && r.at(i-1).sense(sPlace) != nil && !r.at(i-1).sense(sPlace).weak && r.at(i-2).word == wThe && (i-3 < s.i0 || r.at(i-3).word == wAnd) {
			stated = true
		}
		if it.is(cGreet) && i == s.i0 && r.punct(i+1, ',') && it.word != 0 && it.word == wordSorry {
			fix = true
		}
		if r.leftBare(i) {
			r.goneBefore(s, f, i)
		} else if r.turnedBare(i) {
			r.bare(s, f)
		}
		if it.word == wAnd || it.is(cWith) && it.kind == iPhrase && !(it.word == wIn && r.placeSoon(i+1)) && negAt != i-1 {
			if neg && !r.moreDenied(i+1) {
				neg, insteadOf = false, false
			}
		}
		if it.kind == iWord && neg && i-negAt > 5 {
			neg, insteadOf = false, false
		}
		i++
	}
	r.closedOff(s)
	r.refuse(s)
	r.remarks(s)
	r.stillThere(s)
	r.onlyOne(s)
	r.theirs(s)
	r.spokenUp(s)
	return said
}

// willing reports whether the phrase at item i says what somebody is to have now.
func (r *reader) willing(i int) bool {
	it := r.at(i)
	if it.ntok < 2 || !it.is(cWant) {
		return false
	}
	switch w := r.toks[it.tok].word; {
	case w == 0:
		return false
	default:
		return vocab.names[w] == "will" || vocab.names[w] == "would" || vocab.names[w] == "id" || vocab.names[w] == "wed"
	}
}

// asked reports whether a question or a broken-off sentence ends just before item i: the "no" there answers it.
func (r *reader) asked(i int) bool {
	k := i - 1
	for r.punct(k, '?') || r.punct(k, '.') {
		k--
	}
	it := r.at(k)
	return k < i-1 && (r.punct(i-1, '?') || k < i-2) && it.node != 0 && len(vocab.nodes[it.node].senses) > 0
}

// valueNext reports whether the "was" at item i is followed by a value it once had: "was 25 June", "was 2 color".
func (r *reader) valueNext(i int) bool {
	n := r.at(i + 1)
	return n.kind == iNum || n.sense(sMonth) != nil || n.sense(sColour) != nil || n.sense(sDay) != nil
}

// with lets go of what is said of the print at the place in fact f just before it: the puff of "a puff back was in the first mail, that's out".
func (r *reader) with(s sentence, f int) {
	for k := f - 1; k >= s.f0 && r.facts[k].i1 == r.facts[k+1].i0; k-- {
		switch x := &r.facts[k]; x.kind {
		case fEffect, fInks, fDim, fFull, fColour:
			x.dead = true
		default:
			return
		}
	}
}

// wrapped reports whether item i begins a line of the text as written, though it was joined to the line before it.
func (r *reader) wrapped(i int) bool {
	if i == 0 {
		return true
	}
	for k := r.at(i - 1).end; k < r.at(i).start; k++ {
		if r.text[k] == '\n' {
			return true
		}
	}
	return false
}
