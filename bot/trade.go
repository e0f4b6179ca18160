package bot

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// How the trade's words read in a sentence. A word that is not listed is shown as it is, with spaces for hyphens.

var methodWords = map[rules.Method]string{rules.WaterBased: "water-based ink", rules.DTG: "DTG", rules.DTF: "DTF",
	rules.HeatTransfer: "heat transfer", rules.Screen: "screen print"}

var baseWords = map[rules.Base]string{rules.WhiteBase: "on a white base", rules.LowBleedWhite: "on a low-bleed white base",
	rules.GreyBlocker: "on a grey blocker base", rules.WaterBasedBlocker: "on a water-based blocker base", rules.Pretreat: "on pretreat",
	rules.PretreatWhite: "on pretreat and a white base", rules.BlockOut: "with a block-out layer"}

var additiveWords = map[rules.Additive]string{rules.StretchAdditive: "stretch additive", rules.LowCure: "low-cure additive",
	rules.Bonding: "bonding agent"}

// heatVerb is what the heat does to each method's ink.
var heatVerb = map[rules.Method]string{rules.Sublimation: "press", rules.DTF: "press", rules.HeatTransfer: "press"}

var fabricWords = map[fibre.Class]string{fibre.AllCotton: "cotton", fibre.CVC: "CVC", fibre.FiftyFifty: "50/50 cotton and polyester",
	fibre.TriBlend: "tri-blend", fibre.PolyCotton: "poly-cotton", fibre.PolyViscose: "poly-viscose", fibre.Other: "another blend"}

var verdictWords = map[rules.Verdict]string{rules.Yes: "yes", rules.Test: "test first", rules.Expert: "practised hands only", rules.No: "no"}

var placeWords = map[rules.Place]string{"nape": "nape", "inside-neck": "inside neck"}

// word shows a word of a list, or the word itself with spaces for hyphens.
func word[K ~string](list map[K]string, k K) string {
	if w, ok := list[k]; ok {
		return w
	}
	return strings.ReplaceAll(string(k), "-", " ")
}

// garments names n of a garment: "72 t-shirts", "1 hoodie", "t-shirts, number unsaid".
func garments(l rules.Line) string {
	many := l.Garment.Many()
	switch {
	case !l.Quantity.Known:
		return many + ", number unsaid"
	case l.Quantity.Value == 1:
		return "1 " + l.Garment.One()
	}
	return strconv.Itoa(l.Quantity.Value) + " " + many
}

// blend says what a fabric is made of: percents where they were said, else its class.
func blend(l rules.Line) string {
	if len(l.Fibres) == 0 {
		if l.Fabric == "" {
			return "fabric unsaid"
		}
		return word(fabricWords, l.Fabric)
	}
	fs := make([]rules.Fibre, 0, len(l.Fibres))
	for f := range l.Fibres {
		fs = append(fs, f)
	}
	slices.SortFunc(fs, func(a, b rules.Fibre) int {
		if l.Fibres[a] != l.Fibres[b] {
			return int(math.Copysign(1, l.Fibres[b]-l.Fibres[a]))
		}
		return strings.Compare(string(a), string(b))
	})
	parts := make([]string, len(fs))
	for i, f := range fs {
		parts[i] = fmt.Sprintf("%s %s %%", strings.ReplaceAll(string(f), "-", " "), figure(l.Fibres[f]))
	}
	return strings.Join(parts, ", ")
}

// colours says a line's colours: "navy", "heather navy", "black and red".
func colours(l rules.Line) string {
	s := list(l.Colours)
	switch {
	case s == "" && l.Heather:
		return "heather"
	case s == "":
		return "colour unsaid"
	case l.Heather:
		return "heather " + s
	}
	return s
}

// sizes says a size run, smallest first: "S 10, M 30".
func sizes(s rules.Sizes) string {
	var parts []string
	for _, z := range rules.SizeOrder {
		if n, ok := s[z]; ok {
			parts = append(parts, fmt.Sprintf("%s %d", z, n))
		}
	}
	return strings.Join(parts, ", ")
}

// printWhere says one print: "front, 280 x 300 mm, white, 1 ink".
func printWhere(p rules.Print) string {
	parts := []string{"place unsaid"}
	if p.Place != "" {
		parts[0] = word(placeWords, p.Place)
	}
	if s := printSize(p); s != "" {
		parts = append(parts, s)
	}
	if len(p.Inks) > 0 {
		parts = append(parts, list(p.Inks))
	}
	switch {
	case p.FullColour:
		parts = append(parts, "full colour")
	case p.InkCount.Known && p.InkCount.Value == 1:
		parts = append(parts, "1 ink")
	case p.InkCount.Known:
		parts = append(parts, fmt.Sprintf("%d inks", p.InkCount.Value))
	}
	if p.Coverage.Known {
		parts = append(parts, figure(p.Coverage.Value)+" % covered")
	}
	for _, e := range p.Effects {
		parts = append(parts, strings.ReplaceAll(string(e), "-", " "))
	}
	return strings.Join(parts, ", ")
}

// printSize says the sides that are known: "279 x 305 mm (11 x 12 in)".
func printSize(p rules.Print) string {
	switch w, h := p.WidthMM, p.HeightMM; {
	case w.Known && h.Known:
		return fmt.Sprintf("%.0f x %.0f mm (%s x %s in)", w.Value, h.Value, figure(w.Value/mmPerInch), figure(h.Value/mmPerInch))
	case w.Known:
		return fmt.Sprintf("%.0f mm (%s in) wide", w.Value, figure(w.Value/mmPerInch))
	case h.Known:
		return fmt.Sprintf("%.0f mm (%s in) high", h.Value, figure(h.Value/mmPerInch))
	}
	return ""
}

// mmPerInch is exact by definition.
const mmPerInch = 25.4

// setup says how a method is set up: "plastisol on a low-bleed white base, softener; cure at 132 to 138 °C (270 to 280 °F) for 60 to 75 s".
func setup(c rules.Choice) string {
	s := word(methodWords, c.Method)
	if b := c.Setup.Base; b != "" && b != rules.NoBase {
		s += " " + word(baseWords, b)
	}
	for _, a := range c.Setup.Additives {
		s += ", " + word(additiveWords, a)
	}
	if h := c.Setup.Heat; h != nil {
		verb, ok := heatVerb[c.Method]
		if !ok {
			verb = "cure"
		}
		s += "; " + verb + " at " + heat(*h)
	}
	return s
}

// heat says a window in both scales: "132 to 138 °C (270 to 280 °F) for 60 to 75 s".
func heat(h rules.Heat) string {
	return fmt.Sprintf("%s °C (%s °F) for %s s", span(h.TempC), span([2]float64{fahrenheit(h.TempC[0]), fahrenheit(h.TempC[1])}), span(h.Seconds))
}

// fahrenheit is a temperature in °F, rounded to a whole degree.
func fahrenheit(c float64) float64 { return math.Round(c*9/5 + 32) }

// span says a range, or one figure where both ends are the same.
func span(r [2]float64) string {
	if r[0] == r[1] {
		return figure(r[0])
	}
	return figure(r[0]) + " to " + figure(r[1])
}

// figure says a number with at most one decimal.
func figure(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

// list joins words as a sentence does: "a", "a and b", "a, b and c".
func list[S ~[]E, E ~string](words S) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return string(words[0])
	}
	var b strings.Builder
	for i, w := range words {
		switch {
		case i == len(words)-1:
			b.WriteString(" and ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(string(w))
	}
	return b.String()
}

// day says a date: "Fri 18 Dec 2026"; a date that is no calendar day is shown as it is.
func day(d rules.Date) string {
	t, ok := d.Time()
	if !ok {
		return string(d)
	}
	return t.Format("Mon 2 Jan 2006")
}

// hour says a time in the shop's zone: "Fri 27 Nov 14:00".
func hour(t time.Time, zone *time.Location) string { return t.In(zone).Format("Mon 2 Jan 15:04") }

// sentence begins with a capital and ends with a full stop.
func sentence(s string) string { return stopped(capital(strings.TrimSpace(s))) }

// stopped ends with a full stop, unless it ends a sentence already.
func stopped(s string) string {
	s = strings.TrimSpace(s)
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".?:!") {
		return s
	}
	return s + "."
}

// capital begins with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// plain is text without what no one can see: control characters but line breaks, and the marks that turn the direction of what
// follows.
func plain(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.IsControl(r), r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069', r == '\ufeff':
			return -1
		}
		return r
	}, s))
}
