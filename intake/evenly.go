package intake

import (
	"strings"

	"strikeoff/rules"
)

// evenWords say that what is counted falls into equal parts.
var evenWords = internAll("evenly", "equally")

// parted lead to "50/50" or "fifty fifty" where it is no blend but how pieces are shared out.
var parted = internAll("split", "divided", "shared", "halved")

// evenAt reports whether item i says that pieces are shared out evenly: "split evenly", "half and half", "split 50/50", "equal numbers of".
func (r *reader) evenAt(i int) bool {
	it := r.at(i)
	switch w := r.wordAt(i); {
	case w == "":
		return false
	case evenWords[it.word], it.word == wordHalf && r.at(i+1).word == wAnd && r.at(i+2).word == wordHalf:
		return true
	case w == "equal" || w == "even" || w == "same":
		n := r.wordAt(i + 1)
		return n == "numbers" || n == "number" || n == "amounts" || n == "amount" || n == "parts" || n == "split" || n == "mix" || n == "quantities" || n == "shares"
	}
	return r.splitInTwo(i)
}

// splitInTwo reports whether "split" or the like stands at item i before a fifty fifty that shares out pieces.
func (r *reader) splitInTwo(i int) bool {
	if it := r.at(i); it.ntok == 0 || !parted[r.toks[it.tok].word] {
		return false
	}
	for k := i + 1; k < i+4; k++ {
		if n := r.at(k); n.kind == iNum && n.num == 50 || strings.HasPrefix(r.wordAt(k), "fifty") {
			return true
		} else if n.kind != iWord && !n.is(cPcs) {
			return r.wordAt(k) == "down" || r.wordAt(k) == "half"
		} else if w := r.wordAt(k); w == "down" || w == "half" {
			return true
		}
	}
	return false
}

// sharedOut reports whether the fifty fifty at item i shares out pieces and is no blend: "split 50/50 black and grey".
func (r *reader) sharedOut(i int) bool {
	for k := i - 1; k > i-4 && r.at(k).kind <= iPhrase; k-- {
		if it := r.at(k); it.ntok > 0 && parted[r.toks[it.tok].word] {
			return true
		}
	}
	return false
}

// evenly splits the line spoken of into one a colour, of as many pieces each, where the sentence says that it is shared out evenly.
func (s *scope) evenly(st sentence) {
	said := false
	for i := st.i0; i < st.i1 && !said; i++ {
		said = s.r.evenAt(i)
	}
	if !said || len(s.lines) == 0 || s.amend {
		return
	}
	k := s.newest()
	l := &s.lines[k]
	cs := l.Colours
	n := len(cs)
	if n < 2 || l.split || len(l.Sizes) > 0 || !l.Quantity.Known || l.Quantity.Value%n != 0 {
		return
	}
	x := &fact{n: l.Quantity.Value / n, id: l.counted - 1}
	l.total, l.Quantity, l.Colours = l.Quantity.Value, rules.Said(x.n), rules.List[string]{cs[0]}
	heather := l.Heather
	for _, c := range cs[1:] {
		q := s.clone(k, x.n)
		s.lines[q].Colours, s.lines[q].counted, s.lines[q].Heather = rules.List[string]{c}, x.id+1, heather
		for p := range s.lines[k].Prints {
			s.last = append(s.last, ref{q, p})
		}
	}
}
