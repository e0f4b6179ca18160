package intake

import (
	"fmt"
	"slices"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// mostLines is how many lines one order may have: more were not written by a person.
const mostLines = 120

// newLine adds a line and makes it the one spoken of. Lines named one after the other with no print between are spoken of together.
func (s *scope) newLine(l line) int {
	k := len(s.lines)
	if k >= mostLines {
		s.r.oddity("too-many-lines", "", fmt.Sprintf("The message lists more than %d lines: the rest were not read. Split it into several orders.", mostLines))
		return k - 1
	}
	l.sent, l.made, l.label = s.cl, s.cl, s.label
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
		if k < len(s.lines) && !s.lines[k].drop && !s.mention(k) {
			return k
		}
	}
	for k := len(s.lines) - 1; k >= 0; k-- {
		if !s.lines[k].drop && !s.mention(k) {
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

// mention reports whether line k is only a garment that was named in another sentence and of which nothing was said, while other goods were
// counted: "the bibs cover it", "they compete in leggings and a tee".
func (s *scope) mention(k int) bool {
	l := &s.lines[k]
	return l.noQty && (l.definite && l.made != s.cl || l.made < s.cl-1) && l.sent != s.cl && !s.amend && !l.Quantity.Known && len(l.Sizes) == 0 && len(l.Colours) == 0 && l.Fabric == "" && l.Fibres == nil &&
		!l.Heather && len(l.Prints) == 0 && s.counted()
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
			if s.topsOf(st, f, k) { // "16 tops in orange and 16 shorts"
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

// topsOf reports whether the loose name in fact k, which the number in fact f counts, goes with counted bottoms, and nothing else is named that it
// could stand for.
func (s *scope) topsOf(st sentence, f, k int) bool {
	if s.r.facts[f].i1 != s.r.facts[k].i0 {
		return false
	}
	for q := range s.r.facts {
		x := &s.r.facts[q]
		if x.kind != fGarment || x.weak {
			continue
		}
		switch x.s {
		case "shorts", "leggings", "sweatpants", "other":
		default:
			return false
		}
	}
	return true
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

// find is the line of that garment, the latest first; -1 where there is none.
func (s *scope) find(g rules.Garment) int {
	for k := len(s.lines) - 1; k >= 0; k-- {
		if !s.lines[k].drop && s.lines[k].Garment == g {
			return k
		}
	}
	return -1
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
	s.flush(k)
	s.lines[k].split = true
	return s.newLine(l)
}

// flush gives what was said of a print to line k before the next line begins: "36 white w/ black ink, 36 black w/ white ink".
func (s *scope) flush(k int) {
	if !s.pend.any || len(s.all) > 0 {
		return
	}
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
