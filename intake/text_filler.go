package intake

// fillerWords are sounds of one who thinks aloud: a spoken message that was written down is full of them, and they part what belongs together.
var fillerWords = internAll("um", "uh", "er", "erm", "uhm", "uhh", "umm", "hmm", "hm", "eh")

// fillers leaves them out: "in uh coral".
func (r *reader) fillers() {
	out := r.items[:0]
	for i := range r.items {
		if it := &r.items[i]; it.kind <= iPhrase && it.ntok == 1 && fillerWords[it.word] && !it.shout {
			continue
		}
		out = append(out, r.items[i])
	}
	r.items = out
}
