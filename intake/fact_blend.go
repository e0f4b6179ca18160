package intake

import "strikeoff/rules"

// fibresAt reads the fibres named at item i, one or several: "cotton", "poly/cotton", "cotton spandex". It returns them and the item after.
func (r *reader) fibresAt(i int, dst []rules.Fibre) ([]rules.Fibre, int) {
	it := r.at(i)
	if s := it.sense(sFibre); s != nil {
		f := rules.Fibre(s.val)
		if s.val == "other" {
			f = ""
		}
		dst = append(dst, f)
		j := i + 1
		k := j
		if r.punct(k, '/') || r.punct(k, '-') || r.punct(k, '&') || r.punct(k, '+') || r.at(k).word == wAnd || r.at(k).word == wY {
			k++
		}
		if r.at(k).sense(sFibre) != nil || r.at(k).sense(sFabric) != nil {
			return r.fibresAt(k, dst)
		}
		return dst, j
	}
	if s := it.sense(sFabric); s != nil {
		switch s.val {
		case "poly-cotton":
			dst = append(dst, "polyester", "cotton")
		case "cotton-poly":
			dst = append(dst, "cotton", "polyester")
		case "poly-viscose":
			dst = append(dst, "polyester", "viscose")
		default:
			return dst, i
		}
		if r.punct(i+1, '/') && r.at(i+2).sense(sFibre) != nil { // "poly/rayon/spandex"
			return r.fibresAt(i+2, dst)
		}
		return dst, i + 1
	}
	return dst, i
}

// halves reads "half cotton half polyester", "half cotton and half poly".
func (r *reader) halves(i int) int {
	if r.at(i).word != wordHalf {
		return i
	}
	a := r.at(i + 1).sense(sFibre)
	j := i + 2
	for r.punct(j, ',') || r.punct(j, '/') || r.at(j).word == wAnd {
		j++
	}
	if r.at(j).word == wordHalf {
		j++
	}
	b := r.at(j).sense(sFibre)
	if a == nil || b == nil || a.val == b.val || a.val == "other" || b.val == "other" {
		return i
	}
	return r.emitBlend(i, j+1, []part{{rules.Fibre(a.val), 50}, {rules.Fibre(b.val), 50}})
}

// parseBlend reads a blend with its percents at item i, in any of the ways people write one.
func (r *reader) parseBlend(i int) int {
	it := r.at(i)
	if j := r.halves(i); j > i {
		return j
	}
	if it.kind == iNum {
		if j := r.shares(i); j > i {
			return j
		}
		return r.ratio(i)
	}
	if it.is(cPure) && it.kind == iPhrase {
		k := i + 1
		if r.at(k).word == wOf || r.at(k).word == wIn { // "all of cotton"
			k++
		}
		if f, j := r.fibresAt(k, nil); len(f) == 1 && r.at(j).kind != iNum && r.at(k).sense(sFabric) == nil {
			return r.emitBlend(i, j, []part{{f[0], 100}})
		}
		return i
	}
	if it.sense(sFibre) == nil && it.sense(sFabric) == nil {
		return i
	}
	if s := it.sense(sFabric); s != nil && s.val == "50-50" && r.at(i+1).sense(sColour) == nil && r.at(i+1).sense(sFibre) == nil { // "fifty fifty"
		return r.emitBlend(i, i+1, []part{{"cotton", 50}, {"polyester", 50}})
	}
	if j := r.sharesAfter(i); j > i {
		return j
	}
	var buf [4]rules.Fibre
	fs, j := r.fibresAt(i, buf[:0])
	kind := ""
	if len(fs) == 0 {
		kind = it.sense(sFabric).val
		j = i + 1
	}
	k := j
	for r.punct(k, ',') || r.punct(k, '(') || r.punct(k, ':') || r.punct(k, '-') || r.at(k).is(cBlendWord) {
		k++
	}
	p, e := r.ratioNumbers(k)
	if len(p) == 0 || len(fs) == 1 {
		return i
	}
	if len(fs) > 0 && len(fs) != len(p) {
		return i
	}
	if len(fs) == 0 {
		fs = bareFibres(kind, p)
		if fs == nil {
			return i
		}
	}
	if r.punct(e, ')') && r.punct(j, '(') {
		e++
	}
	return r.emitBlend(i, e, zip(fs, p))
}

// shares reads "80% cotton 20% poly" and, without signs, "80 cotton 20 poly" where the parts make a whole.
func (r *reader) shares(i int) int {
	var parts [6]part
	n, total, signs := 0, 0.0, true
	end := i
	for j := i; n < len(parts); {
		q := r.at(j)
		if q.kind != iNum || q.num > 100 {
			break
		}
		k := j + 1
		if r.punct(k, '%') || r.at(k).is(cPercent) {
			k++
		} else {
			signs = false
		}
		if r.at(k).word == wOf || r.at(k).word == wDe || r.at(k).is(cPure) {
			k++
		}
		for w := 0; w < 2 && r.at(k).kind == iWord && signs && r.at(k+1).kind == iPhrase; w++ {
			k++
		}
		s := r.at(k).sense(sFibre)
		if s == nil {
			break
		}
		parts[n] = part{fibreOf(s), q.num}
		n++
		total += q.num
		end = k + 1
		j = k + 1
		for w := 0; w < 2 && (r.punct(j, ',') || r.punct(j, '/') || r.punct(j, '&') || r.punct(j, '+') || r.punct(j, '-') || r.at(j).word == wAnd || r.at(j).word == wY || r.at(j).is(cWith) || r.at(j).kind == iBreak && r.at(j+1).kind == iNum && r.punct(j+2, '%')); w++ {
			j++
		}
		if total >= 100 && r.at(j).kind == iNum && (total+r.at(j).num > 100.5 && !r.punct(j+1, '%')) {
			break
		}
		if total > 99.5 && total < 100.5 {
			break
		}
	}
	if n == 0 || !signs && (n < 2 && !r.wholly(i, end) || total != 100) {
		return i
	}
	return r.emitBlend(i, end, parts[:n])
}

// fibreOf is the fibre that a word means, "" for one that an order has no name for.
func fibreOf(s *sense) rules.Fibre {
	if s.val == "other" {
		return ""
	}
	return rules.Fibre(s.val)
}

// wholly reports whether "100 cotton" in items i to j is said of a garment before it, and counts none after it.
func (r *reader) wholly(i, j int) bool {
	if r.at(j).sense(sGarment) != nil || r.at(j).kind == iPhrase && r.goods(i) == 2 {
		return false
	}
	for k := i - 1; k > i-8 && k >= 0; k-- {
		if it := r.at(k); it.sense(sGarment) != nil {
			return true
		} else if it.kind >= iBreak {
			return false
		}
	}
	return false
}

// sharesAfter reads "cotton 80% polyester 20%".
func (r *reader) sharesAfter(i int) int {
	var parts [6]part
	n, total, signs := 0, 0.0, true
	end := i
	for j := i; n < len(parts); {
		s := r.at(j).sense(sFibre)
		if s == nil {
			break
		}
		k := j + 1
		if r.punct(k, ':') || r.punct(k, '=') || r.punct(k, '-') {
			k++
		}
		q := r.at(k)
		if q.kind != iNum || q.num > 100 || r.punct(k+1, '/') && r.at(k+2).sense(sFibre) == nil {
			break
		}
		if r.punct(k+1, '%') || r.at(k+1).is(cPercent) {
			end = k + 2
		} else {
			signs = false
			end = k + 1
		}
		parts[n] = part{fibreOf(s), q.num}
		n++
		total += q.num
		j = end
		for w := 0; w < 2 && (r.punct(j, ',') || r.punct(j, '/') && r.at(j+1).sense(sFibre) != nil || r.punct(j, '&') || r.punct(j, '+') || r.at(j).word == wAnd || r.at(j).word == wY); w++ {
			j++
		}
	}
	// "50% cotton 50% polyester" read from "cotton" on must not pair cotton with the second share
	if n == 0 || r.at(end).sense(sFibre) != nil || !signs && (n < 2 || total != 100) || n == 1 && total < 99 && r.punct(i-1, '%') {
		return i
	}
	return r.emitBlend(i, end, parts[:n])
}

// ratioNumbers reads numbers that make a hundred, with strokes between: 60/40, 50/25/25, "60-40".
func (r *reader) ratioNumbers(i int) ([]float64, int) {
	var out []float64
	total := 0.0
	j := i
	for len(out) < 4 {
		q := r.at(j)
		if q.kind != iNum || q.num <= 0 || q.num > 99 || q.frac && q.num < 1 {
			break
		}
		if out == nil {
			// look ahead before anything is kept: most numbers are no share
			k := j + 1
			if r.punct(k, '%') {
				k++
			}
			if !(r.punct(k, '/') || r.punct(k, '-') || r.at(k).kind == iNum) {
				return nil, i
			}
			out = make([]float64, 0, 4)
		}
		out = append(out, q.num)
		total += q.num
		j++
		if r.punct(j, '%') {
			j++
		}
		if total >= 100 {
			break
		}
		if r.punct(j, '/') || r.punct(j, '-') {
			j++
			continue
		}
		if r.at(j).kind == iNum && q.spelled == r.at(j).spelled {
			continue // sixty five thirty five
		}
		break
	}
	if total != 100 || len(out) < 2 {
		return nil, i
	}
	return out, j
}

// ratio reads a blend that begins with its numbers: "95/5 cotton spandex", "60/40", "50/25/25".
func (r *reader) ratio(i int) int {
	p, j := r.ratioNumbers(i)
	if len(p) == 0 {
		return i
	}
	stroke := r.at(i).spelled && r.at(i+1).spelled && j == i+2 || r.punct(i+1, '/') || r.punct(i+1, '%') || r.punct(i+1, '-') && r.at(i+1).glued && r.at(i+2).glued
	k := j
	for r.punct(k, '(') || r.punct(k, '-') || r.at(k).is(cBlendWord) || r.at(k).word == wOf || r.at(k).word == wDe {
		k++
	}
	var buf [4]rules.Fibre
	fs, e := r.fibresAt(k, buf[:0])
	if len(fs) == len(p) {
		if r.punct(e, ')') {
			e++
		}
		return r.emitBlend(i, e, zip(fs, p))
	}
	if s := r.at(k).sense(sFabric); s != nil && len(fs) == 0 {
		if fs := bareFibres(s.val, p); fs != nil {
			return r.emitBlend(i, k+1, zip(fs, p))
		}
	}
	if !stroke {
		return i
	}
	kind := ""
	if len(p) == 2 && r.woven(i, j) {
		kind = "woven"
	}
	if fs := bareFibres(kind, p); fs != nil {
		if r.at(j).is(cBlendWord) {
			j++
		}
		return r.emitBlend(i, j, zip(fs, p))
	}
	return i
}

// woven reports whether the garment named just before or after the bare pair at items i to j is a woven one, where polyester leads.
func (r *reader) woven(i, j int) bool {
	check := func(k int) (bool, bool) {
		if s := r.at(k).sense(sGarment); s != nil {
			switch s.val {
			case "workshirt", "apron", "scrub-top":
				return true, true
			}
			return false, true
		}
		return false, false
	}
	for k := j; k < j+4; k++ {
		if r.at(k).kind == iBreak || r.punct(k, '.') || r.punct(k, ',') {
			break
		}
		if w, ok := check(k); ok {
			return w
		}
	}
	for k := i - 1; k > i-8 && k >= 0; k-- {
		if w, ok := check(k); ok {
			return w
		}
	}
	return false
}

// bareFibres are the fibres of a blend said in numbers alone: a pair on a knit reads cotton first, a triple is a tri-blend with the largest share
// polyester (the order contract). Nil where the numbers fit no such blend.
func bareFibres(kind string, p []float64) []rules.Fibre {
	switch {
	case len(p) == 2 && kind == "tri-blend":
		return nil
	case len(p) == 2 && kind == "poly-viscose":
		return []rules.Fibre{"polyester", "viscose"}
	case len(p) == 2 && (kind == "poly-cotton" || kind == "woven"):
		return []rules.Fibre{"polyester", "cotton"}
	case len(p) == 2:
		return []rules.Fibre{"cotton", "polyester"}
	case len(p) == 3:
		fs := []rules.Fibre{"", "", ""}
		big := 0
		for k := range p {
			if p[k] > p[big] {
				big = k
			}
		}
		fs[big] = "polyester"
		rest := []rules.Fibre{"cotton", "viscose"}
		for k := range fs {
			if fs[k] == "" {
				fs[k], rest = rest[0], rest[1:]
			}
		}
		return fs
	}
	return nil
}

func zip(fs []rules.Fibre, p []float64) []part {
	out := make([]part, len(fs))
	for k := range fs {
		out[k] = part{fs[k], p[k]}
	}
	return out
}

func (r *reader) emitBlend(i, j int, parts []part) int {
	from := len(r.parts)
	r.parts = append(r.parts, parts...)
	r.emit(i, j, fact{kind: fBlend, n: from, m: len(parts)})
	return j
}
