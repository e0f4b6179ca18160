package intake

import "strikeoff/rules"

// isOrder judges whether a message asks for goods to be printed: what it says of goods, against the words of those who sell, ask about a job or chat.
func (r *reader) isOrder(o *rules.Order, s *scope) bool {
	score, counted := 0, false
	for _, l := range o.Lines {
		v := 0
		if l.Garment != "" {
			v++
			if l.Quantity.Known {
				v += 2
			}
		} else if l.Quantity.Known && len(l.Colours) > 0 {
			v++
		}
		if len(l.Sizes) > 1 {
			v++
		}
		placed := false
		for _, p := range l.Prints {
			if p.Place != "" && (len(p.Inks) > 0 || p.InkCount.Known || p.WidthMM.Known || p.FullColour) {
				v += 2
				placed = true
			} else {
				v++
			}
		}
		if l.Fabric != "" || len(l.Colours) > 0 {
			v++
		}
		if l.Quantity.Known && (l.Garment != "" || len(l.Colours) > 0 || len(l.Prints) > 0) || l.Garment != "" && placed {
			counted = true
		}
		score = max(score, min(v, 8))
	}
	if !counted {
		return false
	}
	if !s.counted() {
		score--
		if !r.newGoods() {
			score -= 2
		}
		for i := range r.items {
			if it := &r.items[i]; it.is(cOrderVerb) && it.kind == iPhrase && !it.is(cPrintWord) && it.word != wFor {
				score++
				break
			}
		}
	}
	if o.Customer != "" {
		score++
	}
	if o.Due != "" {
		score++
	}
	talk := 0
	for i := range r.items {
		it := &r.items[i]
		if it.kind != iPhrase || it.fact {
			continue
		}
		if it.is(cSeller) && r.lastWord(i-1) != wordOnes {
			talk += 4
		} else if it.is(cTalk) && !it.is(cOrderVerb) && !it.is(cGreet) {
			talk++
			if r.lineHasFacts(i) {
				talk++
			}
		}
	}
	if score >= 8 { // what is told so fully is wanted, whatever else is spoken of
		talk -= talk / 3
	}
	if score >= 7 && o.Customer != "" && o.Due != "" && r.wants() {
		talk = min(talk, 3) // a long letter may chat as well
	}
	if talk == 2 && o.Customer != "" && o.Due != "" { // one word of chat beside somebody's goods for some day
		talk = 0
	}
	score -= min(talk, 12)
	if s.asked > 0 && s.asked == s.counts { // nothing was counted but what is asked about or told of
		score -= 6
	}
	return score >= 3
}

// newGoods reports whether goods are named as those that are to be made ("pink vests, …"), and not only as those that people know ("the white tees
// with the red logo").
func (r *reader) newGoods() bool {
	for i := range r.items {
		if r.at(i).sense(sGarment) == nil {
			continue
		}
		k := i - 1
		for k >= 0 && k > i-5 && r.at(k).kind <= iPhrase && !knownGoods[r.lastWord(k)] {
			k--
		}
		if r.at(k).kind > iPhrase || k < 0 {
			return true
		}
	}
	return false
}

// knownGoods are words before goods that people know.
var knownGoods = internAll("the", "those", "these", "that", "this", "our", "your", "my", "his", "her", "their", "which", "los", "las", "el", "la", "nuestras", "nuestros", "esas", "esos", "mis")

// wants reports whether somebody wants, needs or asks for something.
func (r *reader) wants() bool {
	for i := range r.items {
		it := &r.items[i]
		if it.kind == iPhrase && (it.is(cWant) && it.is(cOrderVerb) || it.is(cDue) && it.is(cOrderVerb)) && !it.is(cPrintWord) {
			return true
		}
	}
	return false
}

// inquires reports whether a sentence asks about something that was or is, and not for something.
func (r *reader) inquires(st sentence) bool {
	if st.i1 >= len(r.items) || !r.punct(st.i1, '?') {
		return false
	}
	for i := st.i0; i < st.i1 && i < st.i0+6; i++ {
		it := r.at(i)
		if it.kind > iPhrase {
			continue
		}
		w := foldWord(r.text[it.start:min(it.end, it.start+8)])
		if w == "have" && i > st.i0 && r.at(i-1).kind == iWord { // "could I have a price for 40 aprons?"
			continue
		}
		switch w {
		case "did", "does", "have", "has", "was", "were", "where", "when", "who", "which", "whose", "why", "whats", "wheres", "hows", "is", "are", "what":
			for k := i + 1; k < st.i1; k++ {
				switch foldWord(r.text[r.at(k).start:min(r.at(k).end, r.at(k).start+12)]) {
				case "possible", "price", "cost", "quote", "room", "capacity", "able", "would", "pricing", "run", "charge", "available":
					return false
				}
			}
			return true
		}
		if it.is(cOrderVerb) && !it.is(cGreet) && it.word != wFor {
			return false
		}
	}
	return false
}

// dealtWords are what was done with goods that are there already.
var dealtWords = internAll("delivered", "sent", "printed", "made", "did", "shipped", "ordered", "bought", "got", "received", "returned", "dropped", "picked",
	"pedimos", "compramos", "hicieron", "entregaron", "mandaron", "recibimos", "encargamos")

// dealers are who did it.
var dealers = internAll("you", "they", "we", "i", "she", "he", "who", "que", "nos", "me", "just", "already", "guys", "ya")

// thoseWords point at goods that both sides know.
var thoseWords = internAll("the", "those", "these", "our", "your", "my", "los", "las", "nuestras", "nuestros", "esas", "esos", "mis")

// tells reports whether a sentence speaks of counted goods that are there or were: "thanks for the 60 hoodies", "the 36 polos you delivered".
// Whoever wants something in the same breath asks for goods all the same.
func (r *reader) tells(st sentence) bool {
	told := false
	for i := st.i0; i < st.i1; i++ {
		it := r.at(i)
		if it.kind == iPhrase && (it.is(cWant) && it.is(cOrderVerb) || it.is(cPast)) && !it.is(cPrintWord) {
			return false
		}
		w := r.lastWord(i)
		if w != 0 && dealtWords[w] && dealers[r.lastWord(i-1)] && r.at(i-2).word != wordOnes { // not "the cotton ones we sold"
			told = true
		}
	}
	for f := st.f0; f < st.f1 && !told; f++ {
		x := &r.facts[f]
		told = x.kind == fNumber && thoseWords[r.lastWord(int(x.i0)-1)] && r.goods(int(x.i0)) == 2 && !r.wished(st, int(x.i0)-1)
	}
	return told
}

// wished reports whether words that ask for something stand before item i in its sentence.
func (r *reader) wished(st sentence, i int) bool {
	for k := st.i0; k < i; k++ {
		if it := r.at(k); it.kind == iPhrase && (it.is(cOrderVerb) && it.word != wFor && !it.is(cGreet) && !it.is(cPrintWord) || it.is(cAdd) || it.is(cSame) || it.is(cOnly)) {
			return true
		}
	}
	return false
}

// lastWord is the last word of item i, 0 where it is no word.
func (r *reader) lastWord(i int) int32 {
	it := r.at(i)
	if it.kind > iPhrase {
		return 0
	}
	if it.ntok > 1 {
		return r.toks[it.tok+it.ntok-1].word
	}
	return it.word
}

// lineHasFacts reports whether the line of item i says anything of goods: talk on a line of its own weighs less than talk about them.
func (r *reader) lineHasFacts(i int) bool {
	for k := i; k >= 0 && r.at(k).kind < iBreak; k-- {
		if r.items[k].fact {
			return true
		}
	}
	for k := i; k < len(r.items) && r.at(k).kind < iBreak; k++ {
		if r.items[k].fact {
			return true
		}
	}
	return false
}
