package intake

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"strikeoff/rules"
)

var readers = sync.Pool{New: func() any { return &reader{} }}

// Read understands a message. It is safe for concurrent use.
func Read(text string, o Options) Reading {
	r := readers.Get().(*reader)
	defer readers.Put(r)
	return r.read(text, o, nil)
}

// Amend understands a later message in the thread of an order that stands: what it adds, changes or takes back. Where it says nothing
// about the order, the reading comes back as it was, and changed is false.
func Amend(was Reading, text string, o Options) (now Reading, changed bool) {
	r := readers.Get().(*reader)
	defer readers.Put(r)
	now = r.read(text, o, &was)
	now.IsOrder = was.IsOrder || now.IsOrder && len(now.Order.Lines) > 0
	if now.Order.Unread = was.Order.Unread; sameOrder(was.Order, now.Order) {
		return was, false
	}
	return now, true
}

// read goes through the stages.
func (r *reader) read(text string, o Options, was *Reading) Reading {
	r.begin(text, o)
	if r.stands = ""; was != nil {
		r.stands = was.Order.Due
	}
	if !r.readable() {
		if was != nil {
			return *was
		}
		return Reading{Odd: r.odd}
	}
	if was == nil {
		if out, ok := r.ownWords(); ok {
			return out
		}
	}
	r.prepare()
	r.findTables()
	who := r.findCustomer()
	name := ""
	if who.score > 0 && (was == nil || was.Order.Customer == "" && who.score >= 3 || who.label || who.score >= 3 && r.renames(who)) {
		name = text[r.items[who.i].start:r.items[who.j-1].end]
		if n := r.at(who.j); strings.HasSuffix(name, "'s") && n.kind <= iPhrase && n.kind != iNum && !n.is(cWant) && !n.is(cHere) { // "for Hotel Marisco's wedding"
			name = strings.TrimSuffix(name, "'s")
		}
		if end := int(r.items[who.j-1].end); r.punct(who.j, '.') && r.at(who.j).glued && abbreviated(name) { // "Hawksbill Rafting Co."
			name = text[r.items[who.i].start : end+1]
		}
		if !legible(name) {
			name = ""
		}
		for k := who.i; k < who.j; k++ {
			r.hide(k)
		}
		r.hideAgain(who)
	}
	r.nothingRead()
	r.parse()
	sc := scope{r: r, npLine: -1, lastCol: -1, rowEnd: -1}
	if was != nil {
		sc.stand(was.Order)
	}
	sc.run()
	if name == "" {
		who.score = 0
	}
	return r.finish(&sc, name, who, was)
}

// renames reports whether a name comes in place of the one that stood: "put it under Crane & Daughters instead".
func (r *reader) renames(who candidate) bool {
	if n := r.at(who.i - 1); !n.is(cBehalf) {
		return false
	}
	for k := who.j; k < who.j+4 && r.at(k).kind < iBreak; k++ {
		if r.at(k).is(cFix) || r.at(k).is(cInsteadOf) {
			return true
		}
	}
	for k := who.i - 1; k > who.i-8 && r.at(k).kind < iBreak; k-- {
		if r.at(k).is(cFix) && r.at(k).kind == iPhrase {
			return true
		}
	}
	return false
}

// legible reports whether a name can be read and said again: no broken letters in it, and nothing that no pen writes.
func legible(name string) bool {
	return utf8.ValidString(name) && !strings.ContainsFunc(name, func(c rune) bool { return unicode.IsControl(c) && !unicode.IsSpace(c) })
}

// abbreviated reports whether a name ends in a word that is written with a point.
func abbreviated(name string) bool {
	switch strings.ToLower(name[strings.LastIndexByte(name, ' ')+1:]) {
	case "co", "inc", "ltd", "bros", "corp", "assn", "mfg", "dept", "jr", "intl", "e.v", "cia", "srl", "pty":
		return true
	}
	return false
}

// begin forgets the message before.
func (r *reader) begin(text string, o Options) {
	r.text, r.opt = text, o
	r.toks, r.items, r.facts, r.runs = r.toks[:0], r.items[:0], r.facts[:0], r.runs[:0]
	r.parts, r.header, r.odd = r.parts[:0], r.header[:0], nil
	r.fibre, r.units, r.people, r.labelColours = 0, 0, 0, false
	r.setDay()
}

// prepare makes items of the lines that are read.
func (r *reader) prepare() {
	r.lines = splitLines(r.lines[:0], r.text)
	lines, cut := r.clean(r.lines)
	for i, l := range lines {
		if i == cut {
			r.toks = append(r.toks, token{start: int32(l.from), end: int32(l.from), kind: tPart})
		}
		r.toks = tokenize(r.toks, r.text, l.from, l.to)
		if !l.soft {
			r.toks = append(r.toks, token{start: int32(l.to), end: int32(l.to), kind: tBreak})
		}
	}
	r.lower()
	r.dictated()
	r.items = itemize(r.items, r.toks)
	r.fillers()
	r.lettering()
	r.leaders()
}

// lower forgets the capitals of a message, or of a paragraph, that is written in nothing else.
func (r *reader) lower() {
	if lowerAll(r.toks) {
		return
	}
	from, gap := 0, false
	for k := range r.toks {
		if r.toks[k].kind != tBreak {
			gap = false
			continue
		}
		if gap {
			lowerAll(r.toks[from:k])
			from = k + 1
		}
		gap = true
	}
	if from > 0 {
		lowerAll(r.toks[from:])
	}
}

// lowerAll forgets the capitals of a stretch where nearly every word is written in nothing else, and reports whether it did.
func lowerAll(toks []token) bool {
	up, words := 0, 0
	for k := range toks {
		if t := &toks[k]; t.kind == tWord && t.end-t.start > 3 {
			words++
			if t.shout {
				up++
			}
		}
	}
	if words < 6 || up*5 < words*4 {
		return false
	}
	for k := range toks {
		toks[k].upper, toks[k].shout = false, false
	}
	return true
}

// hide makes item k part of a name: it is no fact.
func (r *reader) hide(k int) {
	it := &r.items[k]
	it.node, it.word, it.fact = 0, 0, true
	if it.kind != iPunct {
		it.kind = iWord
	}
}

// hideAgain hides the name where it is said again.
func (r *reader) hideAgain(who candidate) {
	n := who.j - who.i
	if n < 2 {
		return
	}
	first := r.text[r.items[who.i].start:r.items[who.i].end]
	for i := range r.items {
		it := &r.items[i]
		if i >= who.i && i < who.j || it.node == 0 || !it.upper || r.text[it.start:it.end] != first {
			continue
		}
		for k := 0; k < n && i+k < len(r.items); k++ {
			a, b := &r.items[i+k], &r.items[who.i+k]
			if r.text[a.start:a.end] != r.text[b.start:b.end] {
				break
			}
			r.hide(i + k)
		}
	}
}

// single reports whether every line has one print at most.
func (s *scope) single() bool {
	for k := range s.lines {
		if len(s.lines[k].Prints) > 1 {
			return false
		}
	}
	return true
}

// stand makes the order that stands the one that is spoken of.
func (s *scope) stand(o rules.Order) {
	o = o.Clone()
	s.amend = true
	for _, l := range o.Lines {
		s.lines = append(s.lines, line{Line: l, printed: len(l.Prints) > 0, split: true})
	}
	s.wishes, s.uses, s.name = o.Wishes, o.Uses, o.Customer
	if o.Due != "" {
		s.due, s.dueSet, s.tier = o.Due, true, 2
	}
	if n := len(s.lines); n > 0 {
		s.cur = append(s.cur, n-1)
		for k := range s.lines {
			for q := range s.lines[k].Prints {
				if k == n-1 && q == len(s.lines[k].Prints)-1 || s.single() {
					s.last = append(s.last, ref{k, q})
				}
			}
		}
	}
}
