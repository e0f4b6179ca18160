package intake

import "strings"

// quotedColour reads at item i, a quotation mark, the colour of a garment by a name in quotes: "22 sweatshirts in 'oat milk'".
func (r *reader) quotedColour(i int) int {
	q := r.at(i).ch
	if q != '\'' && q != '"' || !r.at(i-1).is(cColourWord) && (r.at(i-1).word != wIn || r.at(i-2).sense(sGarment) == nil) {
		return i
	}
	for k := i + 1; k < i+6; k++ {
		if r.punct(k, q) && k > i+1 {
			r.emit(i+1, k, fact{kind: fColour, s: lower(r.text[r.at(i+1).start:r.at(k-1).end])})
			return k + 1
		}
		if it := r.at(k); it.kind > iPhrase || it.sense(sFibre) != nil || it.sense(sSize) != nil {
			return i
		}
	}
	return i
}

// namedColour reads a colour by a name of the maker's own after the word "colour": "Color: Desert Sage", "colour smoky plum". The last word of the
// name is a colour, or every word of it is written as a name on a line that begins with "colour:".
func (r *reader) namedColour(i int) int {
	it := r.at(i)
	if !it.is(cColourWord) || it.is(cInkWord) || it.word == 0 || it.end-it.start < 4 || r.at(i-1).kind == iNum || r.at(i-1).is(cPrintWord) || r.at(i-1).is(cInkWord) || r.at(i-1).sense(sPlace) != nil {
		return i
	}
	j := i + 1
	heading := r.punct(j, ':') && r.lineStart(i)
	if r.punct(j, ':') || r.punct(j, '-') || r.punct(j, '=') {
		j++
	}
	k, unknown, named := j, false, true
	for ; k < j+4; k++ {
		n := r.at(k)
		if n.kind == iWord && n.end-n.start > 2 && (n.word == 0 || n.upper && heading) {
			unknown = true
		} else if n.sense(sColour) == nil || n.kind > iPhrase {
			break
		}
		named = named && n.upper && !n.shout
	}
	if !unknown || k == j {
		return i
	}
	n := r.at(k)
	if last := r.at(k - 1); last.sense(sColour) == nil && !(heading && named && k > j+1 && (n.kind == iBreak || n.kind == iPart || n.kind == iPunct && n.ch != '-')) {
		return i
	}
	if n.kind <= iPhrase && !n.is(cWith) && n.sense(sGarment) == nil && n.sense(sFabric) == nil && n.word != wAnd {
		return i
	}
	r.emit(j, k, fact{kind: fColour, s: lower(r.text[r.at(j).start:r.at(k-1).end])})
	return k
}

// manyHues reports whether the word at item j is a hue in the plural, of which shades are counted.
func (r *reader) manyHues(j int) bool {
	it := r.at(j)
	if it.kind != iPhrase || it.ntok != 1 || it.sense(sColour) == nil || r.at(j-2).is(cWant) {
		return false
	}
	return (r.at(j-2).word == wIn || r.at(j-2).word == wOf) && strings.HasSuffix(strings.ToLower(r.text[it.start:it.end]), "s")
}
