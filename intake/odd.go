package intake

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"strikeoff/rules"
)

// mostPieces is the greatest quantity that is believed without a question.
const mostPieces = 100_000

// widest is the size in millimetres above which no print on a garment is believed without a question.
const widest = 1200

// oddity notes something that a person should look at.
func (r *reader) oddity(code, field, text string) {
	for _, o := range r.odd {
		if o.Code == code && o.Field == field {
			return
		}
	}
	r.odd = append(r.odd, Oddity{Code: code, Field: field, Text: text})
}

// readable reports whether the message is text that can be read. Text beyond the limit is left unread, and said to be.
func (r *reader) readable() bool {
	if strings.TrimSpace(r.text) == "" {
		r.oddity("empty", "", "The message is empty. Paste the customer's request: how many of what, in which colour, and what is printed where.")
		return false
	}
	if len(r.text) > maxRead {
		r.oddity("too-long", "", fmt.Sprintf("The message is longer than %d characters: only the beginning was read. Paste the request alone.", maxRead))
		cut := maxRead
		for cut > 0 && r.text[cut]&0xC0 == 0x80 {
			cut--
		}
		r.text = r.text[:cut]
	}
	bad, seen := 0, 0
	for i := 0; i < len(r.text); {
		c := r.text[i]
		if c >= ' ' && c < 0x7F || c == '\n' || c == '\t' || c == '\r' {
			i++
			seen++
			continue
		}
		v, n := utf8.DecodeRuneInString(r.text[i:])
		if v == utf8.RuneError && n <= 1 || c < ' ' || c == 0x7F {
			bad++
		}
		seen++
		i += max(n, 1)
	}
	if bad == 0 {
		return true
	}
	if bad*10 > seen {
		r.oddity("binary", "", "This is not text: it looks like a file. Paste the request as text, and attach artwork as a picture.")
		return false
	}
	r.oddity("binary", "", "Some characters in the message could not be read and were skipped. Check what was understood against the original.")
	return true
}

// nothingRead says that a message held no word that could be read.
func (r *reader) nothingRead() {
	for i := range r.items {
		if it := &r.items[i]; it.kind == iNum || it.node != 0 {
			return
		}
	}
	latin := false
	for i := range r.items {
		if it := &r.items[i]; it.kind == iWord && it.end > it.start && r.text[it.start] < 0x80 {
			latin = true
		}
	}
	if !latin {
		r.oddity("no-words", "", "No word of this message could be read. Requests are read in English and Spanish: type how many of what, in which colour, and what is printed where.")
	}
}

// judge looks for what contradicts itself or cannot be in what was read.
func (r *reader) judge(out *Reading) {
	o := &out.Order
	for k := range o.Lines {
		l := &o.Lines[k]
		if l.Quantity.Known {
			switch q := l.Quantity.Value; {
			case q <= 0:
				r.oddity("quantity", linePath(k, 0), fmt.Sprintf("The message says %d pieces. No quantity was taken. Type how many, for example: make it 24.", q))
				l.Quantity = rules.Maybe[int]{}
			case q > mostPieces:
				r.oddity("quantity", linePath(k, 0), fmt.Sprintf("The message says %d pieces, which is more than a shop prints. It was taken as written. Type the right number, for example: make it 240.", q))
			}
		}
		if n := l.Sizes.Total(); len(l.Sizes) > 0 && l.Quantity.Known && l.Quantity.Value != n {
			r.oddity("sizes-total", linePath(k, 1), fmt.Sprintf("The sizes add up to %d, but the quantity is %d. Both were taken as written. Type which holds, for example: make it %d.", n, l.Quantity.Value, n))
		}
		if l.Fibres != nil {
			if t := l.Fibres.Total(); t < 99.5 || t > 100.5 {
				r.oddity("percent-total", linePath(k, 3), fmt.Sprintf("The fibres add up to %s %%, not 100 %%. They were taken as written. Type the blend again, for example: 60%% cotton 40%% polyester.", plainNumber(t)))
			}
		}
		for q := range l.Prints {
			p := &l.Prints[q]
			if p.InkCount.Known && len(p.Inks) > p.InkCount.Value {
				r.oddity("ink-count", printPath(k, q, 4), fmt.Sprintf("The message says %d ink colours for the print and names %d. Both were taken as written. Type which colours are printed.", p.InkCount.Value, len(p.Inks)))
			}
			if p.WidthMM.Or(0) > widest || p.HeightMM.Or(0) > widest {
				r.oddity("print-size", printPath(k, q, 1), fmt.Sprintf("The print would measure %s mm by %s mm, more than a garment holds. It was taken as written, in inches where no unit stands. Type the size with its unit, for example: 280 x 350 mm.", plainNumber(p.WidthMM.Or(0)), plainNumber(p.HeightMM.Or(0))))
			}
			if p.Coverage.Known && p.Coverage.Value > 100 {
				r.oddity("coverage", printPath(k, q, 6), fmt.Sprintf("A print cannot cover %s %% of its area. No coverage was taken. Type the right share.", plainNumber(p.Coverage.Value)))
				p.Coverage = rules.Maybe[float64]{}
			}
		}
	}
	if r.fibre > 0 {
		for k := range o.Lines {
			if l := &o.Lines[k]; l.Fibres != nil && l.Fibres.Total() < 99.5 {
				w := r.items[r.fibre]
				r.oddity("unknown-fibre", linePath(k, 3), fmt.Sprintf("%q is no fibre that is known here, and its share was left out. Type the blend again, for example: 60%% cotton 40%% polyester.", r.text[w.start:w.end]))
			}
		}
	}
	if t, ok := o.Due.Time(); ok && r.dated && t.Before(r.today()) {
		r.oddity("past-date", "due", fmt.Sprintf("The day needed, %s, is before the day the message came. It was taken as written. Type the right day, for example: due %s.", t.Format("Monday 2 January 2006"), r.today().AddDate(0, 0, 14).Format("2 January 2006")))
	}
	out.Odd = r.odd
}

// plainNumber is a number without needless decimals.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
