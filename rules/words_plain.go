package rules

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"strikeoff/rules/fibre"
)

// The words that people read. No code of a field or a value reaches a person: it is said in plain English here.

// Plain is the method as people say it.
func (m Method) Plain() string {
	switch m {
	case WaterBased:
		return "water-based ink"
	case Discharge:
		return "discharge ink"
	case DTG:
		return "direct-to-garment print"
	case DTF:
		return "printed film transfer"
	case HeatTransfer:
		return "heat transfer"
	case Screen:
		return "screen print"
	}
	return string(m)
}

// Plain is the base as people say it.
func (b Base) Plain() string {
	switch b {
	case WhiteBase:
		return "a white base"
	case LowBleedWhite:
		return "a low-bleed white base"
	case GreyBlocker:
		return "a grey blocking base"
	case WaterBasedBlocker:
		return "a water-based blocking base"
	case Pretreat:
		return "pretreatment"
	case PretreatWhite:
		return "pretreatment and a white base"
	case BlockOut:
		return "a barrier layer"
	}
	return "no base"
}

// Plain is the additive as people say it.
func (a Additive) Plain() string {
	switch a {
	case StretchAdditive:
		return "stretch additive"
	case LowCure:
		return "low-cure ink"
	case Bonding:
		return "bonding agent"
	}
	return string(a)
}

// Plain is the heat window in both units: "155 to 163 °C (311 to 325 °F), 60 to 90 s".
func (h Heat) Plain() string {
	return degrees(h.TempC[0], h.TempC[1]) + ", " + span(h.Seconds[0], h.Seconds[1]) + " s"
}

// degrees writes a window of temperature in both units.
func degrees(lo, hi float64) string {
	f := func(c float64) float64 { return math.Round(c*9/5 + 32) }
	if lo == hi {
		return num(lo) + " °C (" + num(f(lo)) + " °F)"
	}
	return span(lo, hi) + " °C (" + span(f(lo), f(hi)) + " °F)"
}

func span(lo, hi float64) string {
	if lo == hi {
		return num(lo)
	}
	return num(lo) + " to " + num(hi)
}

func num(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func itoa(n int) string { return strconv.Itoa(n) }

func quoted(s string) string { return "“" + s + "”" }

// hours writes minutes of work: "40 minutes", "3.5 hours".
func hours(mins float64) string {
	if mins < 100 {
		return num(math.Round(mins)) + " minutes"
	}
	return num(math.Round(mins/30)/2) + " hours"
}

// and joins words: "a", "a and b", "a, b and c".
func and(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

func garmentWord(l *Line) string {
	if l.Garment == "" || l.Garment == "other" {
		return "garment"
	}
	return l.Garment.One()
}

func placeWord(p Place) string {
	if p == "" {
		return "print"
	}
	return strings.ReplaceAll(string(p), "-", " ")
}

// lineWord names a line by what it is: "navy nylon jacket".
func lineWord(l *Line, c cloth) string {
	words := []string{}
	if len(l.Colours) > 0 {
		words = append(words, strings.Join(l.Colours, " and "))
	}
	if c.known {
		words = append(words, c.word())
	}
	return strings.Join(append(words, garmentWord(l)), " ")
}

// className is a class of cloth as people say it.
func className(c Fabric) string {
	switch c {
	case fibre.CVC:
		return "cotton-rich blend"
	case fibre.FiftyFifty:
		return "50/50 blend"
	case fibre.PolyCotton:
		return "polyester-rich blend"
	case fibre.PolyViscose:
		return "polyester-viscose"
	}
	return string(c)
}

// part is one kind of fibre in a cloth.
type part struct {
	name  string
	share float64
}

// parts lists what a cloth is made of, largest share first.
func (c cloth) parts() []part {
	s := c.said
	all := []part{{"cotton", s.Cotton}, {"viscose", s.Regenerate}, {"linen or hemp", s.Bast}, {"polyester", s.Polyester}, {"nylon", s.Nylon},
		{"acrylic", s.Acrylic}, {"wool", s.Wool}, {"elastane", s.Elastane}}
	all = slices.DeleteFunc(all, func(p part) bool { return p.share <= 0 })
	slices.SortStableFunc(all, func(x, y part) int { return cmp.Compare(y.share, x.share) })
	return all
}

// fibreWords writes a make-up, largest share first: "60 % cotton, 40 % polyester".
func fibreWords(c cloth) string {
	var out []string
	for _, p := range c.parts() {
		out = append(out, num(math.Round(100*p.share))+" % "+p.name)
	}
	return strings.Join(out, ", ")
}

// clothWord is the print's cloth with the method beside it, as a step's text tells cloths apart.
func (b *bench) clothWord() string {
	if !b.cloth.known {
		return b.pick.Plain()
	}
	return b.cloth.word() + " in " + b.pick.Plain()
}

// word is a cloth as people say it.
func (c cloth) word() string {
	if c.class != fibre.Other {
		return className(c.class)
	}
	ps := c.parts()
	if len(ps) > 2 {
		ps = ps[:2]
	}
	names := make([]string, len(ps))
	for i, p := range ps {
		names[i] = p.name
	}
	return strings.Join(names, "-")
}
