package intake

import (
	"embed"
	"fmt"
	"strconv"
	"strings"
)

//go:embed words/*.tsv
var wordFiles embed.FS

// senseKind is what sort of fact a phrase can be.
type senseKind uint8

const (
	sNone senseKind = iota
	sGarment
	sFibre
	sFabric
	sColour
	sPlace
	sMethod
	sEffect
	sWish
	sUse
	sSize
	sNumber
	sMonth
	sDay
	sKinds
)

// sense is one meaning of a phrase.
type sense struct {
	kind senseKind
	weak bool   // counts only where such a fact is expected
	val  string // the contract's word
	num  int    // value of a number, month or weekday
}

// node is a place in the trie of phrases.
type node struct {
	senses []sense
	cues   cueSet
	stop   bool // the words up to here are no facts
	end    bool // some phrase ends here
}

// lexicon is the vocabulary: words by number, and phrases as a trie over word numbers. It is built once and only read afterwards.
type lexicon struct {
	words map[string]int32
	names []string
	next  map[uint64]int32
	nodes []node
	first []int32 // trie node of a single word, 0 for none
	typos typoIndex
}

// vocab is built when the program starts.
var vocab = loadLexicon()

// wX and the like are words that grammar asks for by name.
var (
	wX     = vocab.intern("x")
	wAnd   = vocab.intern("and")
	wY     = vocab.intern("y")
	wOr    = vocab.intern("or")
	wIn    = vocab.intern("in")
	wFor   = vocab.intern("for")
	wBy    = vocab.intern("by")
	wOn    = vocab.intern("on")
	wA     = vocab.intern("a")
	wThe   = vocab.intern("the")
	wOf    = vocab.intern("of")
	wSt    = vocab.intern("st")
	wNd    = vocab.intern("nd")
	wRd    = vocab.intern("rd")
	wTh    = vocab.intern("th")
	wC     = vocab.intern("c")
	wSpot  = vocab.intern("spot")
	wDe    = vocab.intern("de")
	wSlash = vocab.intern("/")
	wPlus  = vocab.intern("+")
	wAmp   = vocab.intern("&")
	wIs    = vocab.intern("is")
	wEl    = vocab.intern("el")
	wMore  = vocab.intern("more")
	wThen  = vocab.intern("then")
	wWith  = vocab.intern("with")
	wFrom  = vocab.intern("from")
)

// sections says which file holds which kind of fact.
var sections = []struct {
	file string
	kind senseKind
}{
	{"garments", sGarment}, {"fibres", sFibre}, {"fabrics", sFabric}, {"colours", sColour}, {"survey", sColour}, {"places", sPlace},
	{"methods", sMethod}, {"effects", sEffect}, {"wishes", sWish}, {"uses", sUse}, {"sizes", sSize}, {"numbers", sNumber}, {"calendar", sMonth},
}

// hues are the plain colours that a thing may lend its shade to. White and black are not among them: in "sea white print" the white is the ink.
var hues = [...]string{"blue", "green", "grey", "red", "pink", "brown", "yellow", "orange", "purple", "teal"}

// loadLexicon reads the word files. They are part of the program, so a fault in them is a fault of the program: it panics at start.
func loadLexicon() *lexicon {
	l := &lexicon{words: make(map[string]int32, 4096), names: []string{""}, next: make(map[uint64]int32, 16384), nodes: make([]node, 1, 16384)}
	l.intern("/")
	l.intern("+")
	l.intern("&")
	var shades []sense
	for _, s := range sections {
		for value, phrases := range rows(s.file) {
			for _, p := range phrases {
				p, weak := strings.CutPrefix(p, "~")
				l.add(p, makeSense(s.kind, value, weak))
			}
			if s.kind == sColour && !strings.Contains(value, " ") && s.file == "colours" {
				shades = append(shades, sense{val: value})
			}
		}
	}
	for value, phrases := range rows("modifiers") {
		for _, m := range phrases {
			for _, s := range shades {
				if p := m + " " + s.val; !l.has(p, sColour) {
					l.add(p, sense{kind: sColour, val: value + " " + s.val})
				}
				if s.val == "grey" {
					l.add(m+" gray", sense{kind: sColour, val: value + " grey"})
				}
			}
		}
	}
	for m := range rows("tints") {
		for _, hue := range hues {
			for _, p := range [2]string{hue, strings.Replace(hue, "grey", "gray", 1)} {
				if p = m + " " + p; !l.has(p, sColour) {
					l.add(p, sense{kind: sColour, val: m + " " + hue})
				}
			}
		}
	}
	for class, phrases := range rows("cues") {
		c, ok := cueNames[class]
		if !ok {
			panic("intake: words/cues.tsv names a class that nothing reads: " + class)
		}
		for _, p := range phrases {
			for _, p := range pointing(p) {
				n := &l.nodes[l.path(p)]
				n.cues.add(c)
				n.end = true
			}
		}
	}
	for p := range rows("stops") {
		for _, p := range strings.Split(p, "|") {
			n := &l.nodes[l.path(p)]
			n.stop, n.end = true, true
		}
	}
	l.first = make([]int32, len(l.names)+64)
	for w := range l.names {
		l.first[w] = l.next[uint64(w)]
	}
	l.typos = makeTypoIndex(l)
	return l
}

// rows yields a word file's values with their phrases.
func rows(file string) func(func(string, []string) bool) {
	b, err := wordFiles.ReadFile("words/" + file + ".tsv")
	if err != nil {
		panic(fmt.Sprintf("intake: word file %s: %v", file, err))
	}
	return func(yield func(string, []string) bool) {
		for _, line := range strings.Split(string(b), "\n") {
			if line == "" || line[0] == '#' {
				continue
			}
			value, list, found := strings.Cut(line, "\t")
			if !found || list == "" {
				list = value
			}
			if !yield(value, strings.Split(list, "|")) {
				return
			}
		}
	}
}

// pointing are the phrases that one with {it} stands for: each word that points back in its place.
func pointing(p string) []string {
	if !strings.Contains(p, "{it}") {
		return []string{p}
	}
	var out []string
	for _, it := range []string{"it", "that", "this", "them", "those", "these"} {
		out = append(out, strings.ReplaceAll(p, "{it}", it))
	}
	return out
}

func makeSense(k senseKind, value string, weak bool) sense {
	s := sense{kind: k, val: value, weak: weak}
	switch {
	case k == sNumber:
		s.num, _ = strconv.Atoi(value)
	case k == sMonth:
		s.num, _ = strconv.Atoi(value[1:])
		if value[0] == 'd' {
			s.kind = sDay
		}
	}
	return s
}

// intern is the number of a word, which it gets if it has none.
func (l *lexicon) intern(w string) int32 {
	if id, ok := l.words[w]; ok {
		return id
	}
	id := int32(len(l.names))
	l.words[w] = id
	l.names = append(l.names, w)
	if l.first != nil {
		for int(id) >= len(l.first) {
			l.first = append(l.first, 0)
		}
	}
	return id
}

// split takes a phrase apart as the tokenizer takes text apart.
func (l *lexicon) split(p string) []int32 {
	var out []int32
	for _, r := range p {
		switch r {
		case '/', '+', '&':
			p = strings.ReplaceAll(p, string(r), " "+string(r)+" ")
		case '.', '\'':
			p = strings.ReplaceAll(p, string(r), "")
		case '-':
			p = strings.ReplaceAll(p, "-", " ")
		}
	}
	for _, w := range strings.Fields(p) {
		for _, part := range splitDigits(w) {
			if f := foldWord(part); f != "" {
				out = append(out, l.intern(f))
			} else {
				out = append(out, l.intern(part))
			}
		}
	}
	return out
}

// splitDigits takes "2xl" apart as 2 and xl.
func splitDigits(w string) []string {
	var out []string
	from := 0
	isDigit := func(b byte) bool { return b >= '0' && b <= '9' }
	for i := 1; i < len(w); i++ {
		if isDigit(w[i]) != isDigit(w[i-1]) {
			out = append(out, w[from:i])
			from = i
		}
	}
	return append(out, w[from:])
}

// path is the trie node at the end of a phrase, made where it is missing.
func (l *lexicon) path(p string) int32 {
	n := int32(0)
	for _, w := range l.split(p) {
		key := uint64(n)<<32 | uint64(w)
		child, ok := l.next[key]
		if !ok {
			child = int32(len(l.nodes))
			l.nodes = append(l.nodes, node{})
			l.next[key] = child
		}
		n = child
	}
	return n
}

func (l *lexicon) has(p string, k senseKind) bool {
	for _, s := range l.nodes[l.path(p)].senses {
		if s.kind == k {
			return true
		}
	}
	return false
}

func (l *lexicon) add(p string, s sense) {
	if strings.TrimSpace(p) == "" {
		return
	}
	n := &l.nodes[l.path(p)]
	n.end = true
	for _, old := range n.senses {
		if old.kind == s.kind {
			return // the first file and row win
		}
	}
	n.senses = append(n.senses, s)
}

// lookup is the number of a folded word, by itself or as a likely misspelling of a word that is known; 0 where it is neither.
func (l *lexicon) lookup(key []byte, plain bool) (id int32, typo bool) {
	if id, ok := l.words[string(key)]; ok {
		return id, false
	}
	if id := l.typos.find(key, plain); id != 0 {
		return id, true
	}
	return 0, false
}
