package intake

// capital reports whether item i is written as part of a name.
func (r *reader) capital(i int) bool {
	it := r.at(i)
	if it.shout && it.kind == iPhrase && (it.is(cAdd) || it.is(cOnly) || it.is(cNo) || it.is(cFix)) && r.at(i+1).kind <= iPhrase && !r.at(i+1).shout {
		return false
	}
	if it.kind <= iPhrase && it.ntok > 1 { // "Can't wait", "We run", "When they"
		if w := r.toks[it.tok].word; pronouns[w] && !nameWords[w] && (it.kind == iWord || subjects[w] || w == wordWhen) {
			return false
		}
	}
	if it.is(cIDWord) && it.shout || it.word == wordI || it.is(cInkWord) && it.kind == iPhrase && it.ntok > 1 {
		return false
	}
	if it.kind == iPhrase && it.sense(sSize) != nil && (it.end-it.start <= 3 || it.first > 0) {
		return false
	}
	return (it.kind == iWord || it.kind == iPhrase || it.kind == iNum && it.spelled) && it.upper
}

var wordWhen = vocab.intern("when")

// joint reports whether item i may stand inside a name though it has no capital.
func (r *reader) joint(i int) bool {
	it := r.at(i)
	if it.kind == iPunct {
		return it.ch == '&' || it.ch == '+' || it.ch == '-' && it.glued && r.at(i+1).glued || it.ch == '\'' && it.glued
	}
	if it.kind == iNum || it.upper {
		return false
	}
	return it.word != 0 && (joints[it.word] || links[it.word]) || it.kind == iPhrase && it.ntok == 2 && r.text[it.start:it.end] == "of the"
}

// nameRun is the item after a run of capitalised words at item i.
func (r *reader) nameRun(i int) int {
	if !r.capital(i) || r.label(i) {
		return i
	}
	j := i + 1
	for j < len(r.items) {
		it := &r.items[j]
		switch {
		case r.gap(j):
			return j
		case r.punct(j, '-') && it.glued && r.at(j+1).glued && !r.capital(j+1) && j == i+1 && r.at(j+1).kind != iNum: // "Old-looking"
			if r.punct(j+2, '-') && r.at(j+2).glued && r.capital(j+3) { // Bryn-y-Gog
				j += 4
				continue
			}
			return i
		case r.capital(j) && !r.label(j):
			if it.kind == iPhrase && it.ntok > 1 && it.shout || it.word != 0 && subjects[it.word] {
				return j
			}
			j++
			continue
		case r.numberInside(j), r.shortForm(j) && (r.capital(j+1) || r.at(j+1).kind == iNum):
			j++
			continue
		case r.punct(j, '.') && it.glued && r.capital(j+1) && r.at(j-1).end-r.at(j-1).start == 1: // J. Tarn & Sons
			j++
			continue
		case it.kind == iPhrase && it.first > 0 && it.sense(sUse) != nil && r.capital(j-1): // the Dunmore 10K
			j++
			continue
		case r.fourH(j):
			j += 3
			continue
		case r.punct(j, '-') && it.glued && r.at(j+1).kind == iNum && r.at(j+1).glued && r.at(j-1).end-r.at(j-1).start == 1 && r.capital(j+2): // K-9 Academy
			j += 2
			continue
		case r.ageInside(j):
			j++
			if r.at(j).glued && r.at(j).kind <= iPhrase && r.at(j).end-r.at(j).start == 1 { // 8s
				j++
			}
			continue
		}
		k := j
		for k < j+3 && r.joint(k) {
			k++
		}
		if k == j || r.gap(k) || r.at(k).word != 0 && subjects[r.at(k).word] {
			return j
		}
		hyphen := r.punct(j, '-')
		if !(r.capital(k) && !r.label(k) || hyphen && r.at(k).kind == iWord) {
			return j
		}
		for q := j; q < k; q++ {
			if w := r.at(q).word; w != 0 && links[w] && (q > j || !r.linked(i, j, k)) {
				return j
			}
		}
		j = k + 1
	}
	return j
}

// linked reports whether the preposition at item j belongs to the name that began at item i and goes on at item k: "Stitch in Time", not "the
// Copper Beech Tavern in Ashby" and not "Aprons for Hob & Ladle".
func (r *reader) linked(i, j, k int) bool {
	if r.at(i).word == wThe || r.at(i).word == wA {
		i++
	}
	head := r.at(i)
	if w := r.at(k).word; r.at(j).word == wFor && w != 0 && causes[w] {
		return k == j+1
	}
	if j != i+1 || k != j+1 && r.at(j+1).word != wThe || head.kind != iWord && !(head.word != 0 && orgs[head.word]) || r.factual(i) {
		return false
	}
	if w := r.at(j).word; w == wIn || w == wordTo {
		return r.at(k).sense(sGarment) == nil && r.at(k).sense(sColour) == nil
	}
	p := r.at(i - 1)
	return p.kind <= iPhrase && (p.is(cFrom) || p.is(cBehalf) || p.word != 0 && (articles[p.word] || leadsTo[p.word] || p.word == wordCalled))
}

// numberInside reports whether the number at item j belongs to the name that the word before it belongs to: "Route 9 Diner", "Troop 88".
func (r *reader) numberInside(j int) bool {
	it, p := r.at(j), r.at(j-1)
	if it.kind != iNum || it.digits == 0 || it.glued || it.frac {
		return false
	}
	if it.digits <= 2 && r.capital(j-1) && r.capital(j+1) && r.goods(j) < 2 && r.at(j+1).sense(sMonth) == nil {
		return true
	}
	if it.digits <= 4 && p.upper && p.word != 0 && numbered[p.word] {
		n := r.at(j + 1)
		return n.kind >= iBreak || n.kind == iPunct && !n.glued || n.kind == iPunct && (n.ch == ':' || n.ch == ',' || n.ch == '.' || n.ch == ')') || n.is(cWant) || n.upper
	}
	return false
}

// ageInside reports whether the number at item j is the age that names a team: "Under 8s Rugby".
func (r *reader) ageInside(j int) bool {
	it, p := r.at(j), r.at(j-1)
	return it.kind == iNum && it.digits > 0 && it.digits <= 2 && p.upper && p.word != 0 && (vocab.names[p.word] == "under" || vocab.names[p.word] == "over")
}

// shortForm reports whether item j is the point of a word that is written short inside names: "St. Bride", "No. 9".
func (r *reader) shortForm(j int) bool {
	p := r.at(j - 1)
	return r.punct(j, '.') && r.at(j).glued && p.upper && p.word != 0 && shortened[p.word] && r.at(j+1).kind < iPunct
}

// fourH reports whether items j to j+3 are "4-H", the youth clubs' name for themselves.
func (r *reader) fourH(j int) bool {
	it := r.at(j)
	return it.kind == iNum && it.num == 4 && r.punct(j+1, '-') && r.at(j+1).glued && r.at(j+2).glued && r.at(j+2).shouts('H', r.text)
}

// shouts reports whether the item is that one capital letter.
func (it *item) shouts(c byte, text string) bool {
	return it.kind <= iPhrase && it.end-it.start == 1 && text[it.start] == c
}

// label reports whether item i is a heading such as "CUSTOMER:" or "FF", not a name.
func (r *reader) label(i int) bool {
	it := r.at(i)
	if it.kind == iPhrase && it.shout && (it.sense(sPlace) != nil || it.sense(sSize) != nil || it.sense(sMethod) != nil) && it.end-it.start <= 3 {
		return true
	}
	if it.kind == iPhrase && (r.punct(i+1, ':') && it.sense(sPlace) != nil || it.end-it.start == 1 && r.axis(i) != 0 && r.measured(i-1)) { // 13" H. Back: white
		return true
	}
	if n := r.at(i + 1); it.is(cPrintWord) && (n.end-n.start == 1 || n.kind == iNum) && r.punct(i+2, ':') { // Print A:
		return true
	}
	if it.word != 0 && headings[it.word] && r.punct(i+1, ':') && r.lineStart(i) {
		return true
	}
	return it.kind == iPhrase && r.punct(i+1, ':') && r.lineStart(i) && (it.is(cClient) || it.is(cQty) || it.is(cDue) || it.is(cHand) || it.is(cSized) || it.is(cColourWord) || it.is(cPrintWord) || it.is(cGarmentWord) || it.is(cPS))
}

// factual reports whether item i reads as a fact or a steering word, so that it is no name by itself.
func (r *reader) factual(i int) bool {
	it := r.at(i)
	if it.kind != iPhrase {
		return false
	}
	n := &vocab.nodes[it.node]
	return len(n.senses) > 0 || n.cues.any(steering)
}

// steering are the classes of words that names are not made of.
var steering = cuesOf(cGreet, cOrderVerb, cPrintWord, cNo, cFix, cDue, cHand, cSame, cTalk, cPast, cClient, cBehalf, cFull, cAll, cColourWord, cSized,
	cAdd, cSwatch, cAsk, cGone, cIDWord, cBut, cThis, cQty, cHeather, cWant, cWith, cOn, cFrom)

func cuesOf(list ...cue) (s cueSet) {
	for _, c := range list {
		s.add(c)
	}
	return s
}

// any reports whether the sets share a class.
func (s cueSet) any(o cueSet) bool { return s[0]&o[0]|s[1]&o[1] != 0 }
