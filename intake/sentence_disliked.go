package intake

// A way to print or an effect is often named only to say why it is not wanted: "heat transfer is not good, it came off last time, please plastisol".

// judges join what is spoken of to what is thought of it.
var judges = internAll("is", "are", "was", "were", "isnt", "arent", "wasnt", "werent", "feels", "feel", "felt", "looks", "look", "looked", "seems", "seemed", "gets", "got", "came", "comes", "went", "goes",
	"has", "have", "had", "did", "does", "do", "didnt", "doesnt", "dont", "wont", "cant", "cannot", "never", "ended", "made", "makes", "tends", "keeps", "kept")

// faults are what is thought of it where it is not wanted.
var faults = internAll("bad", "terrible", "awful", "horrible", "poor", "poorly", "ugly", "rubbish", "useless", "wrong", "off", "out", "peeled", "peels", "peeling", "peel", "cracked", "cracks", "cracking",
	"flaked", "faded", "failed", "fails", "stiff", "plasticky", "scratchy", "sticky", "sweaty", "disaster", "problem", "mess", "disappointed", "disappointing", "hated", "hate", "disliked")

// misses are words that turn praise into blame: "is not good", "does not work for us", "feels too heavy".
var misses = internAll("not", "no", "never", "too", "isnt", "arent", "wasnt", "werent", "doesnt", "didnt", "dont", "wont", "cant", "cannot")

// hadBefore are words for what was had or tried once.
var hadBefore = internAll("had", "tried", "used", "did", "got", "ordered", "took", "chose")

// disliked reports whether the clause of the way to print, or the effect, in fact x says that it is not wanted.
func (r *reader) disliked(s sentence, x *fact) bool {
	i := int(x.i1)
	if w := r.wordAt(i); (w == "before" || w == "once" || w == "already") && r.at(i+1).sense(sDay) == nil && r.at(i+1).kind != iNum { // "we had it before and hated the feel"
		for k := int(x.i0) - 1; k >= s.i0 && k > int(x.i0)-4 && r.at(k).kind < iPunct; k-- {
			if hadBefore[r.at(k).word] {
				return true
			}
		}
	}
	if r.at(i).is(cPast) && r.at(i).ntok > 1 {
		i++
	}
	if w := r.wordAt(i); w == "we" || w == "they" || w == "i" { // "transfer print we had, it was not so good"
		for k := i + 1; k < i+5; k++ {
			if it := r.at(k); it.kind == iPunct && (r.wordAt(k+1) == "it" || r.wordAt(k+1) == "that" || r.wordAt(k+1) == "they") {
				i = k + 2
				break
			} else if it.kind > iPhrase {
				break
			}
		}
	}
	if w := r.at(int(x.i0) - 1).word; w == wThe || r.at(int(x.i0)-1).is(cPast) { // "the transfer you did for us in June is peeling"
		for k := i; k < i+8 && r.at(k).kind <= iNum && r.at(k).sense(sPlace) == nil && r.at(k).sense(sColour) == nil; k++ {
			if it := r.at(k); it.word == wIs || r.wordAt(k) == "are" || r.wordAt(k) == "was" || r.wordAt(k) == "were" {
				i = k
				break
			}
		}
	}
	for n := 0; n < 2 && !r.judging(i) && (r.at(i).kind == iWord || r.at(i).is(cPrintWord)); n++ { // "transfer prints on these are …"
		i++
	}
	if !r.judging(i) || r.conditional(s, int(x.i0)) {
		return false
	}
	for n, miss := 0, false; n < 5; n, i = n+1, i+1 {
		it := r.at(i)
		if it.kind > iPhrase || it.sense(sPlace) != nil || it.sense(sColour) != nil {
			return false
		}
		for t := it.tok; t < it.tok+it.ntok; t++ {
			switch w := r.toks[t].word; {
			case w == 0:
			case likened(w) && r.toks[t-1].word != 0 && (vocab.names[r.toks[t-1].word] == "felt" || vocab.names[r.toks[t-1].word] == "feels" || vocab.names[r.toks[t-1].word] == "feel"): // "felt like a sticker"
				return true
			case faults[w] && !miss:
				return true
			case faults[w]:
				return false // "does not peel"
			case misses[w] && miss:
				return false // "is not too heavy"
			case misses[w]:
				miss = true
			case miss && (likings[w] || r.toks[t-1].word == wordToo):
				return true
			}
		}
	}
	return false
}

// likings are what is denied of something that is not wanted.
var likings = internAll("good", "nice", "option", "work", "works", "hold", "holds", "last", "lasts", "stick", "stay", "suit", "suits", "right", "like", "liked", "fit", "survive", "fan", "fans", "great", "ideal", "possible", "durable")

func likened(w int32) bool { return w == wordLike }

var wordLike = vocab.intern("like")

// judging reports whether a word that joins a judgement to its subject stands at item i.
func (r *reader) judging(i int) bool {
	it := r.at(i)
	return it.kind <= iPhrase && it.ntok > 0 && judges[r.toks[it.tok].word]
}
