package intake

import "strings"

// backWords are words of a clause that says nothing but what becomes of the thing named before it: "one wanted a star on each sleeve, it was
// voted down", "but we are leaving it off".
var backWords, itWords = internAll("it", "that", "this", "they", "those", "these", "which", "we", "was", "were", "is", "are", "has", "been", "got", "be", "but", "and",
	"then", "in", "the", "end", "so", "i", "he", "she", "all", "will", "would", "later", "please", "lets", "just", "now", "again", "to", "decided", "were", "theyre", "thats", "its", "weve", "have"),
	internAll("it", "that", "this", "they", "those", "these", "which", "them", "thats", "its", "theyre")

// internAll is the set of words given.
func internAll(words ...string) map[int32]bool {
	set := make(map[int32]bool, len(words))
	for _, w := range words {
		set[vocab.intern(w)] = true
	}
	return set
}

// pointsBack reports whether items i to j, up to the word that takes something back, only point at what was named before.
func (r *reader) pointsBack(i, j int) bool {
	back := false
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind == iPunct {
			if it.ch == ',' || it.ch == ':' || it.ch == '-' && !it.glued {
				return false
			}
			continue
		}
		w := it.word
		if w == 0 && it.ntok > 1 {
			w = r.toks[it.tok].word
		}
		if !backWords[w] {
			return false
		}
		back = back || itWords[w]
	}
	if r.at(j).is(cNo) {
		return back
	}
	it := r.at(j) // "leaving it off" points back by itself
	for k := it.tok; k < it.tok+it.ntok; k++ {
		back = back || itWords[r.toks[k].word]
	}
	return back
}

// takenBack reports whether a sentence says nothing but that what was just spoken of is not wanted: "no, we skip that".
func (r *reader) takenBack(st sentence) bool {
	if st.f1 > st.f0 {
		return false
	}
	for i := st.i0; i < st.i1; i++ {
		it := r.at(i)
		if it.is(cGone) && it.kind == iPhrase {
			from := st.i0
			if r.at(from).word == wordNo {
				from++
				for r.punct(from, ',') {
					from++
				}
			}
			return r.pointsBack(from, i)
		}
	}
	return false
}

// deadBefore reports whether the sentence told of the same thing as of the past before fact f.
func (r *reader) deadBefore(s sentence, f int, x *fact) bool {
	for k := s.f0; k < f; k++ {
		if y := &r.facts[k]; y.kind == x.kind && y.s == x.s && y.dead {
			return true
		}
	}
	return false
}

// deniedIn reports whether the sentence denied the same effect or method before fact f.
func (r *reader) deniedIn(s sentence, f int, x *fact) bool {
	for k := s.f0; k < f; k++ {
		if y := &r.facts[k]; y.kind == x.kind && y.s == x.s && y.neg {
			return true
		}
	}
	return false
}

var wordThan, wordRather, wordPrefer = vocab.intern("than"), vocab.intern("rather"), vocab.intern("prefer")

// preferred reports whether something is preferred before item i, so that what follows "than" is not wanted.
func (r *reader) preferred(s sentence, i int) bool {
	for k := s.i0; k < i; k++ {
		if w := r.at(k).word; w != 0 && (w == wordRather || w == wordPrefer) {
			return true
		}
	}
	return false
}

// neverMind reports whether what was going to be at the place just before item i is not taken up again in the sentence.
func (r *reader) neverMind(s sentence, i int) bool {
	k := i - 1
	for r.punct(k, '-') || r.punct(k, ':') {
		k--
	}
	if r.at(k).sense(sPlace) == nil {
		return false
	}
	for k = i + 1; k < s.i1; k++ {
		if it := r.at(k); it.is(cFix) || it.is(cBut) {
			return false
		}
	}
	return true
}

var wordAs = vocab.intern("as")

// bareWords say of a place that nothing is on it.
var bareWords = internAll("blank", "clean", "plain", "empty", "bare", "free", "alone", "unprinted", "naked", "off")

// leftBare reports whether the word at item i, closing its clause, says of the place before it that it stays bare: "keep the back clean".
func (r *reader) leftBare(i int) bool {
	if !bareWords[r.at(i).word] {
		return false
	}
	p, n := r.at(i-1), r.at(i+1)
	if p.word != 0 && p.is(cTo) || p.word != 0 && p.word == wordAs { // "they changed front to blank"
		p = r.at(i - 2)
	}
	if p.kind == iPunct && (p.ch == ':' || p.ch == '=' || p.ch == '-' && (!p.glued || r.lineStart(i-2))) { // "front: blank"
		p = r.at(i - 2)
	}
	return (p.sense(sPlace) != nil || r.leftSo(i)) && (n.kind > iNum || n.word == wAnd || n.is(cStill) || n.is(cGreet) || n.is(cSuits) || n.is(cBut))
}

// leavingWords say that something is left as it is.
var leavingWords = internAll("leave", "leaves", "leaving", "left", "keep", "keeps", "kept", "stay", "stays", "remain", "remains", "want", "prefer")

// leftSo reports whether the words before item i leave a place of its sentence as it is: "the front they'd rather leave plain", "the back stays as it is,
// unprinted".
func (r *reader) leftSo(i int) bool {
	told := false
	for k := i - 1; k > i-9; k-- {
		it := r.at(k)
		switch {
		case it.kind >= iBreak, it.kind == iNum, it.kind == iPunct && it.ch != ',' && it.ch != '\'', it.sense(sGarment) != nil, it.sense(sColour) != nil && !it.sense(sColour).weak:
			return false
		case it.sense(sPlace) != nil:
			return told
		}
		told = told || r.speaks(it, leavingWords)
	}
	return false
}

// turnedBare reports whether the word at item i says what became of a place named before: "the right sleeve was a flag, changed to plain", "that is
// now empty".
func (r *reader) turnedBare(i int) bool {
	if w := r.at(i).word; !bareWords[w] || !r.clauseEnds(i+1) {
		return false
	}
	p := r.at(i - 1)
	return p.is(cFix) && p.kind == iPhrase || r.wordAt(i-1) == "end" || strings.HasSuffix(r.wordAt(i-1), "the end") || p.is(cTo) && r.at(i-2).kind <= iPhrase && r.at(i-2).kind != iNum && (r.at(i-2).is(cFix) || toVerbs[r.at(i-2).word])
}

// bare denies the place named last before fact f.
func (r *reader) bare(s sentence, f int) {
	for k := f - 1; k >= s.f0; k-- {
		if x := &r.facts[k]; x.kind == fPlace {
			x.neg = true
			r.with(s, k)
			return
		}
	}
}

// closes reports whether item i ends a clause for good: what stands before a comma may be taken up after it.
func (r *reader) closes(i int) bool {
	it := r.at(i)
	return it.kind == iBreak || it.kind == iPart || it.kind == iPunct && (it.ch == '.' || it.ch == ';' || it.ch == '!')
}

// placeInClause reports whether a place is named between the last comma and item i.
func (r *reader) placeInClause(i int) bool {
	for k := i - 1; k >= 0; k-- {
		it := r.at(k)
		if it.kind == iBreak || it.kind == iPart || it.kind == iPunct && (it.ch == ',' || it.ch == '.' || it.ch == ';' || it.ch == ')') {
			return false
		}
		if p := it.sense(sPlace); p != nil && (!p.weak || r.at(k-1).word == wThe || it.ntok > 1) {
			return true
		}
	}
	return false
}

// deniedBack reports whether the denial at item i is said of what stands before it: "numbers on the back, which we don't need", "glow ink, but no".
func (r *reader) deniedBack(i int) bool {
	it := r.at(i)
	if n := r.at(i + 1); n.kind <= iNum || n.kind == iPunct && (n.ch == ':' || n.ch == '-' || n.ch == '/' || n.ch == '(') {
		return false
	}
	if it.word == wordNo {
		return r.at(i-1).is(cBut) && r.at(i-1).ntok == 1 || r.at(i-1).kind < iPunct && r.placeInClause(i) // "right chest name patch no, left chest logo"
	}
	k := i
	for k > 0 && r.at(k-1).kind < iPunct {
		k--
	}
	return it.ntok > 1 && r.punct(k-1, ',') && r.pointsBack(k, i)
}

// otherColour reports whether a colour that takes the place of another begins at item i: a garment's, or an ink's that is not denied.
func (r *reader) otherColour(i int) bool {
	if r.at(i).is(cHeather) {
		i++
	}
	return r.at(i).sense(sColour) != nil && !r.at(i+1).is(cInkWord) && !r.at(i+1).is(cPrintWord) && r.at(i+1).sense(sPlace) == nil
}

// pastSince reports whether items i to j tell of what was or was to be: it is that which is taken back, not the goods.
func (r *reader) pastSince(i, j int) bool {
	for ; i < j; i++ {
		if it := r.at(i); it.is(cPast) && it.kind == iPhrase && it.ntok > 2 {
			return true
		}
	}
	return false
}

// hadWords open a remark on what once was.
var hadWords = internAll("had", "was", "were", "did", "used", "put", "got", "printed", "ordered", "asked", "wore")

// pastBefore lets go of what the clause before item i tells of the past: "we had a treble clef on the sleeve last time".
func (r *reader) pastBefore(s sentence, f, i int) {
	from := i
	had := false
	for k := i - 1; k >= s.i0; k-- {
		it := r.at(k)
		if it.kind == iPunct && (it.ch == ',' || it.ch == ':' || it.ch == '(' || it.ch == '-' && !it.glued) {
			break
		}
		had = had || hadWords[it.word]
		from = k
	}
	if !had {
		return
	}
	for k := f - 1; k >= s.f0 && int(r.facts[k].i0) >= from; k-- {
		switch x := &r.facts[k]; x.kind {
		case fPlace, fDim, fInks, fFull, fCover, fEffect, fMethod, fColour:
			x.dead = true
		}
	}
}

// dashed reports whether a row of a form ends at item i with a dash for nothing: "Back: -".
func (r *reader) dashed(i int) bool {
	if !(r.punct(i, ':') || r.punct(i, '|') || r.punct(i, '=')) {
		return false
	}
	for i++; r.punct(i, '-') || r.punct(i, '/'); i++ {
	}
	return (r.punct(i-1, '-') || r.punct(i-1, '/')) && r.at(i).kind >= iBreak
}

var wordIt, wordWill, wordShall, wordAre = vocab.intern("it"), vocab.intern("will"), vocab.intern("shall"), vocab.intern("are")

// itIs reports whether "it is" at item i settles a choice on what stands before it.
func (r *reader) itIs(i int) bool {
	if r.at(i).word != wordIt {
		return r.at(i).word == wThen && r.closes(i+1)
	}
	n := r.at(i + 1)
	return (n.word == wIs || n.word == wordWill || n.word == wordShall) && r.at(i+2).kind > iNum || (n.word == wordWill || n.word == wordShall) && r.at(i+3).kind > iNum
}

// forms are what an order is written on.
var forms = internAll("form", "quote", "sheet", "sketch", "list", "order", "email", "mail", "mockup", "proof", "estimate", "ticket", "drawing", "website")

// paper reports whether item i names what an order is written on, where something was crossed out: "the sleeve was crossed out on the form".
func (r *reader) paper(i int) bool {
	for determiners[r.at(i).word] {
		i++
	}
	return forms[r.at(i).word]
}
