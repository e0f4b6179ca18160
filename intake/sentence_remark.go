package intake

// remarks lets go of facts that a sentence only makes a remark about: how a picture's colours should look, what somebody calls an effect, what the
// goods of old were made of.
func (r *reader) remarks(s sentence) {
	r.chatter(s)
	r.restated(s)
	for f := s.f0; f < s.f1; f++ {
		switch x := &r.facts[f]; {
		case x.dead || x.neg:
		case x.kind == fWish && x.s == "bright":
			r.tones(s)
		case x.kind == fEffect && (r.miscalled(s, f) || r.plainAfter(s, f)):
			x.neg, x.dead = true, true
		case (x.kind == fBlend || x.kind == fFabric) && r.ofFormer(s, x):
			x.dead = true
		}
	}
}

// standWords say that something is as it was said.
var standWords = internAll("stand", "stands", "stay", "stays", "right", "correct", "unchanged", "fine", "remain", "remains", "hold", "holds")

// restated lets go of colours that a sentence, or the clause that they stand in, only says to be as they were: "Lilac and white both stand."
func (r *reader) restated(s sentence) {
	for f := s.f0; f < s.f1; f++ {
		x := &r.facts[f]
		at := int(x.i0)
		if r.at(at-1).word == wThe {
			at--
		}
		if x.kind != fColour || x.dead || x.neg || !r.punct(at-1, ',') && at != s.i0 {
			continue
		}
		last, said := f, true
		for last+1 < s.f1 && r.facts[last+1].kind == fColour && r.slashed(int(r.facts[last].i1), int(r.facts[last+1].i0)) {
			last++
		}
		for k := f; k <= last && said; k++ {
			said = r.saidBefore(s.f0, r.facts[k].s)
		}
		i := int(r.facts[last].i1)
		for w := r.at(i); said && !standWords[w.word] && (w.is(cBoth) || w.word == wordAre || w.word == wIs || w.is(cStill) || r.wordAt(i) == "still" || r.wordAt(i) == "all"); w = r.at(i) {
			i++
		}
		if said && standWords[r.at(i).word] && r.clauseEnds(i+1) {
			for k := f; k <= last; k++ {
				r.facts[k].done = true
			}
		}
	}
}

// saidBefore reports whether a colour is among the facts before the one given.
func (r *reader) saidBefore(f int, c string) bool {
	for k := 0; k < f; k++ {
		if y := &r.facts[k]; y.kind == fColour && y.s == c && !y.dead && !y.neg {
			return true
		}
	}
	return false
}

// tones lets go of colours that a wish for brightness is about, where they are no inks: "want the blues really bright". One colour alone may be
// the ink, unless the print is in full colour.
func (r *reader) tones(s sentence) {
	full := false
	for k := 0; k < s.f0 && !full; k++ {
		full = r.facts[k].kind == fFull && !r.facts[k].dead && !r.facts[k].neg
	}
	for f := s.f0; f < s.f1; f++ {
		switch r.facts[f].kind {
		case fColour, fWish, fHeather, fUse:
		default:
			return
		}
	}
	for f := s.f0; f < s.f1; f++ {
		x := &r.facts[f]
		if x.kind != fColour || x.swatch {
			continue
		}
		many := r.text[r.at(int(x.i1)-1).end-1] == 's' && x.s[len(x.s)-1] != 's'
		if many || full && (x.weak || r.at(int(x.i0)-1).word == wThe) {
			x.dead = true
		}
	}
}

// callWords lead to the name that somebody has for a thing.
var callWords = internAll("call", "calls", "called", "calling", "say", "says", "said", "saying", "named", "names", "describes", "described")

// miscalled reports whether the effect in fact f is only what somebody says for another one that was named: "she keeps calling it glitter, it's foil".
func (r *reader) miscalled(s sentence, f int) bool {
	x := &r.facts[f]
	if x.fix || r.at(int(x.i1)).is(cInsteadOf) { // "mom says glitter not foil"
		return false
	}
	k := int(x.i0) - 1
	for r.at(k).word == wordIt && wordIt != 0 || r.at(k).word == wThe || r.at(k).word == wA {
		k--
	}
	it := r.at(k)
	if it.kind > iPhrase || it.ntok == 0 || !callWords[r.toks[it.tok].word] && !callWords[r.toks[it.tok+it.ntok-1].word] {
		return false
	}
	for q := range r.facts {
		if y := &r.facts[q]; q < s.f1 && y.kind == fEffect && y.s != x.s && !y.neg && !y.dead {
			return true
		}
	}
	return false
}

// plainWords say of ink or colour that nothing is special about it.
var plainWords = internAll("plain", "normal", "ordinary", "regular", "flat", "standard")

// plainAfter reports whether the sentence comes to plain ink after the effect in fact f, with no other place between: "they say metallic but plain
// silver is fine".
func (r *reader) plainAfter(s sentence, f int) bool {
	for k := f + 1; k < s.f1; k++ {
		if r.facts[k].kind == fPlace || r.facts[k].kind == fGarment && r.facts[k-1].kind != fEffect {
			return false
		}
	}
	turned := false
	for i := int(r.facts[f].i1); i < s.i1; i++ {
		it := r.at(i)
		turned = turned || it.is(cBut) || it.word == wordSo || r.punct(i, ',') && r.wordAt(i+1) == "just"
		if !turned || !plainWords[it.word] {
			continue
		}
		for i++; r.at(i).sense(sColour) != nil; i++ {
		}
		return r.at(i).is(cInkWord) || r.at(i).is(cPrintWord) || r.at(i-1).sense(sColour) != nil
	}
	return false
}

// formerWords say of goods what became of them, or that somebody had them.
var formerWords = internAll("before", "had", "were", "was", "shrank", "shrunk", "faded", "went", "got", "never", "didnt", "pilled", "bobbled", "wore", "felt", "ripped", "stretched", "twisted",
	"ran", "itched", "did", "couldnt", "lost", "turned")

// ofFormer reports whether the fabric in x is that of goods of old: "because the all-cotton ones from before shrank so badly".
func (r *reader) ofFormer(s sentence, x *fact) bool {
	i := int(x.i1)
	if r.at(i).word != wordOnes {
		return false
	}
	led := false
	for k := int(x.i0); k > int(x.i0)-4 && k >= s.i0; k-- {
		led = led || r.definite(k)
	}
	if !led {
		return false
	}
	for i++; i < s.i1 && i < int(x.i1)+6; i++ {
		it := r.at(i)
		if it.kind == iPunct && it.ch != '\'' {
			return false
		}
		if formerWords[it.word] || it.is(cPast) && it.kind == iPhrase || it.is(cAgo) {
			return true
		}
	}
	return false
}
