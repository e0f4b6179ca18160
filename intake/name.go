package intake

// Words that tell names from other words, as words/names.tsv lists them: orgs end the name of a shop, club, school or firm; titles come before a
// person's name; streets end an address; pronouns and small words never begin or fill a name written in small letters, save those that a name
// written with capitals may begin with ("Little Acorn Goods").
var orgs, titles, streets, pronouns, nameWords = nameWordSets()

func nameWordSets() (o, t, s, p, n map[int32]bool) {
	sets := map[string]map[int32]bool{"org": {}, "title": {}, "street": {}, "small": {}, "start": {}}
	for class, words := range rows("names") {
		for _, w := range words {
			sets[class][vocab.intern(foldWord(w))] = true
		}
	}
	return sets["org"], sets["title"], sets["street"], sets["small"], sets["start"]
}

// candidate is a stretch of items that may name the customer.
type candidate struct {
	i, j  int
	score int
	label bool // a heading such as "customer:" stands before it
}

// findCustomer finds whom the order is for and returns the items of the name; score 0 or less means nobody is named.
func (r *reader) findCustomer() candidate {
	var best, spare candidate
	if c := r.headedName(); c.j > 0 {
		return c
	}
	for i := 0; i < len(r.items); {
		j := r.nameRun(i)
		if j == i {
			if c := r.smallName(i); c.score > best.score {
				best = c
			}
			i++
			continue
		}
		if c := r.scoreName(i, j); c.score > best.score {
			best = c
		} else if c.score == 0 && c.j-c.i >= 2 && spare.j == 0 {
			spare = c
		}
		i = j
	}
	if best.score <= 0 && spare.j > 0 { // nothing better: a name of several words that stands by itself
		spare.score = 1
		return spare
	}
	return best
}

// headedName is the name on a line that begins with "customer:", up to a mark that ends it; none is found where the heading is not there or the
// customer is still to be named.
func (r *reader) headedName() candidate {
	for i := range r.items {
		if !r.items[i].is(cClient) || !r.punct(i+1, ':') || !r.lineStart(i) {
			continue
		}
		j := i + 2
		for j < len(r.items) {
			it := &r.items[j]
			if it.kind >= iBreak || it.kind == iPunct && (it.ch == ',' || it.ch == ';' || it.ch == '(' || it.ch == '|' || it.ch == '/' || it.ch == '.' && !(r.at(j+1).glued && r.at(j+1).kind <= iPhrase) || it.ch == '-' && !it.glued) {
				break
			}
			j++
		}
		if j == i+2 {
			continue
		}
		switch foldWord(r.text[r.items[i+2].start:r.items[i+2].end]) {
		case "tbc", "tbd", "tba", "unknown", "na", "none":
			continue
		}
		return candidate{i + 2, j, 30, true}
	}
	return candidate{}
}

// capital reports whether item i is written as part of a name.
func (r *reader) capital(i int) bool {
	it := r.at(i)
	if it.shout && it.kind == iPhrase && (it.is(cAdd) || it.is(cOnly) || it.is(cNo) || it.is(cFix)) && r.at(i+1).kind <= iPhrase && !r.at(i+1).shout {
		return false
	}
	if it.kind == iWord && it.ntok > 1 { // "Can't wait"
		if w := r.toks[it.tok].word; pronouns[w] && !nameWords[w] {
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

// joint reports whether item i may stand inside a name in small letters.
func (r *reader) joint(i int) bool {
	it := r.at(i)
	if it.kind == iPunct {
		return it.ch == '&' || it.ch == '+' || it.ch == '-' && it.glued && r.at(i+1).glued || it.ch == '\'' && it.glued
	}
	if it.kind == iNum {
		return false
	}
	switch r.text[it.start:it.end] {
	case "of", "the", "and", "de", "la", "del", "y", "e", "du", "des", "les", "van", "von", "der", "for", "los", "las", "en", "el", "di", "da", "to", "in", "at", "of the", "by":
		return true
	}
	return false
}

// nameRun is the item after a run of capitalised words at item i.
func (r *reader) nameRun(i int) int {
	if !r.capital(i) || r.label(i) {
		return i
	}
	j := i + 1
	for j < len(r.items) {
		if r.punct(j, '-') && r.at(j).glued && r.at(j+1).glued && !r.capital(j+1) && j == i+1 { // "Old-looking"
			return i
		}
		if r.capital(j) && !r.label(j) {
			if r.at(j).kind == iPhrase && r.at(j).ntok > 1 && r.at(j).shout {
				return j
			}
			j++
			continue
		}
		if r.at(j).kind == iNum && (r.capital(j-1) && r.at(j).digits > 0 && r.at(j).digits <= 2 && r.capital(j+1) && !r.at(j).glued && r.goods(j) < 2) {
			j++
			continue
		}
		if r.punct(j, '.') && r.at(j).glued && r.capital(j+1) && r.at(j-1).end-r.at(j-1).start <= 2 && !r.at(j-1).is(cColourWord) {
			j++
			continue
		}
		if it := r.at(j); it.kind == iPhrase && it.first > 0 && it.sense(sUse) != nil && r.capital(j-1) { // the Dunmore 10K
			j++
			continue
		}
		k := j
		for k < j+2 && r.joint(k) {
			k++
		}
		if k > j && r.capital(k) && !r.label(k) && !r.punct(j, '-') || r.punct(j, '-') && k > j && r.capital(k) || r.punct(j, '-') && k > j && r.at(k).kind == iWord {
			if w := r.text[r.at(j).start:r.at(j).end]; (w == "for" || w == "to" || w == "in" || w == "at" || w == "by") && !(r.at(k).kind == iWord) {
				return j
			}
			if w := r.text[r.at(j).start:r.at(j).end]; w == "for" || w == "at" || w == "by" || w == "to" || w == "from" {
				return j
			}
			j = k + 1
			continue
		}
		return j
	}
	return j
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
	return it.kind == iPhrase && r.punct(i+1, ':') && r.lineStart(i) && (it.is(cClient) || it.is(cQty) || it.is(cDue) || it.is(cHand) || it.is(cSized) || it.is(cColourWord) || it.is(cPrintWord) || it.is(cGarmentWord) || it.is(cPS))
}

// factual reports whether item i reads as a fact or a steering word, so that it is no name by itself.
func (r *reader) factual(i int) bool {
	it := r.at(i)
	return it.kind == iPhrase && (len(vocab.nodes[it.node].senses) > 0 || it.is(cGreet) || it.is(cOrderVerb) || it.is(cPrintWord) || it.is(cNo) || it.is(cFix) || it.is(cDue) || it.is(cHand) || it.is(cSame) || it.is(cTalk) || it.is(cPast) || it.is(cClient) || it.is(cBehalf) || it.is(cFull) || it.is(cAll) || it.is(cColourWord) || it.is(cSized) || it.is(cAdd) || it.is(cSwatch) || it.is(cAsk) || it.is(cGone) || it.is(cIDWord) || it.is(cBut) || it.is(cThis) || it.is(cQty) || it.is(cHeather) || it.is(cWant) || it.is(cWith) || it.is(cOn) || it.is(cFrom))
}
