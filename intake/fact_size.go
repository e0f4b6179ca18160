package intake

import (
	"slices"
	"strconv"

	"strikeoff/rules"
)

// youth maps an adult size to the youth size of the same letter.
var youth = map[rules.Size]rules.Size{"XS": "YXS", "S": "YS", "M": "YM", "L": "YL", "XL": "YXL"}

// symbol is a size or a number in a size run.
type symbol struct {
	size rules.Size // "" for a number
	n    float64
	item int
}

// sizeAt is the size that item i names.
func (r *reader) sizeAt(i int) (rules.Size, bool) {
	s := r.at(i).sense(sSize)
	if s == nil {
		return "", false
	}
	return rules.Size(s.val), true
}

// letterSize reports whether item i is a size of one letter, which has other uses too.
func (r *reader) letterSize(i int) bool { it := r.at(i); return it.ntok == 1 && it.end-it.start == 1 }

// parseSizes reads a size run that begins at item i, in any of the ways people write one. It returns i where there is none.
func (r *reader) parseSizes(i int) int {
	it := r.at(i)
	_, isSize := r.sizeAt(i)
	if !isSize && it.kind != iNum && !(it.ntok == 2 && it.is(cAdd)) || it.kind == iNum && (it.frac || !r.countable(i)) {
		return i
	}
	if isSize && it.glued && r.letterSize(i) && r.at(i-1).kind == iPunct && r.at(i-1).ch == '\'' {
		return i
	}
	if it.kind == iNum && r.bracketTotal(i) {
		return i
	}
	if j := r.oneSized(i); j > i {
		return j
	}
	if j := r.wholeRun(i); j > i {
		return j
	}
	if j := r.sizeChange(i); j > i {
		return j
	}
	if j := r.sizeSpread(i); j > i {
		return j
	}
	var buf [64]symbol
	syms := r.symbols(i, buf[:0])
	if len(syms) < 2 {
		return r.loneSize(i)
	}
	if j := r.sizeHeader(i, syms); j > i {
		return j
	}
	if syms[0].size == "" {
		return r.countFirst(i, syms)
	}
	return r.sizeFirst(i, syms)
}

// symbols gathers sizes and numbers from item i on, over the marks and small words that stand between them.
func (r *reader) symbols(i int, syms []symbol) []symbol {
	young := r.at(i-1).is(cYouth) || r.punct(i-1, ':') && r.at(i-2).is(cYouth)
	blanks := 0
	for j := i; j < len(r.items) && len(syms) < cap(syms); j++ {
		it := &r.items[j]
		if s, ok := r.sizeAt(j); ok {
			if it.ntok > 1 && s[0] == 'Y' { // "youth S 10 M 20": the rest are youth sizes too
				young = true
			}
			if young && youth[s] != "" {
				if n := len(syms); n >= 2 && !larger(youth[s], syms[n-2].size) && !larger(youth[s], syms[n-1].size) { // "youth L 5, S 10": the run starts anew
					young = false
				} else {
					s = youth[s]
				}
			}
			if n := len(syms); n > 0 && syms[n-1].size == s { // "one size (OS 30)"
				syms[n-1].item = j
				continue
			}
			syms = append(syms, symbol{size: s, n: it.first, item: j})
			blanks = 0
			continue
		}
		switch {
		case it.kind == iNum && len(syms) >= 2 && it.num >= 2 && it.num <= 5 && r.at(j+1).word == wX && r.at(j+1).glued && r.at(j+2).kind == iNum && syms[len(syms)-1].size == "" && syms[0].size != "" && !r.measured(j+3):
			syms = append(syms, symbol{size: rules.Size(strconv.Itoa(int(it.num)) + "XL"), item: j}) // "XL6 2X2"
			j++
		case it.kind == iNum && it.spelled && it.is(cOnes) && (r.at(j+1).sense(sSize) == nil || len(syms) == 0 || syms[len(syms)-1].size != "" && j == syms[len(syms)-1].item+1): // "a small one"
			return syms
		case it.kind == iNum:
			if len(syms) > 0 && r.bracketTotal(j) {
				return syms
			}
			if it.frac || !r.countable(j) && !(r.punct(j+1, '/') || r.punct(j+1, '-')) {
				return syms
			}
			if len(syms) > 0 && blanks > 0 && (r.beforeGarment(j) || r.goods(j) == 3) && syms[len(syms)-1].size == "" {
				return syms
			}
			if o := r.at(j + 1); o.is(cColourWord) && !o.glued || o.is(cMonth) || o.sense(sMonth) != nil && !o.sense(sMonth).weak {
				return syms
			}
			syms = append(syms, symbol{n: it.num, item: j})
			blanks = 0
		case it.kind == iPunct && (it.ch == ',' || it.ch == '/' || it.ch == '|' || it.ch == '-' || it.ch == ':' || it.ch == '=' || it.ch == '(' || it.ch == ')' || it.ch == '*' || it.ch == '&' || it.ch == '+' || it.ch == ';'):
			if it.ch == ';' && len(syms)%2 == 0 && len(syms) > 0 {
				if _, ok := r.sizeAt(j + 1); !ok && r.at(j+1).kind != iNum {
					return syms
				}
			}
		case it.kind == iBreak:
			if blanks++; blanks > 1 {
				return syms
			}
		case it.word == wX || it.word == wAnd || it.word == wOf || it.word == wIn || it.word == wY || it.word == wDe || it.is(cPcs) && it.ntok == 1 && !it.is(cEach):
		case it.word == wordSize || it.word == wordTalla:
		case it.is(cPcs) && it.ntok > 1 && r.toks[it.tok].word == wOf && len(syms)%2 == 1 && syms[len(syms)-1].size == "": // "10 of em youth L"
		case (it.is(cTo) && it.ntok == 1 || it.is(cFix) && it.kind == iPhrase) && len(syms)%2 == 1 && syms[len(syms)-1].size != "" && r.at(j+1).kind == iNum && (!r.letterSize(j-1) || it.is(cFix)):
		case (it.word == wIs || it.word == wordAre) && len(syms)%2 == 1 && syms[len(syms)-1].size != "" && r.at(j+1).kind == iNum && (r.at(j-1).upper || !r.letterSize(j-1)): // "oh wait L is 5"
		case toVerbs[it.word] && len(syms)%2 == 1 && syms[len(syms)-1].size != "" && r.leadsTo(j) && j < len(r.items)-1: // "12-18M goes to 20"
		case it.is(cYouth):
			young = true
		case it.is(cAdult):
			young = false
		default:
			return syms
		}
	}
	return syms
}

// bracketTotal reports whether the number at item i is what the size run in the brackets after it adds up to: "adults 30 (M 10, L 12, XL 8)".
func (r *reader) bracketTotal(i int) bool {
	o := i + 1
	for r.at(o).is(cAdult) || r.at(o).is(cYouth) && r.at(o).sense(sSize) == nil {
		o++
	}
	if !r.punct(o, '(') {
		return false
	}
	sum, sizes := 0.0, 0
	k := o + 1
	for ; k < o+40 && !r.punct(k, ')'); k++ {
		it := r.at(k)
		if _, ok := r.sizeAt(k); ok {
			sizes++
		} else if it.kind == iNum {
			sum += it.num
		} else if it.kind > iPunct {
			return false
		}
	}
	return sizes > 1 && sum == r.at(i).num && r.punct(k, ')')
}

// larger reports whether size a is larger than b; no size at all is neither.
func larger(a, b rules.Size) bool {
	return b != "" && slices.Index(rules.SizeOrder, a) > slices.Index(rules.SizeOrder, b)
}

// beforeGarment reports whether the number at item i counts a garment.
func (r *reader) beforeGarment(i int) bool { return r.goods(i) == 2 }

// sizeFirst reads "S 8 M 12", "S: 8, M: 12" and the like.
func (r *reader) sizeFirst(i int, syms []symbol) int {
	from := len(r.runs)
	last := i
	for k := 0; k+1 < len(syms); k += 2 {
		s, n := syms[k], syms[k+1]
		if s.size == "" || n.size != "" {
			break
		}
		if k+2 < len(syms) && syms[k+2].size == "" && r.at(n.item).end != 0 && k+3 >= len(syms) {
			// a number more than the run has: it belongs to what follows
			r.runs = append(r.runs, sized{s.size, int(n.n)})
			last = n.item
			break
		}
		r.runs = append(r.runs, sized{s.size, int(n.n)})
		last = n.item
	}
	return r.emitRun(i, last, from, syms)
}

// countFirst reads "4S 10M", "10 large, 6 XL and 2 double XL". A leading number that the run after it adds up to, or that is one too many, is
// the quantity and left alone.
func (r *reader) countFirst(i int, syms []symbol) int {
	if syms[1].size == "" {
		return i
	}
	if r.sizeFirstFits(syms[1:]) && !r.countFits(syms) && !r.totalled(syms) {
		return i
	}
	from := len(r.runs)
	last := i
	for k := 0; k < len(syms); {
		n := syms[k]
		if n.size != "" {
			if n.n == 0 || r.at(n.item).ntok != 2 { // a "4XL" among counts is four of XL
				break
			}
			rest := rules.Size("XL")
			if vocab.names[r.toks[r.at(n.item).tok+1].word] == "t" {
				break
			}
			r.runs = append(r.runs, sized{rest, int(n.n)})
			last = n.item
			k++
			continue
		}
		if k+1 >= len(syms) || syms[k+1].size == "" {
			break
		}
		r.runs = append(r.runs, sized{syms[k+1].size, int(n.n)})
		last = syms[k+1].item
		k += 2
	}
	return r.emitRun(i, last, from, syms)
}

// totalled reports whether the symbols are counts and sizes with what they add up to at the end: "2 XS, 5 S, 3 XL = 10".
func (r *reader) totalled(syms []symbol) bool {
	n := len(syms) - 1
	if n < 4 || !r.countFits(syms[:n]) || syms[n].size != "" {
		return false
	}
	sum := 0.0
	for k := 0; k < n; k += 2 {
		sum += syms[k].n
	}
	return sum == syms[n].n
}

// sizeFirstFits reports whether the symbols pair up as size, number, size, number to the end.
func (r *reader) sizeFirstFits(syms []symbol) bool {
	if len(syms) < 2 || len(syms)%2 != 0 {
		return false
	}
	for k := range syms {
		if (syms[k].size == "") != (k%2 == 1) {
			return false
		}
	}
	return true
}

// countFits reports whether the symbols pair up as number, size to the end.
func (r *reader) countFits(syms []symbol) bool {
	if len(syms)%2 != 0 {
		return false
	}
	for k := range syms {
		if (syms[k].size == "") != (k%2 == 0) {
			return false
		}
	}
	return true
}

// emitRun notes the run just gathered, unless it is a lone pair that means something else.
func (r *reader) emitRun(i, last, from int, syms []symbol) int {
	n := len(r.runs) - from
	if n == 0 {
		return i
	}
	if n == 1 && !r.lonePair(i, last) {
		r.runs = r.runs[:from]
		return i
	}
	j := last + 1
	if r.punct(j, ')') {
		j++
	}
	for r.at(j).word != 0 && r.at(j).is(cPcs) && r.at(j).ntok == 1 && r.at(j).is(cEach) {
		j++
	}
	r.emit(i, j, fact{kind: fSizes, n: from, m: n})
	return j
}

// lonePair reports whether the items i to last are one size with its count, and not, say, "one large print".
func (r *reader) lonePair(i, last int) bool {
	k := i
	if r.at(k).sense(sSize) == nil {
		k = last
	}
	next := r.at(last + 1)
	if next.is(cPrintWord) || next.sense(sPlace) != nil || next.sense(sGarment) != nil && k == last || next.is(cColourWord) || r.measured(last+1) || next.sense(sMethod) != nil {
		return false
	}
	it := r.at(k)
	if it.kind == iPhrase && (it.ntok > 1 || it.end-it.start > 1) {
		if s := it.sense(sSize); len(vocab.nodes[it.node].senses) > 1 && s != nil && it.word != 0 && it.end-it.start > 3 {
			return true
		}
		return true
	}
	if !it.upper {
		return false
	}
	return last-i <= 2
}
