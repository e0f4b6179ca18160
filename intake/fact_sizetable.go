package intake

import (
	"strikeoff/rules"
)

// sizeHeader reads a row of sizes alone; the numbers come in rows below or after it. It also reads "10 each in S, M, L".
func (r *reader) sizeHeader(i int, syms []symbol) int {
	k := 0
	for k < len(syms) && syms[k].size != "" {
		k++
	}
	if k < 2 {
		return i
	}
	end := syms[k-1].item + 1
	if k < len(syms) && k+1 < len(syms) && syms[k+1].size != "" && syms[k].n > 0 && r.at(syms[k].item).kind == iNum {
		// S M 5 L 3: no header
		if n := len(syms) - k; n < k {
			return i
		}
	}
	r.header = r.header[:0]
	for _, s := range syms[:k] {
		r.header = append(r.header, s.size)
	}
	for q := i; q < end; q++ {
		r.items[q].fact = true
	}
	// numbers on the same line follow at once or after a few words
	j := end
	for w := 0; w < 8 && j < len(r.items); w, j = w+1, j+1 {
		it := r.at(j)
		if it.kind == iBreak && (w > 0 || r.at(j+1).kind != iNum) || it.kind == iPart || it.sense(sGarment) != nil {
			break
		}
		if it.kind == iNum && (r.at(j+1).is(cEach) || r.at(j+1).is(cOf)) {
			return r.allSizes(i, j+2, int(it.num))
		}
		if it.kind == iNum {
			if q := r.parseRow(j); q > j {
				return q
			}
			break
		}
	}
	for p := i - 1; p >= 0 && p > i-4; p-- { // 10 each in S M L
		if it := r.at(p); it.kind == iNum && r.at(p+1).is(cEach) {
			if n := len(r.facts); n > 0 && r.facts[n-1].kind == fNumber && int(r.facts[n-1].i0) == p {
				r.facts = r.facts[:n-1]
			}
			return r.allSizes(i, end, int(it.num))
		}
	}
	return end
}

// allSizes notes the same count for every size of the header.
func (r *reader) allSizes(i, j, n int) int {
	from := len(r.runs)
	for _, s := range r.header {
		r.runs = append(r.runs, sized{s, n})
	}
	r.header = r.header[:0]
	r.emit(i, j, fact{kind: fSizes, n: from, m: len(r.runs) - from})
	return j
}

// parseRow reads the numbers at item i as one row under the sizes seen last.
func (r *reader) parseRow(i int) int {
	if j := r.countsThenSizes(i); j > i {
		return j
	}
	k := len(r.header)
	if k < 2 {
		return i
	}
	var nums [24]int
	n, j := 0, i
	last := i
	for j < len(r.items) && n <= k && n < len(nums) {
		it := r.at(j)
		if it.kind == iNum && !it.frac {
			nums[n] = int(it.num)
			n++
			last = j
			j++
			continue
		}
		if it.kind == iPunct && it.ch == '-' && !it.glued && r.at(j+1).kind != iBreak { // an empty cell
			if !r.at(j + 1).glued {
				nums[n] = 0
				n++
				last = j
			}
			j++
			continue
		}
		if it.kind == iPunct && (it.ch == ',' || it.ch == '|' || it.ch == '/' || it.ch == '-') || it.word == wAnd || it.word == wY {
			j++
			continue
		}
		break
	}
	if n < k {
		return i
	}
	row := nums[:k]
	sum := 0
	for _, v := range row {
		sum += v
	}
	if n > k {
		switch {
		case nums[k] == sum: // a total at the end
		case nums[0] == sum-nums[0]+nums[k]: // a total at the start
			row = nums[1 : k+1]
		default: // the number after the row is another thing
			for last > i && r.at(last).kind != iNum {
				last--
			}
			last--
			for last > i && r.at(last).kind != iNum {
				last--
			}
		}
	}
	r.rowColour(i - 1)
	from := len(r.runs)
	for q, v := range row {
		if v > 0 {
			r.runs = append(r.runs, sized{r.header[q], v})
		}
	}
	r.emit(i, last+1, fact{kind: fSizes, n: from, m: len(r.runs) - from})
	return last + 1
}

// rowColour takes the unknown word at item i for a colour where it heads a row of a size table as a known colour heads the row before.
func (r *reader) rowColour(i int) {
	n := len(r.facts)
	if it := r.at(i); it.kind != iWord || !r.lineStart(i) || n < 2 || r.facts[n-1].kind != fSizes || r.facts[n-2].kind != fColour || !r.lineStart(int(r.facts[n-2].i0)) || int(r.facts[n-1].i1) != i-1 {
		return
	}
	r.emit(i, i+1, fact{kind: fColour, s: lower(r.text[r.at(i).start:r.at(i).end])})
}

// countsThenSizes reads "12/24/24/12 S-XL" and "12/24/24/12 in S/M/L/XL".
func (r *reader) countsThenSizes(i int) int {
	var nums [16]int
	n, j := 0, i
	for n < len(nums) && r.at(j).kind == iNum && !r.at(j).frac {
		nums[n] = int(r.at(j).num)
		n++
		j++
		if (r.punct(j, '/') || r.punct(j, '-')) && r.at(j).glued && r.at(j+1).kind == iNum {
			j++
			continue
		}
		break
	}
	if n < 3 {
		return i
	}
	for r.at(j).word == wIn || r.punct(j, ',') || r.punct(j, '(') || r.at(j).is(cSized) || r.at(j).is(cFor) && r.at(j).kind == iPhrase {
		j++
	}
	var sizes []rules.Size
	a, ok := r.sizeAt(j)
	if !ok {
		return i
	}
	if b, ok := r.sizeAt(j + 2); ok && (r.punct(j+1, '-') || r.at(j+1).is(cTo)) && n > 2 {
		sizes = spread(a, b)
		j += 3
	} else {
		for {
			s, ok := r.sizeAt(j)
			if !ok {
				break
			}
			sizes = append(sizes, s)
			j++
			if (r.punct(j, '/') || r.punct(j, '-') || r.punct(j, ',')) && r.at(j+1).sense(sSize) != nil {
				j++
			}
		}
	}
	if len(sizes) != n {
		return i
	}
	from := len(r.runs)
	for q, s := range sizes {
		if nums[q] > 0 {
			r.runs = append(r.runs, sized{s, nums[q]})
		}
	}
	if r.punct(j, ')') {
		j++
	}
	r.emit(i, j, fact{kind: fSizes, n: from, m: len(r.runs) - from})
	return j
}

// spread is every size from a to b; nil where b is not the larger.
func spread(a, b rules.Size) []rules.Size {
	from, to := -1, -1
	for k, s := range rules.SizeOrder {
		if s == a {
			from = k
		}
		if s == b {
			to = k
		}
	}
	if from < 0 || to <= from {
		return nil
	}
	return rules.SizeOrder[from : to+1]
}

// sizeSpread reads "S to XL" or "S-2XL": every size between, to be counted by the numbers that follow.
func (r *reader) sizeSpread(i int) int {
	a, ok := r.sizeAt(i)
	if !ok || !(r.punct(i+1, '-') || r.at(i+1).is(cTo) && r.at(i+1).kind == iPhrase || r.at(i+1).word == wordThru || r.at(i+1).word == wordThrough) {
		return i
	}
	b, ok := r.sizeAt(i + 2)
	if !ok {
		return i
	}
	between := spread(a, b)
	if between == nil {
		return i
	}
	r.header = append(r.header[:0], between...)
	for j := i + 3; j < i+12; j++ {
		it := r.at(j)
		if it.kind == iPart || it.sense(sGarment) != nil {
			break
		}
		if it.kind != iNum {
			continue
		}
		if r.at(j+1).is(cEach) || r.at(j+1).is(cPcs) && r.at(j+2).is(cEach) {
			return r.allSizes(i, j+2, int(it.num))
		}
		if q := r.parseRow(j); q > j {
			r.facts[len(r.facts)-1].i0 = int32(i)
			return q
		}
		break
	}
	r.header = r.header[:0]
	return i + 3
}
