package colour

import (
	_ "embed"
	"strings"
)

//go:embed names/trade.csv
var tradeCSV string

//go:embed names/css.csv
var cssCSV string

//go:embed names/survey.csv
var surveyCSV string

// Named is a colour word made a colour.
type Named struct {
	Linear Linear
	Lab    Lab
	List   string // which list knew the word: "trade", "css", "survey", or "derived" from a shorter word
}

// known is filled once, before main, and only read after that.
var known = load()

func load() map[string]Named {
	m := make(map[string]Named, 1300)
	for _, l := range []struct{ name, csv string }{{"trade", tradeCSV}, {"css", cssCSV}, {"survey", surveyCSV}} {
		for row := range strings.Lines(l.csv) {
			name, hex, ok := strings.Cut(strings.TrimSpace(row), ",")
			if !ok || strings.HasPrefix(row, "#") {
				continue
			}
			c, ok := Hex(hex)
			if !ok {
				continue // the header
			}
			if _, taken := m[name]; !taken {
				m[name] = Named{Linear: c, Lab: c.Lab(), List: l.name}
			}
		}
	}
	return m
}

// Lookup is the typical colour that a word means on goods: the trade's own words first, then CSS names, then a public survey. Words such
// as light, dark, heather or neon in front of a known colour are understood. It reports false for a word nobody knows, and for swatch
// references such as "pms 186", which have no open list.
func Lookup(word string) (Named, bool) {
	if n, ok := known[word]; ok {
		return n, true
	}
	w := strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(word, "-", " "))), " ")
	w = strings.ReplaceAll(w, "gray", "grey")
	if n, ok := known[w]; ok {
		return n, true
	}
	if c, ok := Hex(w); ok && strings.HasPrefix(w, "#") {
		return Named{Linear: c, Lab: c.Lab(), List: "derived"}, true
	}
	if n, ok := known[strings.ReplaceAll(w, " ", "")]; ok {
		return n, true
	}
	first, rest, more := strings.Cut(w, " ")
	if !more {
		return Named{}, false
	}
	if n, ok := Lookup(rest); ok {
		return shift(n, first), true
	}
	if n, ok := Lookup(w[:strings.LastIndexByte(w, ' ')]); ok { // "navy marl", "red ink"
		n.List = "derived"
		return n, true
	}
	return Named{}, false
}

// shift changes a colour by the word in front of it. The steps are from memory of how the trade uses the words.
func shift(n Named, word string) Named {
	n.List = "derived"
	up, down := 0.0, 1.0
	switch word {
	case "light", "pale", "soft", "pastel", "baby", "bleached":
		up = 0.5
	case "dark", "deep", "rich", "midnight":
		down = 0.45
	case "washed", "faded", "vintage", "dusty", "heather":
		up = 0.12
	}
	for i, v := range n.Linear {
		n.Linear[i] = (v + (1-v)*up) * down
	}
	n.Lab = n.Linear.Lab()
	return n
}
