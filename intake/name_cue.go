package intake

// lead is what stands before a name.
type lead struct {
	score    int
	p        int  // the item that the judgement rests on
	strong   bool // what it is for, or from: a name must follow
	label    bool // a heading such as "customer:"
	start    bool // a line begins here
	numbered bool // a reference with its number
}

// before weighs what stands before the name at items i to j.
func (r *reader) before(i, j int, sh shape) lead {
	words := r.countWords(i, j)
	p := r.overArticles(i - 1)
	b := lead{p: p}
	prev := r.at(p)
	b.start = prev.kind >= iBreak
	sep := prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=' || prev.ch == '-') || prev.word == wIs
	q := r.at(p - 1)
	switch {
	case sep && q.is(cClient) && !(prev.word == wIs && r.at(p-2).word == wordMy): // "my name is"
		b.score, b.strong, b.label = 12, true, true
	case sep && prev.kind == iPunct && r.lineStart(p-1) && r.billed(p-1):
		b.score, b.strong = 9, true
	case sep && prev.ch == ':' && r.lineStart(p-1) && q.word != 0 && payers[q.word]:
		b.score, b.strong = 9, true
	case sep && prev.ch == ':' && r.lineStart(p-1) && q.word != 0 && headings[q.word]:
		b.score = -6
	case prev.word == wOf && (q.is(cOrderVerb) && q.kind == iPhrase || q.word != 0 && roles[q.word]): // our order of Casa Cinza, the treasurer of …
		b.score, b.strong = 5, true
	case prev.is(cClient) && prev.kind == iPhrase && (prev.ntok > 1 || prev.upper && r.lineStart(p)):
		b.score, b.strong = 9, true
	case prev.is(cClient) && prev.kind == iPhrase:
		b.score = 5
		b.strong = r.at(p-1).word == wordOur || r.at(p-1).word == wThe
	case prev.is(cBehalf):
		b.score, b.strong = 8, true
		if sh.words == 1 && !sh.org && prev.ntok > 1 && r.toks[prev.tok+prev.ntok-1].word == wFrom { // an update from Pilar
			b.score = 3
		}
	case prev.word == wordCalled || prev.word != 0 && vocab.names[prev.word] == "named":
		b.score, b.strong = 5, true
	case prev.word != 0 && (owners[prev.word] && r.at(p-1).word != 0 && pronouns[r.at(p-1).word] || r.weAre(p)):
		b.score, b.strong = 6, true
	case prev.word != 0 && selves[prev.word] && !((prev.word == wIs || prev.word == wordE) && !r.introduced(p-1)): // one person, as a rule
		b.score = 1
		if words >= 2 {
			b.score = 4
		}
	case r.leading(p):
		b.score, b.strong = 5, true
		if r.at(p - 1).is(cGreet) {
			b.score -= 6
		}
	case prev.is(cWith) && prev.kind == iPhrase && !prev.is(cFrom) && prev.word != wIn && r.capital(p-1) && !r.factual(p-1) && (r.at(p-2).kind >= iPunct || r.at(p-2).is(cGreet)): // Priya w/ Juniper & Jute
		b.score, b.strong = 4, true
	case prev.is(cFrom) && prev.kind != iPunct && prev.word != wDe || r.punct(p, '@'):
		b.score, b.strong = 4, true
		if prev.word == wFrom && q.is(cPrintWord) { // the artwork is from somebody else
			b.score, b.strong = -4, false
		}
	case prev.word == wOf && q.kind <= iPhrase && (r.leading(p-1) || r.fromAfar(p-1)): // for the shop of Ecomuseum Grøndal
		b.score, b.strong = 4, true
	case prev.word != 0 && (prev.word == wOf && q.kind == iWord || prev.word == wDe) && !r.factual(p-1):
		b.score = 2
	case prev.is(cHere) && prev.kind == iPhrase && words >= 2: // Duane over at Sutter Creek, here Club Ribalta
		b.score, b.strong = 4, true
	case prev.word != 0 && froms[prev.word] && !r.factual(p-1):
		b.score, b.strong = 4, true
	case prev.is(cFix) && prev.kind == iPhrase && q.is(cClient): // the customer name should be
		b.score, b.strong, b.label = 9, true, true
	case r.punct(i-1, '"') && r.quotedName(i-1):
		b.score, b.strong = 5, true
	case prev.word != 0 && reps[prev.word] && words >= 2:
		b.score = 3
	case i-1 == p && prev.word != 0 && (titles[prev.word] || roles[prev.word]) && words <= 2 && !sh.org: // coach Pruitt
		b.score = -6
	case prev.word == wOn && words >= 2 && !sh.street && q.kind <= iPhrase && !r.printed(p): // two things on
		b.score = 2
	case sep && prev.kind == iPunct && (q.is(cBehalf) || q.is(cOrderVerb)):
		b.score = 5
	case prev.is(cGreet) && !b.start && !(!r.punct(j, ',') && r.at(j).is(cHere)):
		b.score = -10
	case r.billed(p) && p == i-1:
		b.score, b.strong = 6, true
	case prev.is(cAsk):
		b.score = -7
	case b.start:
		b.score = 2
		if p <= 0 || r.blankStart(p) {
			b.score++
		}
		if !sh.org && r.closed(p) {
			b.score -= 8
		}
	case prev.kind == iPunct && (prev.ch == '.' || prev.ch == '!' || prev.ch == ':' || prev.ch == '?'):
		b.score = 1
	case prev.word != 0 && (vocab.names[prev.word] == "order" || vocab.names[prev.word] == "job") && words >= 2:
		b.score = 1
	case prev.kind == iPunct && prev.ch == ',', prev.sense(sGarment) != nil && words >= 2:
		if prev.kind == iPunct && !sh.org && r.closed(p) {
			b.score -= 8
		}
		if prev.kind == iPunct && r.capital(p-1) && r.nameHead(p-1) && !q.shout && words >= 2 { // behind a name: where a person is, or in which town
			if sh.org || sh.pair {
				b.score++
			} else {
				b.score -= 2
			}
		}
	case r.punct(p, '(') && r.punct(j, ')'):
		b.score = 1
		if words >= 2 && r.whose(p-1) {
			b.score = 3
		}
	case prev.word == wordTo && q.word != 0 && (vocab.names[q.word] == "job" || vocab.names[q.word] == "sold" || vocab.names[q.word] == "order"):
		b.score, b.strong = 4, true
	case prev.kind == iPunct && prev.ch == '-' && !prev.glued && words >= 2:
	case prev.kind == iNum && r.reference(p) && words >= 2:
		b.score, b.numbered = 1, true
	case (prev.ch == '/' || prev.ch == '|') && prev.kind == iPunct && words >= 2: // a field
	case prev.kind == iPunct:
		b.score = -1
	case r.fromAfar(p):
		b.score, b.strong = 5, true
	case prev.kind <= iPhrase && prev.word != 0 && orgs[prev.word] && !prev.upper && r.at(p-1).word != 0 && articles[r.at(p-1).word] && p == i-1: // the hotel Le Canard
		b.score, b.strong = 3, true
	default:
		b.score = -2
	}
	if r.shown(i) {
		b.score -= 5
	}
	if prev.is(cAsk) && b.strong && !prev.is(cClient) && !prev.is(cBehalf) && !r.billed(p) {
		b.score -= 7
	}
	if prev.kind == iPhrase && prev.is(cGreet) && r.at(p+1).word != wThe && p == i-1 && !b.strong {
		b.score -= 4
	}
	return b
}

// whose reports whether item i says who orders, so that what follows in brackets names them: "from Gus (Ironwood Arborists)", "our team (Grace Hollow)".
func (r *reader) whose(i int) bool {
	it := r.at(i)
	return it.kind <= iPhrase && it.word != 0 && (orgs[it.word] || roles[it.word] || titles[it.word]) || it.upper && it.kind == iWord
}

// leading reports whether item p is a "for", by itself or in a phrase of the vocabulary: "para el", "for the shop".
func (r *reader) leading(p int) bool {
	it := r.at(p)
	if it.kind > iPhrase {
		return false
	}
	w := it.word
	if it.ntok > 1 {
		w = r.toks[it.tok].word
		if last := r.toks[it.tok+it.ntok-1].word; last == 0 || !articles[last] && !orgs[last] {
			return false
		}
	}
	return w != 0 && leadsTo[w]
}

// weAre reports whether item p says who an organisation is: "we are", "we're", "somos".
func (r *reader) weAre(p int) bool {
	it := r.at(p)
	if it.word == wordWere { // we're
		return it.end-it.start > 4
	}
	return it.word != 0 && ourselves[it.word] && (it.word != wordAre || r.at(p-1).word == wordWe)
}

// shown reports whether the name at item i stands in a list of what a print shows: "sponsor logos on the back (Harbor Bank, Bell Motors)".
func (r *reader) shown(i int) bool {
	mark := false
	for k := i - 1; k > i-16 && k >= 0; k-- {
		it := r.at(k)
		if it.kind >= iBreak || it.kind == iPunct && (it.ch == '.' || it.ch == ';' || it.ch == ')') {
			return false
		}
		if it.kind == iPunct && (it.ch == '(' || it.ch == ':' || it.ch == '-') {
			mark = true
		}
		if it.word != 0 && depicted[it.word] && r.at(k+1).word != wFrom { // not "text from Gus"
			return mark
		}
		if it.word != 0 && leadsTo[it.word] {
			return false
		}
	}
	return false
}

// overArticles goes back over what may stand between a cue and a name: articles, "our client", quotation marks, "actually" after "is".
func (r *reader) overArticles(p int) int {
	for range 3 {
		it := r.at(p)
		switch {
		case it.kind <= iPhrase && it.word != 0 && articles[it.word] && !(it.word == wDe):
		case it.kind == iPhrase && it.is(cFix) && r.at(p-1).word == wIs:
		case it.kind == iPhrase && it.ntok == 1 && it.is(cClient) && r.at(p-1).word == wordOur && !r.at(p-2).is(cWith): // for our client X
		case r.punct(p, '"'), r.punct(p, '*') && it.glued:
		default:
			return p
		}
		p--
	}
	return p
}

// billed reports whether item i says who pays, and so for whom the order is: "bill to", "sold to".
func (r *reader) billed(i int) bool {
	it := r.at(i)
	if it.kind != iPhrase || it.ntok < 2 || !it.is(cAsk) {
		return false
	}
	s := r.text[it.start:it.end]
	return len(s) >= 4 && (s[0]|0x20 == 'b' || s[0]|0x20 == 'i') // bill to, invoice to
}

// printed reports whether the "on" at item p says where something is printed or worn.
func (r *reader) printed(p int) bool {
	return r.at(p-1).is(cPrintWord) || r.at(p-1).sense(sColour) != nil || r.at(p-1).sense(sPlace) != nil || r.at(p-1).sense(sGarment) != nil
}

// reference reports whether the number at item p is that of an order or estimate.
func (r *reader) reference(p int) bool {
	for k := p - 1; k > p-4; k-- {
		if it := r.at(k); it.kind != iPunct {
			return it.is(cIDWord) || it.is(cOrderVerb)
		}
	}
	return false
}

// closed reports whether a letter was closed before item p, so that who signs it comes next: "Thanks, Amy Lindholm".
func (r *reader) closed(p int) bool {
	for k := p; k > p-4 && k > 3; k-- {
		if it := r.at(k); it.kind < iPunct {
			if !it.is(cGreet) {
				return false
			}
			for e := p + 1; e < len(r.items) && e < p+12; e++ { // nothing is ordered after it
				if n := r.at(e); n.kind == iNum && n.digits < 4 || n.is(cWant) || n.sense(sGarment) != nil || n.is(cHere) {
					return false
				}
			}
			return true
		}
	}
	return false
}

// after weighs what follows the name at items i to j.
func (r *reader) after(i, j int, sh shape, b lead) int {
	s := 0
	next, n := r.at(j), j
	if r.punct(j, '(') { // look beyond a remark in brackets
		for k := j; k < j+12; k++ {
			if r.punct(k, ')') {
				next, n = r.at(k+1), k+1
				break
			}
		}
		s++
	}
	after := r.at(j + 1)
	if r.punct(j, ',') && (after.kind == iPhrase && after.is(cWant) || after.word != 0 && pronouns[after.word] && r.at(j+2).is(cWant)) {
		s += 3
	}
	if next.kind <= iPhrase && next.word != 0 && (vocab.names[next.word] == "order" || vocab.names[next.word] == "job" || vocab.names[next.word] == "one") {
		s += 3
	}
	switch {
	case next.is(cHere) && next.kind == iPhrase && next.word != 0 && vocab.names[next.word] == "here":
		s += 5
		if sh.words == 1 { // more likely a person
			s -= 4
		}
		if r.punct(n+1, ',') && r.at(n+2).is(cFrom) || r.at(n+1).is(cFrom) || r.at(n+1).word == wFor { // "Perpetua here, from the Saturday Bookbinders"
			s -= 8
		}
	case next.word != 0 && pronouns[next.word] && r.at(n+1).is(cWant) && sh.words >= 2:
		s += 9
	case (next.is(cFrom) || r.punct(j, '@')) && next.word != wDe && !b.strong: // a person of some place
		s -= 7
	case next.is(cWant) && !next.is(cPrintWord):
		s += 5
	case next.word != 0 && next.kind <= iPhrase && (deeds[next.word] || next.is(cSport) && (r.at(n+1).is(cOn) || r.at(n+1).word == wIn) || next.word == wIs || next.word == wordAre) && sh.words >= 2: // is a go, settled on
		s += 3
	case next.kind == iPunct && (next.ch == '-' || next.ch == ':' || next.ch == ',' || next.ch == '/' || next.ch == '|' || next.ch == ';'):
		if b.start {
			s += 3
		} else if sh.words >= 2 {
			s++
			if next.ch == ':' {
				s++
			}
		}
	case next.kind == iBreak:
		if b.start && sh.words >= 2 {
			s += 2
		} else if sh.words >= 2 {
			s++
		}
	case next.kind == iPunct && next.ch == '.' && sh.words >= 2:
		s++
	}
	if !sh.org && !sh.pair && sh.words <= 2 && r.punct(j, ',') && r.capital(j+1) && !b.label { // Marguerite Oyelaran, Sunrise Adult Day Center
		if e := r.nameRun(j + 1); e > j+1 && r.nameShape(j+1, e).org {
			s -= 3
		}
	}
	// a clause or a line that has nothing else in it
	prev := r.at(b.p)
	lone := (prev.kind == iPunct && (prev.ch == ',' || prev.ch == '.') || b.start) && (next.kind == iPunct && (next.ch == ',' || next.ch == '.') || next.kind == iBreak)
	if lone && sh.words >= 2 && !r.signed(i) {
		s++
	}
	if sh.words == 1 && !b.strong && !sh.org && !(next.is(cWant) || next.is(cHere)) {
		s -= 2
	}
	return s
}

// countWords counts the items from i to j that are no marks.
func (r *reader) countWords(i, j int) int {
	n := 0
	for ; i < j; i++ {
		if r.at(i).kind != iPunct {
			n++
		}
	}
	return n
}

// fromAfar reports whether small words lead from "for", "from" or the like to item p: "for the bicycle shop De Zilveren Trapper".
func (r *reader) fromAfar(p int) bool {
	least := p - 4
	for k := p; k > least && k >= 0; k-- {
		it := r.at(k)
		if k < p && (r.weAre(k) || it.word != 0 && it.word != wDe && froms[it.word] || it.word == wDe && r.capital(k-1) || it.is(cBehalf) || it.word != 0 && leadsTo[it.word] || it.is(cFrom) && it.word != wDe && it.kind == iPhrase && !it.is(cWith)) {
			return true
		}
		if it.kind == iNum && it.digits > 0 || it.glued && r.at(k-1).kind == iNum { // "the 25th jubilee of"
			least--
			continue
		}
		if it.kind != iWord && !(it.kind == iPhrase && it.ntok == 1 && (it.word != 0 && (orgs[it.word] || articles[it.word]) || it.is(cEvent) || it.is(cOccasion) || eventful(it) || it.is(cClient)) || it.kind == iPhrase && it.ntok == 2 && orgs[r.toks[it.tok+1].word]) || it.upper {
			return false
		}
	}
	return false
}

// blankStart reports whether nothing but breaks and greetings stand before item p.
func (r *reader) blankStart(p int) bool {
	for ; p >= 0; p-- {
		if k := r.at(p).kind; k != iBreak && k != iPart && !r.at(p).is(cGreet) && k != iPunct {
			return false
		}
	}
	return true
}

// signed reports whether item i stands after the words that close a letter.
func (r *reader) signed(i int) bool {
	for k := i - 1; k >= 0 && k > i-4; k-- {
		if r.at(k).is(cGreet) {
			return true
		}
	}
	return false
}
