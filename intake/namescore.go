package intake

// scoreName weighs a run of capitalised words by what stands around it.
func (r *reader) scoreName(i, j int) candidate {
	// what reads as a fact or greeting at the front is no part of a name, save where the rest is joined to it
	for i < j && !r.nameHead(i) {
		i++
		for i < j && (r.joint(i) || r.at(i).kind == iPunct) {
			i++
		}
	}
	if e := r.growName(j, true); e > j && j > i {
		j = e
	}
	for j > i && (r.at(j-1).is(cGreet) || r.at(j-1).sense(sGarment) != nil && r.at(j-1).ntok == 1 && j-i > 2 && false || r.joint(j-1)) {
		j--
	}
	if j <= i {
		return candidate{}
	}
	if w := r.at(i - 1).word; w != 0 && (w == wordCamp || w == wordTeam || w == wordClub) && r.at(i-1).kind <= iPhrase && !r.at(i-1).upper {
		if q := r.at(i - 2).word; q != wThe && q != wA && q != wordOur && q != 0 {
			i-- // "for camp Wildroot"
		}
	}
	words, plain, org, street, cal := 0, 0, false, false, false
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind == iPunct || r.joint(k) {
			continue
		}
		words += int(it.ntok)
		if !r.factual(k) && it.word != wThe || orgs[it.word] && it.word != 0 {
			plain++
		}
		if it.word != 0 && orgs[it.word] && (k > i || it.kind == iWord) {
			org = true
		}
		if it.word != 0 && streets[it.word] && k > i {
			street = true
		}
		if s := it.sense(sMonth); s != nil && !s.weak || it.sense(sDay) != nil {
			cal = true
		}
	}
	s, labelled := 0, false
	p := i - 1
	if w := r.at(p).word; w == wThe || w == wA || w == wordOur || w == wEl || w == wordLa || w == wordLos || w == wordLas {
		p--
	}
	if q := r.at(p); q.kind == iPhrase && q.is(cFix) && p > 0 && r.at(p-1).word == wIs { // "the customer is actually X"
		p--
	}
	if r.punct(p, '"') || r.punct(p, '*') && r.at(p).glued {
		p--
	}
	prev := r.at(p)
	atStart := prev.kind == iBreak || prev.kind == iPart
	sep := prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=' || prev.ch == '-') || prev.word == wIs
	strong := false
	switch {
	case sep && r.at(p-1).is(cClient) && !(prev.word == wIs && r.at(p-1).word == 0 && false):
		s += 12
		strong, labelled = true, true
	case prev.is(cClient) && prev.kind == iPhrase && (prev.ntok > 1 || prev.upper && r.lineStart(p)):
		s += 9
		strong = true
	case prev.is(cClient) && prev.kind == iPhrase:
		s += 5
	case prev.is(cBehalf) && (prev.ntok > 1 || prev.word != 0):
		s += 8
		strong = true
	case prev.word == wordCalled || prev.word != 0 && vocab.names[prev.word] == "named":
		s += 5
		strong = true
	case prev.word == wIs && r.at(p-1).word != 0 && vocab.names[r.at(p-1).word] == "this":
		s += 4
	case prev.word == wFor || prev.word != 0 && vocab.names[prev.word] == "para":
		s += 5
		strong = true
		if r.at(p - 1).is(cGreet) {
			s -= 6
		}
	case prev.is(cFrom) && prev.kind != iPunct && prev.word != wDe || r.punct(p, '@'):
		s += 4
		strong = true
	case prev.word != 0 && (prev.word == wOf && r.at(p-1).kind == iWord || prev.word == wDe) && !r.factual(p-1):
		s += 2
	case sep && prev.kind == iPunct && (r.at(p-1).is(cBehalf) || r.at(p-1).is(cOrderVerb)):
		s += 5
	case prev.is(cGreet) && !atStart && !(!r.punct(j, ',') && r.at(j).is(cHere)):
		s -= 10
	case prev.is(cAsk):
		s -= 7
	case atStart:
		s += 2
		if p <= 0 || r.blankStart(p) {
			s++
		}
	case prev.kind == iPunct && (prev.ch == '.' || prev.ch == '!' || prev.ch == ':' || prev.ch == '?'):
		s++
	case prev.word != 0 && (vocab.names[prev.word] == "order" || vocab.names[prev.word] == "job") && words2(r, i, j) >= 2:
		s++
	case prev.kind == iPunct && prev.ch == ',', prev.sense(sGarment) != nil && words2(r, i, j) >= 2:
	case r.punct(p, '(') && r.punct(j, ')'):
		s++
	case prev.word == wordTo && (r.at(p-1).word != 0 && (vocab.names[r.at(p-1).word] == "job" || vocab.names[r.at(p-1).word] == "sold" || vocab.names[r.at(p-1).word] == "order")):
		s += 4
		strong = true
	case prev.kind == iPunct && prev.ch == '-' && !prev.glued && words2(r, i, j) >= 2:
	case prev.kind == iPunct:
		s--
	default:
		if r.fromAfar(p) {
			s += 5
			strong = true
		} else {
			s -= 2
		}
	}
	if prev.is(cAsk) && strong && !prev.is(cClient) && !prev.is(cBehalf) {
		s -= 7
	}
	if prev.kind == iPhrase && prev.is(cGreet) && r.at(p+1).word != wThe && p == i-1 && !strong {
		s -= 4
	}
	next := r.at(j)
	if r.punct(j, '(') { // look beyond a remark in brackets
		for k := j; k < j+12; k++ {
			if r.punct(k, ')') {
				next = r.at(k + 1)
				break
			}
		}
		s++
	}
	q := next
	if r.punct(j, ',') && (r.at(j+1).kind == iPhrase && r.at(j+1).is(cWant) || r.at(j+1).word != 0 && pronouns[r.at(j+1).word] && r.at(j+2).is(cWant)) {
		s += 3
	}
	if q.kind <= iPhrase && q.word != 0 && (vocab.names[q.word] == "order" || vocab.names[q.word] == "job" || vocab.names[q.word] == "one") {
		s += 3
	}
	switch {
	case q.is(cHere) && q.kind == iPhrase && q.word != 0 && vocab.names[q.word] == "here":
		s += 5
		if words == 1 { // more likely a person
			s -= 4
		}
	case q.word != 0 && pronouns[q.word] && r.at(j+1).is(cWant) && words >= 2:
		s += 9
	case (q.is(cFrom) || r.punct(j, '@')) && q.word != wDe && !strong: // a person of some place
		s -= 7
	case q.is(cWant) && !q.is(cPrintWord):
		s += 5
	case next.kind == iPunct && (next.ch == '-' || next.ch == ':' || next.ch == ',' || next.ch == '/' || next.ch == '|' || next.ch == ';'):
		if atStart {
			s += 3
		} else if words >= 2 {
			s++
			if next.ch == ':' {
				s++
			}
		}
	case next.kind == iBreak:
		if atStart && words >= 2 {
			s += 2
		} else if words >= 2 {
			s++
		}
	case next.kind == iPunct && next.ch == '.':
		if words >= 2 {
			s++
		}
	}
	if words >= 2 {
		s += 2
	} else {
		s--
	}
	if org && (words >= 2 || strong) {
		s += 3
	}
	if words == 1 && !strong && r.at(i).word != 0 && (orgs[r.at(i).word] || r.at(i).is(cGreet)) { // "Team: change of plan"
		s -= 4
	}
	if cal {
		s -= 10
	}
	if street && (r.at(i-1).kind == iNum || j-i <= 3 && prev.kind == iNum) {
		s -= 8
	}
	if r.at(i-1).kind == iNum && !strong && (r.lineStart(i-1) || words < 2) && !org {
		s -= 6
	}
	if plain == 0 {
		if !strong {
			return candidate{}
		}
		s -= 4
	}
	if w := r.at(i); w.word != 0 && titles[w.word] {
		s -= 6
	}
	shout := true
	for k := i; k < j; k++ {
		if it := r.at(k); it.kind <= iPhrase && !it.shout {
			shout = false
		}
	}
	if shout && !strong {
		s -= 3
	}
	// a comma clause or a line that has nothing else in it
	lone := (prev.kind == iPunct && (prev.ch == ',' || prev.ch == '.') || atStart) && (next.kind == iPunct && (next.ch == ',' || next.ch == '.') || next.kind == iBreak)
	if lone && words >= 2 && !r.signed(i) {
		s++
	}
	if words == 1 && !strong && !org && !(q.is(cWant) || q.is(cHere)) {
		s -= 2
	}
	return candidate{i, j, s - 2, labelled}
}

// words2 counts the words in items i to j.
func words2(r *reader, i, j int) int {
	n := 0
	for ; i < j; i++ {
		if r.at(i).kind != iPunct {
			n++
		}
	}
	return n
}

// nameHead reports whether item i may be the first word of a name.
func (r *reader) nameHead(i int) bool {
	it := r.at(i)
	if it.kind == iPunct || r.joint(i) && r.text[it.start:it.end] != "The" {
		return false
	}
	if it.word != 0 && pronouns[it.word] && it.word != wThe && !(nameWords[it.word] && r.capital(i+1)) {
		return false
	}
	if it.is(cNoDate) {
		return false
	}
	if it.is(cInterj) && it.kind == iPhrase {
		return false
	}
	if it.is(cSeller) || it.is(cTalk) && it.ntok > 1 {
		return false
	}
	if it.is(cClient) && !orgs[it.word] {
		return false
	}
	if it.is(cGreet) || it.is(cBehalf) && it.ntok > 1 || it.is(cSized) || it.is(cFix) && it.kind == iPhrase {
		return false
	}
	if it.is(cOrderVerb) && it.word != 0 && !orgs[it.word] && !(len(vocab.nodes[it.node].senses) > 0) {
		return false
	}
	if it.sense(sMethod) != nil || it.sense(sDay) != nil {
		return false
	}
	return true
}

// fromAfar reports whether small words lead from "for", "from" or the like to item p: "for the bicycle shop De Zilveren Trapper".
func (r *reader) fromAfar(p int) bool {
	for k := p; k > p-4 && k >= 0; k-- {
		it := r.at(k)
		if k < p && (it.is(cBehalf) || it.word == wFor || it.is(cFrom) && it.word != wDe && it.kind == iPhrase && !it.is(cWith)) {
			return true
		}
		if it.kind != iWord && !(it.kind == iPhrase && it.ntok == 1 && (it.word != 0 && orgs[it.word] || it.is(cEvent))) || it.upper {
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
