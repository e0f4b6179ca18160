package intake

// toVerbs lead over to the count that something has now: "leggings dropped to 24", "caps went up to 30".
var toVerbs = internAll("dropped", "drop", "drops", "cut", "went", "goes", "go", "going", "gone", "up", "down", "grew", "grown", "came", "come", "comes", "rose", "fell", "shrank",
	"reduced", "increased", "raised", "bumped", "moved", "trimmed", "jumped", "climbed", "are", "is", "have", "has", "been", "got", "were", "was")

// leadsTo reports whether the word at item i begins words that end in "to" and a number: what is named before them is not gone, its count is new.
func (r *reader) leadsTo(i int) bool {
	for k := i; k < i+4; k++ {
		it := r.at(k)
		last := it.word
		if it.ntok > 1 {
			last = r.toks[it.tok+it.ntok-1].word
		}
		if last == wordTo && last != 0 {
			n := r.at(k + 1)
			return n.kind == iNum && !n.frac && r.countable(k+1) && n.sense(sMonth) == nil
		}
		if it.kind > iPhrase {
			return false
		}
	}
	return false
}

// comesTo reports whether the number in fact f is the new count of the garment that its clause is about: "the tees are up to 72 now".
func (s *scope) comesTo(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if f == st.f0 || r.at(int(x.i0)-1).ntok == 0 {
		return false
	}
	g := &r.facts[f-1]
	if g.kind != fGarment || g.neg || g.dead || len(s.seg) == 0 || !s.lines[s.newest()].Quantity.Known || s.lines[s.newest()].made == s.cl {
		return false
	}
	verb, to := false, false
	for i := int(g.i1); i < int(x.i0); i++ {
		it := r.at(i)
		if it.kind > iPhrase {
			return false
		}
		for k := it.tok; k < it.tok+it.ntok; k++ {
			w := r.toks[k].word
			to = w != 0 && w == wordTo
			verb = verb || toVerbs[w]
		}
	}
	return verb && to
}

// conditional reports whether the clause of item i only supposes something: "if the beanies are too expensive".
func (r *reader) conditional(s sentence, i int) bool {
	for k := i; k >= s.i0 && k > i-10; k-- {
		it := r.at(k)
		if it.kind == iPunct && it.ch == ',' {
			return false
		}
		if w := it.word; w != 0 && (w == wordIf || w == wordUnless) {
			return true
		}
	}
	return false
}

var wordIf, wordUnless = vocab.intern("if"), vocab.intern("unless")

// swapsIn makes the colour in fact f take the place of one that the sentence gave up before: "scratch the royal, Jan wants graphite".
func (s *scope) swapsIn(st sentence, f int) {
	x := &s.r.facts[f]
	if x.fix || x.neg || x.dead || x.weak && !s.r.at(int(x.i0)-1).is(cWant) {
		return
	}
	given := false
	for k := st.f0; k < st.f1; k++ {
		switch y := &s.r.facts[k]; y.kind {
		case fColour:
			given = given || k < f && y.neg && !y.dead && y.s != x.s && (s.wearsColour(y.s) || s.printsColour(y.s))
		case fGarment, fNumber, fSizes, fPlace, fInks, fDim:
			return
		}
	}
	x.fix = x.fix || given
}

// swapsGoods lets go of the goods between the word of exchange at item i0 and the word at item i that leads to what takes their place: "replace the 24
// caps on my order with 24 beanies". It reports whether there are some on both sides.
func (r *reader) swapsGoods(s sentence, i0, f, i int) bool {
	garment := func(k int) bool { return k >= s.f0 && k < s.f1 && r.facts[k].kind == fGarment }
	if f >= s.f1 || int(r.facts[f].i0) > i+2 || !garment(f) && !(r.facts[f].kind == fNumber && garment(f+1)) {
		return false
	}
	hit := false
	for k := f - 1; k >= s.f0 && int(r.facts[k].i0) > i0; k-- {
		switch r.facts[k].kind {
		case fGarment, fNumber, fColour:
			hit = hit || r.facts[k].kind == fGarment
		default:
			return false
		}
	}
	for k := f - 1; hit && k >= s.f0 && int(r.facts[k].i0) > i0; k-- {
		r.facts[k].dead = true
		r.facts[k].neg = r.facts[k].kind == fGarment
	}
	return hit
}

// sizers say that something is to be of another size.
var sizers = internAll("bigger", "smaller", "larger", "wider", "narrower", "taller", "shorter")

// resized reports whether the sentence says before item i that a print is to be of another size: "they want the nape bigger, 7 cm".
func (r *reader) resized(s sentence, i int) bool {
	for k := i - 1; k > s.i0 && k > i-5; k-- {
		if !sizers[r.at(k).word] {
			continue
		}
		p := r.at(k - 1)
		return p.sense(sPlace) != nil || p.is(cPrintWord) || p.word != 0 && p.word == wordIt
	}
	return false
}
