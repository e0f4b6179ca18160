package intake

import "strings"

// eventful reports whether an item names an event, which is no part of a name in small letters.
func eventful(it *item) bool {
	s := it.sense(sUse)
	return s != nil && s.val == "event"
}

// sporty reports whether an item says no use, or one of sport, so that it may belong to a club's name.
func sporty(it *item) bool {
	s := it.sense(sUse)
	return s == nil || s.val == "athletic" || s.val == "swim"
}

// growName takes in small words of the name after item j: "marching band", "craft club".
func (r *reader) growName(j int, strong bool) int {
	if r.household(j) {
		return j + 1
	}
	k := j
	for k < j+3 {
		it := r.at(k)
		if it.kind == iPhrase && it.ntok == 2 && !it.upper && sporty(it) && orgs[r.toks[it.tok+1].word] { // run club
			k++
			continue
		}
		if it.kind > iPhrase || it.word == 0 || it.upper || eventful(it) || !orgs[it.word] || it.word == wordPrint || it.is(cOrderVerb) {
			break
		}
		k++
	}
	if k == j { // one unknown word and then a word for an organisation
		a, b := r.at(j), r.at(j+1)
		if r.punct(j+1, '\'') && r.at(j+1).glued { // girls' soccer
			b = r.at(j + 2)
		}
		if (a.kind == iWord || a.is(cYouth) || a.is(cAdult)) && !a.upper && (a.word == 0 || !pronouns[a.word]) && b.kind <= iPhrase && b.word != 0 && orgs[b.word] && !b.upper && b.sense(sGarment) == nil && !eventful(b) {
			return j + 2 + int(b.tok-a.tok-1)
		}
		return j
	}
	if r.at(k).sense(sGarment) != nil || r.at(k-1).sense(sGarment) != nil {
		return j
	}
	if w := r.at(j - 1).word; w != 0 && orgs[w] && r.at(k).kind <= iPhrase && !r.at(k).is(cWant) && !r.at(k).is(cHere) { // the brewing taproom's merch
		return j
	}
	return k
}

// household reports whether "family" at item j, after a name, says whose family orders: "the whole Brandvold family wants", not "Zeller family reunion".
func (r *reader) household(j int) bool {
	if w := r.wordAt(j); w != "family" && w != "household" && w != "clan" || r.at(j).upper {
		return false
	}
	n := r.at(j + 1)
	return n.kind > iNum || n.kind == iWord && n.end-n.start > 3 && r.text[n.end-1] == 's' || n.is(cWant) || n.is(cDue) || n.is(cFrom) || n.word != 0 && (pronouns[n.word] || deeds[n.word] || subjects[n.word] || n.word == wAnd || n.word == wIs || n.word == wordAre)
}

// smallName weighs a name written in small letters that begins at item i. Where nothing leads to it, it must end in a word for an organisation
// and fill its clause, or stand before what a customer does: "dictating this from the van. stonehaven swim school. forty towels".
func (r *reader) smallName(i int) candidate {
	if it := r.at(i); it.upper || it.kind != iWord && it.kind != iPhrase || it.word == wA || it.word != 0 && articles[it.word] {
		return candidate{}
	}
	b, open := r.beforeSmall(i)
	if b == 0 || r.kin(i) {
		return candidate{}
	}
	j, words, plain, org, last := i, 0, 0, false, false
	strange := r.at(i-1).word != wordOur // "our book club" names nobody
	sure := b >= 7
	for j < len(r.items) && words < 7 {
		it := r.at(j)
		if it.upper && it.kind <= iPhrase || j > i && r.gap(j) {
			break
		}
		if it.kind <= iPhrase && it.word != 0 && orgs[it.word] && !it.is(cPrintWord) && !(it.is(cIDWord) && (words == 0 || r.at(j+1).kind == iNum && r.goods(j+1) < 2)) {
			org, last = true, true
			words++
			j++
			continue
		}
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+' || it.ch == '\'' || it.ch == '-' && it.glued && r.at(j+1).glued) && words > 0 {
			j++
			continue
		}
		if words > 0 && r.joint(j) && it.kind <= iPhrase && !(it.word != 0 && links[it.word]) && r.at(j+1).kind == iWord && (sure || b >= 3 || r.orgSoon(j+1)) {
			j++
			continue
		}
		if r.orgPhrase(j) && words > 0 { // swim school, run club
			org, last = true, true
			words += 2
			j++
			continue
		}
		if !r.smallWord(j, words, sure) {
			break
		}
		if it.kind == iWord || !r.factual(j) {
			plain++
		}
		strange = strange || it.kind == iWord && it.word == 0
		last = false
		words++
		j++
	}
	for j > i && (r.joint(j-1) || r.at(j-1).kind == iPunct || r.at(j-1).word != 0 && roles[r.at(j-1).word] && !orgs[r.at(j-1).word]) {
		if r.at(j-1).kind != iPunct && !r.joint(j-1) {
			words--
			last = orgs[r.at(j-2).word] && r.at(j-2).word != 0
		}
		j--
	}
	if words <= 0 || j <= i || r.capital(j) || plain == 0 && !sure && words < 3 {
		return candidate{}
	}
	if !sure && words < 2 || open && !(org && last) || !strange {
		return candidate{}
	}
	s := b
	next := r.at(j)
	ends := next.kind == iPunct && (next.ch == ':' || next.ch == ',' || next.ch == '-' || next.ch == '.' || next.ch == '(' || next.ch == '/' || next.ch == '|' || next.ch == '!' || next.ch == 0) || next.kind >= iBreak || next.kind == iNum && org && last
	switch {
	case next.is(cWant):
		s += 3
	case ends:
		s++
	case next.is(cIDWord) || next.is(cOrderVerb):
		s++
	case next.word != 0 && (fillers[next.word] || deeds[next.word]) || next.is(cToday) || next.word == wBy || next.is(cHere): // for greenfield food bank by friday
	case open:
		return candidate{}
	default:
		s -= 3
	}
	if org {
		s += 2
		if last && open {
			s++
		}
	} else if s -= 2; !open && words >= 2 && plain >= 2 && r.opens(i, j) {
		s += 2
	}
	return candidate{i, j, s - 2, s >= 12}
}

// charity reports whether what is collected for something stands at item i: "raising money for the church roof".
func (r *reader) charity(i int) bool {
	switch r.wordAt(i) {
	case "money", "funds", "fundraising", "fundraiser", "collection", "collecting", "donations", "cash", "saving":
		return true
	}
	return false
}

// kin reports whether somebody of one's own stands at item i, whose the occasion is and not the order: "for dad's retirement".
func (r *reader) kin(i int) bool {
	who, ok := strings.CutSuffix(r.wordAt(i), "s")
	return ok && r.possessive(i+1) && roles[vocab.words[strings.TrimSuffix(who, "'")]]
}

// memoWords end what is said before a message that is dictated: "voice memo", "note to self".
var memoWords = internAll("memo", "self", "voicemail", "recording", "dictation", "message", "msg", "note")

// opens reports whether items i to j begin the message and goods are counted right after them: "bramwell tool libary, 36 tees".
func (r *reader) opens(i, j int) bool {
	head := i - 1
	if r.at(head).word == wThe { // "the pale relatives. 150 tees"
		head--
	}
	if r.at(head).kind < iBreak || !r.blankStart(head) {
		return false
	}
	if r.punct(j, ':') {
		return true
	}
	n := r.at(j + 1)
	return r.at(j).kind == iPunct && (n.kind == iNum && n.num > 1 || n.sense(sGarment) != nil)
}

// beforeSmall weighs what stands before a name in small letters; 0 where none can begin. open tells that nothing leads to a name, so that the name
// has to show itself.
func (r *reader) beforeSmall(i int) (score int, open bool) {
	p := r.overArticles(i - 1)
	if r.at(i-1).word == wA { // a name has no "a" before it
		return 0, false
	}
	for r.at(p).word != 0 && fillers[r.at(p).word] {
		p--
	}
	prev := r.at(p)
	q := r.at(p - 1)
	sep := prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=' || prev.ch == '-') || prev.word == wIs
	switch {
	case sep && q.is(cClient):
		return 12, false
	case prev.is(cBehalf) && prev.kind == iPhrase:
		return 7, false
	case prev.word != 0 && (owners[prev.word] && q.word != 0 && pronouns[q.word] || prev.word == wordCalled || r.weAre(p)):
		return 4, true
	case prev.word == wFrom && q.is(cGreet): // "hi from otter creek cross country"
		return 4, false
	case prev.is(cFrom) && prev.kind == iPhrase && (prev.word == wFrom || prev.word != 0 && (vocab.names[prev.word] == "at" || prev.word == wWith)):
		return 4, true
	case prev.word != 0 && leadsTo[prev.word] && r.charity(p-1):
		return 0, false
	case prev.word != 0 && leadsTo[prev.word]:
		return 4, false
	case prev.kind <= iPhrase && prev.is(cWith) && r.at(p-1).kind == iWord && r.at(p-2).word == wIs && r.introduced(p-3): // "this is ray w the pine hollow chess club"
		return 4, true
	case prev.word != 0 && selves[prev.word] && (prev.word != wIs || r.introduced(p-1)):
		return 3, true
	case r.punct(p, '@'):
		return 4, false
	case prev.kind >= iBreak && (i == 0 || r.blankStart(p)):
		return 3, false
	case prev.kind == iBreak && q.kind == iBreak && r.at(i).kind == iWord: // a paragraph
		return 2, false
	case prev.is(cAsk) && prev.kind == iPhrase && prev.ntok == 2: // spoke to
		return 3, true
	case prev.kind >= iBreak, r.punct(p, '.'), r.punct(p, '-') && !prev.glued, r.punct(p, ':'), r.punct(p, ','), r.punct(p, '!'), prev.word != 0 && memoWords[prev.word] && !r.at(i).is(cTo), prev.is(cInterj) && prev.kind == iPhrase, prev.word == wAnd, prev.word != 0 && reps[prev.word]:
		return 2, true
	}
	return 0, false
}

// smallWord reports whether item j may be a word of a name in small letters that has words before it.
func (r *reader) smallWord(j, words int, sure bool) bool {
	it := r.at(j)
	if it.word != 0 && (pronouns[it.word] && !(nameWords[it.word] && r.orgSoon(j+1)) || roles[it.word] && words == 0) {
		return false
	}
	if it.kind == iWord {
		return it.ntok == 1
	}
	if it.kind != iPhrase || it.ntok > 1 || it.is(cWant) || it.is(cGreet) || (it.is(cFrom) || it.is(cOn)) && !r.joint(j) {
		return false
	}
	if !r.factual(j) {
		return !it.is(cIDWord) || sure || r.orgSoon(j+1)
	}
	if it.sense(sGarment) != nil || it.sense(sPlace) != nil && !(words == 0 && r.orgSoon(j+1)) {
		return false
	}
	if it.sense(sColour) != nil || it.is(cIDWord) || it.sense(sPlace) != nil || it.sense(sDay) != nil { // brick lane barbers, sunday league
		return sure && words > 0 || r.orgSoon(j+1)
	}
	return sure && words > 0 || words == 0 && it.is(cHeather) && r.orgSoon(j+1) // marl street cyclery
}

// orgSoon reports whether a word for an organisation ends the small words from item k on.
func (r *reader) orgSoon(k int) bool {
	for e := k; e < k+3; e++ {
		it := r.at(e)
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+') {
			continue
		}
		if it.kind > iPhrase || it.upper || it.word != 0 && pronouns[it.word] && !(e > k && orgs[it.word]) { // "the team" is no name
			return false
		}
		if it.word != 0 && orgs[it.word] || r.orgPhrase(e) {
			return r.at(e+1).sense(sGarment) == nil
		}
		if it.sense(sGarment) != nil {
			return false
		}
	}
	return false
}

// orgPhrase reports whether item k is two words that the vocabulary knows together and that may end a name: "run club", "food bank".
func (r *reader) orgPhrase(k int) bool {
	it := r.at(k)
	if it.kind > iPhrase || it.ntok != 2 {
		return false
	}
	w := r.toks[it.tok+1].word
	return w != 0 && orgs[w] && (it.node == 0 || !eventful(it) && !r.factualButUse(k))
}

// factualButUse reports whether a phrase has a meaning besides one of use.
func (r *reader) factualButUse(k int) bool {
	for _, s := range vocab.nodes[r.at(k).node].senses {
		if s.kind != sUse {
			return true
		}
	}
	return false
}
