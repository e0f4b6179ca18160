package intake

import "slices"

// tableCells puts the line of items i to j under the headings; 0 where it is no row of the table.
func (r *reader) tableCells(dst []cell, heads []heading, sep separator, grid, i, j int) int {
	from, to := int(r.items[i].start), int(r.items[j-1].end)
	if to-from > 600 {
		return 0
	}
	var spans [maxColumns][2]int
	n := splitCells(spans[:], r.text, from, to, sep)
	if grid >= 2 && sep == sepSpace && (n != len(heads) || heads[0].kind == colSize) {
		if k := r.gridCells(dst, heads, i, j); k > 0 {
			return k
		}
	}
	if n < 2 || sep != sepSpace && n > len(heads)+1 {
		return 0
	}
	if sep == sepComma && (n < len(heads) || n > len(heads)) {
		return 0
	}
	start := from - r.indent(from)
	k, last := 0, -1
	for c := 0; c < n; c++ {
		h := -1
		switch {
		case sep != sepSpace || n == len(heads):
			h = c
		default:
			h = nearest(heads, spans[c][0]-start, spans[c][1]-start, last)
		}
		if h < 0 || h >= len(heads) {
			continue
		}
		last = h
		if k = r.addCell(dst, k, heads[h], spans[c][0], spans[c][1], i, j); k == len(dst) {
			break
		}
	}
	if sep == sepSpace && !r.rowLike(dst[:k], grid) {
		return 0
	}
	return k
}

// addCell adds the items of text[from:to] as a cell, unless there are none.
func (r *reader) addCell(dst []cell, k int, h heading, from, to, i, j int) int {
	for i < j && int(r.items[i].start) < from {
		i++
	}
	e := i
	for e < j && int(r.items[e].start) < to {
		e++
	}
	if e > i {
		dst[k] = cell{h, int32(i), int32(e)}
		k++
	}
	return k
}

// nearest is the column after the last one taken that a cell at bytes from to of its line stands under.
func nearest(heads []heading, from, to, last int) int {
	best, gap := -1, 1<<30
	for h := last + 1; h < len(heads); h++ {
		d := max(heads[h].from-to, from-heads[h].to, 0)*4 + min(abs(heads[h].from-from), abs(heads[h].to-to))
		if d < gap {
			best, gap = h, d
		}
	}
	return best
}

func abs(n int) int { return max(n, -n) }

// rowLike reports whether cells parted by spaces alone are a row: every number of pieces is a number.
func (r *reader) rowLike(cells []cell, grid int) bool {
	hit := 0
	for _, c := range cells {
		switch c.kind {
		case colQty, colSize:
			if !r.blankCell(c) && r.at(int(c.i0)).kind != iNum {
				return false
			}
			hit++
		case colGarment, colColour, colTotal, colOneSize:
			hit++
		}
	}
	return hit >= 1 && len(cells) >= 2
}

// blankCell reports whether a cell holds nothing but a dash, "none" or the like.
func (r *reader) blankCell(c cell) bool {
	it := r.at(int(c.i0))
	return c.i1-c.i0 == 1 && (it.kind == iPunct || it.is(cNothing) || it.is(cNo) || it.kind == iWord && it.end-it.start == 1 && it.word != wX)
}

// gridCells puts the numbers of a row under the sizes: by their order where there is one for each, else by where they stand. What comes before
// them heads the row.
func (r *reader) gridCells(dst []cell, heads []heading, i, j int) int {
	first := i
	for first < j && !r.gridNumber(first) {
		first++
	}
	numbers := 0
	for k := first; k < j; k++ {
		if !r.gridNumber(k) {
			return 0
		}
		numbers++
	}
	cols := 0
	for _, h := range heads {
		if h.kind == colSize || h.kind == colTotal || h.kind == colQty {
			cols++
		}
	}
	if numbers == 0 || numbers > cols+1 || first-i > 8 {
		return 0
	}
	k := 0
	if first > i {
		dst[k] = cell{heading{kind: colLabel}, int32(i), int32(first)}
		k++
	}
	start := int(r.items[i].start) - r.indent(int(r.items[i].start))
	last := -1
	for q := first; q < j && k < len(dst); q++ {
		h := last + 1
		if numbers >= cols {
			for h < len(heads) && heads[h].kind != colSize && heads[h].kind != colTotal && heads[h].kind != colQty {
				h++
			}
		} else {
			h = nearest(heads, int(r.items[q].start)-start, int(r.items[q].end)-start, last)
		}
		if h < 0 || h >= len(heads) {
			break // a total that no column is named for
		}
		last = h
		dst[k] = cell{heads[h], int32(q), int32(q + 1)}
		k++
	}
	return k
}

// gridNumber reports whether item i can fill a cell of a grid of sizes.
func (r *reader) gridNumber(i int) bool {
	it := r.at(i)
	return it.kind == iNum && !it.frac && !it.spelled || it.kind == iPunct && it.ch == '-' && !it.glued && !r.at(i+1).glued
}

// parseTableRow reads the facts of a row, cell by cell, each as if the text ended with it.
func (r *reader) parseTableRow(row *tableRow) {
	cells := r.cells[row.from:row.to]
	r.labelColours = r.labelColours && !row.head
	if row.head || r.noGoods(cells) {
		for i := row.i0; i < row.i1; i++ {
			r.items[i].fact = true
		}
		return
	}
	r.emit(int(row.i0), int(row.i0)+1, fact{kind: fRow})
	for k := 0; k < len(cells); k++ {
		c := cells[k]
		if c.kind == colSize {
			k = r.parseSizeCells(cells, k)
			continue
		}
		r.parseCell(c, cells)
	}
	r.header = r.header[:0]
}

// noGoods reports whether a row orders nothing: it adds up the rows above it, or was cancelled.
func (r *reader) noGoods(cells []cell) bool {
	if len(cells) > 0 {
		c := cells[0]
		it := r.at(int(c.i0))
		if h := columnNames[foldWord(r.text[it.start:it.end])]; c.kind != colQty && c.kind != colSize && h.kind == colTotal && it.kind <= iPhrase {
			return true
		}
	}
	for _, c := range cells {
		it, p := r.at(int(c.i1)-1), r.at(int(c.i1)-2)
		if r.punct(int(c.i1)-1, ')') {
			it, p = p, r.at(int(c.i1)-3)
		}
		if it.kind == iPhrase && it.is(cGone) && len(vocab.nodes[it.node].senses) == 0 && (c.i1-c.i0 == 1 || p.kind == iPunct && (p.ch == '-' || p.ch == '(' || p.ch == ':')) {
			return true
		}
	}
	return false
}

// parseSizeCells reads the pieces of each size in neighbouring cells and returns the last cell.
func (r *reader) parseSizeCells(cells []cell, k int) int {
	from, first := len(r.runs), cells[k].i0
	last := k
	for ; k < len(cells) && cells[k].kind == colSize; k++ {
		last = k
		for i := cells[k].i0; i < cells[k].i1; i++ {
			r.items[i].fact = true
		}
		if it := r.at(int(cells[k].i0)); it.kind == iNum && !it.frac && it.num > 0 && it.num < 1e6 {
			r.runs = append(r.runs, sized{cells[k].size, int(it.num)})
		}
	}
	if n := len(r.runs) - from; n > 0 {
		r.emit(int(first), int(cells[last].i1), fact{kind: fSizes, n: from, m: n, cell: colSize})
	}
	return last
}

// parseCell reads one cell.
func (r *reader) parseCell(c cell, row []cell) {
	i0, i1 := int(c.i0), int(c.i1)
	first := r.at(i0)
	switch c.kind {
	case colSkip, colTotal:
		if c.kind == colTotal && first.kind == iNum && !slices.ContainsFunc(row, func(o cell) bool { return o.kind == colSize || o.kind == colQty }) {
			c.kind = colQty
			r.parseCell(c, row)
			return
		}
		for i := i0; i < i1; i++ {
			r.items[i].fact = true
		}
		return
	case colQty:
		if first.kind == iNum && !first.frac && first.num < 1e9 {
			r.emit(i0, i1, fact{kind: fNumber, n: int(first.num), sure: 3, cell: colQty})
		}
		return
	case colOneSize:
		n := 1
		for _, o := range row {
			if it := r.at(int(o.i0)); o.kind == colQty && it.kind == iNum {
				n = int(it.num)
			}
		}
		if s, ok := r.sizeAt(i0); ok && i1-i0 == 1 {
			from := len(r.runs)
			r.runs = append(r.runs, sized{s, n})
			r.emit(i0, i1, fact{kind: fSizes, n: from, m: 1, cell: colOneSize})
			return
		}
	case colAt:
		if r.blankCell(c) {
			return
		}
		r.emit(i0, i0+1, fact{kind: fPlace, s: c.place, cell: colAt})
	}
	if r.blankCell(c) {
		return
	}
	n := len(r.facts)
	all := r.items
	r.items = all[:i1]
	for i := i0; i < i1; {
		i = max(i+1, r.parseAt(i))
	}
	r.items = all
	colours := 0
	for k := n; k < len(r.facts); k++ {
		x := &r.facts[k]
		x.cell = c.kind
		if x.kind == fColour {
			colours++
			x.weak = x.weak && c.kind == colText
		}
		if x.kind == fNumber && (c.kind == colPlace || c.kind == colColour || c.kind == colGarment) {
			x.dead = true
		}
	}
	if c.kind == colLabel && colours > 0 {
		r.labelColours = true
	}
	if colours == 0 && (c.kind == colColour || c.kind == colInk || c.kind == colLabel && r.labelColours) && (first.kind == iWord || first.kind == iPhrase) && len(r.facts) == n && r.at(i1-1).end-first.start >= 3 { // a colour by a name of the maker's own
		r.emit(i0, i1, fact{kind: fColour, s: lower(r.text[first.start:r.at(i1-1).end]), cell: c.kind})
	}
	if c.kind == colInk && len(r.facts) == n && first.kind == iNum && !first.frac && first.num >= 1 && first.num <= 12 {
		r.emit(i0, i1, fact{kind: fInks, n: int(first.num), cell: c.kind})
	}
}
