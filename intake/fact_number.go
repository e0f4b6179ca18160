package intake

// parseNumber reads the fact that a number at item i begins or is.
func (r *reader) parseNumber(i int) int {
	it := r.at(i)
	if j := r.noFact(i); j > i {
		return j
	}
	if j := r.parseDate(i); j > i {
		return j
	}
	if j := r.parseBlend(i); j > i {
		return j
	}
	if j := r.parseCover(i); j > i {
		return j
	}
	if r.punct(i+1, '%') || r.at(i+1).is(cPercent) {
		if w := r.at(i + 2); w.kind == iWord && w.end-w.start >= 4 && !w.upper && it.num <= 100 {
			r.fibre = int32(i + 2)
		}
		return i + 2
	}
	if j := r.parsePair(i); j > i {
		return j
	}
	if j := r.parseRow(i); j > i {
		return j
	}
	if j := r.parseDim(i); j > i {
		return j
	}
	if j := r.parseAges(i); j > i {
		return j
	}
	if j := r.parseInks(i); j > i {
		return j
	}
	if j := r.parseSizes(i); j > i {
		return j
	}
	if it.frac || it.is(cOnes) && it.spelled && !r.beforeGoods(i) && it.num == 1 && !r.oneMore(i) {
		return i + 1
	}
	return r.parseQuantity(i)
}

// oneMore reports whether "one" at item i counts goods in another colour: "ten tees in pink and one in white".
func (r *reader) oneMore(i int) bool {
	return r.joined(i) && r.at(i+1).word == wIn && r.at(i+2).sense(sColour) != nil
}

// joined reports whether "and", "plus" or a mark joins the number at item i to goods counted before it.
func (r *reader) joined(i int) bool {
	p := r.at(i - 1)
	return p.word == wAnd && p.word != 0 || p.is(cAdd) || p.kind == iPunct && (p.ch == '+' || p.ch == ',' || p.ch == '&' || p.ch == '/')
}

// noFact is the item after a number that no order is made of: a price, a phone number, a time, the number of an invoice, a bullet. It is i
// where the number at i is none of these.
func (r *reader) noFact(i int) int {
	it, next := r.at(i), r.at(i+1)
	prev := r.at(i - 1)
	switch {
	case it.digits >= 9, it.lead0 && it.digits >= 3: // 01632 960 733
		return r.skipNumber(i)
	case it.digits == 3 && (r.punct(i+1, '-') && r.at(i+2).glued && r.at(i+2).kind == iNum && r.at(i+2).digits >= 3):
		return r.skipNumber(i) // 555-0125, 417-555-0125
	case it.digits == 3 && r.punct(i-1, '(') && r.punct(i+1, ')') && r.at(i+2).kind == iNum && r.at(i+2).digits == 3:
		return r.skipNumber(i + 2) // (406) 555-0177
	case r.punct(i+1, '$') && next.glued, next.is(cPrice):
		return i + 2
	case r.punct(i+1, '/') && r.at(i+2).is(cPer) && it.frac:
		return i + 3
	case it.frac && next.is(cPer) && !it.spelled:
		return i + 2
	case it.digits > 0 && it.digits <= 2 && r.punct(i+1, ':') && next.glued && r.at(i+2).kind == iNum && r.at(i+2).glued && r.at(i+2).digits == 2 && r.header == nil:
		j := i + 3
		if r.at(j).is(cTime) {
			j++
		}
		return j
	case next.is(cTime) && it.num <= 48 && !next.upper:
		return i + 2
	case next.is(cDegree) && it.num >= 20 && (next.end-next.start > 1 || next.glued || r.punct(i+1, 'F')), r.punct(i+1, '~') && r.at(i+2).is(cDegree):
		return i + 2
	case r.punct(i+1, ':') && prev.is(cFix) && prev.kind == iPhrase && it.digits == 1: // "edit 2: smalls are 8"
		return i + 2
	case r.punct(i+1, ')') && it.num < 20 && it.digits > 0 && !r.opened(i):
		return i + 2
	case (r.punct(i+1, ')') || r.punct(i+1, '.') && !(r.at(i+2).glued && r.at(i+2).kind == iNum)) && r.lineStart(i) && it.num < 20 && it.digits > 0:
		return i + 2
	case r.lineStart(i) && r.punct(i-1, '(') && r.punct(i+1, ')') && it.num < 20:
		return i + 2
	}
	if prev.kind == iPunct && prev.ch == '.' && prev.glued && rowWords[r.at(i-2).word] && it.digits > 0 && it.digits < 4 && r.lineStart(i-2) { // "Pos. 2"
		return i + 1
	}
	if rowWords[prev.word] && it.digits > 0 && it.digits < 4 && r.lineStart(i-1) {
		return i + 1
	}
	if prev.is(cIDWord) && !r.inkCountAt(i) && !prev.is(cPcs) && it.digits > 0 && !r.beforeGoods(i) && next.sense(sSize) == nil && (prev.kind != iPunct) && !prev.is(cColourWord) && !r.lengthAt(i) {
		return r.skipNumber(i)
	}
	if next.kind == iWord && next.glued && next.word != 0 {
		switch vocab.names[next.word] {
		case "px", "dpi", "mph", "gsm", "g", "oz", "lb", "lbs", "k", "pt":
			return i + 2
		}
	}
	if next.kind == iWord && next.word != 0 {
		switch vocab.names[next.word] {
		case "px", "dpi", "oz", "gsm", "lb", "lbs", "ft", "foot", "feet", "yards", "acres", "miles", "km", "ounce", "ounces", "washes", "minutes", "business", "working":
			return i + 2
		}
	}
	return i
}

// opened reports whether a bracket is open at item i.
func (r *reader) opened(i int) bool {
	for k := i - 1; k >= 0 && k > i-30; k-- {
		it := r.at(k)
		if it.kind == iBreak || r.punct(k, ')') {
			return false
		}
		if it.kind == iPunct && it.ch == '(' {
			return true
		}
	}
	return false
}

// skipNumber is the item after a number and what is written on to it: 555-0177, 1,912.50, 17/6.
func (r *reader) skipNumber(i int) int {
	i++
	for {
		n := r.at(i)
		if n.kind == iNum && (n.glued || n.digits >= 3 && r.at(i-1).kind == iNum && r.at(i-1).digits >= 3 && r.at(i-1).lead0) {
			i++
			continue
		}
		if n.kind == iNum && n.digits >= 3 && n.digits <= 4 && r.at(i-1).kind == iNum && r.at(i-1).digits == 3 && r.at(i-2).digits >= 5 {
			i++
			continue
		}
		if n.kind == iPunct && n.glued && (n.ch == '-' || n.ch == '/' || n.ch == '.' || n.ch == ':') && r.at(i+1).kind == iNum && r.at(i+1).glued {
			i += 2
			continue
		}
		return i
	}
}

// lineStart reports whether item i is the first of its line, bullets and brackets aside.
func (r *reader) lineStart(i int) bool {
	for i--; i >= 0; i-- {
		it := &r.items[i]
		if it.kind == iBreak || it.kind == iPart {
			return true
		}
		if it.kind != iPunct || it.ch != '*' && it.ch != '-' && it.ch != '(' && it.ch != '+' && it.ch != '~' {
			return false
		}
	}
	return true
}

// measured reports whether a unit of length stands at item i, as in 3" and 3in.
func (r *reader) measured(i int) bool {
	it := r.at(i)
	if it.kind == iPunct {
		return it.ch == '"' && it.glued && !(r.punct(i-2, '"') && r.at(i-1).glued) || it.ch == '\'' && r.punct(i+1, '\'')
	}
	if it.is(cMM) || it.is(cCM) {
		return true
	}
	return it.is(cInch) && r.inch(i)
}

// inch reports whether the "in" at item i is the unit and not the preposition.
func (r *reader) inch(i int) bool {
	it := r.at(i)
	if it.word != wIn || it.glued {
		return true
	}
	n := r.at(i + 1)
	return n.is(cWide) || n.is(cTall) || n.word == wX || n.word == wBy && r.at(i+2).kind == iNum ||
		(n.kind == iBreak || n.kind == iPart || n.kind == iPunct) && r.at(i-1).kind == iNum && r.at(i-1).num < 30
}

// countable reports whether the number at item i can count pieces: nothing after it says that it measures something else.
func (r *reader) countable(i int) bool {
	n := r.at(i + 1)
	if r.at(i).frac || r.punct(i+1, '%') || n.is(cPercent) || r.measured(i+1) {
		return false
	}
	if n.kind == iPunct && n.glued && (n.ch == '/' || n.ch == '-' || n.ch == ':') && r.at(i+2).kind == iNum {
		return false
	}
	return !(n.word == wX && n.glued && r.at(i+2).kind == iNum)
}

// parseInks reads "2c", "one color", "3 spot colours".
func (r *reader) parseInks(i int) int {
	it := r.at(i)
	if it.frac || it.num < 1 || it.num > 24 || r.at(i-1).word == wIn && r.at(i-2).sense(sGarment) != nil && r.at(i+1).is(cColourWord) && (r.at(i+2).kind == iPunct || r.at(i+2).word == wordNow && r.at(i+3).kind == iPunct) { // "80 tees in four colours, 20 each"
		return i
	}
	j := i + 1
	for r.punct(j, '-') {
		j++
	}
	if r.at(j).word == wSpot {
		j++
		if !r.at(j).is(cColourWord) {
			return r.emitInks(i, j, it)
		}
	}
	if n := r.at(j); n.kind == iWord && n.word != 0 && r.at(j+1).is(cColourWord) {
		switch vocab.names[n.word] {
		case "different", "ink", "print", "solid", "flat", "single":
			j++
		}
	}
	n := r.at(j)
	switch {
	case n.is(cColourWord):
	case it.num > 1 && it.num < 6 && r.manyHues(j): // "in two greens, forest and mint"
		r.emit(i, j+1, fact{kind: fInks, n: int(it.num)})
		return j + 1
	case n.is(cInkWord) && n.word != 0:
	case n.word == wC && (n.glued || !n.upper):
	default:
		return i
	}
	j++
	for r.at(j).is(cInkWord) || r.at(j).is(cColourWord) && j == i+2 && n.is(cInkWord) {
		j++
	}
	return r.emitInks(i, j, it)
}

func (r *reader) emitInks(i, j int, it *item) int {
	r.emit(i, j, fact{kind: fInks, n: int(it.num)})
	return j
}

// parsePair reads "2c/1c" and "2/1": inks on the front and on the back.
func (r *reader) parsePair(i int) int {
	it := r.at(i)
	small := func(k int) bool {
		n := r.at(k)
		return n.kind == iNum && !n.frac && n.num <= 12 && n.digits <= 2
	}
	if b := r.at(i + 2); r.punct(i+1, '/') && r.at(i+1).glued && it.digits > 0 && it.num > 12 && it.num < 1000 && b.kind == iNum && !b.frac && b.glued && b.num > 12 && r.at(i-1).sense(sColour) != nil && r.clauseEnds(i+3) {
		r.emit(i, i+3, fact{kind: fPair, n: int(it.num), m: int(b.num), weak: true}) // "green and black 20/20": shares
		return i + 3
	}
	if !small(i) {
		return i
	}
	j, c := i+1, false
	if r.at(j).word == wC && r.at(j).glued || r.at(j).is(cColourWord) {
		j, c = j+1, true
	}
	if !r.punct(j, '/') || !small(j+1) {
		return i
	}
	b := r.at(j + 1)
	k := j + 2
	if r.at(k).word == wC || r.at(k).is(cColourWord) {
		k, c = k+1, true
	}
	if r.punct(k, '/') || r.measured(k) || r.at(k).word == wX || it.num == 0 {
		return i
	}
	r.emit(i, k, fact{kind: fPair, n: int(it.num), m: int(b.num), weak: !c})
	return k
}

// parseCover reads "coverage 55%", "about 45 % coverage", "covers 40% of the area".
func (r *reader) parseCover(i int) int {
	it := r.at(i)
	if it.kind == iNum {
		if !r.punct(i+1, '%') && !r.at(i+1).is(cPercent) {
			return i
		}
		for k := i - 1; k > i-8 && k >= 0; k-- {
			if n := r.at(k); n.kind == iBreak || n.kind == iPart || n.kind == iNum || n.kind == iPunct && n.ch == '.' && !r.roughly(k-1) || n.sense(sFibre) != nil {
				break
			} else if n.is(cCover) {
				r.emit(i, i+2, fact{kind: fCover, a: it.num})
				return i + 2
			}
		}
		j := i + 2
		for r.at(j).word == wOf || r.at(j).word == wThe || r.at(j).is(cInkWord) {
			j++
		}
		if !r.at(j).is(cCover) {
			return i
		}
		r.emit(i, j+1, fact{kind: fCover, a: it.num})
		return j + 1
	}
	return i
}

// clauseEnds reports whether a clause ends before item i.
func (r *reader) clauseEnds(i int) bool {
	it := r.at(i)
	return it.kind > iNum || it.kind == iPunct && it.ch != '/' && it.ch != '-' && it.ch != '"' && it.ch != '\'' && it.ch != '%'
}

// roughWords are written short before a number that is not exact or bounds one.
var roughWords = internAll("ca", "approx", "circa", "abt", "c", "max", "min")

// roughly reports whether item i is such a word, with its point, before a number: "ca. 30 %", not "print 2 c. 30 pieces".
func (r *reader) roughly(i int) bool {
	it := r.at(i)
	return it.kind <= iPhrase && it.word != 0 && roughWords[it.word] && r.punct(i+1, '.') && r.at(i+1).glued && r.at(i+2).kind == iNum && r.at(i-1).kind != iNum
}
