package intake

import (
	"fmt"
	"slices"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// line is a line of the order in the making.
type line struct {
	rules.Line
	open    bool // nothing but the start of the message made it
	blank   bool // is to stay unprinted
	printed bool // some print was given to it
	split   bool // the quantity is a share of a total
	total   int  // the total that its shares add up to
	method  rules.Method
	sent    int // the sentence it was last spoken of in
	made    int // the sentence it was made in
	noQty   bool
	counted int32 // the fact that gave the quantity, plus one
	drop    bool
}

// ref is one print of one line.
type ref struct{ line, print int }

// pending are print facts whose place is yet to come.
type pending struct {
	p   rules.Print
	any bool // something is there
	ink bool // a colour is there
	sub bool // more than a colour

	facts [8]int32 // the facts, to be noted
	n     int
}

// scope joins facts to lines and prints. It goes through the sentences in order and keeps what is being spoken of.
type scope struct {
	r      *reader
	lines  []line
	name   rules.Name
	due    rules.Date
	tier   int
	dueSet bool
	wishes []rules.Wish
	uses   []rules.Use
	noUse  []string
	method rules.Method

	cur   []int // the lines being spoken of
	last  []ref // the prints being spoken of
	cl    int   // number of the sentence
	amend bool  // an order stands: what is said changes it

	// of the sentence
	sl         []int // lines spoken of in it
	seg        []int // those since the last print in it
	sp         []ref // prints given in it, those in focus
	all        []ref // every print given in it
	pend       pending
	inPrint    bool // print facts were met
	each       int  // pieces of each colour that follows
	lastCol    int  // item after the last colour, to tell a list
	colLine    int  // line that the last colour went to
	colInk     bool
	named      bool // a garment was named
	samePl     bool
	same       bool
	sameSize   bool
	sameItem   int  // the item that says so
	sameWay    bool // the method is that of the line before
	sameInk    bool // the inks of the print in focus are those of the print before
	as         []int
	npLine     int // line opened by a number that waits for its garment; -1 none
	wide       bool
	placed     bool // some print of the sentence has a place
	clause     int
	attrAt     int // item of the last print fact
	added      bool
	reset      bool          // what was ordered so far is given up for what follows
	common     pending       // print facts said of every print of the sentence
	spoke      []ref         // every print given in the last sentence that gave some
	hthr       bool          // a word for heather waits for its colour
	denied     []rules.Place // places denied in the sentence
	held       []int         // facts before the garment that they are said of
	lostInk    bool          // an ink was taken back in the sentence
	parts      int           // numbers of pieces in the sentence
	took       int           // how many of them were taken in
	notes      []note        // which facts went to which prints
	fresh      bool          // the sentence is an item of a numbered list, and the next line in turn
	npGarment  rules.Garment // what the number before npLine counts
	flushed    []ref         // prints that were given their facts before the sentence ended
	strong     bool          // some garment is named outright
	newPrint   bool          // one print more is spoken of
	methodSaid bool          // a way to print was said of all in the sentence
	copied     bool          // the inks of the print in focus were taken from another
	sureQty    bool          // some number counts goods for sure
	before     pending       // what was given to the last place of the sentence before it was named
	counts     int           // sentences that count goods
	asked      int           // those of them that only ask
	desc       []described   // what prints are of: numbers, names
}

// run goes through the sentences.
func (s *scope) run() {
	r := s.r
	carry := s.amend
	s.strong = s.findStrong()
	for k := range r.facts {
		if x := &r.facts[k]; x.kind == fNumber && x.sure >= 2 && !x.weak {
			s.sureQty = true
		}
	}
	f, part := 0, 0
	for i := 0; i < len(r.items); {
		j := i
		for j < len(r.items) && !r.endsSentence(j) {
			j++
		}
		g := f
		for g < len(r.facts) && int(r.facts[g].i0) < j {
			g++
		}
		if j < len(r.items) && r.items[j].kind == iPart {
			part++
		}
		if j > i {
			st := sentence{i0: i, i1: j, f0: f, f1: g, part: part}
			said := r.settle(st, carry)
			if g > f {
				carry = s.amend
			}
			carry = carry || said
			s.sentence(st)
		}
		f = g
		i = j + 1
	}
}

// begin forgets the sentence before.
func (s *scope) begin() {
	s.cl++
	s.sl, s.seg, s.sp, s.all, s.as = s.sl[:0], s.seg[:0], s.sp[:0], s.all[:0], s.as[:0]
	s.methodSaid, s.newPrint = false, false
	s.before, s.copied = pending{}, false
	s.pend, s.common, s.hthr, s.denied = pending{}, pending{}, false, s.denied[:0]
	s.flushed = s.flushed[:0]
	s.held, s.lostInk, s.took = s.held[:0], false, 0
	s.inPrint, s.named, s.same, s.samePl, s.sameSize, s.wide, s.placed, s.added = false, false, false, false, false, false, false, false
	s.sameInk, s.sameWay = false, false
	s.each, s.lastCol, s.colLine, s.npLine, s.clause, s.attrAt = 0, -1, -1, -1, 0, -1
}

// sentence takes in the facts of one sentence.
func (s *scope) sentence(st sentence) {
	r := s.r
	s.begin()
	s.parts = 0
	s.fresh = s.alive() > 0 && !s.amend && s.listNumber(st.i0) == s.alive()+1
	for k := st.f0; k < st.f1; k++ {
		if x := &r.facts[k]; x.kind == fNumber && x.sure >= 1 && !x.dead && !x.neg {
			s.parts++
		}
	}
	for k := st.f0; k < st.f1; k++ {
		if x := &r.facts[k]; (x.kind == fNumber && x.sure >= 1 || x.kind == fSizes) && !x.dead {
			s.counts++
			if r.inquires(st) {
				s.asked++
			}
			break
		}
	}
	f := st.f0
	for i := st.i0; i < st.i1; {
		if f < st.f1 && int(r.facts[f].i0) == i {
			end := i + 1
			for f < st.f1 && int(r.facts[f].i0) == i {
				end = max(end, int(r.facts[f].i1))
				s.fact(st, f)
				f++
			}
			i = end
			continue
		}
		it := &r.items[i]
		switch {
		case it.kind == iPunct && (it.ch == ',' || it.ch == '+' || it.ch == '-' && !it.glued || it.ch == '(' || it.ch == '|' || it.ch == '*' || it.ch == ':'):
			s.clause++
		case it.word == wAnd || it.word == wPlus || it.word == wY:
			s.clause++
		}
		if it.word == wThen && (r.at(i-1).is(cDue) || r.at(i-1).is(cHand)) {
			s.byThen(st, i)
		}
		if it.kind == iPhrase || it.kind == iNum {
			if it.is(cSame) && it.kind == iPhrase {
				s.sameAt(st, i)
			}
			if it.is(cAll) && !(it.is(cPure) && r.at(i+1).sense(sFibre) != nil) {
				s.wide = true
			}
			if it.is(cAdd) && it.kind == iPhrase {
				s.added = true
			}

			if it.is(cReset) {
				s.reset = true
			}
			if it.is(cNewPrint) {
				s.newPrint = true
			}
			if it.is(cEach) && s.each == 0 && f > st.f0 && r.facts[f-1].kind == fNumber && int(r.facts[f-1].i1) == i {
				s.each = r.facts[f-1].n
			}
		}
		i++
	}
	s.end(st)
}

// fact takes in one fact.
func (s *scope) fact(st sentence, f int) {
	x := &s.r.facts[f]
	if x.dead && !x.neg || x.done {
		return
	}
	if s.npLine < 0 && !x.neg && s.beforeGarment(st, f) { // said of the garment to come, which may be another line
		s.held = append(s.held, f)
		return
	}
	switch x.kind {
	case fNumber:
		s.number(st, f)
	case fSizes:
		s.sizes(st, x)
	case fGarment:
		held := s.held
		s.held = s.held[:0:0]
		s.garment(st, f)
		for _, h := range held {
			if s.r.facts[h].kind == fColour {
				s.colour(st, h)
			} else if s.r.facts[h].kind == fHeather {
				s.heather(st, h)
			} else {
				s.fabric(st, h)
			}
		}
	case fColour:
		s.colour(st, f)
	case fHeather:
		if !x.neg {
			s.heather(st, f)
		}
	case fBlend, fFabric:
		if !x.neg {
			s.fabric(st, f)
		}
	case fPlace:
		s.place(st, f)
	case fDim, fInks, fFull, fCover, fMethod, fEffect:
		s.attribute(st, f)
	case fPair:
		s.pair(st, f)
	case fWish:
		s.wish(x)
	case fUse:
		s.use(x)
	case fDate:
		s.date(st, x)
	case fBlank:
		s.blankLines(st, f)
	case fNoDate:
		s.due, s.dueSet, s.tier = "", false, 0
	}
}

// described is what a print is of.
type described struct {
	ref
	what uint8
}

// beforeGarment reports whether fact f, a colour or fabric, stands just before the name of a garment with no number before it.
func (s *scope) beforeGarment(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.kind != fColour && x.kind != fHeather && x.kind != fBlend && x.kind != fFabric {
		return false
	}
	if int(x.i0) > st.i0 && s.r.at(int(x.i0)-1).sense(sGarment) != nil { // "tees 50/50 hoodies 80/20"
		return false
	}
	end := x.i1
	for k := f + 1; k < st.f1 && k < f+5; k++ {
		y := &s.r.facts[k]
		for i := int(end); i < int(y.i0); i++ {
			it := s.r.at(i)
			if !(it.kind == iPunct && (it.ch == '/' || it.ch == '-' || it.ch == '&') || it.word == wAnd || it.is(cAdult) || it.is(cYouth) || it.kind == iWord && !it.upper && y.kind == fGarment && i == int(end)) {
				return false
			}
		}
		end = y.i1
		switch y.kind {
		case fGarment:
			return !y.neg && !y.dead && (!y.weak || !s.strongGarment())
		case fColour, fHeather, fBlend, fFabric, fUse:
			continue
		}
		return false
	}
	return false
}

// mostLines is how many lines one order may have: more were not written by a person.
const mostLines = 120

// newLine adds a line and makes it the one spoken of. Lines named one after the other with no print between are spoken of together.
func (s *scope) newLine(l line) int {
	k := len(s.lines)
	if k >= mostLines {
		s.r.oddity("too-many-lines", "", fmt.Sprintf("The message lists more than %d lines: the rest were not read. Split it into several orders.", mostLines))
		return k - 1
	}
	l.sent, l.made = s.cl, s.cl
	s.lines = append(s.lines, l)
	s.speakOf(k)
	return k
}

// speakOf makes line k the one spoken of.
func (s *scope) speakOf(k int) {
	s.lines[k].sent = s.cl
	if len(s.all) == 0 && !s.pend.any {
		s.inPrint = false
		if s.attrAt >= 0 && s.lines[k].made != s.cl && !slices.Contains(s.seg, k) { // "the tees' ink is brown, caps stay black"
			s.seg = s.seg[:0]
		}
	}
	if len(s.sp) > 0 && len(s.seg) > 0 && s.inPrint {
		s.seg, s.sp = s.seg[:0], s.sp[:0]
		s.inPrint = false
	}
	if !slices.Contains(s.seg, k) {
		s.seg = append(s.seg, k)
	} else if len(s.seg) > 1 && s.lines[k].made != s.cl || len(s.seg) > 1 && s.seg[len(s.seg)-1] != k { // spoken of again: alone
		s.seg = append(s.seg[:0], k)
	}
	if !slices.Contains(s.sl, k) {
		s.sl = append(s.sl, k)
	}
	s.cur = append(s.cur[:0], s.seg...)
}

// newest is the line that garment facts go to; it is made where there is none.
func (s *scope) newest() int {
	if len(s.cur) > 0 {
		k := s.cur[len(s.cur)-1]
		if k < len(s.lines) && !s.lines[k].drop {
			return k
		}
	}
	for k := len(s.lines) - 1; k >= 0; k-- {
		if !s.lines[k].drop {
			return k
		}
	}
	k := s.newLine(line{open: true})
	return k
}

// alive are the lines that are not dropped.
func (s *scope) alive() int {
	n := 0
	for k := range s.lines {
		if !s.lines[k].drop {
			n++
		}
	}
	return n
}

// garmentAhead is the garment that the number in fact f counts, "" for none.
func (s *scope) garmentAhead(st sentence, f int) string {
	for k := f + 1; k < st.f1; k++ {
		x := &s.r.facts[k]
		switch x.kind {
		case fGarment:
			if !x.weak || !s.strongGarment() {
				return x.s
			}
			if n := &s.r.facts[f]; n.sure >= 2 && len(s.lines) > 0 { // "12 of the same shirts"
				return string(s.lines[s.newest()].Garment)
			}
			return ""
		case fNumber, fPlace, fInks, fDim, fSizes, fDate:
			return ""
		}
	}
	return ""
}

// strongGarment reports whether the message names a garment by more than "shirt" or "top".
func (s *scope) strongGarment() bool { return s.strong }

// findStrong looks for a garment named outright, in the message or in the order that stands.
func (s *scope) findStrong() bool {
	for k := range s.r.facts {
		if x := &s.r.facts[k]; x.kind == fGarment && !x.weak {
			return true
		}
	}
	for k := range s.lines {
		if s.lines[k].Garment != "" {
			return true
		}
	}
	return false
}

// number takes in a number that may count pieces.
func (s *scope) number(st sentence, f int) {
	x := &s.r.facts[f]
	r := s.r
	if x.neg || x.dead {
		return
	}
	if s.amend && s.moreOf(st, f) || x.weak && x.sure == 3 && s.sureQty || x.sure == 1 && x.n < 2 {
		return
	}
	if r.at(int(x.i1)).is(cEach) {
		s.each = x.n
		if x.sure < 2 && s.eachColour(st, f) {
			return
		}
	}
	switch {
	case x.sure >= 2:
		g := s.garmentAhead(st, f)
		if x.sure == 3 && g == "" && s.colourAhead(st, f) {
			s.share(x)
			return
		}
		if x.sure == 3 && g == "" {
			s.pieces(x)
			return
		}
		if g == "" && len(s.lines) > 0 && r.at(int(x.i1)).word != 0 && s.onesAhead(int(x.i1)) { // "6 adult ones"
			g = string(s.lines[s.newest()].Garment)
		}
		s.openLine(x, rules.Garment(g))
		if k := s.npLine; k >= 0 && s.lines[k].Garment == "" && s.onesAhead(int(x.i1)) {
			s.lines[k].Garment, s.npLine = rules.Garment(g), -1
			s.sameBlend(st)
		}
	case x.sure == 1 && s.amend && !s.added && s.parts == 1 && f+1 < st.f1 && r.facts[f+1].kind == fColour && s.lineOfColour(r.facts[f+1].s) >= 0: // "40 of the red"
		k := s.lineOfColour(r.facts[f+1].s)
		r.facts[f+1].done = true
		s.setQuantity(k, x)
		s.speakOf(k)
	case x.sure == 1:
		s.share(x)
	default:
		if x.weak {
			return
		}
		k := s.newest()
		l := &s.lines[k]
		alone := s.bare(x)
		switch {
		case x.fix && alone2(r, x) && (s.alive() == 1 || len(s.seg) == 1 || len(s.cur) == 1 && !s.amend || s.alive() == 0):
			if x.n > 0 && (!l.idle() || alone && x.n > 3 || s.qtyBefore(st, x)) {
				s.setQuantity(k, x)
				s.speakOf(k)
			}
		case alone && !l.Quantity.Known && l.Garment != "" && len(l.Sizes) == 0:
			l.Quantity, l.counted = rules.Said(x.n), x.id+1
			l.open = false
		}
	}
}

// moreOf reads "20 more of the black" and "12 more hoodies" of an order that stands: the line that it names grows.
func (s *scope) moreOf(st sentence, f int) bool {
	x := &s.r.facts[f]
	switch w := s.r.at(int(x.i0) + 1).word; w {
	case 0:
		return false
	case wMore, wordExtra:
	case wordLess, wordFewer:
		x.n = -x.n
	default:
		return false
	}
	hit := -1
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		if y.kind == fColour {
			q := s.lineOfColour(y.s)
			if q < 0 {
				hit = -1
				break
			}
			hit, y.done = q, true
		} else if y.kind == fGarment && hit < 0 {
			hit = s.find(rules.Garment(y.s))
		} else if y.kind != fGarment {
			break
		}
	}
	if hit < 0 && f+1 >= st.f1 && s.alive() == 1 {
		hit = s.newest()
	}
	if hit < 0 || !s.lines[hit].Quantity.Known || s.lines[hit].Quantity.Value+x.n <= 0 {
		x.n = max(x.n, -x.n)
		return false
	}
	sum := *x
	sum.n += s.lines[hit].Quantity.Value
	s.setQuantity(hit, &sum)
	s.seg = s.seg[:0]
	s.speakOf(hit)
	return true
}

// qtyBefore reports whether a word for quantity stands before a number in its sentence: "qty goes from 72 to 96".
func (s *scope) qtyBefore(st sentence, x *fact) bool {
	for i := st.i0; i < int(x.i0); i++ {
		if it := s.r.at(i); it.is(cQty) && it.kind == iPhrase {
			return true
		}
	}
	return false
}

// onesAhead reports whether "ones" stands for the garment within the next few items.
func (s *scope) onesAhead(i int) bool {
	for k := i; k < i+4; k++ {
		it := s.r.at(k)
		if it.word == wordOnes {
			return true
		}
		if it.kind != iPhrase && it.kind != iWord {
			return false
		}
	}
	return false
}

// eachColour splits the line spoken of into one a colour, where "25 each" is said of colours named before.
func (s *scope) eachColour(st sentence, f int) bool {
	x := &s.r.facts[f]
	if len(s.lines) == 0 || s.colourAhead(st, f) || f+1 < st.f1 && s.r.facts[f+1].kind == fColour {
		return false
	}
	k := s.newest()
	cs := s.lines[k].Colours
	if len(cs) < 2 || s.lines[k].Quantity.Or(x.n*len(cs)) != x.n*len(cs) {
		return false
	}
	s.lines[k].Quantity, s.lines[k].counted, s.lines[k].Colours = rules.Said(x.n), x.id+1, rules.List[string]{cs[0]}
	for _, c := range cs[1:] {
		q := s.clone(k, x.n)
		s.lines[q].Colours, s.lines[q].counted = rules.List[string]{c}, x.id+1
	}
	return true
}

// bare reports whether a number stands alone between marks.
func (s *scope) bare(x *fact) bool {
	p, n := s.r.at(int(x.i0)-1), s.r.at(int(x.i1))
	before := p.sense(sGarment) != nil || p.kind == iPunct && p.ch != '$' && p.ch != '/' || p.kind == iBreak || p.kind == iPart || p.word == wordSo || p.is(cOrderVerb) || p.is(cQty)
	after := n.kind == iPunct && n.ch != '/' && n.ch != '%' || n.kind == iBreak || n.kind == iPart
	return before && after
}

// alone2 reports whether nothing after a number says that it counts something other than pieces.
func alone2(r *reader, x *fact) bool {
	n := r.at(int(x.i1))
	return n.kind == iPunct && n.ch != '/' && n.ch != '%' && n.ch != '$' || n.kind == iBreak || n.kind == iPart || n.is(cNo) || n.is(cInsteadOf) || n.is(cFix) || n.is(cAll) || n.is(cOnly) ||
		n.word == wAnd || n.word == wIs || n.is(cOrderVerb) || n.is(cPast) || n.is(cBut) || n.is(cMovedFrom) || n.is(cAdd) || n.kind == iWord && n.word != 0 && vocab.names[n.word] == "then" || n.word == wThen
}

// colourAhead reports whether a colour follows fact f at once, with nothing but small words between.
func (s *scope) colourAhead(st sentence, f int) bool {
	x := &s.r.facts[f]
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		switch y.kind {
		case fColour:
			if y.i0-x.i1 > 4 || y.swatch {
				return false
			}
			for q := int(x.i1); q < int(y.i0); q++ {
				if it := s.r.at(q); it.kind == iPunct || it.is(cInkWord) || it.is(cPrintWord) {
					return false
				}
			}
			n := s.r.at(int(y.i1))
			return !n.is(cPrintWord) && !n.is(cInkWord) && n.sense(sPlace) == nil
		case fHeather, fUse:
			continue
		}
		return false
	}
	return false
}

// pieces takes in a labelled number of pieces with no garment or colour after it.
func (s *scope) pieces(x *fact) {
	s.freshLine()
	k := s.newest()
	l := &s.lines[k]
	if l.Quantity.Known && !x.fix {
		if l.Quantity.Value == x.n || l.split {
			return
		}
		if len(l.Sizes) > 0 && l.Sizes.Total() == x.n {
			return
		}
		return
	}
	if l.Quantity.Known {
		s.setQuantity(k, x)
		return
	}
	l.Quantity, l.counted = rules.Said(x.n), x.id+1
	l.open = false
	s.speakOf(k)
}

// setQuantity replaces a line's quantity; a size run that no longer adds up is let go.
func (s *scope) setQuantity(k int, x *fact) {
	l, n := &s.lines[k], x.n
	l.Quantity, l.counted = rules.Said(n), x.id+1
	if len(l.Sizes) > 0 && l.Sizes.Total() != n {
		l.Sizes = nil
	}
}

// openLine begins the line that a number of garments says, or finds the line that it speaks of again.
func (s *scope) openLine(x *fact, g rules.Garment) {
	s.npGarment = g
	if k := s.freshLine(); k >= 0 {
		s.lines[k].Quantity, s.lines[k].open, s.lines[k].counted = rules.Said(x.n), false, x.id+1
		s.npLine = k
		return
	}
	if x.fix && !s.added {
		if k := s.find(g); k >= 0 && (s.alive() == 1 || g != "") && !s.same {
			s.setQuantity(k, x)
			s.speakOf(k)
			s.npLine = k
			return
		}
		if s.alive() == 1 && g == "" {
			k := s.newest()
			s.setQuantity(k, x)
			s.speakOf(k)
			return
		}
	}
	for k := range s.lines {
		l := &s.lines[k]
		if l.drop || l.Quantity.Known || len(l.Sizes) > 0 || l.printed && !l.open && s.cl != l.made && l.Garment != g {
			continue
		}
		if l.Garment == g || l.Garment == "" && (l.open || len(s.lines) == 1) || l.noQty && akin(l.Garment, g) {
			if l.Garment == g && l.printed && len(l.Colours) > 0 && s.cl != l.made && s.distinctFrom(x, k) {
				continue
			}
			l.Quantity, l.open, l.counted = rules.Said(x.n), false, x.id+1
			if l.made == s.cl && l.Garment == g { // "caps and aprons: 20 caps"
				s.seg = s.seg[:0]
			}
			s.speakOf(k)
			s.npLine = k
			return
		}
	}
	for k := range s.lines { // said again: "apron each, so 26 aprons"
		l := &s.lines[k]
		if !l.drop && l.Quantity.Known && l.Quantity.Value == x.n && (l.Garment == g || l.Garment == "") && s.alive() == 1 && !s.distinct(x) {
			s.speakOf(k)
			s.npLine = k
			return
		}
	}
	if s.reset {
		for k := range s.lines {
			s.lines[k].drop = true
		}
		s.cur, s.seg, s.sl, s.last, s.reset = s.cur[:0], s.seg[:0], s.sl[:0], s.last[:0], false
	}
	l := line{}
	l.Quantity, l.counted = rules.Said(x.n), x.id+1
	s.npLine = s.newLine(l)
}

// distinct reports whether the words after a restated number name another colour or fabric than the line has.
func (s *scope) distinct(x *fact) bool { return s.distinctFrom(x, s.newest()) }

// distinctFrom reports the same of line k.
func (s *scope) distinctFrom(x *fact, k int) bool {
	for i := int(x.i1); i < int(x.i1)+6; i++ {
		it := s.r.at(i)
		if it.kind == iBreak || it.kind == iPart {
			break
		}
		if c := it.sense(sColour); c != nil && !slices.Contains(s.lines[k].Colours, c.val) {
			return true
		}
	}
	return false
}

// find is the line of that garment, the latest first; -1 where there is none.
func (s *scope) find(g rules.Garment) int {
	for k := len(s.lines) - 1; k >= 0; k-- {
		if !s.lines[k].drop && s.lines[k].Garment == g {
			return k
		}
	}
	return -1
}

// share takes in a number of one colour: "40 in charcoal and 40 in wine". The first share takes the line over, each later one is a line like it.
func (s *scope) share(x *fact) {
	k := s.newest()
	l := &s.lines[k]
	l.sent = s.cl
	s.took++
	if x.fix && s.parts > 1 && s.alive() == 1 && s.took == 1 && l.Quantity.Known && !s.added { // "split it: 20 red, 20 black"
		l.total = l.Quantity.Value
		l.Quantity, l.split, l.Colours, l.Sizes = rules.Said(x.n), true, nil, nil
		l.counted = x.id + 1
		s.speakOf(k)
		return
	}
	if x.fix && s.parts > 1 && s.took > 1 {
		x.fix = false
	}
	if x.fix && l.Quantity.Known && !s.added && s.alive() > 1 && l.split && !s.amend {
		sum := 0
		for q := range s.lines {
			if !s.lines[q].drop && s.lines[q].split && s.lines[q].Garment == l.Garment {
				sum += s.lines[q].Quantity.Or(0)
			}
		}
		if sum == x.n { // all in one colour after all
			first := -1
			for q := range s.lines {
				if s.lines[q].drop || !s.lines[q].split || s.lines[q].Garment != l.Garment {
					continue
				}
				if first < 0 {
					first = q
					continue
				}
				s.lines[q].drop = true
			}
			s.lines[first].Quantity, s.lines[first].Colours, s.lines[first].Heather = rules.Said(x.n), nil, false
			s.lines[first].counted = x.id + 1
			s.seg = s.seg[:0]
			s.speakOf(first)
			return
		}
	}
	if x.fix && l.Quantity.Known && !s.added {
		if s.alive() == 1 {
			s.setQuantity(k, x)
			s.speakOf(k)
			return
		}
	}
	if !l.split && len(l.Colours) == 0 && (!l.Quantity.Known || l.Quantity.Value >= x.n) {
		if l.Quantity.Known {
			l.total = l.Quantity.Value
		}
		l.Quantity, l.split, l.open = rules.Said(x.n), true, false
		l.counted = x.id + 1
		s.speakOf(k)
		return
	}
	if l.Garment == "" && !l.split && s.alive() > 0 && l.Quantity.Known {
		n := line{}
		n.Quantity, n.counted = rules.Said(x.n), x.id+1
		n.split = true
		s.newLine(n)
		return
	}
	s.lines[s.clone(k, x.n)].counted = x.id + 1
}

// clone adds a line like line k, in no colour yet, with n pieces (0: unsaid).
func (s *scope) clone(k, n int) int {
	l := line{Line: s.lines[k].Line, split: true, method: s.lines[k].method, printed: s.lines[k].printed}
	l.Quantity = rules.Maybe[int]{}
	if n > 0 {
		l.Quantity = rules.Said(n)
	}
	l.Sizes, l.Colours, l.Heather = nil, nil, false
	l.Fibres = copyBlend(s.lines[k].Fibres)
	l.Prints = copyPrints(s.lines[k].Prints)
	if s.pend.any && len(s.all) == 0 { // "36 white w/ black ink, 36 black w/ white ink": the ink is the first line's
		old := &s.lines[k]
		if len(old.Prints) == 0 {
			old.Prints = append(old.Prints, s.pend.p)
			old.printed = true
			s.arrive(&s.pend, ref{k, 0})
		}
		s.pend = pending{}
		s.seg = s.seg[:0]
		s.flushed = append(s.flushed, ref{k, 0})
	}
	s.lines[k].split = true
	return s.newLine(l)
}

func copyBlend(b fibre.Blend) fibre.Blend {
	if b == nil {
		return nil
	}
	c := make(fibre.Blend, len(b))
	for f, p := range b {
		c[f] = p
	}
	return c
}

func copyPrints(ps rules.List[rules.Print]) rules.List[rules.Print] {
	out := slices.Clone(ps)
	for k := range out {
		out[k].Inks = slices.Clone(out[k].Inks)
		out[k].Effects = slices.Clone(out[k].Effects)
	}
	return out
}

// sizes takes in a size run.
func (s *scope) sizes(st sentence, x *fact) {
	if (x.neg || x.dead) && !x.weak {
		return
	}
	run := s.r.runs[x.n : x.n+x.m]
	targets := s.cur
	if !s.wide && !s.wideAfter(st, int(x.i1)) {
		targets = []int{s.newest()}
	} else if len(s.sl) == 0 || len(targets) < 2 {
		targets = nil
		for k := range s.lines {
			if !s.lines[k].drop && len(s.lines[k].Sizes) == 0 {
				targets = append(targets, k)
			}
		}
		if len(targets) == 0 {
			targets = append(targets, s.newest())
		}
	}
	if s.sharesOut(run, x) {
		return
	}
	for _, k := range targets {
		l := &s.lines[k]
		l.open = false
		old := l.Sizes.Total()
		if x.weak { // counts that go up or down, or a size taken off the run
			if len(l.Sizes) == 0 {
				continue
			}
			for _, z := range run {
				if z.n == gone {
					delete(l.Sizes, z.size)
					continue
				}
				l.Sizes[z.size] += z.n
				if l.Sizes[z.size] <= 0 {
					delete(l.Sizes, z.size)
				}
			}
			if !l.Quantity.Known || l.Quantity.Value == old {
				l.Quantity = rules.Said(l.Sizes.Total())
			}
			continue
		}
		plus := s.r.at(int(x.i0)-1).is(cAdd) || s.r.punct(int(x.i0)-1, '+') || s.added && x.m == 1
		if len(l.Sizes) > 0 && (x.m == 1 && (x.fix || plus) || plus) {
			for _, z := range run {
				if plus {
					l.Sizes[z.size] += z.n
				} else {
					l.Sizes[z.size] = z.n
				}
				if l.Sizes[z.size] <= 0 {
					delete(l.Sizes, z.size)
				}
			}
			if l.Quantity.Known && l.Quantity.Value == old || !l.Quantity.Known {
				l.Quantity = rules.Said(l.Sizes.Total())
			}
			continue
		}
		if len(l.Sizes) > 0 && !x.fix {
			if s.named && s.cl != l.made || x.m == 1 {
				for _, z := range run {
					l.Sizes[z.size] = z.n
				}
				continue
			}
			if l.Quantity.Known && l.Quantity.Value > old || !l.Quantity.Known { // the run goes on
				for _, z := range run {
					l.Sizes[z.size] += z.n
				}
				continue
			}
			continue
		}
		m := make(rules.Sizes, len(run))
		for _, z := range run {
			m[z.size] += z.n
		}
		for z, n := range m {
			if n <= 0 {
				delete(m, z)
			}
		}
		l.Sizes = m
		if x.fix && l.Quantity.Known && l.Quantity.Value == old && old > 0 {
			l.Quantity = rules.Said(m.Total())
		}
	}
	_ = st
}

// sharesOut gives a run to several lines that lack one, where it falls apart into stretches that add up to their quantities: "youth S 10 M 20,
// adult S 5 M 15" for 30 and 20 hoodies.
func (s *scope) sharesOut(run []sized, x *fact) bool {
	if x.weak || x.fix || len(run) < 2 {
		return false
	}
	var open []int
	sum, total := 0, 0
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && len(l.Sizes) == 0 && l.Quantity.Known {
			open = append(open, k)
			sum += l.Quantity.Value
		}
	}
	for _, z := range run {
		total += z.n
	}
	if len(open) < 2 || sum != total {
		return false
	}
	if s.lines[open[0]].split && s.lines[open[0]].Quantity.Value != run[0].n { // one run for all colours together
		at, fits := 0, true
		for _, k := range open {
			n := 0
			for at < len(run) && n < s.lines[k].Quantity.Value {
				n += run[at].n
				at++
			}
			fits = fits && n == s.lines[k].Quantity.Value
		}
		if !fits {
			s.r.oddity("sizes-together", linePath(open[0], 1), fmt.Sprintf("The sizes add up to %d, which is all colours together. They were not shared out. Type the sizes of each colour, for example: %s S 10 M 20.", total, colourOf(&s.lines[open[0]])))
			return true
		}
	}
	cuts, at := make([]int, 0, len(open)), 0
	for _, k := range open {
		n := 0
		for at < len(run) && n < s.lines[k].Quantity.Value {
			n += run[at].n
			at++
		}
		if n != s.lines[k].Quantity.Value {
			return false
		}
		cuts = append(cuts, at)
	}
	from := 0
	for q, k := range open {
		m := make(rules.Sizes)
		for _, z := range run[from:cuts[q]] {
			if z.n > 0 {
				m[z.size] += z.n
			}
		}
		s.lines[k].Sizes = m
		from = cuts[q]
	}
	return true
}

// colourOf is a colour to speak of a line by.
func colourOf(l *line) string {
	if len(l.Colours) > 0 {
		return l.Colours[0]
	}
	return "black"
}

// garment takes in the name of a garment: a new line, or one spoken of again.
func (s *scope) garment(st sentence, f int) {
	x := &s.r.facts[f]
	g := rules.Garment(x.s)
	if x.weak && s.strongGarment() && s.npLine < 0 {
		return
	}
	if x.weak && s.strongGarment() {
		if l := &s.lines[s.npLine]; l.Garment == "" { // "12 of the same shirts"
			l.Garment = s.npGarment
		}
		s.npLine = -1
		return
	}
	if x.neg {
		s.dropLines(g, x)
		return
	}
	if s.asGarment(x, g) {
		return
	}
	s.named = true
	if k := len(s.lines) - 1; s.npLine < 0 && k >= 0 && s.lines[k].sent == s.cl && finer[s.lines[k].Garment] == g && !s.parted(st, f) { // "40 tees black l/s"
		s.lines[k].Garment = g
		return
	}
	if k := s.npLine; k >= 0 {
		s.npLine = -1
		if s.lines[k].Garment == "" || s.lines[k].Garment == g || s.lines[k].noQty {
			s.lines[k].noQty = false
			s.lines[k].Garment = g
			s.lines[k].open = false
			return
		}
	}
	if k := s.freshLine(); k >= 0 {
		s.lines[k].Garment, s.lines[k].open = g, false
		return
	}
	found := false
	for k := range s.lines {
		if s.lines[k].drop || s.lines[k].Garment != g {
			continue
		}
		if !s.colourMatches(st, f, k) || s.another(st, f, k) {
			continue
		}
		if !found {
			s.settlePending(k)
		}
		s.speakOf(k)
		found = true
	}
	if found {
		return
	}
	if s.find(g) >= 0 && !s.colourClash(st, f, g) && !s.another(st, f, s.find(g)) {
		s.speakOf(s.find(g))
		return
	}
	if q := s.relative(g, s.r.items[x.i0].word); q >= 0 && s.find(g) < 0 && !x.fix && !s.added {
		s.speakOf(q)
		return
	}
	if x.fix && s.alive() == 1 && s.lines[s.newest()].Garment != "" && !s.added && s.replaces(st, f) {
		for i := st.i0; i < st.i1; i++ {
			if w := s.r.at(i).word; w == wordHalf || w == wordSome {
				s.r.oddity("some-of-them", linePath(0, 2), fmt.Sprintf("Only some of the pieces change to %s, and how many is not said. Nothing was changed. Type the numbers, for example: 20 t-shirts and 20 %s.", plural[g], plural[g]))
				return
			}
		}
		s.lines[s.newest()].Garment = g
		return
	}
	if k := s.newestOpen(); k >= 0 {
		for q := range s.lines {
			l := &s.lines[q]
			if q == k || !l.drop && l.Garment == "" && l.split {
				l.Garment = g
				l.open = false
				s.speakOf(q)
			}
		}
		return
	}
	l := line{noQty: s.listNumber(st.i0) == 0}
	l.Garment = g
	s.newLine(l)
}

// another reports whether the garment in fact f, though line k is one, begins a line of its own: it comes with a size run while the line has
// one, or in another colour than the line and with a count.
func (s *scope) another(st sentence, f, k int) bool {
	x := &s.r.facts[f]
	if x.fix {
		return false
	}
	l := &s.lines[k]
	colour := false
	for q := f + 1; q < st.f1; q++ {
		y := &s.r.facts[q]
		switch y.kind {
		case fNumber:
			if l.Quantity.Known && y.sure == 0 && s.bars(st) >= 2 {
				return true
			}
		case fSizes:
			return len(l.Sizes) > 0 && y.m > 1 && (colour || s.listMark(st.i0))
		case fColour:
			if !y.weak && !y.neg && len(l.Colours) > 0 && !hasColour(l.Colours, y.s) && int(y.i0) <= int(x.i1)+2 {
				colour = true
			}
		case fPlace, fGarment, fInks, fDim:
			return false
		}
	}
	return false
}

// bars counts the strokes that part the cells of a row.
func (s *scope) bars(st sentence) int {
	n := 0
	for i := st.i0; i < st.i1; i++ {
		if s.r.punct(i, '|') {
			n++
		}
	}
	return n
}

// listNumber is the number of the list item that begins at item i, 0 where it is none.
func (s *scope) listNumber(i int) int {
	it := s.r.at(i)
	if it.kind == iNum && it.digits > 0 && it.num < 100 && s.r.lineStart(i) && (s.r.punct(i+1, ')') || s.r.punct(i+1, '.')) {
		return int(it.num)
	}
	return 0
}

// freshLine begins the line of the next list item, if the sentence is one; -1 where it is none.
func (s *scope) freshLine() int {
	if !s.fresh {
		return -1
	}
	s.fresh = false
	return s.newLine(line{open: true})
}

// listMark reports whether the sentence at item i begins with the number or mark of a list.
func (s *scope) listMark(i int) bool {
	it := s.r.at(i)
	if it.kind == iPunct && (it.ch == '-' || it.ch == '*') || it.kind == iNum && (s.r.punct(i+1, ')') || s.r.punct(i+1, '.')) {
		return true
	}
	return s.r.punct(i-1, '.') && s.r.at(i-2).kind == iNum && s.r.lineStart(i-2)
}

// kin are garments that people call by one another's name once an order names one of them.
var kin = [][]rules.Garment{{"hoodie", "zip-hoodie"}, {"sweatpants", "other"}, {"t-shirt", "long-sleeve", "tank", "polo", "jersey"}, {"cap", "beanie"}, {"sweatshirt", "hoodie"}}

// akin reports whether a heading such as "hoodies" can stand for lines of g.
func akin(a, g rules.Garment) bool {
	for _, set := range kin {
		if slices.Contains(set, a) && slices.Contains(set, g) {
			return true
		}
	}
	return false
}

// finer is what a garment is made by a word after it: tees, long sleeve.
var finer = map[rules.Garment]rules.Garment{"t-shirt": "long-sleeve", "hoodie": "zip-hoodie"}

// parted reports whether a mark or a number stands between the garment in fact f and the garment before it.
func (s *scope) parted(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch != '-' && it.ch != '/' || it.kind == iNum || it.word == wAnd || it.is(cAdd) && it.kind == iPhrase || it.is(cSame) || it.is(cInsteadOf) || it.is(cOn) {
			return true
		}
		if it.sense(sGarment) != nil {
			return false
		}
	}
	return true
}

// relative is the line that a loose name of a garment ("pants", "hats", "hoodies") speaks of; -1 for none or several.
func (s *scope) relative(g rules.Garment, word int32) int {
	hit := -1
	for _, set := range kin[:2] {
		if !slices.Contains(set, g) || g == "other" && (word == 0 || vocab.names[word] != "pants") {
			continue
		}
		for k := range s.lines {
			if !s.lines[k].drop && s.lines[k].Garment != g && slices.Contains(set, s.lines[k].Garment) {
				if hit >= 0 {
					return -1
				}
				hit = k
			}
		}
	}
	return hit
}

// wideAfter reports whether "both", "each" or "all" follows at item i.
func (s *scope) wideAfter(st sentence, i int) bool {
	for k := i; k < st.i1 && k < i+4; k++ {
		it := s.r.at(k)
		if it.kind == iPunct {
			return false
		}
		if it.is(cBoth) || it.is(cEach) && (it.ntok > 1 || s.r.at(k-1).word == wFor || s.r.at(k-1).word == wIn) || it.is(cAll) {
			return true
		}
	}
	return false
}

// settlePending gives what was said of a print, before line k is spoken of, to the lines spoken of so far: "black tanks get white ink, white tanks
// get black ink".
func (s *scope) settlePending(k int) {
	if !s.pend.any || len(s.seg) == 0 || len(s.all) > 0 || slices.Contains(s.seg, k) {
		return
	}
	for _, q := range s.seg {
		l := &s.lines[q]
		if len(l.Prints) == 0 {
			l.Prints = append(l.Prints, copyPrints(rules.List[rules.Print]{s.pend.p})[0])
			l.printed = true
		} else if len(l.Prints) == 1 {
			s.merge(&l.Prints[0], &s.pend.p, true)
		} else {
			return
		}
		s.arrive(&s.pend, ref{q, 0})
		s.flushed = append(s.flushed, ref{q, 0})
	}
	s.pend = pending{}
	s.seg = s.seg[:0]
	s.inPrint = false
}

// replaces reports whether a garment without a number takes the place of the one that stands.
func (s *scope) replaces(st sentence, f int) bool {
	for k := st.f0; k < st.f1; k++ {
		if s.r.facts[k].kind == fNumber && s.r.facts[k].sure >= 2 {
			return false
		}
	}
	return true
}

// newestOpen is a line that still lacks a garment, -1 for none.
func (s *scope) newestOpen() int {
	for k := len(s.lines) - 1; k >= 0; k-- {
		l := &s.lines[k]
		if !l.drop && l.Garment == "" && (l.open || len(s.lines) == 1 || l.made == s.cl || l.Quantity.Known || len(l.Sizes) > 0) {
			return k
		}
	}
	return -1
}

// colourMatches reports whether line k is in the colour that stands just before the garment in fact f, if one does.
func (s *scope) colourMatches(st sentence, f, k int) bool {
	if f > st.f0 {
		if p := &s.r.facts[f-1]; p.kind == fColour && p.i1 == s.r.facts[f].i0 && len(s.lines[k].Colours) > 0 {
			return hasColour(s.lines[k].Colours, p.s) || p.fix && !s.wearsColour(p.s)
		}
	}
	return true
}

// colourClash reports whether the garment in fact f stands in a colour that no line of it has, and so is a new line.
func (s *scope) colourClash(st sentence, f int, g rules.Garment) bool {
	for k := range s.lines {
		if s.lines[k].Garment == g && s.colourMatches(st, f, k) {
			return false
		}
	}
	return true
}

// hasColour reports whether a list has a colour by its full name or its last word ("grey" for "light grey").
func hasColour(list []string, c string) bool {
	for _, have := range list {
		if have == c || len(have) > len(c) && have[len(have)-len(c):] == c && have[len(have)-len(c)-1] == ' ' {
			return true
		}
	}
	return false
}

// dropLines takes the lines of a garment off the order.
func (s *scope) dropLines(g rules.Garment, x *fact) {
	for k := range s.lines {
		if s.lines[k].Garment == g && s.alive() > 1 {
			s.lines[k].drop = true
		}
	}
	s.cur = slices.DeleteFunc(s.cur, func(k int) bool { return s.lines[k].drop })
	_ = x
}

// asGarment takes "as the tees" as the line that something is the same as.
func (s *scope) asGarment(x *fact, g rules.Garment) bool {
	if !s.same && !s.samePl {
		return false
	}
	for k := int(x.i0) - 1; k > int(x.i0)-5; k-- {
		it := s.r.at(k)
		if it.is(cAs) {
			for q := range s.lines {
				if !s.lines[q].drop && s.lines[q].Garment == g {
					s.as = append(s.as, q)
				}
			}
			return true
		}
		if it.kind != iWord && it.kind != iPhrase {
			return false
		}
	}
	return false
}

// sameAt judges what "same" at item i is said of: prints, sizes, or only the words that follow it.
func (s *scope) sameAt(st sentence, i int) {
	it := s.r.at(i)
	if !s.same {
		s.sameItem = i
	}
	if it.ntok > 1 && s.r.toks[it.tok+it.ntok-1].word == wordItem || it.ntok > 1 && vocab.names[s.r.toks[it.tok+it.ntok-1].word] == "line" {
		if n := s.r.at(i + 1); n.kind == iNum && int(n.num) >= 1 && int(n.num) <= len(s.lines) {
			s.same, s.as = true, append(s.as, int(n.num)-1)
		}
		return
	}
	if it.ntok > 1 && s.r.toks[it.tok+it.ntok-1].word == wordAbove && len(s.sp) > 0 {
		for _, h := range s.sp { // "inside neck as above"
			p := s.at(h)
			for q := h.line - 1; q >= 0; q-- {
				if from := s.printOn(q, p.Place); from != nil && !s.lines[q].drop {
					s.inherit(p, from)
					break
				}
			}
		}
		return
	}
	if it.ntok > 1 && s.samePhrase(it) {
		s.same = true
		return
	}
	art := s.r.at(i+1).kind == iWord && i+1 < st.i1 // "the same bunny 8 cm"
	for k := i + 1; k <= i+5; k++ {
		n := s.r.at(k)
		switch {
		case n.word != 0 && n.is(cBlank):
			s.sameBlend(st)
			return
		case n.kind == iNum && art:
			s.same = true
			return
		case k >= st.i1, n.kind == iPunct && n.ch != '-' && n.ch != '/':
			s.same = true
			return
		case n.is(cBlendWord):
			s.sameBlend(st)
			return
		case n.is(cInkWord), n.is(cColourWord) && len(s.all) > 0:
			s.sameInk = true
			return
		case n.word == wordMethod || n.word == wordMetodo:
			s.sameWay = true
			return
		case n.sense(sMethod) != nil && k == i+1 && s.r.at(k+1).sense(sPlace) == nil:
			return
		case n.sense(sGarment) != nil && k == i+1 && !s.prevAs(i), n.sense(sFabric) != nil, n.sense(sFibre) != nil, n.sense(sColour) != nil && !n.sense(sColour).weak, n.sense(sDay) != nil, n.is(cColourWord), n.is(cBlendWord), n.is(cDays):
			return
		case n.is(cSized):
			s.sameSize = true
			return
		case n.sense(sPlace) != nil && !(n.is(cOn)):
			if s.r.at(k-1).is(cOn) || s.r.at(k-2).is(cOn) {
				s.same = true // same again on the back
				return
			}
			s.samePl = true
			return
		case n.is(cAs), n.is(cOn), n.is(cPrintWord):
			s.same = true
			if n.is(cPrintWord) && s.r.at(k+1).sense(sPlace) == nil {
				return
			}
		case n.sense(sGarment) != nil:
			return
		case n.kind == iNum && !s.same:
			return
		}
	}
	if it.ntok > 1 {
		s.same = true
	}
}

func (s *scope) prevAs(i int) bool { return false }

// sameBlend gives the line spoken of the fabric of the line before it.
func (s *scope) sameBlend(st sentence) {
	k := s.newest()
	for q := k - 1; q >= 0; q-- {
		if l := &s.lines[q]; !l.drop && (l.Fabric != "" || l.Fibres != nil) {
			s.lines[k].Fibres, s.lines[k].Fabric = copyBlend(l.Fibres), l.Fabric
			return
		}
	}
}

// printOn is the print of line k at a place, nil for none.
func (s *scope) printOn(k int, place rules.Place) *rules.Print {
	for q := range s.lines[k].Prints {
		if s.lines[k].Prints[q].Place == place {
			return &s.lines[k].Prints[q]
		}
	}
	return nil
}

// byThen takes the day named before it in the sentence as due: "they open saturday so we need it by then".
func (s *scope) byThen(st sentence, i int) {
	for k := st.f1 - 1; k >= st.f0; k-- {
		if x := &s.r.facts[k]; x.kind == fDate && int(x.i1) <= i && !x.dead && !x.neg {
			s.due, s.dueSet, s.tier = x.date, true, 4
			return
		}
	}
}

// samePhrase reports whether a phrase of sameness names the prints by itself.
func (s *scope) samePhrase(it *item) bool {
	last := s.r.toks[it.tok+it.ntok-1].word
	switch vocab.names[last] {
	case "print", "prints", "design", "art", "artwork", "logo", "again", "deal", "everything", "spec", "specs", "printing", "estampado", "diseno":
		return true
	}
	return false
}

// heather marks the fabric of the line spoken of.
func (s *scope) heather(st sentence, f int) {
	if s.inPrint && s.attrAt > int(s.r.facts[f].i0)-6 && !s.garmentNear(st, f) {
		return
	}
	x := &s.r.facts[f]
	if f+1 < st.f1 && s.r.facts[f+1].kind == fColour && s.r.facts[f+1].i0 <= x.i1+1 && !s.r.facts[f+1].neg {
		s.hthr = true
		return
	}
	k := s.newest()
	if s.lastCol >= 0 && s.colLine >= 0 && int(x.i0) <= s.lastCol+1 {
		k = s.colLine
	}
	s.lines[k].Heather = true
	s.lines[k].open = false
}

// garmentNear reports whether the next fact or two lead to a garment.
func (s *scope) garmentNear(st sentence, f int) bool {
	for k := f + 1; k < st.f1 && k < f+4; k++ {
		switch s.r.facts[k].kind {
		case fGarment:
			return true
		case fColour, fHeather, fFabric, fBlend:
			continue
		}
		return false
	}
	return false
}

// fabric takes in a blend or the name of a fabric.
func (s *scope) fabric(st sentence, f int) {
	x := &s.r.facts[f]
	if x.weak && !s.garmentNear(st, f) {
		return
	}
	targets := []int{s.newest()}
	if s.wide || s.wideAfter(st, int(x.i1)) {
		targets = append(targets[:0], s.cur...)
		if len(s.sl) == 0 || s.everyLine(x) {
			targets = targets[:0]
			for k := range s.lines {
				targets = append(targets, k)
			}
		}
		if len(targets) == 0 {
			targets = append(targets, s.newest())
		}
	} else if len(s.seg) == 0 && !x.fix && s.alive() > 1 {
		k := s.newest()
		targets = targets[:0]
		for q := k; q >= 0; q-- {
			l := &s.lines[q]
			if l.drop || q != k && (l.Fabric != "" && x.kind == fFabric || l.Fibres != nil || l.made != s.lines[k].made && !(l.split && s.lines[k].split && l.Garment == s.lines[k].Garment)) {
				break
			}
			targets = append(targets, q)
		}
	} else if len(s.cur) > 1 {
		own := s.npLine >= 0 || s.clauseGarment(st, f)
		if !own {
			targets = targets[:0]
			for _, k := range s.cur {
				l := &s.lines[k]
				if k == s.cur[len(s.cur)-1] || l.Fibres == nil && l.Fabric == "" && (l.split || s.lines[s.cur[len(s.cur)-1]].Fabric == "" && s.bareLine(k)) {
					targets = append(targets, k)
				}
			}
		}
	}
	for _, k := range targets {
		l := &s.lines[k]
		l.open = false
		if x.kind == fFabric {
			if l.Fibres != nil && !x.fix || l.Fabric != "" && !x.fix {
				continue
			}
			if x.fix {
				l.Fibres = nil
			}
			l.Fabric = rules.Fabric(x.s)
			continue
		}
		if l.Fibres != nil && !x.fix && s.alive() > 1 && l.made != s.cl && s.wide {
			continue
		}
		b := make(fibre.Blend, x.m)
		unknown := 0.0
		for _, p := range s.r.parts[x.n : x.n+x.m] {
			if p.fibre == "" {
				unknown += p.percent
				continue
			}
			b[p.fibre] += p.percent
		}
		l.Fibres = b
		l.Fabric = fibre.ClassOf(b)
		if unknown > 0 {
			s.r.oddity("unknown-fibre", linePath(k, 3), fmt.Sprintf("%q names a fibre that an order has no word for. The fabric was taken as another blend. Type the nearest, for example: it is like cotton.", s.r.text[s.r.items[x.i0].start:s.r.items[x.i1-1].end]))
			l.Fabric = fibre.Other
			if len(b) == 0 {
				l.Fibres = nil
			}
		}
	}
}

// everyLine reports whether the sentence speaks of all lines and names none.
func (s *scope) everyLine(x *fact) bool { return !s.named && len(s.seg) == 0 }

// bareLine reports whether a line has nothing but a number and a garment; a colour besides where it is the newest line's garment too.
func (s *scope) bareLine(k int) bool {
	l := &s.lines[k]
	return l.Fabric == "" && len(l.Prints) == 0 && (len(l.Colours) == 0 || l.Garment == s.lines[s.newest()].Garment)
}

// clauseGarment reports whether a garment or its number stands between fact f and the last comma before it.
func (s *scope) clauseGarment(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch == ',' {
			return false
		}
		if it.sense(sGarment) != nil {
			return true
		}
	}
	return false
}

// wish takes in a quality asked for, or takes it back.
func (s *scope) wish(x *fact) {
	w := rules.Wish(x.s)
	if x.neg {
		s.wishes = slices.DeleteFunc(s.wishes, func(o rules.Wish) bool { return o == w })
		return
	}
	if !slices.Contains(s.wishes, w) {
		s.wishes = append(s.wishes, w)
	}
}

// use takes in what the garments are for. "-children" says that those called kids are older.
func (s *scope) use(x *fact) {
	if x.s == "" || x.neg {
		return
	}
	if x.s[0] == '-' {
		s.noUse = append(s.noUse, x.s[1:])
		return
	}
	if u := rules.Use(x.s); !slices.Contains(s.uses, u) {
		s.uses = append(s.uses, u)
	}
}
