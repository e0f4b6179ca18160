package intake

import (
	"fmt"
	"slices"
	"strings"
)

// colour takes in a colour: of the garment or of an ink.
func (s *scope) colour(st sentence, f int) {
	x := &s.r.facts[f]
	if s.thing(f) || s.onGarment(st, f) || s.lineByColour(st, f) {
		return
	}
	if s.recolours(st, f) || s.shade(f) {
		return
	}
	if w := s.r.wordAt(int(x.i1)); x.fix && !x.neg && (w == "stay" || w == "stays" || w == "remain" || w == "remains") && s.wearsColour(x.s) { // "navy to 25, white stays"
		return
	}
	s.swapsIn(st, f)
	if x.neg {
		s.unwanted = append(s.unwanted, x.s)
		if !(x.dead && s.successor(st, f)) {
			s.dropColour(x)
		}
		if s.amend && !s.successor(st, f) && !s.printFacts(st) {
			s.dropShare(x)
		}
		return
	}
	if !x.fix && !s.printFacts(st) && slices.Contains(s.unwanted, x.s) && s.r.at(int(x.i0)-1).kind != iNum { // "anything except orange. Orange is the road crew"
		return
	}
	if s.halfOf(f) || s.ofTrim(f) {
		return
	}
	if s.isInk(st, f) && !s.thought(st, f) {
		x.m = inkFact
		s.inkColour(st, f)
		s.lastCol, s.colInk = int(x.i1), true
		return
	}
	if x.weak && !s.colourPlace(st, f) {
		return
	}
	if n := s.countAfter(st, f); n > 0 { // "ice blue 30, black 24"
		y := &s.r.facts[f+1]
		y.sure = 1
		if k := s.lineOfColour(x.s); k >= 0 && x.fix && s.alive() > 1 {
			s.setQuantity(k, y)
			y.dead = true
			return
		}
		x.fix, y.fix = false, false
		s.share(y)
		y.dead = true
		s.lastCol = -1
	}
	s.garmentColour(st, f)
	if s.hthr && s.colLine >= 0 {
		for _, k := range s.colTargets() {
			s.lines[k].Heather = true
		}
	}
	s.hthr = false
	s.lastCol, s.colInk = int(x.i1), false
}

// shade takes in a colour in brackets that says which shade of a garment's colour is meant: "green (bottle green)".
func (s *scope) shade(f int) bool {
	x := &s.r.facts[f]
	i := int(x.i0) - 1
	for i > s.lastCol && s.r.at(i).kind < iPunct { // "(more of a royal blue)"
		i--
	}
	if s.lastCol < 0 || s.colInk || s.colLine < 0 || i != s.lastCol || !s.r.punct(i, '(') || x.neg || x.dead {
		return false
	}
	hit := false
	for _, k := range s.colTargets() {
		l := &s.lines[k]
		for q, c := range l.Colours {
			if strings.HasSuffix(x.s, " "+c) {
				l.Colours[q], hit = x.s, true
			}
		}
	}
	return hit
}

// successor reports whether another colour of the sentence takes the place of the one in fact f.
func (s *scope) successor(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		if y := &s.r.facts[k]; y.kind == fColour && y.fix && !y.neg && !y.dead && !(s.amend && s.alive() > 1 && s.wearsColour(y.s)) {
			return true
		}
	}
	return false
}

// listed reports whether the colour in fact f goes on the list that the last colour stands in: "red, gold and white".
func (s *scope) listed(f int) bool {
	x := &s.r.facts[f]
	if s.lastCol < 0 {
		return false
	}
	for i := s.lastCol; i < int(x.i0); i++ {
		it := s.r.at(i)
		switch {
		case it.kind == iPunct && (it.ch == ',' || it.ch == '/' || it.ch == '&' || it.ch == '+' || it.ch == '-'):
		case it.word == wAnd, it.word == wOr, it.word == wY, it.is(cHeather), it.is(cColourWord), it.word == wA, it.word == wThe, it.word == wWith, it.word == vocabE, it.word == vocabN:
		case it.kind == iWord && it.word != 0 && (vocab.names[it.word] == "some" || vocab.names[it.word] == "half" || vocab.names[it.word] == "mix"), it.word == wIn && s.r.at(i-1).word != 0:
		default:
			return false
		}
	}
	return true
}

var vocabE, vocabN = vocab.intern("e"), vocab.intern("n")

// chosen are words that lead to what somebody took from among several.
var chosen = internAll("settled", "agreed", "landed", "decided", "chose", "picked", "chosen", "plumped")

// colourPlace reports whether a word such as "sand" stands where a colour can stand.
func (s *scope) colourPlace(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	p, n := r.at(int(x.i0)-1), r.at(int(x.i1))
	if r.punct(int(x.i0)-1, ':') || r.punct(int(x.i0)-1, '=') || r.punct(int(x.i0)-1, '-') {
		if r.at(int(x.i0)-2).is(cEach) || r.at(int(x.i0)-2).is(cColourWord) || r.at(int(x.i0)-2).is(cInkWord) || r.lineStart(int(x.i0)-2) {
			return true
		}
	}
	if r.punct(int(x.i0)-1, ':') && r.at(int(x.i0)-2).sense(sGarment) != nil && n.kind > iNum { // "the scrub tops: mint, 65% polyester"
		return true
	}
	if x.fix && (n.is(cInsteadOf) || n.is(cFix) || n.kind == iPunct || n.kind == iBreak || n.kind == iPart || n.word == wAnd && (r.lastWord(int(x.i0)-1) == wIs || r.lastWord(int(x.i0)-1) == wordAre || r.lastWord(int(x.i0)-1) == wordNow)) {
		return true
	}
	if s.rowAhead(st, f) && r.lineStart(int(x.i0)) {
		return true
	}
	switch {
	case p.word == wIn, (p.word == wIs || p.word == wordAre) && p.word != 0 && r.at(int(x.i0)-2).is(cColourWord), p.is(cColourWord), p.is(cInkWord), p.kind == iNum, p.sense(sColour) != nil, p.sense(sGarment) != nil, p.is(cHeather), p.is(cEach), p.is(cPcs), p.is(cStill):
		return true
	case p.word == wDe, p.word == wordEn, p.is(cAll), p.is(cWant) && p.kind == iPhrase && s.closes(f):
		return true
	case p.is(cBoth) && n.kind >= iPunct, chosen[p.word], p.word == wOn && chosen[r.at(int(x.i0)-2).word]: // "both natural", "we settled on sage"
		return true
	case n.is(cColourWord) && n.word != 0, n.word == wordToo && n.word != 0 && p.kind >= iPunct: // "tees: cotton, blush too"
		return true
	case n.sense(sGarment) != nil, n.is(cInkWord), n.is(cHeather), n.is(cPrintWord), n.sense(sFabric) != nil, n.sense(sFibre) != nil, n.is(cInsteadOf) && (r.at(int(x.i1)+1).sense(sColour) != nil || x.fix), n.sense(sColour) != nil, n.sense(sPlace) != nil, n.is(cOnes):
		return true
	case n.word == wOr && n.word != 0 && r.at(int(x.i1)+1).sense(sColour) != nil: // "rust or mustard, whichever"
		return true
	case n.kind == iNum && (s.r.punct(int(x.i0)-1, ',') || s.r.punct(int(x.i0)-1, '/')):
		return true
	case s.listed(f):
		return true
	}
	if q := r.at(int(x.i0) - 2); p.kind == iWord && !p.upper && (q.kind == iPunct || q.kind == iBreak) && (n.kind == iPunct && n.ch != '-' && n.ch != '&' || n.kind == iBreak || n.kind == iPart) && !s.inPrint && !s.hasColours() && len(s.lines) > 0 { // "undyed natural."
		return true
	}
	// a clause of its own between commas, or a list
	edgeL := int(x.i0) == st.i0 || p.kind == iPunct && (p.ch == '|' || p.ch == '-' && !p.glued || p.ch == ',' || p.ch == '/' || p.ch == '(' || p.ch == '&') || p.kind == iBreak || p.sense(sFabric) != nil || p.sense(sFibre) != nil || p.kind == iPart
	edgeR := n.kind == iPunct && (n.ch == '|' || n.ch == '-' && !n.glued || n.ch == ':' || n.ch == ',' || n.ch == '/' || n.ch == '.' || n.ch == ')' || n.ch == '&' || n.ch == ';') || n.kind == iBreak || n.kind == iPart || n.word == wAnd || n.word == wOn
	return edgeL && edgeR && !(p.kind == iBreak && r.punct(int(x.i1), ',') && r.at(int(x.i1)+1).upper)
}

// colourless reports whether the line spoken of has no colour yet.
func (s *scope) colourless() bool { return !s.hasColours() }

// hasColours reports whether the line spoken of has a colour.
func (s *scope) hasColours() bool {
	if len(s.lines) == 0 {
		return false
	}
	return len(s.lines[s.newest()].Colours) > 0 || len(s.everyOne) > 0
}

func (s *scope) wearsColour(c string) bool {
	for k := range s.lines {
		if hasColour(s.lines[k].Colours, c) {
			return true
		}
	}
	return false
}

func (s *scope) printsColour(c string) bool {
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			if hasColour(s.lines[k].Prints[q].Inks, c) {
				return true
			}
		}
	}
	return hasColour(s.pend.p.Inks, c)
}

// garmentColour gives a colour to the line spoken of.
func (s *scope) garmentColour(st sentence, f int) {
	x := &s.r.facts[f]
	if !(s.listed(f) && s.colLine >= 0) {
		s.freshLine()
	}
	if s.r.at(int(x.i0)-1).is(cAll) && s.alive() == 0 && s.npLine < 0 && !s.garmentNear(st, f) && s.closes(f) { // "all black. 150 tees, 60 hoodies"
		s.everyOne = append(s.everyOne, x.s)
		return
	}
	k := s.newest()
	l := &s.lines[k]
	if s.listed(f) && s.colLine >= 0 && !s.colInk {
		if s.each > 0 {
			if len(s.lines[s.colLine].Colours) > 0 {
				k = s.clone(s.colLine, s.each)
				s.lines[k].Colours = append(s.lines[k].Colours, x.s)
				s.colLine = k
				return
			}
		}
		for _, k := range s.colTargets() {
			if l := &s.lines[k]; !slices.Contains(l.Colours, x.s) {
				l.Colours = append(l.Colours, x.s)
			}
		}
		return
	}
	// a colour at the head of a table row
	if f+1 < st.f1 && s.rowAhead(st, f) && (len(l.Colours) > 0 || len(l.Sizes) > 0) {
		if q := s.lineOfColour(x.s); q >= 0 && len(s.lines[q].Sizes) == 0 {
			s.speakOf(q)
			s.colLine = q
			return
		}
		if !hasColour(l.Colours, x.s) {
			s.takeShare(l)
			k = s.clone(k, 0)
			l = &s.lines[k]
		}
	}
	if s.r.at(int(x.i0) - 1).is(cSame) { // "the same red" as the wine red ones
		for q := range s.lines {
			for _, c := range s.lines[q].Colours {
				if strings.HasSuffix(c, " "+x.s) {
					x.s = c
				}
			}
		}
	}
	if x.fix && hasColour(l.Colours, x.s) && s.r.definiteColour(int(x.i0)-1) { // "in that blue": the one that was said
		return
	}
	if x.fix && len(l.Colours) > 0 {
		targets := []int{k}
		if old := s.replaced(st, f); old != "" {
			targets = targets[:0]
			for q := range s.lines {
				if hasColour(s.lines[q].Colours, old) {
					targets = append(targets, q)
				}
			}
		} else if s.alive() > 1 && !s.named && len(s.sl) == 0 {
			targets = targets[:0]
			for q := range s.lines {
				if !s.lines[q].drop && s.lines[q].Colours[:min(1, len(s.lines[q].Colours))] != nil {
					targets = append(targets, q)
				}
			}
		} else if len(s.sl) > 0 {
			targets = append(targets[:0], s.seg...)
		}
		old := s.replaced(st, f)
		for _, q := range targets {
			l := &s.lines[q]
			if old != "" && len(l.Colours) > 1 {
				for z := range l.Colours {
					if l.Colours[z] == old {
						l.Colours[z] = x.s
					}
				}
				continue
			}
			l.Colours = append(l.Colours[:0:0], x.s)
			if !s.heatherNear(f) {
				l.Heather = false
			}
		}
		s.colLine = k
		return
	}
	if len(l.Colours) == 1 && (strings.HasPrefix(x.s, l.Colours[0]+" ") && !s.garmentNear(st, f) || strings.HasSuffix(x.s, " "+l.Colours[0]) && s.alive() == 1 && !x.neg) { // "kelly. KELLY GREEN.", "green. Bottle green."
		l.Colours[0] = x.s
		s.colLine = k
		return
	}
	if len(l.Colours) > 0 {
		if !hasColour(l.Colours, x.s) && !x.weak && (s.named || s.colourSaid(int(x.i0))) && s.alive() == 1 && !s.amend {
			s.r.oddity("colours-contradict", linePath(0, 5), fmt.Sprintf("The message says %s and then %s for the same garment. %s was taken. Type which it is, for example: make it %s.", l.Colours[0], x.s, l.Colours[0], x.s))
		}
		return
	}
	l.open = false
	targets := s.shareTargets(st, f, k)
	for _, q := range targets {
		if q < len(s.lines) && len(s.lines[q].Colours) == 0 {
			s.lines[q].Colours = append(s.lines[q].Colours, x.s)
		}
	}
	s.colLine = k
}

// definiteColour reports whether a word at item i points at a colour named before.
func (r *reader) definiteColour(i int) bool {
	w := r.at(i).word
	return w != 0 && (r.at(i).is(cThis) || r.at(i).is(cSame) || vocab.names[w] == "that" || w == wThe && !r.at(i-1).is(cFix))
}

// closes reports whether a mark or the end follows the colour in fact f.
func (s *scope) closes(f int) bool {
	n := s.r.at(int(s.r.facts[f].i1))
	return n.kind == iPunct || n.kind == iBreak || n.kind == iPart
}

// colourSaid reports whether "colour" stands just before item i.
func (s *scope) colourSaid(i int) bool {
	for k := i - 1; k > i-4 && k >= 0; k-- {
		if s.r.at(k).is(cColourWord) {
			return true
		}
	}
	return false
}

// heatherNear reports whether a word for heather stands by the colour in fact f.
func (s *scope) heatherNear(f int) bool {
	x := &s.r.facts[f]
	return s.r.at(int(x.i0)-1).is(cHeather) || s.r.at(int(x.i1)).is(cHeather)
}

// colTargets are the lines that the last colour went to.
func (s *scope) colTargets() []int {
	var out []int
	have := s.lines[s.colLine].Colours
	for _, k := range s.cur {
		if k == s.colLine || s.lines[k].sent == s.cl && slices.Equal(s.lines[k].Colours, have) && s.lines[k].made == s.lines[s.colLine].made {
			out = append(out, k)
		}
	}
	if len(out) == 0 {
		out = append(out, s.colLine)
	}
	return out
}

// alone reports whether the colour in fact f stands in a clause of its own.
func (s *scope) alone(f int) bool {
	x := &s.r.facts[f]
	p := s.r.at(int(x.i0) - 1)
	return p.kind == iPunct && p.ch == ',' || p.is(cAll) || p.kind == iBreak
}

// rowAhead reports whether a size run follows the colour in fact f at once.
func (s *scope) rowAhead(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		switch s.r.facts[k].kind {
		case fSizes:
			return true
		case fHeather:
			continue
		}
		return false
	}
	return false
}

func (s *scope) lineOfColour(c string) int {
	for k := range s.lines {
		if !s.lines[k].drop && hasColour(s.lines[k].Colours, c) {
			return k
		}
	}
	return -1
}

// replaced is the colour that the one in fact f takes the place of, where the sentence names it.
func (s *scope) replaced(st sentence, f int) string {
	for k := st.f0; k < st.f1; k++ {
		if y := &s.r.facts[k]; k != f && y.kind == fColour && (y.dead || y.neg) && s.wearsColour(y.s) {
			return y.s
		}
	}
	return ""
}
