package intake

// papers are what a job needs besides the goods, and has days of its own for: the proof, the artwork, the deposit.
var papers = internAll("proof", "proofs", "art", "artwork", "artworks", "file", "files", "vector", "vectors", "sizes", "sizing", "roster", "headcount", "count", "counts", "deposit",
	"payment", "invoice", "quote", "estimate", "offer", "sample", "samples", "mockup", "mockups", "mock", "answer", "approval", "signoff", "confirmation", "list", "split",
	"breakdown", "cheque", "check", "po", "blanks", "meeting", "call", "valid", "card", "exp", "expires", "expiry", "prices", "price", "design", "designs", "logo", "logos", "names", "order", "orders")

// meets reports whether item k begins words that part until another day: "see you June 1".
func (r *reader) meets(k int) bool {
	switch r.wordAt(k) {
	case "see", "call", "catch", "ring", "phone":
		return r.wordAt(k+1) == "you" || r.wordAt(k+1) == "ya"
	case "talk", "speak", "chat", "paid", "ordered", "spoke":
		return true
	}
	return false
}

// ofPapers reports whether the day at item i is one for papers and not for goods: "proof by 12/1", "I'll send the artwork on Monday".
func (r *reader) ofPapers(st sentence, i int) bool {
	if r.wrapped(i) { // a line of its own
		return false
	}
	from := i - 1
	for ; from >= st.i0; from-- {
		if it := r.at(from); it.kind == iPunct && it.ch != '\'' && !(it.ch == '-' && it.glued) || it.word == wAnd || it.is(cBut) && it.kind == iPhrase {
			break
		}
	}
	paper := false
	for k := from + 1; k < i; k++ {
		it := r.at(k)
		if it.kind > iNum || it.kind == iPunct {
			continue
		}
		for t := it.tok; t < it.tok+it.ntok; t++ {
			paper = paper || r.toks[t].word != 0 && papers[r.toks[t].word] || r.meets(k)
		}
	}
	if !paper {
		return false
	}
	for f := st.f0; f < st.f1; f++ { // a print is named with the goods that it goes on
		if x := &r.facts[f]; int(x.i0) > from && int(x.i0) < i {
			switch x.kind {
			case fNumber, fGarment, fPlace, fSizes, fDim, fInks, fColour:
				return false
			}
		}
	}
	return true
}

// awayTill reports whether the day at item i is one that somebody is away till, or since: "I'm on holiday until the 14th", "away from 5 to 9 June".
func (r *reader) awayTill(i int) bool {
	for k := i - 1; k > i-7 && r.at(k).kind < iBreak; k-- {
		it := r.at(k)
		if it.is(cAway) && k < i-1 {
			return true
		}
		switch r.wordAt(k) {
		case "until", "till", "from", "to", "the", "on", "between", "and", "this", "next", "now":
		default:
			if it.kind != iNum && it.sense(sMonth) == nil && it.sense(sDay) == nil {
				return false
			}
		}
	}
	return false
}
