package intake

// everyPiece is the count of a size that all pieces of the line have.
const everyPiece = gone + 1

// sizeWords stand between "all" and the size that everything has: "all of them in size L".
var sizeWords = internAll("in", "a", "an", "are", "is", "be", "will", "of", "them", "em", "size", "sizes", "sized", "these", "garments", "pieces", "just")

// wholeRun reads at item i that every piece has one size: "all XL", "every one a large", "0-3M all of em".
func (r *reader) wholeRun(i int) int {
	s, ok := r.sizeAt(i)
	if !ok || r.at(i).kind != iPhrase {
		return i
	}
	k, named := i-1, false
	for ; sizeWords[r.at(k).word]; k-- {
		named = named || r.at(k).word == wordSize || r.at(k).is(cSized)
	}
	j := i + 1
	before := r.every(k) && r.at(k-1).kind != iNum
	if !before {
		for r.at(j).word == wFor || r.at(j).word == wOn || r.punct(j, '-') {
			j++
		}
		if !r.every(j) {
			return i
		}
		for j++; sizeWords[r.at(j).word] || r.at(j).is(cPcs) && r.at(j).ntok > 1; j++ {
		}
	}
	if !r.clauseEnds(j) && !r.at(j).is(cGreet) && !r.at(j).is(cSuits) || r.letterSize(i) && !r.at(i).upper && !named {
		return i
	}
	return r.emitChange(i, j, sized{s, everyPiece})
}

// every reports whether item i says that something holds for every piece.
func (r *reader) every(i int) bool {
	it := r.at(i)
	return it.kind == iPhrase && it.is(cAll) && !it.is(cBoth) || r.wordAt(i) == "everybody" || it.word == wordOne && it.word != 0 && r.wordAt(i-1) == "every"
}
