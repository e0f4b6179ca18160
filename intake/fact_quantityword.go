package intake

// yearWords lead to a year that a print shows.
var yearWords = internAll("year", "est", "established", "since", "founded")

// beforeGoods reports whether the number at item i counts a garment or pieces that follow it, other words between: "40 heather grey 50/50 tees".
func (r *reader) beforeGoods(i int) bool { return r.goods(i) >= 2 }

// goods tells what the number at item i counts: 2 a garment, 3 pieces, 1 a colour, 0 nothing known.
func (r *reader) goods(i int) int8 {
	seen := int8(0)
	words := 0
	if it := r.at(i); it.digits == 4 && it.num >= 1850 && it.num < 2100 && (r.at(i+1).word == wIn && r.at(i+2).sense(sColour) != nil && r.placeBefore(i) || yearWords[r.lastWord(i-1)]) { // "the year 1926 in white"
		return 0
	}
	if r.at(i-1).sense(sColour) != nil && r.at(i-2).kind != iNum && r.at(i+1).sense(sColour) != nil && r.at(i+2).kind == iNum { // "natural 40 black 20"
		return 0
	}
	for j := i + 1; j < len(r.items) && j < i+14; j++ {
		it := &r.items[j]
		switch {
		case it.is(cInsteadOf) && j == i+1 && r.at(j+1).kind == iNum && it.kind == iPhrase: // "45 instead of 40 tees"
			return r.goods(j + 1)
		case it.sense(sGarment) != nil:
			if s := it.sense(sGarment); it.end-it.start > 2 || r.shortGarment(j) {
				if s.weak && seen == 0 && (words > 1 || r.monthDay(i)) {
					return 0
				}
				return 2
			}
			return seen
		case it.is(cPcs) && j == i+1 && !r.doers(i, j):
			return 3
		case it.sense(sColour) != nil:
			if !it.sense(sColour).weak || r.onlySmall(i+1, j) {
				seen = 1
			}
		case it.is(cInkWord) || it.is(cColourWord) || it.sense(sPlace) != nil && !it.sense(sPlace).weak || it.is(cNo):
			return seen
		case (it.is(cPrintWord) || it.is(cFull)) && r.at(j+1).sense(sGarment) != nil && it.ntok == 1: // "30 painting aprons"
		case it.is(cPrintWord):
			if seen == 1 {
				return 0
			}
			return seen
		case it.is(cWant) && it.kind == iPhrase && (words > 0 || it.word == wordGet || it.word == wordGets) && seen == 0 && r.forPeople(j): // "the eight judges get a black polo"
			if r.at(j+1).word == wA || r.at(j+1).is(cOnes) {
				j++
			}
		case it.is(cFor) && it.word == wFor && seen == 0 && r.inColour(j): // "10 for the managers in white"
			return 1
		case it.is(cFor) && it.word == wFor && j == i+1 && r.forWhom(j): // "40 for the musicians: long sleeve"
			return 2
		case r.oneAt(j) && seen == 1 && r.at(i).num == 1: // "one white one"
			return 2
		case it.is(cHeather), it.is(cWant) && it.is(cAdd), it.sense(sFabric) != nil, it.sense(sFibre) != nil, it.is(cYouth), it.is(cAdult), it.sense(sUse) != nil, it.is(cEach), it.is(cPcs), it.is(cBlank):
		case it.kind == iNum:
			if !r.punct(j+1, '/') && !r.punct(j-1, '/') && !r.punct(j+1, '%') {
				return seen
			}
		case kinds[it.word] && r.at(j+1).word == wOf && j == i+1: // "two kinds of tees" are no two tees
			return 0
		case it.kind == iPunct && it.ch == '(' && r.bracketTotal(i): // "60 unisex (S 20, M 40) in navy"
			for j < len(r.items) && !r.punct(j, ')') {
				j++
			}
			return r.goods(j)
		case it.kind == iPunct && it.ch == '(' && j == i+1 && r.at(j+1).sense(sColour) != nil && r.punct(j+2, ')'): // "mens 24 (navy)"
			return 1
		case it.kind == iPunct:
			switch it.ch {
			case '/', '&':
				if j == i+1 && r.at(i-1).sense(sColour) != nil { // "red 40 / royal 40"
					return seen
				}
			case '%', '-':
			case ',':
				// "40 black, 50/50 tees" is too rare to look beyond
				return seen
			default:
				return seen
			}
		case it.kind == iBreak || it.kind == iPart:
			return seen
		case it.word == wThe && j == i+1: // "hoodies 4 the crew"
			return 0
		case it.word == wOf || it.word == wThe || it.is(cSame) || it.is(cAdd) || it.word == wAnd && seen == 1 || it.sense(sSize) != nil || it.sense(sMethod) != nil || it.sense(sWish) != nil || it.is(cPure):
		case it.word == wA && r.at(j-1).word == wIn:
		case it.word == wIn && seen == 0 && (j == i+1 || r.at(j-1).is(cEach) || r.at(j-1).word == wMore):
		case it.is(cGarmentWord), it.is(cInterj) && words < 2, it.is(cWorker), r.purposeWord(j), sideWords[it.word] && words == 0:
		case it.word == wordOnes && seen == 0:
			return 2
		case it.kind == iWord && words < 2:
			words++
		default:
			return seen
		}
	}
	return seen
}

// purposeWord reports whether the word at item i only says what the garment after it is for: "45 golf towels", "60 race shirts".
func (r *reader) purposeWord(i int) bool {
	it := r.at(i)
	return it.kind == iPhrase && it.ntok == 1 && r.at(i+1).sense(sGarment) != nil && (it.is(cSport) || it.is(cSportWord) || it.is(cOccasion) || it.is(cVenue) || it.is(cShop) || it.is(cEvent) || it.is(cFoodWork) || it.is(cPupil) || it.is(cTalk))
}

// sideWords say of a kit which side or whose it is.
var sideWords = internAll("home", "away", "mens", "ladies", "womens", "guys", "gents", "lads", "spare")

// kinds are words for sorts of goods.
var kinds = internAll("kinds", "styles", "designs", "types", "versions", "sorts", "lots", "batches", "varieties", "models", "colours", "colors", "sizes", "options")

// parseQuantity takes the number at item i as pieces, as surely as what stands around it says.
func (r *reader) parseQuantity(i int) int {
	it := r.at(i)
	if !r.countable(i) || it.num > 1e9 {
		return i + 1
	}
	if o := r.at(i + 1); o.glued && (o.word == wSt || o.word == wNd || o.word == wRd || o.word == wTh) { // the 5th
		return i + 2
	}
	if r.at(i-1).word == wOf && r.peopleAt(i-2) && !r.at(i+1).is(cPcs) { // "our staff of nine"
		r.people = int(it.num)
		return i + 1
	}
	if r.punct(i+1, '(') && r.at(i+2).kind == iNum && r.at(i+2).num == it.num && r.punct(i+3, ')') { // "thirty (30) sweatshirts"
		f := fact{kind: fNumber, n: int(it.num), sure: r.goods(i + 3)}
		r.emit(i, i+4, f)
		return i + 4
	}
	f := fact{kind: fNumber, n: int(it.num), sure: r.goods(i)}
	if f.sure == 2 && r.people > 1 && r.eachOf(i) { // "staff of nine: two polos each"
		f.n *= r.people
	}
	j := i + 1
	if r.at(j).word == wX && (r.at(j).glued || f.sure >= 2) {
		j++
	}
	for k := 0; k < 2 && r.at(j).is(cPcs) && !r.at(j).is(cEach) && !r.doers(i, j); k++ {
		f.sure = 3
		j++
	}
	if it.digits == 4 && it.num >= 2020 && it.num <= 2035 && (f.sure < 2 || f.sure == 2 && r.at(j).sense(sGarment) != nil && r.at(j).sense(sGarment).weak) { // a year
		return j
	}
	if f.sure < 2 && r.dozens(i) {
		f.sure = 3
	}
	if f.sure == 0 && it.digits > 0 && it.num >= 6 && j == i+1 { // goods that have no name here
		if w := r.at(j); w.kind == iWord && !w.upper && w.end-w.start >= 5 && r.text[w.end-1] == 's' && w.word == 0 {
			f.sure, f.weak = 3, true
		}
	}
	if f.sure == 0 && r.thisRound(i) {
		f.sure = 3
	}
	if it.spelled && f.sure == 0 && it.num < 13 {
		f.weak = true
	}
	if f.sure == 0 && (r.at(i+1).word == wMore && !((r.punct(i-1, ',') || r.at(i-1).is(cWant) || r.at(i-1).is(cOrderVerb) || r.at(i-1).is(cAdd)) && r.clauseEnds(i+2)) || r.at(i-1).is(cAge)) {
		return j
	}
	r.emit(i, j, f)
	return j
}

// asMany reads "the same number of sweatshirts", which counts as many as were counted last.
func (r *reader) asMany(i int) int {
	if !r.at(i).is(cSame) || r.at(i+2).word != wOf {
		return i
	}
	if n := r.at(i + 1); !n.is(cQty) && n.word != wordNumber && n.word != wordAmount {
		return i
	}
	for k := len(r.facts) - 1; k >= 0; k-- {
		if x := &r.facts[k]; x.kind == fNumber && x.sure >= 2 {
			r.emit(i, i+3, fact{kind: fNumber, n: x.n, sure: 2})
			return i + 3
		}
	}
	return i
}

// oneAt reports whether "one" at item i stands for a garment: "a white one", "a white one for the bride".
func (r *reader) oneAt(i int) bool {
	it := r.at(i)
	return it.kind == iNum && it.spelled && it.is(cOnes) || it.ntok > 1 && it.is(cBehalf) && vocab.names[r.toks[it.tok].word] == "one"
}

// onlySmall reports whether nothing but "in", "each", "a", "heather" stands in items i to j.
func (r *reader) onlySmall(i, j int) bool {
	for ; i < j; i++ {
		if it := r.at(i); it.word != wIn && it.word != wA && !it.is(cEach) && !it.is(cHeather) {
			return false
		}
	}
	return true
}

// forPeople reports whether the garment comes soon after the verb at item i, and no other number before it.
func (r *reader) forPeople(i int) bool {
	for k := i + 1; k < i+6; k++ {
		it := r.at(k)
		if it.sense(sGarment) != nil {
			return true
		}
		if it.kind > iPhrase && !(it.kind == iNum && it.spelled && it.is(cOnes)) || it.sense(sPlace) != nil || it.is(cPrintWord) {
			return false
		}
	}
	return false
}

// inColour reports whether "for", at item i, leads over the people that the goods are for to the colour they get.
func (r *reader) inColour(i int) bool {
	for k := i + 1; k < i+6; k++ {
		it := r.at(k)
		if it.word == wIn {
			c := r.at(k + 1).sense(sColour)
			return c != nil && r.at(k+2).sense(sGarment) == nil
		}
		if it.kind > iPhrase || it.sense(sGarment) != nil || it.sense(sColour) != nil {
			return false
		}
	}
	return false
}

// forWhom reports whether "for", at item i, leads over the people that the goods are for to a mark and then the garment.
func (r *reader) forWhom(i int) bool {
	k := i + 1
	for ; k < i+6 && r.at(k).kind <= iPhrase; k++ {
		if it := r.at(k); it.sense(sGarment) != nil || it.sense(sPlace) != nil || it.sense(sColour) != nil {
			return false
		}
	}
	if !r.punct(k, ':') && !r.punct(k, ',') {
		return false
	}
	for k++; k < i+12; k++ {
		it := r.at(k)
		if it.sense(sGarment) != nil {
			return it.end-it.start > 2 && !it.sense(sGarment).weak
		}
		if it.sense(sColour) == nil && !it.is(cHeather) && it.sense(sFabric) == nil && it.sense(sFibre) == nil && it.word != wA && it.word != wThe {
			return false
		}
	}
	return false
}

// doers reports whether the people counted by the number at item i do something, and stand for no goods: "four people quit", "one of us thought".
func (r *reader) doers(i, j int) bool {
	it := r.at(j)
	if it.word != 0 && vocab.names[it.word] != "people" || it.word == 0 && it.ntok > 1 && r.toks[it.tok].word != wOf {
		return false
	}
	n := r.at(j + 1)
	if it.word == 0 && vocab.names[r.toks[it.tok+it.ntok-1].word] == "us" && r.clauseEnds(j+1) { // "a hen do, 11 of us."
		return true
	}
	if it.word == 0 { // "20 of them, black" are goods, "one of us" is not
		return n.kind == iWord && r.at(i).num == 1 || n.word != 0 && (vocab.names[n.word] == "are" || vocab.names[n.word] == "were" || vocab.names[n.word] == "will")
	}
	return n.kind == iWord && n.word != wIn
}

// people are words for so and so many of them: "a party of twelve".
var people = map[string]bool{"staff": true, "group": true, "crew": true, "class": true, "party": true, "squad": true, "family": true, "cast": true, "troop": true, "choir": true, "committee": true}

// peopleAt reports whether item i ends in a word for a number of people.
func (r *reader) peopleAt(i int) bool {
	it := r.at(i)
	if it.kind > iPhrase || it.ntok == 0 {
		return false
	}
	w := r.toks[it.tok+it.ntok-1].word
	return w != 0 && (w == wordTeam || w == wordClub || people[vocab.names[w]])
}

// eachOf reports whether the garment that the number at item i counts is said to be for each.
func (r *reader) eachOf(i int) bool {
	for k := i + 1; k < i+5; k++ {
		if r.at(k).sense(sGarment) != nil {
			return r.at(k + 1).is(cEach)
		}
	}
	return false
}

// dozens reports whether the number at item i was said in dozens, which only goods are.
func (r *reader) dozens(i int) bool {
	it := r.at(i)
	last := r.toks[it.tok+it.ntok-1]
	if it.ntok < 2 || last.word == 0 {
		return false
	}
	switch vocab.names[last.word] {
	case "dozen", "dozens", "doz", "dz", "docena", "docenas":
		return true
	}
	return false
}
