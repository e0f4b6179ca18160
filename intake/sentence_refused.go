package intake

// wishWords tell of what somebody had in mind; refusals of what became of it.
var wishedWords = internAll("wanted", "asked", "hoped", "wished", "mentioned", "thought", "talked", "spoke", "suggested", "considered", "had", "wondered", "planned", "fancied",
	"begged", "pushed", "proposed", "toyed", "discussed", "debated", "wants", "asks", "keen", "tempted", "liked", "offered", "requested", "asking", "hoping", "dreams", "dreamt", "dreamed")
var refusals = internAll("passed", "declined", "refused", "vetoed", "scrapped", "dropped", "axed", "killed", "nope", "nah", "binned", "shelved", "ignore", "ignored", "overruled", "rejected", "rubbish", "otherwise")
var tooWords = internAll("much", "long", "dear", "expensive", "pricey", "costly", "busy", "late")
var notWords = internAll("at", "worth", "yet", "for")
var wordToo, wordWithout = vocab.intern("too"), vocab.intern("without")

// refuse denies the prints that a sentence only tells somebody had in mind, where it ends with what became of that: "they wanted the badge on the
// right leg, but not at that price".
func (r *reader) refuse(s sentence) {
	wished, refused := -1, -1
	for i := s.i0; i < s.i1; i++ {
		it := r.at(i)
		switch {
		case wishedWords[it.word] || it.is(cPast) && it.ntok > 1:
			if wished < 0 {
				wished = i
			}
		case wished >= 0 && r.refusal(i):
			refused = i
		}
	}
	if refused < 0 {
		r.unanswered(s, wished)
		return
	}
	for k := s.f0; k < s.f1; k++ {
		switch x := &r.facts[k]; x.kind {
		case fNumber, fSizes, fGarment, fBlend, fFabric:
			// "asked for metallic on the caps then said nah", "Phyllis wanted lavender aprons but only she did"
			told := x.kind == fGarment && int(x.i0) < refused && (r.at(int(x.i0)-1).word == wThe || r.facts[max(0, k-1)].kind == fColour && r.at(refused).is(cRefuse))
			if int(x.i0) > wished && !x.dead && !x.neg && !told {
				return
			}
		case fPlace, fColour, fDim, fInks, fFull, fMethod, fEffect:
			if int(x.i0) > refused && !x.neg && !(x.kind == fPlace && (r.at(int(x.i0)-1).is(cOnly) || r.at(int(x.i0)-2).is(cOnly))) {
				return // something else takes its place
			}
		}
	}
	if r.ownRefusal(s, refused) {
		return
	}
	first := wished
	for k := wished - 1; k >= s.i0; k-- { // "on the front she wanted a logo, but no"
		if it := r.at(k); it.kind == iPunct && (it.ch == ',' || it.ch == ':' || it.ch == '(') {
			break
		}
		first = k
	}
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; int(x.i0) >= first && int(x.i0) < refused {
			switch x.kind {
			case fPlace, fColour, fDim, fInks, fFull, fEffect, fMethod:
				x.neg = true
			}
		}
	}
}

// ownRefusal reports whether the clause of the refusal at item i names the place that it is of, and another place was asked for before: "she wants white on
// the front, the sleeve is dropped".
func (r *reader) ownRefusal(s sentence, i int) bool {
	from := i
	for from > s.i0 && !r.punct(from, ',') {
		from--
	}
	own := ""
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; x.kind == fPlace && x.neg && int(x.i0) > from && int(x.i0) < i {
			own = x.s
		}
	}
	for k := s.f0; k < s.f1 && own != ""; k++ {
		if x := &r.facts[k]; x.kind == fPlace && !x.neg && !x.dead && x.s != own && int(x.i0) < from {
			return true
		}
	}
	return false
}

// refusal reports whether item i says that what was told of before it is not to be.
func (r *reader) refusal(i int) bool {
	it, p, n := r.at(i), r.at(i-1), r.at(i+1)
	switch {
	case it.is(cGone) && it.kind == iPhrase, refusals[it.word], it.is(cRefuse) && it.kind == iPhrase && it.ntok > 2:
		return true
	case it.word == wordToo && it.word != 0:
		return tooWords[n.word]
	case it.word == wordWithout && it.word != 0: // "so quote without"
		return n.kind > iNum
	case it.word == wordNot && it.word != 0 && n.kind > iNum: // "the lads fancied a slogan; their coach did not"
		return p.word == wordDid && p.word != 0
	case it.word == wordNot && it.word != 0:
		return notWords[n.word]
	case it.word == wordNo && it.word != 0, it.is(cNothing) && it.is(cNo):
		return n.kind > iNum || (p.is(cBut) || p.word == wordSo) && n.kind == iWord || it.is(cNothing) && n.kind == iWord
	}
	return false
}

// answers reports whether a sentence without print facts refuses what the one before it had in mind or asked: "it looked like a duck, so no loon".
func (r *reader) answers(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		switch r.facts[k].kind {
		case fPlace, fColour, fDim, fInks, fFull, fNumber, fGarment, fSizes:
			return false
		}
	}
	said := false
	for i := st.i0; i < st.i1; i++ {
		said = said || r.refusal(i)
	}
	if !said {
		return false
	}
	for i := st.i0 - 1; i >= 0 && i > st.i0-40; i-- {
		it := r.at(i)
		if i == st.i0-1 && it.kind == iPunct && it.ch == '?' && r.at(i-1).sense(sPlace) != nil {
			return true
		}
		if i < st.i0-1 && r.endsSentence(i) {
			return false
		}
		if wishedWords[it.word] {
			return true
		}
	}
	return false
}
