package intake

import (
	"strings"

	"strikeoff/rules"
)

// lower is a colour's name as an order spells it.
func lower(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// row begins a row of a table: it finds or makes the line that the row is about, by the garment or colour that the row names.
func (s *scope) row(st sentence, f int) {
	r := s.r
	var g rules.Garment
	var c string
	for k := f + 1; k < st.f1; k++ {
		x := &r.facts[k]
		switch x.kind {
		case fGarment:
			if g == "" && !x.neg && (x.cell == colGarment || x.cell == colLabel || !x.weak) {
				g, x.done = rules.Garment(x.s), true
			}
		case fColour:
			if c == "" && (x.cell == colColour || x.cell == colLabel) {
				c = x.s
			}
		}
	}
	if s.rowEnd != st.i0-1 && !(s.rowEnd >= 0 && r.tableGoesOn(s.rowEnd, st.i0)) { // the first row of a table
		s.base, s.based = line{}, false
	}
	k := -1
	if s.based && s.oneSize(st, f) && s.rowOf < len(s.lines) && s.lines[s.rowOf].sizedBy == colOneSize && s.lines[s.rowOf].Garment == g && s.colourIn(st, f, &s.lines[s.rowOf]) {
		k = s.rowOf // the next size of the same goods
	}
	s.rowEnd, s.rowQty, s.rowColour = st.i1, false, false
	if k < 0 {
		k = s.rowLine(g, c)
	}
	s.based = true
	l := &s.lines[k]
	l.open, l.noQty, l.split = false, false, true
	if g != "" {
		l.Garment = g
	}
	s.seg, s.npLine = s.seg[:0], -1
	s.speakOf(k)
	s.lines[k].made = s.cl
	s.rowOf = k
}

// oneSize reports whether the row of fact f has one size.
func (s *scope) oneSize(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		if s.r.facts[k].cell == colOneSize {
			return true
		}
	}
	return false
}

// colourIn reports whether the first colour of the row of fact f, if it has one, is that of the line.
func (s *scope) colourIn(st sentence, f int, l *line) bool {
	for k := f + 1; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fColour && x.cell != colInk {
			return hasColour(l.Colours, x.s)
		}
	}
	return true
}

// tableGoesOn reports whether nothing but breaks and rules stands in items i to j.
func (r *reader) tableGoesOn(i, j int) bool {
	for ; i < j; i++ {
		if k := r.at(i).kind; k != iBreak && k != iPunct {
			return false
		}
	}
	return true
}

// rowLine is the line for a row of that garment and colour.
func (s *scope) rowLine(g rules.Garment, c string) int {
	free := func(k int) bool {
		l := &s.lines[k]
		return !l.drop && len(l.Sizes) == 0 && !l.row
	}
	if g == "" && c == "" {
		if s.based && s.rowOf < len(s.lines) && !s.lines[s.rowOf].drop {
			return s.rowOf
		}
		k := s.newest()
		s.lines[k].row = true
		s.based = true
		return k
	}
	for k := range s.lines { // a line that was named before and waits for its numbers
		l := &s.lines[k]
		if free(k) && l.Garment != "" && (g == "" || l.Garment == g) && (c == "" && !l.Quantity.Known || c != "" && hasColour(l.Colours, c)) {
			s.takeRow(k)
			return k
		}
	}
	for k := range s.lines {
		l := &s.lines[k]
		if free(k) && c != "" && len(l.Colours) == 0 && (g == "" || l.Garment == g || l.Garment == "" && l.open) {
			s.takeRow(k)
			return k
		}
	}
	if s.based && (g == "" || s.base.Garment == g) {
		l := s.base
		l.Fibres, l.Prints = copyBlend(l.Fibres), copyPrints(l.Prints)
		l.row = true
		return s.newLine(l)
	}
	if g == "" && len(s.lines) > 0 {
		l := s.lines[s.newest()]
		l.Quantity, l.Sizes, l.Colours, l.Heather = rules.Maybe[int]{}, nil, nil, false
		l.Fibres, l.Prints, l.drop, l.row = copyBlend(l.Fibres), copyPrints(l.Prints), false, true
		return s.newLine(l)
	}
	if k := len(s.lines) - 1; k >= 0 && s.lines[k].idle() && s.lines[k].open && !s.lines[k].drop {
		s.lines[k].row = true
		return k
	}
	return s.newLine(line{row: true})
}

// takeRow makes line k the line of a row. What was said of it before the table holds for the other rows of its garment too; its number was their total.
func (s *scope) takeRow(k int) {
	l := &s.lines[k]
	l.row = true
	if s.based {
		return
	}
	s.based, s.base = true, *l
	s.base.Quantity, s.base.Sizes, s.base.Colours, s.base.Heather = rules.Maybe[int]{}, nil, nil, false
	s.base.Fibres, s.base.Prints = copyBlend(l.Fibres), copyPrints(l.Prints)
	if len(l.Colours) == 0 {
		l.total, l.Quantity = l.Quantity.Or(0), rules.Maybe[int]{}
	}
}

// inRow takes in a fact of a cell whose column says what it is; it reports whether it did.
func (s *scope) inRow(st sentence, f int) bool {
	x := &s.r.facts[f]
	if s.rowOf >= len(s.lines) {
		return false
	}
	l := &s.lines[s.rowOf]
	switch {
	case x.kind == fNumber && x.cell == colQty:
		if s.rowQty || len(l.Sizes) > 0 && l.sizedBy == colOneSize {
			return true
		}
		for k := f + 1; k < st.f1; k++ {
			if s.r.facts[k].cell == colOneSize { // it counts the size
				return true
			}
		}
		l.Quantity, l.counted, s.rowQty = rules.Said(x.n), x.id+1, true
	case x.kind == fSizes && (x.cell == colSize || x.cell == colOneSize):
		if l.Sizes == nil {
			l.Sizes = make(rules.Sizes, x.m)
		}
		for _, z := range s.r.runs[x.n : x.n+x.m] {
			l.Sizes[z.size] += z.n
		}
		l.sizedBy = x.cell
		if l.total > 0 || x.cell == colOneSize {
			l.Quantity, l.counted = rules.Maybe[int]{}, 0
		}
	case x.kind == fColour && (x.cell == colColour || x.cell == colLabel):
		if !s.rowColour {
			l.Colours = l.Colours[:0:0]
		}
		s.rowColour = true
		l.Colours = append(l.Colours, x.s)
	case x.kind == fHeather && (x.cell == colColour || x.cell == colLabel || x.cell == colGarment || x.cell == colFabric):
		l.Heather = true
	case (x.kind == fBlend || x.kind == fFabric) && x.cell == colFabric:
		x.fix = true
		s.fabric(st, f)
	case x.kind == fColour && x.cell == colInk:
		x.m = inkFact
		s.inkColour(st, f)
		s.lastCol, s.colInk = int(x.i1), true
	default:
		return false
	}
	return true
}
