package intake

import "strings"

// ageUnit reports whether a word of age follows its number: "6 yo", "6 years".
func (r *reader) ageUnit(w int32) bool {
	switch vocab.names[w] {
	case "yo", "y/o", "yrs", "years", "year", "olds", "old":
		return true
	}
	return false
}

// parseAges reads who is how old: "kids 5 to 10", "6-11 year olds", "ages 8-12". The use follows from the youngest.
func (r *reader) parseAges(i int) int {
	it := r.at(i)
	if it.frac || it.num > 99 {
		return i
	}
	lo, hi := it.num, it.num
	j := i + 1
	if under := r.wordAt(i-1) == "under" || r.punct(i-1, '-') && r.wordAt(i-2) == "under"; under && it.num <= 13 && (r.at(j).word == wordS && r.at(j).glued || r.childrenAt(i-2) && !r.measured(j)) { // "under-12s", "kids under 12"
		use := "children"
		if it.num <= 3 {
			use = "infant"
		}
		if r.at(j).word == wordS && r.at(j).glued {
			j++
		}
		r.emit(i, j, fact{kind: fUse, s: use})
		return j
	}
	if (r.punct(j, '-') || r.at(j).is(cTo) || r.at(j).word == wAnd || r.at(j).word == wOr || r.punct(j, '/')) && r.at(j+1).kind == iNum && r.at(j+1).num <= 99 && r.at(j+1).num > lo {
		hi = r.at(j + 1).num
		j += 2
	}
	ranged := j > i+1
	prev := r.at(i - 1)
	if prev.kind == iPunct && (prev.ch == ',' || prev.ch == '(' || prev.ch == ':') {
		prev = r.at(i - 2)
	}
	if prev.is(cAge) && prev.word != 0 && r.ageUnit(prev.word) { // "yo 3 dozen", "years 2"
		prev = &nowhere
	}
	if prev.is(cAge) && i >= 2 && r.at(i-2).is(cAge) {
		prev = r.at(i - 2)
	}
	kids := prev.is(cYouth) && prev.sense(sSize) == nil || prev.sense(sUse) != nil && (prev.sense(sUse).val == "children" || prev.sense(sUse).val == "infant")
	if !kids && prev.word != 0 && (vocab.names[prev.word] == "are" || vocab.names[prev.word] == "from") {
		q := r.at(i - 2)
		kids = q.sense(sUse) != nil && q.sense(sUse).val == "children" || q.is(cYouth) && q.sense(sSize) == nil
		// "campers are 8 to 12:" tells how old they are where nothing that can be counted follows.
		kids = kids || ranged && q.kind == iWord && hi < 20 && r.clauseEnds(j)
	}
	if q := r.at(i - 2); !kids && ranged && r.punct(i-1, '(') && r.punct(j, ')') && hi < 20 && q.kind == iWord && q.end > q.start && r.text[q.end-1] == 's' { // "campers (7 to 12)"
		kids = true
	}
	if q := r.at(i - 2); !kids && ranged && hi < 20 && (r.wordAt(i-1) == "range" || r.wordAt(i-1) == "ranging") && q.kind <= iPhrase { // "dancers range 5-11"
		kids = true
	}
	if !kids && ranged && hi < 20 && r.clauseEnds(j) && r.theyAre(i-1) { // "they're 7 and 8"
		kids = true
	}
	if !kids && ranged && r.wordAt(i-1) == "all" && r.clauseEnds(j) && hi < 20 { // "they're all 3 or 4"
		kids = true
	}
	k := j
	for r.punct(k, '-') {
		k++
	}
	after := r.at(k)
	switch {
	case after.is(cAge) && (after.word == 0 || after.end-after.start > 2):
		k++
	case prev.is(cAge) && !r.measured(j):
		k = j
	case ranged && r.at(j).word == wordS && r.at(j).glued: // "5 to 11s need"
		k = j + 1
	case ranged && kids && !r.measured(j) && r.at(j).sense(sSize) == nil && r.at(j).sense(sGarment) == nil:
		k = j
	default:
		return i
	}
	if after.is(cMonth) {
		hi, lo = 1, 1
		k++
	}
	use := ""
	switch {
	case hi <= 3 && lo < 3:
		use = "infant"
		r.toddlers()
	case lo <= 12:
		use = "children"
	default:
		use = "-children" // teenagers and up: takes back what "kids" said
	}
	r.emit(i, k, fact{kind: fUse, s: use})
	if lo < 3 && hi > 3 {
		r.emit(i, k, fact{kind: fUse, s: "children"})
	}
	return k
}

// childrenAt reports whether item i is a word for children.
func (r *reader) childrenAt(i int) bool {
	it := r.at(i)
	return it.is(cYouth) && it.sense(sSize) == nil || it.sense(sUse) != nil && it.sense(sUse).val == "children"
}

// theyAre reports whether item i ends "they are".
func (r *reader) theyAre(i int) bool {
	switch r.wordAt(i) {
	case "theyre", "they're":
		return true
	case "are":
		return r.wordAt(i-1) == "they"
	case "re":
		return r.punct(i-1, '\'') && r.wordAt(i-2) == "they"
	}
	return false
}

// toddlers lets go of the use that the word itself has, for an age below three was said: "the toddlers (the two year olds)".
func (r *reader) toddlers() {
	for k := len(r.facts) - 1; k >= 0 && k > len(r.facts)-4; k-- {
		if x := &r.facts[k]; x.kind == fUse && strings.HasPrefix(r.wordAt(int(x.i0)), "toddler") {
			x.done = true
		}
	}
}

// schoolWords come before the number of a school's year.
var schoolWords = internAll("year", "years", "yr", "grade", "grades", "primary")

// schoolYear reads the year of a school that pupils are in, at item i: "year 3s", "yr 6", "grade 4". Up to the sixth they are children.
func (r *reader) schoolYear(i int) int {
	switch r.wordAt(i - 1) {
	case "every", "this", "last", "per", "a", "each", "next", "one", "of":
		return i
	}
	k := i + 1
	if r.wordAt(k) == "k" && (r.punct(k+1, '-') || r.at(k+1).is(cTo)) { // "grades K-5"
		k += 2
	}
	n := r.at(k)
	if n.kind != iNum || n.frac || n.num < 1 || n.num > 6 || n.glued && k == i+1 || r.at(i-1).kind == iNum {
		return i
	}
	e := k + 1
	if (r.punct(e, '-') || r.at(e).is(cTo) || r.at(e).word == wAnd) && r.at(e+1).kind == iNum && r.at(e+1).num > n.num && r.at(e+1).num < 14 && r.goods(e+1) < 2 {
		e += 2
	} else if r.goods(k) >= 2 && r.at(e).word != wordS {
		return i
	}
	if r.at(e).word == wordS && r.at(e).glued {
		e++
	}
	r.emit(i, e, fact{kind: fUse, s: "children"})
	return e
}

// birthday reads somebody's round birthday at item i: "for my dad's 60th".
func (r *reader) birthday(i int) int {
	j := r.ordinal(i + 1)
	if j == i+1 || !r.clauseEnds(j) || !r.possessive(i) || r.at(i).num < 16 {
		return i
	}
	r.emit(i, j, fact{kind: fUse, s: "event"})
	return j
}
