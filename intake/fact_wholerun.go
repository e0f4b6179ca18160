package intake

// Counts of a size that follow from the pieces of the line: all of them, those that no size was said of yet, half of them, the one there is.
const (
	everyPiece = gone + 1 + iota
	otherPieces
	halfPieces
	onePiece
)

// piecesOf is how many pieces of the line a size has whose count follows from them; 0 where that cannot be told.
func (l *line) piecesOf(count int) int {
	if !l.Quantity.Known {
		return 0
	}
	q, sized := l.Quantity.Value, l.Sizes.Total()
	switch {
	case count == everyPiece && sized == 0, count == onePiece && sized == 0 && q == 1:
		return q
	case count == otherPieces && sized > 0 && sized < q:
		return q - sized
	case count == halfPieces && q%2 == 0 && sized+q/2 <= q:
		return q / 2
	}
	return 0
}

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

// restRun reads at item i that the pieces left over, or half of the pieces, have one size: "10 of em youth L, rest adult M", "half M half L".
func (r *reader) restRun(i int) int {
	count := 0
	switch it := r.at(i); {
	case it.is(cRest) && it.kind == iPhrase:
		count = otherPieces
	case it.word == wordHalf && it.word != 0:
		count = halfPieces
	default:
		return i
	}
	j, young := i+1, false
	for ; sizeWords[r.at(j).word] || r.at(j).is(cYouth) || r.at(j).is(cAdult); j++ {
		young = young || r.at(j).is(cYouth)
	}
	s, ok := r.sizeAt(j)
	if n := r.at(j + 1); !ok || r.letterSize(j) && !r.at(j).upper || n.kind == iNum || n.is(cPrintWord) || n.sense(sPlace) != nil || r.punct(j+1, ':') {
		return i
	}
	if young && youth[s] != "" {
		s = youth[s]
	}
	return r.emitChange(i, j+1, sized{s, count})
}

// loneSize reads at item i the size of the one piece that a line may have: "1 for coach, black polo, XL", "the white one is a medium".
func (r *reader) loneSize(i int) int {
	s, ok := r.sizeAt(i)
	p := r.at(i - 1)
	if !ok || r.letterSize(i) && !r.at(i).upper || !r.clauseEnds(i+1) || r.punct(i+1, ':') {
		return i
	}
	if !(p.kind == iPunct && (p.ch == ',' || p.ch == '(' || p.ch == '-') || p.word == wA || p.word == wordSize || p.is(cSized) || p.word == wIn || p.sense(sGarment) != nil || p.sense(sColour) != nil) {
		return i
	}
	return r.emitChange(i, i+1, sized{s, onePiece})
}
