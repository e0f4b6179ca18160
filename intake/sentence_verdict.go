package intake

// storyWords open a story of what somebody had in mind: "the coach wanted numbers on the sleeve". What became of it is told after.
var storyWords = internAll("wanted", "want", "wants", "wish", "wished", "like", "liked", "love", "loved", "ask", "asks", "asked", "asking", "begged", "hoped", "hoping", "suggested", "proposed",
	"pitched", "wondered", "wondering", "talked", "talk", "discussed", "thought", "considered", "had", "argued", "gave", "sketched", "dreamt", "dreamed", "keen", "pushed", "pushing",
	"lobbied", "fancied", "planned", "offered", "mentioned", "idea", "debated", "voted", "price", "priced", "costs", "cost")

// afterwards may follow a refusal.
var afterwards = internAll("after", "afterwards", "later", "then", "again", "anyway", "though", "eventually", "instead", "today", "yesterday")

// verdict reports whether the phrase at item i closes its clause with a refusal of what was told before it: "…, but the president says no".
func (r *reader) verdict(i int) bool {
	it := r.at(i)
	if it.kind != iPhrase {
		return false
	}
	n := r.at(i + 1)
	ends := n.kind >= iPunct && !(n.kind == iPunct && (n.ch == '-' && n.glued || n.ch == ':' || n.ch == '/' || n.ch == '\''))
	if it.is(cRefuse) {
		return ends || n.is(cAgo) || n.is(cGreet) || afterwards[n.word] && r.at(i+2).kind >= iPunct
	}
	if it.word == 0 || it.word != wordNo || !r.concludes(i) {
		return false
	}
	// "so no loon": the thing is one that was told of before, and no fact by itself
	return ends || (n.kind == iWord || n.is(cPrintWord) && n.ntok == 1) && r.at(i+2).kind >= iPunct && r.toldOf(i+1)
}

// concludes reports whether "so", "and" or the like leads to the "no" at item i.
func (r *reader) concludes(i int) bool {
	p := r.at(i - 1)
	return p.word != 0 && (p.word == wordSo || p.word == wAnd || p.word == wThen) || p.is(cBut) && p.ntok == 1
}

// farBack is how many items back a thing that is refused by name may have been told of.
const farBack = 40

// toldOf reports whether the word at item i was used a little before, in another clause.
func (r *reader) toldOf(i int) bool {
	w := r.at(i)
	for k := i - 3; k >= 0 && k > i-farBack; k-- {
		if it := r.at(k); it.kind == w.kind && r.text[it.start:it.end] == r.text[w.start:w.end] {
			return true
		}
	}
	return false
}

// story is the item where the telling begins that the verdict at item i ends: the start of the clause that opens it. -1 where none does.
func (r *reader) story(from, i int) int {
	open := -1
	for k := i - 1; k >= from; k-- {
		it := r.at(k)
		if it.kind == iPunct {
			if open >= 0 && it.ch == ':' && r.at(k-1).sense(sPlace) != nil { // "nape: they asked, said no after"
				continue
			}
			if open >= 0 && it.ch != '\'' && it.ch != '"' && it.ch != '/' && !(it.ch == '-' && it.glued) {
				return k + 1
			}
			continue
		}
		if open >= 0 && (it.word == wAnd && it.word != 0 || it.is(cAdd) && it.ntok == 1 && r.at(k-1).kind == iPunct) {
			continue
		}
		for t := it.tok; t < it.tok+it.ntok && it.kind < iPunct; t++ {
			if storyWords[r.toks[t].word] {
				open = k
			}
		}
	}
	if open >= 0 {
		return from
	}
	return -1
}

// overrule lets go of what the sentence told before the verdict at item i. It reports whether there was something.
func (r *reader) overrule(s sentence, f, i int) bool {
	low := s.i0
	for k := i - 1; k > s.i0 && !r.punct(k, ')'); k-- {
		if r.punct(k, '(') { // a remark in brackets speaks of itself: "(was going to be 2 color, doc said no)"
			low = k + 1
			break
		}
	}
	from := r.story(low, i)
	hit := false
	for k := f - 1; k >= s.f0; k-- {
		x := &r.facts[k]
		if int(x.i0) < max(from, low) {
			break
		}
		switch x.kind {
		case fPlace, fEffect, fMethod, fFull, fDim, fInks, fCover, fColour:
			if from < 0 && x.kind != fPlace && x.kind != fEffect && x.kind != fMethod {
				continue
			}
			hit = true
			x.dead = true
			if x.kind == fEffect || x.kind == fMethod {
				x.neg = true
			}
			if from < 0 {
				return true
			}
		}
	}
	return hit
}

// flatNo reports whether what follows a "no" at item i leaves it a no: "no, just the left chest", "no thanks".
func (r *reader) flatNo(i int) bool {
	n := r.at(i)
	return n.kind == iPunct && (n.ch == ',' || n.ch == '-' && !n.glued) || n.is(cOnly) || n.is(cGreet)
}

// refusedNext lets go of what the sentence tells where the next one only says that it came to nothing: "Names on the back? We talked about it and
// no, too much work."
func (r *reader) refusedNext(s sentence) {
	i, at := s.i1+1, -1
	for r.punct(i, '.') || r.punct(i, '?') {
		i++
	}
	for k := i; s.f1 > s.f0 && k < len(r.items) && !r.endsSentence(k); k++ {
		if r.verdict(k) || k == i && r.at(k).word == wordNo && r.at(k).word != 0 && (r.closes(k+1) || r.punct(s.i1, '?') && r.flatNo(k+1)) {
			at = k
			break
		}
	}
	if at < 0 {
		return
	}
	for k := s.f1; k < len(r.facts) && int(r.facts[k].i0) < at; k++ {
		switch r.facts[k].kind {
		case fPlace, fInks, fDim, fGarment, fNumber, fSizes, fEffect, fMethod:
			return // it says something by itself
		}
	}
	question := r.punct(s.i1, '?')
	from := r.story(s.i0, s.i1)
	if !question && from < 0 {
		return
	}
	if question && at == i && r.at(at).word == wordNo && s.i1-s.i0 < 5 { // "6 banners? No."
		for k := s.f0; k < s.f1; k++ {
			r.facts[k].dead = true
		}
		return
	}
	for k := s.f0; k < s.f1; k++ { // what counts goods is an order, whatever comes of the rest
		if x := &r.facts[k]; x.kind == fSizes || x.kind == fNumber && x.sure >= 1 {
			return
		}
	}
	for k := s.f0; k < s.f1; k++ {
		switch x := &r.facts[k]; x.kind {
		case fPlace, fDim, fInks, fFull, fCover, fColour:
			x.dead = true
		case fEffect, fMethod:
			x.dead, x.neg = true, true
		}
	}
}
