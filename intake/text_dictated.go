package intake

// wordPeriod and wordComma are marks that a machine which writes down speech spells out.
var wordPeriod, wordComma = vocab.intern("period"), vocab.intern("comma")

// dictated makes marks of the words for them where a message is dictated: it has several of them, and no marks of its own. A comma is taken for the
// mark even beside real ones, for no other word is meant by it in small letters; a period may be a stretch of time.
func (r *reader) dictated() {
	said, marked := 0, false
	for k := range r.toks {
		switch t := &r.toks[k]; {
		case t.kind == tWord && t.word != 0 && (t.word == wordPeriod || t.word == wordComma):
			said++
		case t.kind == tPunct && (t.ch == '.' || t.ch == ','):
			marked = true
		}
	}
	if said < 2 {
		return
	}
	for k := range r.toks {
		t := &r.toks[k]
		if t.kind != tWord || t.word == 0 || t.word != wordPeriod && t.word != wordComma || marked && (t.word == wordPeriod || t.upper) {
			continue
		}
		t.ch = ','
		if t.word == wordPeriod {
			t.ch = '.'
		}
		t.kind, t.word, t.upper, t.shout = tPunct, 0, false, false
	}
}
