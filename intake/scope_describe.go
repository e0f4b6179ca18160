package intake

import (
	"slices"

	"strikeoff/rules"
)

// descWords are what prints are of, where it tells one print from another.
var descWords = map[int32]uint8{vocab.intern("number"): 1, vocab.intern("numbers"): 1, vocab.intern("name"): 2, vocab.intern("names"): 2, vocab.intern("numeros"): 1,
	vocab.intern("nombres"): 2, vocab.intern("logo"): 4, vocab.intern("logos"): 4, vocab.intern("crest"): 8, vocab.intern("crests"): 8, vocab.intern("flag"): 16, vocab.intern("flags"): 16,
	vocab.intern("letters"): 32, vocab.intern("lettering"): 32, vocab.intern("text"): 32}

// describe notes what the prints just placed are of, by the words of their clause.
func (s *scope) describe(st sentence, f int) {
	x := &s.r.facts[f]
	var what uint8
	for i := int(x.i0) - 1; i >= st.i0 && i > int(x.i0)-8; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && (it.ch == ',' || it.ch == ':') || it.sense(sPlace) != nil {
			break
		}
		what |= descWords[it.word]
	}
	for i := int(x.i1); i < st.i1 && i < int(x.i1)+6; i++ {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' || it.sense(sPlace) != nil || it.word == wAnd {
			break
		}
		what |= descWords[it.word]
	}
	if what == 0 {
		return
	}
	for _, h := range s.sp {
		s.desc = append(s.desc, described{h, what})
	}
}

// spokenOf are the prints that the subject of the clause of fact f means by what they are of: "numbers are heat transfer".
func (s *scope) spokenOf(st sentence, f int) []ref {
	if len(s.desc) == 0 {
		return nil
	}
	for _, k := range s.seg {
		if s.lines[k].made == s.cl {
			return nil
		}
	}
	var what uint8
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' {
			break
		}
		if it.sense(sPlace) != nil && !it.sense(sPlace).weak || it.sense(sGarment) != nil {
			return nil
		}
		what |= descWords[it.word]
	}
	if what == 0 {
		return nil
	}
	var out []ref
	for _, d := range s.desc {
		if d.what&what != 0 && d.line < len(s.lines) && d.print < len(s.lines[d.line].Prints) && !slices.Contains(s.all, d.ref) {
			out = append(out, d.ref)
		}
	}
	return out
}

// sameArt are the prints of line k that "same" is said of: without those that were said to be of something else, "12 polos, same crest" after a crest
// on the chest and letters on the back. They are all of them where it names no artwork, or none that the line has.
func (s *scope) sameArt(st sentence, k int) []rules.Print {
	all := s.lines[k].Prints
	var what uint8
	for i := s.sameItem; i < st.i1; i++ {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch != '-' || it.sense(sPlace) != nil || it.is(cAs) || it.is(cBut) {
			break
		}
		for _, t := range s.r.toks[it.tok : it.tok+it.ntok] {
			what |= descWords[t.word]
		}
	}
	var meant []rules.Print
	named := false
	for q := range all {
		var of uint8
		for _, d := range s.desc {
			if d.ref == (ref{k, q}) {
				of |= d.what
			}
		}
		named = named || of&what != 0
		if of == 0 || of&what != 0 {
			meant = append(meant, all[q])
		}
	}
	if !named {
		return all
	}
	return meant
}
