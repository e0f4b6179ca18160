package intake

// supposed are phrases that open a thought of what might be printed, besides the words of wishing and the tenses of what was to be.
var supposed = internAll("love", "idea", "cost", "costs", "runs", "temptation", "joke", "joked")

// turns lead over from what somebody had in mind to what is to be.
var turns = internAll("but", "so", "though", "although", "however", "until", "except", "instead", "then", "because", "since", "as", "only", "said", "told")

// agreed are words of a turn that takes the thought up, or only says what is still to come of it.
var agreed = internAll("ok", "okay", "fine", "yes", "sure", "agreed", "agree", "possible", "please", "can", "could", "ahead", "add", "art", "artwork", "file", "files", "vector",
	"follow", "follows", "send", "sending", "email", "size", "sizes", "date", "up", "stay", "stays", "keep", "keeps", "love", "loved", "great", "approved", "wins", "won", "yourself", "decide",
	"you", "smaller", "bigger", "larger", "flexible", "wants", "want", "wanted", "needs", "need", "make", "put", "go", "goes", "going", "do", "must", "has")

// unanswered denies the prints of a thought after which the sentence turns to something else and says nothing of how they would be: "the back was going
// to have the names, but they change every week, so just the front". No word of refusal is needed: what is wanted is said in the turn, or it is described.
func (r *reader) unanswered(s sentence, wished int) {
	asked := -1 // only the price of it was asked for
	for i := s.i0; i < s.i1; i++ {
		it := r.at(i)
		if r.speaks(it, supposed) && (wished < 0 || i < wished) {
			wished = i
		}
		if did := r.at(i - 1).word; it.word == wordWant && did != 0 && did == wordDid && wished < 0 { // "they did want a nape print"
			wished = i
		}
		if r.speaks(it, priced) || r.speaks(it, muchWord) && (r.speaks(it, howWord) || r.speaks(r.at(i-1), howWord)) {
			asked = i
		}
	}
	if wished < 0 && asked < 0 {
		return
	}
	turn, open := -1, false
	for i := wished + 1; i < s.i1; i++ {
		it := r.at(i)
		switch {
		case turn < 0 && r.speaks(it, turns) && r.at(i+1).kind <= iNum:
			turn = i
		case turn >= 0 && r.speaks(it, agreed):
			open = true
		}
	}
	if turn < 0 && asked < 0 || open || wished < 0 && asked < 0 {
		return
	}
	end := s.i1
	if turn >= 0 {
		end = turn
	}
	told := false
	for k := s.f0; k < s.f1; k++ {
		x := &r.facts[k]
		if x.dead || x.neg {
			continue
		}
		only := x.kind == fPlace && (r.at(int(x.i0)-1).is(cOnly) || r.at(int(x.i0)-2).is(cOnly) || r.at(int(x.i1)).is(cOnly))
		switch x.kind {
		case fNumber, fSizes, fBlend, fFabric, fDim, fInks, fFull, fCover, fGarment:
			return
		case fPlace, fColour, fEffect, fMethod:
			if int(x.i0) > end && !only && !(x.weak && x.kind == fPlace) {
				return // what is to be is said
			}
			told = told || int(x.i0) < end && x.kind != fColour
		}
	}
	if !told {
		return
	}
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; int(x.i0) < end && (x.kind == fPlace || x.kind == fEffect || x.kind == fMethod || x.kind == fColour) {
			x.dead = true
			x.neg = x.neg || x.kind == fEffect || x.kind == fMethod
		}
	}
}

// priced are words of what something would cost.
var priced = internAll("cost", "costs", "runs", "expensive")

var (
	muchWord, howWord = internAll("much"), internAll("how")
	wordWant, wordDid = vocab.intern("want"), vocab.intern("did")
)

// speaks reports whether any word of an item is in a set.
func (r *reader) speaks(it *item, set map[int32]bool) bool {
	if it.kind > iNum {
		return false
	}
	for _, t := range r.toks[it.tok : it.tok+it.ntok] {
		if set[t.word] {
			return true
		}
	}
	return false
}

// stillThere takes up the place of a thought again that the sentence changes and does not drop: "they'd wanted foil on the back but it's shimmer now".
func (r *reader) stillThere(s sentence) {
	at, live := -1, false
	for k := s.f0; k < s.f1; k++ {
		x := &r.facts[k]
		switch {
		case x.kind == fPlace && (at >= 0 || !x.dead || x.neg), x.kind == fGarment, x.kind == fNumber:
			return
		case x.kind == fPlace:
			at = k
		case at >= 0 && x.fix && !x.dead && !x.neg && (x.kind == fEffect || x.kind == fColour || x.kind == fInks || x.kind == fDim):
			live = true
		}
	}
	if live {
		r.facts[at].dead = false
	}
}

// onlyOne lets go of the places of which a sentence says nothing before it comes down to one: "the back slogan is stuck with the lawyers so front only".
func (r *reader) onlyOne(s sentence) {
	for k := s.f0 + 1; k < s.f1; k++ {
		y := &r.facts[k]
		if y.kind != fPlace || y.neg || y.dead {
			continue
		}
		i := int(y.i0) - 1
		only := r.at(int(y.i1)).is(cOnly)
		for r.at(i).word == wThe || r.at(i).is(cOnly) {
			only = only || r.at(i).is(cOnly)
			i--
		}
		if !only || !r.speaks(r.at(i), turns) {
			continue
		}
		for q := k - 1; q >= s.f0; q-- {
			x := &r.facts[q]
			if x.kind != fPlace && x.kind != fDate && x.kind != fWish {
				break
			}
			x.dead = x.dead || x.kind == fPlace && x.s != y.s
		}
	}
}

// tellsWish reports whether a sentence tells of what somebody had in mind.
func (r *reader) tellsWish(s sentence) bool {
	for i := s.i0; i < s.i1; i++ {
		if r.speaks(r.at(i), wishedWords) {
			return true
		}
	}
	return false
}

// others are words for what somebody else has.
var others = internAll("theirs", "competitor", "competitors", "rivals", "neighbours", "neighbors")

// spokenUp lets go of an effect or a method that somebody else speaks up for: "my sister says glitter, I say foil".
func (r *reader) spokenUp(s sentence) {
	for k := s.f0; k < s.f1; k++ {
		x := &r.facts[k]
		if x.kind != fEffect && x.kind != fMethod {
			continue
		}
		if p := r.at(int(x.i0) - 1); r.speaks(p, saying) && r.punct(int(x.i1), ',') || r.speaks(p, having) && !s.asks(r) { // "the brewery had DTG and it washed out"
			x.dead = true
		}
	}
}

// asks reports whether a sentence asks for something to be had: "could we have had puff".
func (s sentence) asks(r *reader) bool {
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; x.kind == fNumber || x.kind == fSizes || x.kind == fPlace {
			return true
		}
	}
	return false
}

var having = internAll("had", "used")

var saying = internAll("says", "say", "said")

// theirs lets go of what a sentence tells of the prints of others: "the school down the road has theirs in gold foil".
func (r *reader) theirs(s sentence) {
	told := false
	for i := s.i0; i < s.i1; i++ {
		told = told || r.speaks(r.at(i), others)
	}
	if !told {
		return
	}
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; x.kind == fNumber || x.kind == fSizes {
			return
		}
	}
	for k := s.f0; k < s.f1; k++ {
		switch x := &r.facts[k]; x.kind {
		case fPlace, fColour, fDim, fInks, fFull, fEffect, fMethod:
			x.dead = true
		}
	}
}
