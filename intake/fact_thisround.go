package intake

// rounds are words for an order among others.
var rounds = internAll("round", "time", "run", "batch", "go")

// thisRound reports whether the number at item i is how many are asked for in this one of several orders: "let's do 45 this round".
func (r *reader) thisRound(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if p.ntok == 0 || n.ntok == 0 {
		return false
	}
	if v := r.toks[p.tok+p.ntok-1].word; !p.is(cWant) && !p.is(cOrderVerb) && (v == 0 || v != wordDo) {
		return false
	}
	this, last := r.toks[n.tok], n.tok+1
	return this.word != 0 && this.word == wordThis && int(last) < len(r.toks) && rounds[r.toks[last].word]
}

var wordThis, wordDo = vocab.intern("this"), vocab.intern("do")
