package intake

import (
	"slices"
	"strconv"

	"strikeoff/rules"
)

// note says that a fact went to a print.
type note struct {
	fact, line, print int32
}

// noted keeps that fact f went to prints.
func (s *scope) noted(f int, hs ...ref) {
	if len(s.notes) > mostNotes {
		return
	}
	for _, h := range hs {
		s.notes = append(s.notes, note{int32(f), int32(h.line), int32(h.print)})
	}
}

// mostNotes bounds what is remembered of a message that says the same of very many lines.
const mostNotes = 1 << 13

// wait keeps a fact with the print facts that wait for their place.
func (p *pending) wait(f int) {
	if p.n < len(p.facts) {
		p.facts[p.n] = int32(f)
		p.n++
	}
}

// arrive notes the facts that waited for a print.
func (s *scope) arrive(p *pending, h ref) {
	for _, f := range p.facts[:p.n] {
		s.noted(int(f), h)
	}
}

// pathLines and pathPrints are how many lines and prints have their field names made beforehand.
const pathLines, pathPrints = 8, 6

var lineFields = []string{"quantity", "sizes", "garment", "fibres", "fabric", "colours", "heather"}
var printFields = []string{"place", "width_mm", "height_mm", "inks", "ink_count", "full_colour", "coverage_percent", "method", "effects"}

var linePaths = func() (out [pathLines][7]string) {
	for k := range out {
		for f, name := range lineFields {
			out[k][f] = "lines[" + strconv.Itoa(k) + "]." + name
		}
	}
	return out
}()

var printPaths = func() (out [pathLines][pathPrints][9]string) {
	for k := range out {
		for p := range out[k] {
			for f, name := range printFields {
				out[k][p][f] = "lines[" + strconv.Itoa(k) + "].prints[" + strconv.Itoa(p) + "]." + name
			}
		}
	}
	return out
}()

func linePath(k, f int) string {
	if k < pathLines {
		return linePaths[k][f]
	}
	return "lines[" + strconv.Itoa(k) + "]." + lineFields[f]
}

func printPath(k, p, f int) string {
	if k < pathLines && p < pathPrints {
		return printPaths[k][p][f]
	}
	return "lines[" + strconv.Itoa(k) + "].prints[" + strconv.Itoa(p) + "]." + printFields[f]
}

// marks says where in the text each field was read, in the order of the text. index tells where in the order a line came to stand, -1 for none.
func (r *reader) marks(s *scope, o *rules.Order, index []int, who candidate) []Mark {
	out := make([]Mark, 0, len(r.facts)+4)
	if who.score > 0 && o.Customer != "" {
		out = append(out, Mark{Field: "customer", Start: int(r.items[who.i].start), End: int(r.items[who.j-1].end), Sure: nameSure(who)})
	}
	for f := range r.facts {
		x := &r.facts[f]
		if x.dead || x.neg {
			continue
		}
		switch x.kind {
		case fDate:
			if o.Due != "" && (x.date == o.Due || x.date == "") {
				out = append(out, r.mark("due", x, dateSure(x)))
			}
		case fWish:
			if slices.Contains(o.Wishes, rules.Wish(x.s)) {
				out = append(out, r.mark("wishes", x, 0.9))
			}
		case fUse:
			if slices.Contains(o.Uses, rules.Use(x.s)) {
				out = append(out, r.mark("uses", x, 0.85))
			}
		default:
			if len(out) < mostNotes {
				out = r.lineMarks(out, s, o, index, x)
			}
		}
	}
	for _, n := range s.notes {
		if int(n.line) >= len(index) || index[n.line] < 0 {
			continue
		}
		k := index[n.line]
		if int(n.print) < len(o.Lines[k].Prints) {
			out = r.printMarks(out, &o.Lines[k].Prints[n.print], k, int(n.print), &r.facts[n.fact])
		}
	}
	slices.SortStableFunc(out, func(a, b Mark) int {
		if a.Start != b.Start {
			return a.Start - b.Start
		}
		return a.End - b.End
	})
	return slices.CompactFunc(out, func(a, b Mark) bool { return a.Field == b.Field && a.Start == b.Start && a.End == b.End })
}

// mark is the span of a fact. What was misspelt, or means its field only weakly, is less sure.
func (r *reader) mark(field string, x *fact, sure float64) Mark {
	for i := x.i0; i < x.i1; i++ {
		if r.items[i].typo {
			sure = min(sure, 0.7)
		}
	}
	if x.weak {
		sure = min(sure, 0.8)
	}
	return Mark{Field: field, Start: int(r.items[x.i0].start), End: int(r.items[x.i1-1].end), Sure: sure}
}

func nameSure(who candidate) float64 {
	switch {
	case who.label:
		return 0.98
	case who.score >= 6:
		return 0.9
	case who.score >= 3:
		return 0.8
	}
	return 0.6
}

// dateSure is how sure a date is: one in words is plain, bare figures may be read either way round.
func dateSure(x *fact) float64 {
	switch {
	case x.tier >= 2:
		return 0.95
	case x.tier == 1:
		return 0.85
	}
	return 0.75
}

// lineMarks marks the lines that a fact about a garment stands in.
func (r *reader) lineMarks(out []Mark, s *scope, o *rules.Order, index []int, x *fact) []Mark {
	for q := range index {
		k := index[q]
		if k < 0 {
			continue
		}
		l := &o.Lines[k]
		switch x.kind {
		case fNumber:
			if l.Quantity.Known && l.Quantity.Value == x.n && s.lines[q].counted == x.id+1 {
				out = append(out, r.mark(linePath(k, 0), x, [...]float64{0.7, 0.9, 0.95, 0.95}[x.sure]))
			}
		case fSizes:
			if r.runIn(l.Sizes, x) {
				out = append(out, r.mark(linePath(k, 1), x, 0.95))
				if l.Quantity.Known && l.Quantity.Value == l.Sizes.Total() {
					out = append(out, r.mark(linePath(k, 0), x, 0.9))
				}
			}
		case fGarment:
			if string(l.Garment) == x.s {
				out = append(out, r.mark(linePath(k, 2), x, 0.95))
			}
		case fBlend:
			if len(l.Fibres) > 0 && r.blendIn(l, x) {
				out = append(out, r.mark(linePath(k, 3), x, 0.9), r.mark(linePath(k, 4), x, 0.9))
			}
		case fFabric:
			if string(l.Fabric) == x.s {
				out = append(out, r.mark(linePath(k, 4), x, 0.9))
			}
		case fColour:
			if x.m != inkFact && slices.Contains(l.Colours, x.s) {
				out = append(out, r.mark(linePath(k, 5), x, 0.95))
			}
		case fHeather:
			if l.Heather {
				out = append(out, r.mark(linePath(k, 6), x, 0.95))
			}
		}
	}
	return out
}

// inkFact marks a colour that was taken for an ink.
const inkFact = 1

func (r *reader) runIn(sizes rules.Sizes, x *fact) bool {
	for _, z := range r.runs[x.n : x.n+x.m] {
		if sizes[z.size] != z.n && !x.weak {
			return false
		}
	}
	return len(sizes) > 0 && x.m > 0
}

func (r *reader) blendIn(l *rules.Line, x *fact) bool {
	for _, p := range r.parts[x.n : x.n+x.m] {
		if p.fibre != "" && l.Fibres[p.fibre] == 0 {
			return false
		}
	}
	return true
}

// printMarks marks the fields of a print that a fact gave it.
func (r *reader) printMarks(out []Mark, p *rules.Print, k, q int, x *fact) []Mark {
	field := -1
	switch x.kind {
	case fPlace:
		field = 0
	case fDim:
		if x.a > 0 && p.WidthMM.Known && p.WidthMM.Value == x.a {
			out = append(out, r.mark(printPath(k, q, 1), x, 0.95))
		}
		if x.b > 0 && p.HeightMM.Known && p.HeightMM.Value == x.b {
			out = append(out, r.mark(printPath(k, q, 2), x, 0.95))
		}
	case fColour:
		if slices.Contains(p.Inks, x.s) {
			field = 3
		}
	case fInks, fPair:
		if p.InkCount.Known && (p.InkCount.Value == x.n || x.kind == fPair && p.InkCount.Value == x.m) {
			field = 4
		}
	case fFull:
		if p.FullColour {
			field = 5
		}
	case fCover:
		if p.Coverage.Known && p.Coverage.Value == x.a {
			field = 6
		}
	case fMethod:
		if string(p.Method) == x.s {
			field = 7
		}
	case fEffect:
		if slices.Contains(p.Effects, rules.Effect(x.s)) {
			field = 8
		}
	}
	if field >= 0 {
		out = append(out, r.mark(printPath(k, q, field), x, 0.9))
	}
	return out
}
