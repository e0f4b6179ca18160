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
	text   string
	lines  []textLine
	opt    Options
	year   int
	month  int
	day    int
	dated  bool
	toks   []token
	items  []item
	facts  []fact
	runs   []sized
	header []rules.Size
	parts  []part
	odd    []Oddity
	tables []tableRow
	cells  []cell
	people int   // how many people the goods are for, where that was said
	units  int   // which units of length the message has; 0 until that is looked at
	fibre  int32 // an item after a percentage that is no known fibre; 0 for none
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
	if r.dated && (it.word == wA || it.kind == iWord && r.wordAt(i) == "fortnight") {
		if j := r.shift(i, 1); j > i {
			return j
		}
		if j := r.spanDate(i); j > i {
			return j
		}
	}
	switch it.kind {
	case iPart:
		r.header = r.header[:0]
		return i + 1
	case iNum:
		if j := r.dayBefore(i); j > i {
			return j
		}
		return r.parseNumber(i)
	case iPunct:
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
		if it.word == wX && r.at(i+1).kind == iNum && (r.at(i+1).glued || r.at(i-1).sense(sGarment) != nil) && !r.at(i+1).frac && r.at(i-1).kind != iNum && r.countable(i+1) {
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
		if n := r.at(j); n.kind == iNum && !n.spelled && !r.beforeGoods(j) && r.at(j+1).sense(sSize) == nil {
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
	if it.word == wX && r.at(i+1).kind == iNum && (r.at(i+1).glued || r.at(i-1).sense(sGarment) != nil) && !r.at(i+1).frac && r.at(i-1).kind != iNum && r.countable(i+1) {
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

func weakFull(w string) bool {
	switch w {
	case "photo", "photos", "foto", "fotos", "painting", "gradient", "gradients", "photograph":
		return true
	}
	return false
}

// parseWords emits what a phrase means by itself. A phrase can mean several things: scrubs are a garment and say who wears them.
func (r *reader) parseWords(i int) int {
	it := &r.items[i]
	part := it.sense(sGarment) != nil && it.sense(sPlace) != nil && r.partOf(i)
	for _, s := range vocab.nodes[it.node].senses {
		f := fact{s: s.val, weak: s.weak}
		if part && s.kind == sGarment {
			continue
		}
		switch s.kind {
		case sGarment:
			f.kind = fGarment
			if s.weak && (r.lineStart(i) && r.punct(i+1, ':') || r.at(i-1).kind == iNum) {
				f.weak = vocab.names[it.word] == "shirt" || vocab.names[it.word] == "shirts" || vocab.names[it.word] == "top" || vocab.names[it.word] == "tops"
			}
			if it.ntok == 1 && it.end-it.start <= 2 && !r.shortGarment(i) {
				continue
			}
		case sColour:
			f.kind = fColour
			if it.ntok == 1 && it.end-it.start <= 3 && it.upper && !it.shout && s.val != "red" && s.val != "tan" {
				continue
			}
			if n := r.at(i + 1); it.upper && n.upper && !it.shout && !n.shout && n.kind == iPhrase && n.sense(sColour) != nil && !r.lineStart(i) && (s.weak || n.sense(sColour).weak) && r.at(i+2).sense(sGarment) == nil && !r.at(i+2).is(cInkWord) && !r.at(i+2).is(cPrintWord) { // "Rose Dust"
				r.emit(i, i+2, fact{kind: fColour, s: lower(r.text[it.start:n.end])})
				return i + 2
			}
			if s.val == "athletic" {
				r.emit(i, i+1, fact{kind: fHeather})
			}
		case sFabric:
			f.kind = fFabric
			if s.val == "cotton-poly" {
				f.s = "cvc"
			}
		case sFibre:
			f.kind = fFabric
			f.s = classOfFibre(s.val)
			if s.val == "other" {
				f.weak = true
			}
		case sPlace:
			f.kind = fPlace
			if s.weak && it.sense(sGarment) != nil && !part && r.at(i-1).kind == iNum { // "20 hoods"
				continue
			}
			if s.val == "back" && r.comesBack(i) {
				continue
			}
			if it.ntok == 1 && it.end-it.start <= 2 && !r.shortPlace(i) {
				continue
			}
		case sMethod:
			f.kind = fMethod
		case sEffect:
			f.kind = fEffect
		case sWish:
			f.kind = fWish
		case sUse:
			f.kind = fUse
			if it.ntok == 1 && it.end-it.start <= 2 && !it.shout {
				continue
			}
			if w := r.wordAt(i - 1); s.val == "uniform" && (w == "gift" || w == "gifts" || w == "present" || w == "presents") { // "gifts for the staff"
				continue
			}
			if r.pictured(i) || (s.val == "children" || s.val == "infant") && speaks[r.wordAt(i+1)] {
				continue
			}
			if r.namesOf(i) {
				continue
			}
			if (s.val == "children" || s.val == "infant") && r.at(i+1).sense(sSize) != nil { // "Toddler 2T 3": sizes are no use
				continue
			}
		default:
			continue
		}
		r.emit(i, i+1, f)
	}
	return i + 1
}

// partOf reports whether the word at item i, the name of a garment and of a part of one, is the part: "on the bib".
func (r *reader) partOf(i int) bool {
	p := r.at(i - 1)
	return p.is(cOn) && p.word != wFor || p.word == wThe && (r.at(i-2).is(cOn) || r.at(i-2).kind > iNum) || r.punct(i+1, ':')
}

// shortGarment reports whether "t", "ts", "ls" at item i is a garment: it stands after a number or a colour, or is written "T".
func (r *reader) shortGarment(i int) bool {
	it, p := r.at(i), r.at(i-1)
	switch vocab.names[it.word] {
	case "t":
		return it.upper && (p.kind == iNum && !p.glued || p.sense(sColour) != nil) && !it.glued
	case "ts":
		return !it.glued || p.kind == iNum
	}
	if vocab.names[r.at(i).word] == "ls" && (r.inkCountAt(i+1) || r.at(i+1).is(cPrintWord)) && !(p.kind == iNum && !p.glued) {
		return false
	}
	return p.kind == iNum || p.sense(sColour) != nil || p.sense(sFabric) != nil || r.at(i+1).sense(sGarment) != nil
}

// theBefore reports whether "the" stands before item i, by itself or at the end of a phrase.
func (r *reader) theBefore(i int) bool {
	t := r.at(i).tok - 1
	return t >= 0 && r.toks[t].word == wThe
}

// comesBack reports whether the "back" at item i is no place: "when she gets back".
func (r *reader) comesBack(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if r.at(i).ntok == 1 && n.word == wordTo && !r.theBefore(i) && (r.at(i+2).kind == iNum || r.at(i+2).sense(sMethod) != nil || r.at(i+2).sense(sColour) != nil || r.at(i+2).sense(sEffect) != nil) { // "so back to water based"
		return true
	}
	if r.at(i).ntok > 1 || p.word == 0 || p.word != wordGet && p.word != wordGets {
		return false
	}
	return !(n.kind == iNum || n.sense(sColour) != nil || n.sense(sEffect) != nil || n.sense(sMethod) != nil || n.is(cPrintWord) || n.is(cFull) || n.kind == iPunct && (n.ch == ':' || n.ch == '('))
}

// shortPlace reports whether "rs", "fb", "ff" at item i is a place.
func (r *reader) shortPlace(i int) bool {
	it := r.at(i)
	if n := vocab.names[it.word]; (n == "ll" || n == "rl") && !it.shout {
		return false
	}
	return it.kind == iPhrase && (!it.glued || r.at(i-1).kind == iPunct && r.at(i-1).ch != '\'' && r.at(i-1).ch != '-') && !(vocab.names[it.word] == "ls" && r.shortGarment(i))
}

func classOfFibre(f string) string {
	switch f {
	case "cotton", "polyester", "nylon", "acrylic", "wool", "linen":
		return f
	}
	return "other"
}

// link reports whether an address on the network or a mail address begins at item i.
func (r *reader) link(i int) bool {
	it := r.at(i)
	if it.word == 0 || it.end-it.start > 5 {
		return r.punct(i+1, '@') && r.at(i+1).glued && r.at(i+2).glued
	}
	switch vocab.names[it.word] {
	case "http", "https", "www":
		return r.punct(i+1, ':') || r.punct(i+1, '.')
	}
	return false
}

// skipLink is the item after an address.
func (r *reader) skipLink(i int) int {
	i++
	for i < len(r.items) && r.items[i].glued && r.items[i].kind != iBreak {
		i++
	}
	return i
}

// parseSwatch reads "PMS 186", "pantone 186 C": an ink kept as it was said.
func (r *reader) parseSwatch(i int) int {
	j := i + 1
	for r.punct(j, '#') || r.punct(j, ':') || r.punct(j, '-') {
		j++
	}
	n := r.at(j)
	if n.kind != iNum && !(n.kind == iWord || n.sense(sColour) != nil) || n.kind == iBreak {
		return i + 1
	}
	j++
	if c := r.at(j); n.kind == iNum && c.end-c.start == 1 && c.kind <= iPhrase && !r.punct(j+1, '\'') {
		switch r.text[c.start] {
		case 'C', 'U', 'c', 'u':
			j++
		}
	}
	r.emit(i, j, fact{kind: fColour, s: r.swatch(i, j), swatch: true})
	k := j // "PMS 186 and 300", "PMS 186/300": the next is one as well
	for {
		q := k
		for r.punct(q, ',') || r.punct(q, '/') || r.punct(q, '&') || r.punct(q, '+') || r.at(q).word == wAnd {
			q++
		}
		m := r.at(q)
		if q == k || m.kind != iNum || m.digits < 3 || m.digits > 4 || m.frac || r.measured(q+1) || r.beforeGoods(q) || n.kind != iNum {
			return k
		}
		r.emit(q, q+1, fact{kind: fColour, s: "pms " + r.text[m.start:m.end], swatch: true})
		k = q + 1
	}
}
