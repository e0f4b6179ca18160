package intake

import (
	"slices"

	"strikeoff/rules"
)

// line is a line of the order in the making.
type line struct {
	rules.Line
	open     bool // nothing but the start of the message made it
	blank    bool // is to stay unprinted
	printed  bool // some print was given to it
	split    bool // the quantity is a share of a total
	total    int  // the total that its shares add up to
	method   rules.Method
	sent     int // the sentence it was last spoken of in
	made     int // the sentence it was made in
	noQty    bool
	counted  int32 // the fact that gave the quantity, plus one
	drop     bool
	definite bool       // "the bibs": spoken of as known
	label    int        // of the list item that made it, 0 for none
	row      bool       // is a row of a table
	sizedBy  columnKind // the column that its sizes stand in
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
	inkAll     bool // the last ink was given to every print of the sentence
	named      bool // a garment was named
	samePl     bool
	same       bool
	sameSize   bool
	sizedLine  int  // the line that it was said of, -1 for all
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
	never      []rules.Place // places denied in the message
	held       []int         // facts before the garment that they are said of
	lostInk    bool          // an ink was taken back in the sentence
	parts      int           // numbers of pieces in the sentence
	took       int           // how many of them were taken in
	notes      []note        // which facts went to which prints
	fresh      bool          // the sentence is an item of a numbered list, and the next line in turn
	npGarment  rules.Garment // what the number before npLine counts
	flushed    []ref         // prints that were given their facts before the sentence ended
	strong     bool          // some garment is named outright
	lead       pending       // inks said before the first place of the sentence
	led        []ref         // prints that take them if they get none of their own
	newPrint   bool          // one print more is spoken of
	methodSaid bool          // a way to print was said of all in the sentence
	copied     bool          // the inks of the print in focus were taken from another
	sureQty    bool          // some number counts goods for sure
	before     pending       // what was given to the last place of the sentence before it was named
	label      int           // of the list item that the sentence is, 0 for none
	unwanted   []string      // colours that were denied
	everyOne   []string      // colours said of all goods before any was named
	everyBlend *line         // the fabric said of all goods before any was named
	rowOf      int           // the line of the table row being read
	rowEnd     int           // item after the last row; -1 for none
	rowQty     bool          // the row said how many pieces
	rowColour  bool          // the row said the colour
	base       line          // what was said, before the table, of the garment of its rows
	based      bool          // there is such a line
	counts     int           // sentences that count goods
	asked      int           // those of them that only ask about goods, or tell of some
	desc       []described   // what prints are of: numbers, names
	everyOn    []int         // the lines whose prints those are; nil for all
	spokeAt    int           // the sentence of those
	every      pending       // said of every print before there was one
	recol      []recolour    // how the inks of what is the same differ
	keys       []keyed       // rows by their number or letter
	rows       []int         // those that the row at hand speaks of
	again      bool          // they were met before
	even       bool          // the colours of the line share its pieces evenly
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
			r.refusedNext(st)
			if g > f {
				carry = s.amend
			}
			carry = carry || said
			s.sentence(st)
		}
		f = g
		i = j + 1
	}
	s.giveEvery()
}

// giveEvery gives what was said of every print, before there was one, to those that lack it; to a print of its own where none came.
func (s *scope) giveEvery() {
	if !s.every.any {
		return
	}
	hs := s.everyPrint()
	if len(hs) == 0 && len(s.lines) > 0 {
		k := s.newest()
		s.lines[k].Prints = append(s.lines[k].Prints, rules.Print{})
		hs = append(hs, ref{k, 0})
	}
	for _, h := range hs {
		if len(s.everyOn) > 0 && !slices.Contains(s.everyOn, h.line) {
			continue
		}
		q := s.at(h)
		p := s.every.p
		if len(q.Inks) > 0 || q.InkCount.Known || q.FullColour {
			p.Inks, p.InkCount = nil, rules.Maybe[int]{}
		}
		p.Inks = slices.Clone(p.Inks)
		s.merge(q, &p, false)
		s.arrive(&s.every, h)
	}
}

// begin forgets the sentence before.
func (s *scope) begin() {
	s.cl++
	s.sl, s.seg, s.sp, s.all, s.as = s.sl[:0], s.seg[:0], s.sp[:0], s.all[:0], s.as[:0]
	s.methodSaid, s.newPrint = false, false
	s.lead, s.led = pending{}, s.led[:0]
	s.before, s.copied = pending{}, false
	s.recol = s.recol[:0]
	s.pend, s.common, s.hthr, s.denied = pending{}, pending{}, false, s.denied[:0]
	s.flushed = s.flushed[:0]
	s.held, s.lostInk, s.took = s.held[:0], false, 0
	s.inPrint, s.named, s.same, s.samePl, s.sameSize, s.wide, s.placed, s.added = false, false, false, false, false, false, false, false
	s.sameInk, s.sameWay, s.even = false, false, false
	s.each, s.lastCol, s.colLine, s.npLine, s.clause, s.attrAt = 0, -1, -1, -1, 0, -1
}

// sentence takes in the facts of one sentence.
func (s *scope) sentence(st sentence) {
	r := s.r
	s.begin()
	s.byKey(st)
	before := len(s.lines)
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
			if r.inquires(st) || r.tells(st) {
				s.asked++
			}
			break
		}
	}
	s.artwork(st)
	s.relabel(st)
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
		if (it.word == wordLeft || it.word == wordRight) && it.word != 0 {
			s.flip(st, i)
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
			if it.is(cEven) {
				s.even = true
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
	s.keepKey(before)
}

// fact takes in one fact.
func (s *scope) fact(st sentence, f int) {
	x := &s.r.facts[f]
	if x.dead && !x.neg || x.done {
		return
	}
	if x.kind == fRow {
		s.row(st, f)
		return
	}
	if s.even && x.kind != fColour && x.kind != fHeather {
		s.deal()
	}
	if x.cell != colNone && s.inRow(st, f) {
		return
	}
	if s.npLine < 0 && !x.neg && s.beforeGarment(st, f) { // said of the garment to come, which may be another line
		s.held = append(s.held, f)
		return
	}
	if s.onNamed(st, f) {
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

// hasColour reports whether a list has a colour by its full name or its last word ("grey" for "light grey").
func hasColour(list []string, c string) bool {
	for _, have := range list {
		if have == c || len(have) > len(c) && have[len(have)-len(c):] == c && have[len(have)-len(c)-1] == ' ' {
			return true
		}
	}
	return false
}
