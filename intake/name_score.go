package intake

// shape is what a stretch of words looks like as a name.
type shape struct {
	words, plain int  // words, and those that mean nothing else
	org          bool // one of them ends the names of organisations
	pair         bool // two are joined by a mark: "Hob & Ladle"
	street       bool // one ends an address
	date         bool // one is a day or month
	shout        bool // all are in capitals
	role         bool // all say no more than what somebody is or does
	person       bool // a first name and at most one word more
}

// nameShape looks at the words of items i to j.
func (r *reader) nameShape(i, j int) shape {
	s := shape{shout: true, role: true}
	month := false
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind <= iPhrase && !it.shout {
			s.shout = false
		}
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+') {
			s.pair = true
		}
		if it.kind == iPunct || r.joint(k) {
			continue
		}
		s.words += int(it.ntok)
		known := it.word != 0 && orgs[it.word]
		if !r.factual(k) && it.word != wThe && it.word != wA && !(it.kind == iNum && !it.spelled) || known {
			s.plain++
		}
		if known && (k > i || it.kind == iWord) {
			s.org = true
		}
		if it.word != 0 && streets[it.word] && k > i && k == j-1 {
			s.street = true
		}
		if it.sense(sMonth) != nil {
			month = true
		}
		if m := it.sense(sMonth); m != nil && (!m.weak || r.at(k-1).kind == iNum || r.at(k+1).kind == iNum && !r.at(k+1).glued) || it.sense(sDay) != nil && !r.dayInside(k, j) {
			s.date = true
		}
		if it.word == 0 || !roles[it.word] && it.word != wThe {
			s.role = false
		}
	}
	head := r.at(i) // "End of May is fine"
	s.date = s.date || month && (s.plain == 0 || head.is(cEnd) || head.is(cMid) || head.is(cEarly))
	s.person = s.words <= 2 && !s.org && !s.pair && r.at(i).word != 0 && given[r.at(i).word] && !r.possessive(j)
	return s
}

// dayInside reports whether the day at item k belongs to the name that ends at item j: "Saturday Bookbinders", not "Saturday October 10".
func (r *reader) dayInside(k, j int) bool {
	return k+1 < j && r.at(k+1).kind <= iPhrase && r.at(k+1).upper && r.at(k+1).sense(sMonth) == nil && !r.factual(k+1)
}

// closing reports whether the words that close a letter stand just before item i: "Viele Grüße, Jochen", "Met vriendelijke groet Wiebe".
func (r *reader) closing(i int) bool {
	for k := i; k > i-3 && k >= 0; k-- {
		if w := r.at(k).word; w != 0 && farewells[w] && (k == i || r.capital(i)) {
			return r.lineStart(k) || r.at(k-1).kind == iPunct || r.at(k-1).word != 0 && farewells[r.at(k-1).word]
		}
	}
	return false
}

// possessive reports whether the name that ends at item j ends in 's.
func (r *reader) possessive(j int) bool {
	it := r.at(j - 1)
	return it.kind <= iPhrase && it.end-it.start > 2 && r.text[it.end-1] == 's' && r.text[it.end-2] == '\''
}

// scoreName weighs a run of capitalised words.
func (r *reader) scoreName(i, j int) candidate {
	i, j, fromPerson := r.trimName(i, j)
	if j <= i || j == i+1 && (r.somebody(i) || r.possessive(j) && r.at(j).is(cWant)) {
		return candidate{}
	}
	if n := r.at(i); n.ntok > 1 && (n.is(cBlank) || n.is(cPast)) { // "No print on the pocket", "Last time the print was gold"
		return candidate{}
	}
	sh := r.nameShape(i, j)
	if sh.role || (r.at(i).word == wA || r.at(i).word == wThe) && !r.capital(i+1) {
		return candidate{}
	}
	if r.printName(i, j) {
		return candidate{}
	}
	b := r.before(i, j, sh)
	if fromPerson {
		b.score, b.strong = max(b.score, 5), true
	}
	s := b.score + r.after(i, j, sh, b)
	if sh.words >= 2 {
		s += 2
	} else {
		s--
	}
	if sh.org && (sh.words >= 2 || b.strong) {
		s += 3
	}
	if sh.words == 1 && !b.strong && r.at(i).word != 0 && (orgs[r.at(i).word] || r.at(i).is(cGreet)) { // "Team: change of plan"
		s -= 4
	}
	if sh.street && r.at(j).kind <= iPhrase && !r.at(j).upper && eventful(r.at(j)) { // the Mill Road street party
		s -= 8
	}
	if sh.date || r.holiday(i, j) {
		s -= 10
	}
	if sh.street && (r.at(i-1).kind == iNum || j-i <= 3 && r.at(b.p).kind == iNum) {
		s -= 8
	}
	if r.at(i-1).kind == iNum && !b.strong && !b.numbered && (r.lineStart(i-1) || sh.words < 2) && !sh.org {
		s -= 6
	}
	if sh.plain == 0 {
		if !b.strong {
			return candidate{}
		}
		s -= 4
	}
	if w := r.at(i).word; w != 0 && titles[w] && !(sh.org && sh.words >= 3) {
		s -= 6
	}
	if sh.shout && !b.strong {
		s -= 3
	}
	if sh.person && !b.label {
		s -= 4
	}
	if !sh.org && !sh.pair && r.closing(i) {
		s -= 8
	}
	if r.saidAgain(i, j) {
		s += 2
	}
	return candidate{i, j, s - 2, b.label}
}

// artNames are what is printed, where a place or a colour stands before: "Full front design".
var artNames = internAll("design", "designs", "graphic", "graphics", "artwork", "art", "print", "prints", "logo", "logos")

// printName reports whether items i to j only name a print by its place.
func (r *reader) printName(i, j int) bool {
	placed, art := false, false
	for k := i; k < j; k++ {
		switch it := r.at(k); {
		case it.sense(sPlace) != nil:
			placed = true
		case artNames[it.word]:
			art = true
		case it.is(cFull), it.sense(sColour) != nil:
		default:
			return false
		}
	}
	return placed && art
}

// trimName leaves out what stands at the ends of a run of capitals and is no part of a name, and takes in what is.
func (r *reader) trimName(i, j int) (from, to int, fromPerson bool) {
	for i < j && (!r.nameHead(i) || r.billed(i)) { // what reads as a fact or greeting at the front
		i++
		for i < j && (r.joint(i) || r.at(i).kind == iPunct) {
			i++
		}
	}
	if k := r.afterPerson(i, j); k > i {
		i, fromPerson = k, true
	}
	if e := r.growName(j, true); e > j && j > i {
		j = e
	}
	for j > i && (r.at(j-1).is(cGreet) || r.joint(j-1)) {
		j--
	}
	if j <= i {
		return i, i, false
	}
	if p := r.at(i - 1); p.word != 0 && (p.word == wordCamp || p.word == wordTeam || p.word == wordClub) && p.kind <= iPhrase && !p.upper {
		if q := r.at(i - 2); q.word != 0 && (leadsTo[q.word] || q.is(cFrom)) || q.is(cBehalf) {
			i-- // "for camp Wildroot"
		}
	}
	if n := r.at(i - 1); n.kind == iNum && !n.frac && !n.spelled && (!r.factual(i) || j-i >= 2) && !r.gap(i) && r.numberFirst(i-1, j) {
		i-- // "1912 Coffee House"
	}
	return i, j, fromPerson
}

// numberFirst reports whether the number at item n may begin the name that goes on to item j: it begins the message or stands where a name must,
// and no goods follow that it could count.
func (r *reader) numberFirst(n, j int) bool {
	p := r.at(n - 1)
	if !(p.kind >= iBreak && r.blankStart(n-1) || p.word == wFor || p.is(cClient) || p.is(cBehalf) || p.is(cFrom) && p.kind == iPhrase) {
		return false
	}
	if r.at(j).kind < iPunct && !r.at(j).is(cWant) || r.at(j).kind == iNum {
		return false
	}
	for k := n + 1; k < j; k++ {
		if it := r.at(k); it.sense(sGarment) != nil && k == j-1 || it.kind == iNum {
			return false
		}
	}
	return true
}

// afterPerson is where the name of the organisation begins in "Pastor Ruiz of Living Waters" and in "soy Nacho de Bodegas Roya".
func (r *reader) afterPerson(i, j int) int {
	p := r.at(i - 1)
	self := p.word != 0 && selves[p.word] && !((p.word == wIs || p.word == wordE) && !r.introduced(i-2))
	title := r.at(i).word != 0 && (titles[r.at(i).word] || given[r.at(i).word]) && !r.punct(i+1, '\'')
	if !self && !title && !r.greeter(i, j) {
		return i
	}
	for k := i + 1; k < j && k < i+4; k++ {
		if r.joint(k) && r.at(k).kind != iPunct && r.at(k).word != wAnd && r.at(k).word != wY {
			for k < j && r.joint(k) {
				k++
			}
			return k
		}
	}
	return i
}

// greeter reports whether the word at item i is the first name of somebody who greets and then says of where they are: "Goededag, Fleur of Studio Kruid".
func (r *reader) greeter(i, j int) bool {
	it := r.at(i)
	if !((r.punct(i-1, ',') || r.punct(i-1, '!') || r.punct(i-1, '.')) && r.at(i-2).is(cGreet) || r.wordAt(i-1) == "hier" || r.wordAt(i-1) == "ici") || it.kind != iWord || it.word != 0 && !given[it.word] || !r.joint(i+1) || r.at(i+1).kind == iPunct {
		return false
	}
	w := r.at(i + 1).word
	if w == wAnd || w == wY {
		return false
	}
	if w == wOf { // "Friends of the Meadow" are no person
		return r.text[it.end-1] != 's' && j-i >= 4
	}
	return froms[w] || w == wDe && orgs[r.at(i+2).word] && r.at(i+2).word != 0
}

// introduced reports whether item i is who somebody says they are: "my name is", "this is".
func (r *reader) introduced(i int) bool {
	switch w := r.at(i).word; {
	case w == 0:
		return false
	default:
		n := vocab.names[w]
		return n == "name" || n == "this" || n == "it" || n == "here" || n == "ici" || n == "nombre" || n == "aqui" || n == "qui" || n == "nome" || n == "hier"
	}
}

// mostAgain is how many items are looked through for a name that is said again, so that the time stays linear.
const mostAgain = 300

// saidAgain reports whether the name at items i to j, or its first two words, stand in the text once more.
func (r *reader) saidAgain(i, j int) bool {
	if j-i < 2 {
		return false
	}
	a, b := r.text[r.items[i].start:r.items[i].end], r.text[r.items[i+1].start:r.items[i+1].end]
	for k := j; k+1 < len(r.items) && k < j+mostAgain; k++ {
		if it := &r.items[k]; it.upper && r.text[it.start:it.end] == a && r.text[r.items[k+1].start:r.items[k+1].end] == b {
			return true
		}
	}
	return false
}

// nameHead reports whether item i may be the first word of a name.
func (r *reader) nameHead(i int) bool {
	it := r.at(i)
	if it.kind == iPunct || r.joint(i) {
		return false
	}
	if it.word != 0 && pronouns[it.word] && it.word != wThe && !(nameWords[it.word] && r.capital(i+1)) {
		return r.shortForm(i + 1)
	}
	if it.is(cNoDate) || it.is(cSuits) && it.ntok > 1 || it.is(cInterj) && it.kind == iPhrase || it.is(cSeller) || it.is(cTalk) && it.ntok > 1 || it.is(cClient) && !orgs[it.word] {
		return false
	}
	if it.word != 0 && farewells[it.word] && r.lineStart(i) || it.is(cGreet) || it.is(cBehalf) && it.ntok > 1 || it.is(cSized) || it.is(cFix) && it.kind == iPhrase {
		return false
	}
	if it.is(cOrderVerb) && it.word != 0 && !orgs[it.word] && len(vocab.nodes[it.node].senses) == 0 {
		return false
	}
	return it.sense(sMethod) == nil && (it.sense(sDay) == nil || r.capital(i+1) && !r.factual(i+1))
}

// holiday reports whether items i to j name a day of the calendar and nobody: "Memorial Day", "Christmas Eve".
func (r *reader) holiday(i, j int) bool {
	switch r.wordAt(j - 1) {
	case "day", "eve", "weekend", "week":
	default:
		return false
	}
	switch r.wordAt(i) {
	case "memorial", "labor", "labour", "christmas", "new", "mothers", "mother's", "fathers", "father's", "independence", "valentines", "valentine's", "thanksgiving", "easter", "veterans",
		"columbus", "presidents", "boxing", "may", "bank", "canada", "anzac", "australia", "st", "saint", "earth":
		return j-i <= 3
	}
	return false
}

// somebody reports whether item i says who speaks or acts and names nobody: "We'd".
func (r *reader) somebody(i int) bool {
	switch r.wordAt(i) {
	case "wed", "we'd", "id", "i'd", "theyd", "they'd", "youd", "you'd", "hed", "he'd", "shed", "she'd", "well", "we'll", "weve", "we've":
		return true
	}
	return false
}
