package intake

import "strikeoff/rules"

// factKind is what a fact is about.
type factKind uint8

const (
	fNone    factKind = iota
	fNumber           // a number that may be pieces; sure says how likely: 3 labelled, 2 before a garment, 1 before a colour, 0 bare
	fSizes            // a size run, in reader.runs[n:n+m]
	fGarment          // s
	fColour           // s
	fHeather
	fBlend  // percents, in reader.parts[n:n+m]
	fFabric // class s
	fPlace  // s
	fDim    // a by b in millimetres, 0 where unsaid
	fInks   // number of inks, n
	fPair   // n inks on the front, m on the back
	fFull
	fCover // a percent
	fMethod
	fEffect
	fWish
	fUse
	fDate // date
	fBlank
	fNoDate
	fName // the customer
	fRow  // a row of a table begins
)

// fact is something read in the text, before it is known what it belongs to.
type fact struct {
	kind   factKind
	i0, i1 int32 // items
	id     int32 // its place in reader.facts
	s      string
	n, m   int
	a, b   float64
	sure   int8
	weak   bool
	swatch bool       // a colour given by reference
	neg    bool       // said not to be
	dead   bool       // said of the past, or replaced within its sentence
	done   bool       // was taken in with another
	fix    bool       // replaces what was said before
	cell   columnKind // the column of a table that it stands in
	tier   int8       // of a date: how clearly it is the day in hand
	date   rules.Date
}

// sized is one size and its pieces.
type sized struct {
	size rules.Size
	n    int
}

// reader holds what reading one message needs. It is used again for the next message.
type reader struct {
	text         string
	lines        []textLine
	opt          Options
	year         int
	month        int
	day          int
	dated        bool
	stands       rules.Date // the day that the standing order is due
	toks         []token
	items        []item
	facts        []fact
	runs         []sized
	header       []rules.Size
	parts        []part
	odd          []Oddity
	tables       []tableRow
	cells        []cell
	people       int   // how many people the goods are for, where that was said
	labelColours bool  // a row of the table at hand is headed by a colour
	units        int   // which units of length the message has; 0 until that is looked at
	fibre        int32 // an item after a percentage that is no known fibre; 0 for none
}

// part is a share of a blend.
type part struct {
	fibre   rules.Fibre // "" for one that an order has no name for
	percent float64
}

// at is the item i, or a break where there is none.
var nowhere = item{kind: iBreak}

func (r *reader) at(i int) *item {
	if i < 0 || i >= len(r.items) {
		return &nowhere
	}
	return &r.items[i]
}

// punct reports whether item i is that mark.
func (r *reader) punct(i int, ch byte) bool {
	it := r.at(i)
	return it.kind == iPunct && it.ch == ch
}

// emit notes a fact that takes items i to j (j not included).
func (r *reader) emit(i, j int, f fact) *fact {
	f.i0, f.i1, f.id = int32(i), int32(j), int32(len(r.facts))
	for k := i; k < j; k++ {
		r.items[k].fact = true
	}
	r.facts = append(r.facts, f)
	return &r.facts[len(r.facts)-1]
}

// parse reads the facts of all items, left to right, each item once or a few times.
func (r *reader) parse() {
	row := 0
	for i := 0; i < len(r.items); {
		for row < len(r.tables) && int(r.tables[row].i0) < i {
			row++
		}
		if row < len(r.tables) && int(r.tables[row].i0) == i {
			r.parseTableRow(&r.tables[row])
			i = int(r.tables[row].i1)
			continue
		}
		i = max(i+1, r.parseAt(i))
	}
}

// parseAt reads the fact that begins at item i, if any, and returns the item after it.
func (r *reader) parseAt(i int) int {
	it := &r.items[i]
	if j := r.lettered(i); j > i {
		return j
	}
	if r.completed(i) {
		return i + 1
	}
	if r.dated && (it.word == wA || it.kind == iWord && r.wordAt(i) == "fortnight") {
		if j := r.shift(i, 1); j > i {
			return j
		}
		if j := r.spanDate(i); j > i {
			return j
		}
	}
	if it.kind <= iPhrase && it.word != 0 && schoolWords[it.word] {
		if j := r.schoolYear(i); j > i {
			return j
		}
	}
	switch it.kind {
	case iPart:
		r.header = r.header[:0]
		return i + 1
	case iNum:
		if j := r.birthday(i); j > i {
			return j
		}
		if j := r.dayBefore(i); j > i {
			return j
		}
		return r.parseNumber(i)
	case iPunct:
		if j := r.quotedColour(i); j > i {
			return j
		}
		if it.ch == '#' && r.at(i+1).glued { // a reference or a colour in hex
			return i + 2
		}
		if it.ch == '@' && r.at(i+1).kind == iNum {
			return r.skipNumber(i + 1)
		}
		if it.ch == '$' {
			if r.at(i+1).kind == iNum {
				return r.skipNumber(i + 1)
			}
			return i + 1
		}
		return i + 1
	case iWord:
		if r.link(i) {
			return r.skipLink(i)
		}
		if r.timesAt(i) {
			r.emit(i, i+2, fact{kind: fNumber, n: int(r.at(i + 1).num), sure: 3})
			return i + 2
		}
		if v := r.ordinalWord(i); v != 0 {
			if j := r.ordinalDate(i, v); j > i {
				return j
			}
		}
		if j := r.halves(i); j > i {
			return j
		}
		if j := r.restRun(i); j > i {
			return j
		}
		if it.word == wThe || it.word == wordDia || it.word == wordWithin || it.word == wordEn || it.word == wEl {
			if j := r.parseDate(i); j > i {
				return j
			}
		}
		return i + 1
	case iPhrase:
	default:
		return i + 1
	}
	if j := r.parseDate(i); j > i {
		return j
	}
	if j := r.parseSizes(i); j > i {
		return j
	}
	if j := r.restRun(i); j > i {
		return j
	}
	if j := r.parseBlend(i); j > i {
		return j
	}
	if j := r.parseDim(i); j > i {
		return j
	}
	if j := r.namedColour(i); j > i {
		return j
	}
	if j := r.asMany(i); j > i {
		return j
	}
	if it.is(cQty) {
		j := i + 1
		for r.punct(j, ':') || r.punct(j, '=') || r.punct(j, '-') || r.punct(j, '.') || r.at(j).word == wIs || r.at(j).word == wOf {
			j++
		}
		if n := r.at(j); n.kind == iNum && !n.frac && r.countable(j) {
			r.emit(i, j+1, fact{kind: fNumber, n: int(n.num), sure: 3})
			return j + 1
		}
	}
	if it.is(cIDWord) && !it.is(cPrintWord) { // PO 4471, Unit 9, # 12
		j := i + 1
		for r.punct(j, '#') || r.punct(j, '.') || r.punct(j, ':') || r.at(j).word == wordNo {
			j++
		}
		if n := r.at(j); n.kind == iNum && !n.spelled && !r.beforeGoods(j) && r.at(j+1).sense(sSize) == nil && !r.lengthAt(j) {
			return r.skipNumber(j)
		}
	}
	if it.is(cFull) {
		r.emit(i, i+1, fact{kind: fFull, weak: it.ntok == 1 && it.word != 0 && weakFull(vocab.names[it.word])})
		return i + 1
	}
	if it.is(cSwatch) {
		return r.parseSwatch(i)
	}
	if r.timesAt(i) {
		r.emit(i, i+2, fact{kind: fNumber, n: int(r.at(i + 1).num), sure: 3})
		return i + 2
	}
	if it.is(cBlank) {
		r.emit(i, i+1, fact{kind: fBlank})
		return i + 1
	}
	if it.is(cNoDate) {
		r.emit(i, i+1, fact{kind: fNoDate})
		return i + 1
	}
	if it.is(cHeather) {
		r.emit(i, i+1, fact{kind: fHeather})
		return i + 1
	}
	if j := r.parsePurpose(i); j > i {
		return j
	}
	return r.parseWords(i)
}

// timesAt reports whether "x" at item i leads to a count of what stands before it: "x60", "tees x 40", "caps black x 30".
func (r *reader) timesAt(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if r.at(i).word != wX || n.kind != iNum || n.frac || p.kind == iNum || !r.countable(i+1) {
		return false
	}
	if p.sense(sColour) != nil && r.clauseEnds(i+2) && r.at(i+2).ch != '/' {
		for k := i - 2; k > i-5; k-- {
			if r.at(k).sense(sGarment) != nil {
				return true
			}
			if r.at(k).sense(sColour) == nil && !r.at(k).is(cHeather) {
				break
			}
		}
	}
	return n.glued || p.sense(sGarment) != nil
}
