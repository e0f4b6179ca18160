package intake

import (
	"strings"
	"unicode/utf8"

	"strikeoff/rules"
)

// columnKind is what stands in a column of a table.
type columnKind uint8

const (
	colNone columnKind = iota // not the cell of a table
	colSkip
	colLabel // heads a row of a grid of sizes
	colText
	colQty
	colTotal
	colGarment
	colColour
	colFabric
	colSize    // the pieces of one size
	colOneSize // the size of the row's pieces
	colPlace
	colInk
	colAt // a print at the column's place
)

// heading is a column as the first row of a table names it.
type heading struct {
	kind     columnKind
	size     rules.Size
	place    string
	from, to int // where it stands in its line, in bytes
}

// cell is a stretch of items in a column.
type cell struct {
	heading
	i0, i1 int32
}

// tableRow is a line of a table: its cells are reader.cells[from:to]. The first row only names the columns.
type tableRow struct {
	i0, i1   int32
	from, to int
	head     bool
}

// columnNames are the headings of columns as words/columns.tsv lists them.
var columnNames = func() map[string]heading {
	kinds := map[string]columnKind{"skip": colSkip, "text": colText, "qty": colQty, "total": colTotal, "garment": colGarment, "colour": colColour, "fabric": colFabric,
		"one-size": colOneSize, "place": colPlace, "ink": colInk}
	m := map[string]heading{}
	for class, names := range rows("columns") {
		h := heading{kind: kinds[class]}
		if h.kind == colNone {
			h.kind, h.place = colAt, class
		}
		for _, n := range names {
			m[n] = h
		}
	}
	return m
}()

// separator is how the cells of a table are parted.
type separator uint8

const (
	sepNone separator = iota
	sepBar
	sepTab
	sepComma
	sepSpace // two or more spaces
)

// findTables finds the tables of the message: a row that names columns and the rows below it. Each line is looked at once or twice.
func (r *reader) findTables() {
	r.tables, r.cells = r.tables[:0], r.cells[:0]
	var heads [maxColumns]heading
	var row [maxColumns]cell
	sep, n, grid := sepNone, 0, 0
	blanks := 0
	for i := 0; i < len(r.items); {
		j := i
		for j < len(r.items) && r.items[j].kind != iBreak && r.items[j].kind != iPart {
			j++
		}
		switch {
		case j == i: // an empty line may part the rows, two end the table
			if blanks++; blanks > 1 {
				sep = sepNone
			}
		case sep != sepNone && r.ruled(i, j):
		case sep != sepNone:
			if k := r.tableCells(row[:], heads[:n], sep, grid, i, j); k > 0 {
				r.tables = append(r.tables, tableRow{i0: int32(i), i1: int32(j), from: len(r.cells), to: len(r.cells) + k})
				r.cells = append(r.cells, row[:k]...)
				blanks = 0
				break
			}
			sep = sepNone
			fallthrough
		default:
			blanks = 0
			if sep, n, grid = r.tableHead(heads[:], i, j); sep != sepNone && !r.rowFollows(heads[:n], sep, grid, j+1) {
				sep = sepNone
			}
			if sep != sepNone {
				r.tables = append(r.tables, tableRow{i0: int32(i), i1: int32(j), head: true})
				for k := i; k < j; k++ {
					r.hide(k)
				}
			}
		}
		i = j + 1
	}
	for k := range r.tables { // names stand elsewhere
		for i := r.tables[k].i0; i < r.tables[k].i1; i++ {
			r.items[i].upper = false
		}
	}
}

// maxColumns is how many columns of a table are read.
const maxColumns = 24

// ruled reports whether the line of items i to j is drawn with dashes or the like.
func (r *reader) ruled(i, j int) bool {
	for ; i < j; i++ {
		if it := r.at(i); it.kind != iPunct || it.ch != '-' && it.ch != '|' && it.ch != '=' && it.ch != '+' && it.ch != ':' && it.ch != '_' {
			return false
		}
	}
	return true
}

// rowFollows reports whether a row of the table stands below, one empty or ruled line between at most.
func (r *reader) rowFollows(heads []heading, sep separator, grid, i int) bool {
	var row [maxColumns]cell
	for tries := 0; tries < 3 && i < len(r.items); tries++ {
		j := i
		for j < len(r.items) && r.items[j].kind != iBreak && r.items[j].kind != iPart {
			j++
		}
		if j > i && !r.ruled(i, j) {
			return r.tableCells(row[:], heads, sep, grid, i, j) > 0
		}
		i = j + 1
	}
	return false
}

// tableHead reads the line of items i to j as names of columns. grid is how many of them are sizes.
func (r *reader) tableHead(heads []heading, i, j int) (sep separator, n, grid int) {
	from, to := int(r.items[i].start), int(r.items[j-1].end)
	if to-from > 240 || to-from < 5 {
		return sepNone, 0, 0
	}
	line := r.text[from:to]
	switch {
	case strings.IndexByte(line, '|') >= 0:
		sep = sepBar
	case strings.IndexByte(line, '\t') >= 0:
		sep = sepTab
	case strings.Contains(line, "  "):
		sep = sepSpace
	case strings.IndexByte(line, ',') >= 0 && strings.IndexByte(line, '.') < 0:
		sep = sepComma
	default:
		return sepNone, 0, 0
	}
	var spans [maxColumns][2]int
	n = splitCells(spans[:], r.text, from, to, sep)
	if n < 2 {
		return sepNone, 0, 0
	}
	start := from - r.indent(from)
	known, filled, goods := 0, 0, 0
	for k := 0; k < n; k++ {
		h := r.headingOf(spans[k][0], spans[k][1], i, j)
		if spans[k][1] > spans[k][0] {
			filled++
		}
		if h.kind != colNone {
			known++
		}
		switch h.kind {
		case colSize:
			grid++
		case colQty, colGarment, colColour, colTotal, colOneSize:
			goods++
		}
		h.from, h.to = spans[k][0]-start, spans[k][1]-start
		heads[k] = h
	}
	switch {
	case grid >= 2 && known+1 >= filled && !(sep == sepComma && goods == 0): // one column may have a name of its own
	case known >= 3 && goods >= 1 && known*3 >= filled*2 && !(sep == sepComma && known < filled):
	case known == 2 && filled == 2 && goods >= 1 && sep != sepComma:
	default:
		return sepNone, 0, 0
	}
	r.youthColumns(heads[:n], i)
	for k := 0; k < n; k++ {
		if h := &heads[k]; h.kind == colNone && h.to > h.from {
			h.kind = colSkip
			if grid >= 2 && k == 0 {
				h.kind = colLabel
			}
		} else if h.kind == colNone && k == 0 {
			h.kind = colLabel
		}
	}
	return sep, n, grid
}

// youthColumns makes youth sizes of those that the line above the headings, from item i on, says are: "Youth  Adult" over "S M L  S M L".
func (r *reader) youthColumns(heads []heading, i int) {
	i-- // the break
	var young [4]bool
	n := 0
	for i--; i >= 0 && r.at(i).kind != iBreak && r.at(i).kind != iPart; i-- {
		it := r.at(i)
		if it.kind == iPunct {
			continue
		}
		if !it.is(cYouth) && !it.is(cAdult) || n == len(young) {
			return
		}
		young[n] = it.is(cYouth)
		n++
	}
	if n == 0 {
		return
	}
	group, last := n-1, rules.Size("")
	for k := range heads {
		h := &heads[k]
		if h.kind != colSize {
			continue
		}
		size := h.size
		if last != "" && !larger(size, last) && group > 0 {
			group--
		}
		if young[group] && youth[size] != "" {
			h.size = youth[size]
		}
		last = size
	}
}

// indent is how far the text at byte i stands from the start of its line.
func (r *reader) indent(i int) int {
	return i - 1 - strings.LastIndexByte(r.text[:i], '\n')
}

// headingOf is what the column named by text[from:to] holds.
func (r *reader) headingOf(from, to, i, j int) heading {
	for i < j && int(r.items[i].start) < from {
		i++
	}
	if i < j && int(r.items[i].start) == from && int(r.items[i].end) == to {
		if s, ok := r.sizeAt(i); ok {
			return heading{kind: colSize, size: s}
		}
	}
	if to-from > 24 {
		return heading{}
	}
	var key [48]byte
	n := 0
	for _, c := range r.text[from:to] {
		if c == '.' || c == ':' || c == '*' || c == '(' || c == ')' {
			continue
		}
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		n += utf8.EncodeRune(key[n:n+utf8.UTFMax:len(key)], c)
		if n+utf8.UTFMax > len(key) {
			break
		}
	}
	return columnNames[string(key[:n])]
}

// splitCells cuts text[from:to] into cells, without the space around them.
func splitCells(dst [][2]int, text string, from, to int, sep separator) int {
	n := 0
	add := func(a, b int) {
		for a < b && (text[a] == ' ' || text[a] == '\t') {
			a++
		}
		for b > a && (text[b-1] == ' ' || text[b-1] == '\t') {
			b--
		}
		if n < len(dst) {
			dst[n] = [2]int{a, b}
			n++
		}
	}
	a, quoted := from, false
	for i := from; i < to; i++ {
		switch c := text[i]; {
		case c == '"' && sep == sepComma && (quoted || i == a):
			quoted = !quoted
		case quoted:
		case c == '|' && sep == sepBar:
			if i > from { // the bar that opens a row parts nothing
				add(a, i)
			}
			a = i + 1
		case c == '\t' && sep == sepTab, c == ',' && sep == sepComma:
			add(a, i)
			a = i + 1
		case c == ' ' && sep == sepSpace && i+1 < to && text[i+1] == ' ':
			add(a, i)
			for i+1 < to && text[i+1] == ' ' {
				i++
			}
			a = i + 1
		}
	}
	if a < to || sep == sepComma || sep == sepTab {
		add(a, to)
	}
	return n
}
