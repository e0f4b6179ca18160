package intake

// gone is the count of a size that is taken off the run.
const gone = -1 << 30

// sizeChange reads "no XLs", "one less large", "2 more XL", "two of the mediums become larges". Nothing of it holds without a run to change.
func (r *reader) sizeChange(i int) int {
	if s, ok := r.sizeAt(i); ok {
		p := r.at(i - 1)
		if n := r.at(i + 2); r.at(i+1).word == wBy && n.kind == iNum && !n.frac && r.countable(i+2) { // "bump the L by 2"
			if v := r.changeBefore(i); v != 0 {
				return r.emitChange(i, i+3, sized{s, v * int(n.num)})
			}
		}
		if !p.is(cNo) || p.word == wordNot || r.at(i+1).kind == iNum || r.letterSize(i) && !r.at(i).upper || r.at(i+1).is(cPrintWord) || r.at(i+1).sense(sPlace) != nil {
			return i
		}
		return r.emitChange(i, i+1, sized{s, gone})
	}
	n := r.at(i)
	if n.ntok == 2 && r.toks[n.tok].word == wordOne && r.toks[n.tok+1].word == wMore { // "and one more XL"
		if s, ok := r.sizeAt(i + 1); ok && r.at(i+2).sense(sGarment) == nil && !r.at(i+2).is(cPrintWord) {
			return r.emitChange(i, i+2, sized{s, 1})
		}
	}
	if n.kind != iNum || n.frac || n.num > 999 {
		return i
	}
	j, v := i+1, int(n.num)
	switch w := r.at(j).word; {
	case w == 0 && r.at(j).sense(sSize) == nil:
		return i
	case w == wordLess || w == wordFewer:
		v = -v
		j++
	case w == wMore || w == wordExtra:
		j++
	case (r.at(j).sense(sSize) != nil) && (r.at(j+1).word == wordBe || r.at(j+1).word == wordBecome || r.at(j+1).word == wordInto) && r.at(j+1).word != 0: // "can the 6 XL be 2XL"
		a, _ := r.sizeAt(j)
		b, ok := r.sizeAt(j + 2)
		if !ok {
			return i
		}
		return r.emitChange(i, j+3, sized{a, -v}, sized{b, v})
	case w == wOf:
		j++
		if r.at(j).word == wThe {
			j++
		}
		a, ok := r.sizeAt(j)
		if !ok {
			return i
		}
		if p := r.at(i - 1); p.is(cNo) && p.kind == iPhrase && r.at(j+1).kind != iWord { // "drop 2 of the larges"
			return r.emitChange(i, j+1, sized{a, -v})
		}
		if k := r.at(j + 1); k.word != wordBecome && k.word != wordBecomes && k.word != wordInto && !k.is(cTo) && !k.is(cFix) && !(k.word == wFor && r.swapped(i-1)) {
			return i
		}
		b, ok := r.sizeAt(j + 2)
		if !ok {
			return i
		}
		return r.emitChange(i, j+3, sized{a, -v}, sized{b, v})
	default:
		return i
	}
	s, ok := r.sizeAt(j)
	if !ok || r.at(j+1).is(cPrintWord) || r.at(j+1).sense(sGarment) != nil {
		return i
	}
	return r.emitChange(i, j+1, sized{s, v})
}

// ups and downs are words for more and fewer of something.
var ups = internAll("bump", "up", "raise", "increase", "add", "more")
var downs = internAll("cut", "reduce", "drop", "lower", "down", "decrease", "trim")

// changeBefore is 1 or -1 where the words before the size at item i say that there are to be more or fewer of it, 0 where they say neither.
func (r *reader) changeBefore(i int) int {
	for k := i - 1; k > i-4 && r.at(k).kind <= iPhrase; k-- {
		for t := r.at(k).tok; t < r.at(k).tok+r.at(k).ntok; t++ {
			if w := r.toks[t].word; ups[w] {
				return 1
			} else if downs[w] {
				return -1
			}
		}
	}
	return 0
}

// swapped reports whether a word of exchange stands just before: "swap 2 of the larges for mediums".
func (r *reader) swapped(i int) bool {
	for k := i; k > i-3; k-- {
		if w := r.at(k).word; w != 0 && (w == wordSwap || w == wordSwitch || w == wordChange || w == wordReplace) {
			return true
		}
	}
	return false
}

// emitChange notes changes of a run.
func (r *reader) emitChange(i, j int, run ...sized) int {
	from := len(r.runs)
	r.runs = append(r.runs, run...)
	r.emit(i, j, fact{kind: fSizes, n: from, m: len(run), weak: true})
	return j
}
