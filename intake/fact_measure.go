package intake

import "math"

var wordSquare = vocab.intern("square")

const mmPerInch = 25.4 // exact, by the international yard and pound agreement of 1959

// length is one measure: how many millimetres a unit is, 0 where none was written; and its axis.
type length struct {
	v    float64
	unit float64
	axis byte // 'w', 'h' or 0
	end  int  // item after it
}

// readLength reads a number with unit and axis at item i; end is i where none is there.
func (r *reader) readLength(i int) length {
	l := length{end: i}
	j := i
	if a := r.axis(j); a != 0 && !r.at(j).glued {
		k := j + 1
		for r.punct(k, ':') || r.punct(k, '=') || r.at(k).word == wIs || r.at(k).word == wOf || r.at(k).word == wDe {
			k++
		}
		if r.at(k).kind != iNum || r.at(j).ntok == 1 && r.at(j).end-r.at(j).start == 1 && !r.at(j).upper {
			return l
		}
		l.axis, j = a, k
	}
	n := r.at(j)
	if n.kind != iNum {
		return l
	}
	l.v = n.num
	j++
	if r.at(j).word == wAnd && r.at(j+1).word == wA && r.at(j+2).word == wordHalf { // two and a half
		l.v += 0.5
		j += 3
	}
	for r.punct(j, '-') && r.at(j).glued && r.measured(j+1) {
		j++
	}
	if r.measured(j) {
		switch u := r.at(j); {
		case u.is(cMM):
			l.unit = 1
		case u.is(cCM):
			l.unit = 10
		default:
			l.unit = mmPerInch
			if u.kind == iPunct && u.ch == '\'' {
				j++
			}
		}
		j++
		if r.punct(j, '.') && r.axis(j+1) != 0 { // 12 in. wide
			j++
		}
	}
	if l.axis == 0 {
		k := j
		if r.punct(k, '-') || (r.at(k).word == wIn || r.at(k).word == wOf) && r.axis(k+1) != 0 {
			k++
		}
		if a := r.axis(k); a != 0 && !(r.at(k).end-r.at(k).start == 1 && l.unit == 0 && !r.at(k).glued && !r.placeBefore(i)) {
			l.axis = a
			j = k + 1
		}
	}
	l.end = j
	return l
}

// lengthAt reports whether the number at item i is a length by the unit behind it: "chest area 5\"".
func (r *reader) lengthAt(i int) bool { return r.measured(i+1) && r.at(i+1).kind == iPunct }

// placeBefore reports whether a place of a print stands before item i in its clause or the one before.
func (r *reader) placeBefore(i int) bool {
	for k := i - 1; k >= 0 && k > i-8; k-- {
		it := r.at(k)
		if it.kind == iBreak || it.kind == iPart || it.sense(sGarment) != nil {
			return false
		}
		if s := it.sense(sPlace); s != nil && !s.weak {
			return true
		}
	}
	return false
}

// axis is the direction that the word at item i names, 0 for none.
func (r *reader) axis(i int) byte {
	it := r.at(i)
	if it.kind != iPhrase {
		return 0
	}
	switch {
	case it.word == wordAcross && (r.at(i+1).word == wThe || r.at(i+1).sense(sPlace) != nil):
		return 0
	case it.is(cWide):
		return 'w'
	case it.is(cTall):
		return 'h'
	}
	return 0
}

// parseDim reads the size of a print at item i: "12x14", "11 inches wide", "28 x 35 cm", "20 cm wide by 6 cm tall".
func (r *reader) parseDim(i int) int {
	a := r.readLength(i)
	if a.end == i || a.v <= 0 {
		return i
	}
	j := a.end
	sep := r.at(j)
	cross := sep.word == wX || sep.word == wBy || r.punct(j, '*') || sep.kind == iWord && sep.word != 0 && vocab.names[sep.word] == "por"
	if cross && a.unit == 0 && r.punct(i-1, '-') && r.at(i-1).glued && r.at(i-2).kind == iNum { // ages and how many of each: "5-6 x 12"
		return i
	}
	loose := r.punct(j, ',') || r.punct(j, '/') || sep.word == wAnd || sep.word == wY || r.punct(j, '&')
	var b length
	if cross || loose {
		if b = r.readLength(j + 1); b.end > j+1 && b.v > 0 && r.isPair(a, b, cross) {
			j = b.end
		} else {
			b = length{}
		}
	} else if a.axis != 0 && a.unit != 0 {
		if b = r.readLength(j); b.end > j && b.v > 0 && b.unit != 0 && b.axis != 0 && b.axis != a.axis {
			j = b.end
		} else {
			b = length{}
		}
	}
	if b.v == 0 {
		if a.unit == 0 && (a.axis == 0 || a.v > 60) {
			return i
		}
		if a.unit == 0 && r.at(a.end-1).ntok == 1 && r.at(a.end-1).end-r.at(a.end-1).start == 1 && !(r.at(a.end).kind != iWord && a.v >= 2 && a.v <= 24 && r.placeBefore(i)) { // a bare "5 w" is no size
			return i
		}
		a.unit = unitOr(a.unit, mmPerInch)
		f := fact{kind: fDim}
		if w := r.at(j).word; w != 0 && a.axis == 0 && w == wordSquare { // a 2 inch square
			f.a, f.b = tenth(a.v*a.unit), tenth(a.v*a.unit)
			j++
		} else if a.axis == 'h' {
			f.b = tenth(a.v * a.unit)
		} else {
			f.a = tenth(a.v * a.unit)
		}
		r.emit(i, j, f)
		return j
	}
	if a.unit == 0 {
		a.unit = b.unit
	}
	if b.unit == 0 {
		b.unit = a.unit
	}
	if a.unit == 0 && r.punct(j, '(') && r.punct(j+2, ')') { // 28 wide by 10 high (cm)
		switch u := r.at(j + 1); {
		case u.is(cMM):
			a.unit, b.unit = 1, 1
		case u.is(cCM):
			a.unit, b.unit = 10, 10
		}
		if a.unit != 0 {
			j += 3
		}
	}
	if k := j; a.unit == 0 { // 30 wide and 40 high, in cm
		if r.punct(k, ',') {
			k++
		}
		if r.at(k).word == wIn {
			switch u := r.at(k + 1); {
			case u.is(cMM):
				a.unit, b.unit, j = 1, 1, k+2
			case u.is(cCM):
				a.unit, b.unit, j = 10, 10, k+2
			}
		}
	}
	usual := mmPerInch
	if a.unit == 0 && r.metric() { // the message measures in metric units
		usual = 10
		if a.v >= 100 || b.v >= 100 {
			usual = 1
		}
	}
	w, h := a.v*unitOr(a.unit, usual), b.v*unitOr(b.unit, usual)
	if a.axis == 'h' || b.axis == 'w' {
		w, h = h, w
	}
	// "W x H" may follow the figures, and "max" and the like never matter
	for r.axis(j) != 0 && r.at(j).end-r.at(j).start == 1 || r.at(j).word == wX && r.axis(j+1) != 0 {
		j++
	}
	r.emit(i, j, fact{kind: fDim, a: tenth(w), b: tenth(h)})
	return j
}

// metric reports whether the message says centimetres or millimetres and no inches.
func (r *reader) metric() bool {
	if r.units == 0 {
		r.units = 1
		for i := range r.items {
			if r.at(i-1).kind != iNum {
				continue
			}
			if it := &r.items[i]; it.is(cCM) || it.is(cMM) {
				r.units |= 2
			} else if r.measured(i) {
				r.units |= 4
			}
		}
	}
	return r.units&6 == 2
}

// isPair reports whether two lengths are width and height of one print.
func (r *reader) isPair(a, b length, cross bool) bool {
	if !cross {
		return a.axis != 0 && b.axis != 0 && a.axis != b.axis && (a.unit != 0 || b.unit != 0)
	}
	if a.axis != 0 && a.axis == b.axis {
		return false
	}
	if r.at(b.end).sense(sSize) != nil && a.unit == 0 && b.unit == 0 && r.at(b.end).glued {
		return false
	}
	return true
}

func unitOr(u, or float64) float64 {
	if u == 0 {
		return or
	}
	return u
}

// tenth rounds millimetres to a tenth: no print is placed more finely.
func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }
