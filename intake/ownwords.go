package intake

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// ownWords reads an order that Restate wrote, by the form in which it is written and not by what its words may mean elsewhere: so "scrub tops"
// said back are a garment and say nothing of who wears them. It holds only where the order read, said again, is the text to the letter; whatever
// a person changed beyond the form is read like any other message.
func (r *reader) ownWords() (Reading, bool) {
	if !strings.HasPrefix(r.text, customerHead) && !strings.HasPrefix(r.text, "1) ") {
		return Reading{}, false
	}
	p := ownParser{}
	for at := 0; at < len(r.text); {
		end := strings.IndexByte(r.text[at:], '\n')
		if end < 0 {
			end = len(r.text) - at
		}
		if !p.line(r.text[at:at+end], at) {
			return Reading{}, false
		}
		at += end + 1
	}
	if len(p.order.Lines) == 0 || strings.TrimRight(Restate(p.order), "\n") != strings.TrimRight(r.text, "\n") {
		return Reading{}, false
	}
	out := Reading{Order: p.order, IsOrder: true, Marks: p.marks}
	r.judge(&out)
	return out, true
}

// The headings of an order said back.
const (
	customerHead = "Customer: "
	wishHead     = "Wishes: "
	useHead      = "For: "
	dueHead      = "Due: "
	noPrints     = "no prints"
)

// ownParser takes an order that was said back apart, line by line.
type ownParser struct {
	order rules.Order
	marks []Mark
}

// mark notes where a field stands. Nothing is surer than what the program said itself.
func (p *ownParser) mark(field string, at int, s string) {
	if s != "" {
		p.marks = append(p.marks, Mark{Field: field, Start: at, End: at + len(s), Sure: 1})
	}
}

// line takes in one line of text that begins at byte at; it reports whether the line has the form of one.
func (p *ownParser) line(s string, at int) bool {
	if v, ok := strings.CutPrefix(s, customerHead); ok && len(p.order.Lines) == 0 {
		p.order.Customer = rules.Name(v)
		p.mark("customer", at+len(customerHead), v)
		return true
	}
	if v, ok := strings.CutPrefix(s, wishHead); ok {
		p.mark("wishes", at+len(wishHead), v)
		p.order.Wishes = unjoined[rules.Wish](v, wishWords)
		return known(p.order.Wishes, sWish)
	}
	if v, ok := strings.CutPrefix(s, useHead); ok {
		p.mark("uses", at+len(useHead), v)
		p.order.Uses = unjoined[rules.Use](v, useWords)
		return known(p.order.Uses, sUse)
	}
	if v, ok := strings.CutPrefix(s, dueHead); ok {
		p.mark("due", at+len(dueHead), v)
		p.order.Due = rules.Date(v)
		_, ok := p.order.Due.Time()
		return ok
	}
	n := len(p.order.Lines)
	if v, ok := strings.CutPrefix(s, "- "); ok && n > 0 {
		l := &p.order.Lines[n-1]
		if v == noPrints {
			return true
		}
		l.Prints = append(l.Prints, rules.Print{})
		return eachPart(v, at+2, func(part string, at int) bool {
			return p.printPart(&l.Prints[len(l.Prints)-1], part, at, n-1, len(l.Prints)-1)
		})
	}
	head := strconv.Itoa(n+1) + ") "
	v, ok := strings.CutPrefix(s, head)
	if !ok {
		return false
	}
	p.order.Lines = append(p.order.Lines, rules.Line{})
	v, sizes, ok := cutSizes(v)
	if ok && !p.sizes(sizes, at+len(head)+len(v), n) {
		return false
	}
	return eachPart(strings.TrimSuffix(v, ", "), at+len(head), func(part string, at int) bool { return p.linePart(&p.order.Lines[n], part, at, n) })
}

// eachPart goes through what stands between commas.
func eachPart(s string, at int, do func(part string, at int) bool) bool {
	for s != "" {
		part, rest, more := strings.Cut(s, ", ")
		if !do(part, at) {
			return false
		}
		at += len(part) + 2
		if s = rest; !more {
			break
		}
	}
	return true
}

const sizesHead = "sizes "

// cutSizes splits the run of sizes, which has commas of its own, off a line.
func cutSizes(s string) (before, run string, found bool) {
	if v, ok := strings.CutPrefix(s, sizesHead); ok {
		return "", v, true
	}
	if k := strings.Index(s, ", "+sizesHead); k >= 0 {
		return s[:k+2], s[k+2+len(sizesHead):], true
	}
	return s, "", false
}

// sizes takes in "S: 3, M: 4"; the heading before it begins at byte at.
func (p *ownParser) sizes(s string, at, k int) bool {
	l := &p.order.Lines[k]
	l.Sizes = rules.Sizes{}
	p.mark(linePath(k, 1), at+len(sizesHead), s)
	return eachPart(s, at, func(part string, _ int) bool {
		size, count, ok := strings.Cut(part, ": ")
		n, err := strconv.Atoi(count)
		l.Sizes[rules.Size(size)] = n
		return ok && err == nil && slices.Contains(rules.SizeOrder, rules.Size(size))
	})
}

// linePart takes in one thing said of a line.
func (p *ownParser) linePart(l *rules.Line, s string, at, k int) bool {
	if v, ok := strings.CutPrefix(s, "colour "); ok {
		p.mark(linePath(k, 5), at+len("colour "), v)
		if v, l.Heather = strings.CutSuffix(v, " heather"); v != "" {
			l.Colours = strings.Split(v, " / ")
		}
		return knownColours(l.Colours)
	}
	if s == "heather" {
		l.Heather = true
		p.mark(linePath(k, 6), at, s)
		return true
	}
	if strings.Contains(s, "% ") {
		p.mark(linePath(k, 3), at, s)
		return p.blend(l, s)
	}
	what := s
	if count, v, ok := strings.Cut(s, " "); ok {
		if n, err := strconv.Atoi(count); err == nil {
			l.Quantity = rules.Said(n)
			p.mark(linePath(k, 0), at, count)
			what, at = v, at+len(count)+1
		}
	}
	if l.Quantity.Known && what == "pieces" {
		return true
	}
	for g, w := range plural {
		if w == what {
			l.Garment = g
			p.mark(linePath(k, 2), at, what)
			return true
		}
	}
	l.Fabric = fibre.Class(unsaid(s, fabricWords))
	p.mark(linePath(k, 4), at, s)
	return slices.Contains(fibre.Classes, l.Fabric)
}

// blend takes in "60% cotton 40% bamboo viscose".
func (p *ownParser) blend(l *rules.Line, s string) bool {
	l.Fibres = fibre.Blend{}
	for s != "" {
		count, rest, ok := strings.Cut(s, "% ")
		v, err := strconv.ParseFloat(count, 64)
		if !ok || err != nil {
			return false
		}
		end := len(rest)
		if k := strings.IndexAny(rest, "0123456789"); k > 0 {
			end = k
		}
		f := fibre.Fibre(strings.ReplaceAll(strings.TrimSpace(rest[:end]), " ", "-"))
		if !slices.Contains(fibre.All, f) {
			return false
		}
		l.Fibres[f] = v
		s = rest[end:]
	}
	l.Fabric = fibre.ClassOf(l.Fibres)
	return true
}

// printPart takes in one thing said of print q of line k.
func (p *ownParser) printPart(x *rules.Print, s string, at, k, q int) bool {
	number := func(s string) (rules.Maybe[float64], bool) {
		v, err := strconv.ParseFloat(s, 64)
		return rules.Said(v), err == nil
	}
	field, ok := -1, true
	switch {
	case s == "print" || s == "another print":
		return true
	case strings.HasSuffix(s, " mm wide"):
		field = 1
		x.WidthMM, ok = number(strings.TrimSuffix(s, " mm wide"))
	case strings.HasSuffix(s, " mm high"):
		field = 2
		x.HeightMM, ok = number(strings.TrimSuffix(s, " mm high"))
	case strings.HasSuffix(s, " mm"):
		var wide, high string
		var okw, okh bool
		wide, high, ok = strings.Cut(strings.TrimSuffix(s, " mm"), " x ")
		x.WidthMM, okw = number(wide)
		x.HeightMM, okh = number(high)
		field, ok = 1, ok && okw && okh
		p.mark(printPath(k, q, 2), at, s)
	case s == "full colour":
		field, x.FullColour = 5, true
	case strings.HasSuffix(s, " colour"):
		n, err := strconv.Atoi(strings.TrimSuffix(s, " colour"))
		field, x.InkCount, ok = 4, rules.Said(n), err == nil
	case strings.HasPrefix(s, "ink "):
		field, x.Inks = 3, strings.Split(s[len("ink "):], " / ")
		ok = knownColours(x.Inks)
	case strings.HasPrefix(s, "coverage "):
		field = 6
		x.Coverage, ok = number(strings.TrimSuffix(s[len("coverage "):], "%"))
	case strings.HasSuffix(s, " effect"):
		e := strings.ReplaceAll(strings.TrimSuffix(s, " effect"), " ", "-")
		field, x.Effects, ok = 8, append(x.Effects, rules.Effect(e)), ownValues()[sEffect][e]
	default:
		field = 7
		for _, m := range append(rules.Methods, rules.Screen) {
			if methodWords(m) == s {
				x.Method = m
			}
		}
		if x.Method == "" {
			field = 0
			x.Place = rules.Place(strings.ReplaceAll(unsaid(s, placeWords), " ", "-"))
			ok = slices.Contains(rules.Places, x.Place)
		}
	}
	p.mark(printPath(k, q, field), at, s)
	return ok
}

// unjoined is the list that joined made words of.
func unjoined[T ~string](s string, words map[T]string) []T {
	var out []T
	for w := range strings.SplitSeq(s, ", ") {
		out = append(out, T(unsaid(w, words)))
	}
	return out
}

// unsaid is the value that a phrase was written for, or the phrase itself.
func unsaid[T ~string](s string, words map[T]string) string {
	for v, w := range words {
		if w == s {
			return string(v)
		}
	}
	return s
}

// ownValues are the values that the vocabulary has words for, by kind.
var ownValues = sync.OnceValue(func() (out [sKinds]map[string]bool) {
	for k := range out {
		out[k] = map[string]bool{}
	}
	for _, n := range vocab.nodes {
		for _, s := range n.senses {
			out[s.kind][s.val] = true
		}
	}
	return out
})

// known reports whether all values of a list are ones that the vocabulary has words for.
func known[T ~string](list []T, kind senseKind) bool {
	for _, v := range list {
		if !ownValues()[kind][string(v)] {
			return false
		}
	}
	return true
}

// knownColours reports whether all of a list are colours, shades of one ("lake ice") or references to a swatch.
func knownColours(list []string) bool {
	for _, c := range list {
		first, _, _ := strings.Cut(c, " ")
		hue := c[strings.LastIndexByte(c, ' ')+1:]
		if n := vocab.first[vocab.words[foldWord(first)]]; ownValues()[sColour][c] || ownValues()[sColour][hue] || n != 0 && vocab.nodes[n].cues.has(cSwatch) {
			continue
		}
		return false
	}
	return true
}
