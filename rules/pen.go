package rules

import (
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"
)

// pen writes the JSON of plans and orders, byte for byte as encoding/json does, which tests hold it to. Every order that is answered is
// written down whole for the history's hash; with reflection that takes longer than reading and planning it do together.
type pen struct {
	b   []byte
	err error // the first thing that cannot be written
}

// raw writes what stands between values.
func (p *pen) raw(s string) { p.b = append(p.b, s...) }

// plain marks the bytes that stand in a JSON string as they are.
var plain = func() (t [256]bool) {
	for c := byte(' '); c < utf8.RuneSelf; c++ {
		t[c] = c != '"' && c != '\\' && c != '<' && c != '>' && c != '&' && c != 0x7F
	}
	return t
}()

// text writes a string. Anything but plain text goes by encoding/json, which knows what must be escaped.
func (p *pen) text(s string) {
	wide := false
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case plain[c]:
		case c < utf8.RuneSelf, c == 0xE2: // what begins with 0xE2 may be a line separator
			p.value(s)
			return
		default:
			wide = true
		}
	}
	if wide && !utf8.ValidString(s) {
		p.value(s)
		return
	}
	p.b = append(append(append(p.b, '"'), s...), '"')
}

// word writes a name, or null where it was not said.
func (p *pen) word(s string) {
	if s == "" {
		p.raw("null")
		return
	}
	p.text(s)
}

func (p *pen) integer(n int) { p.b = strconv.AppendInt(p.b, int64(n), 10) }

func (p *pen) number(f float64) {
	if size := math.Abs(f); f != 0 && !(size >= 1e-6 && size < 1e21) {
		p.value(f) // with an exponent, or not at all
		return
	}
	p.b = strconv.AppendFloat(p.b, f, 'f', -1, 64)
}

func (p *pen) truth(b bool) { p.b = strconv.AppendBool(p.b, b) }

// value writes anything by encoding/json.
func (p *pen) value(v any) {
	b, err := json.Marshal(v)
	if err != nil && p.err == nil {
		p.err = err
	}
	p.b = append(p.b, b...)
}

// penList writes a list, [] where it is empty.
func penList[T any](p *pen, l []T, one func(*pen, T)) {
	p.raw("[")
	for i, v := range l {
		if i > 0 {
			p.raw(",")
		}
		one(p, v)
	}
	p.raw("]")
}

// penWords writes a list of strings.
func penWords[T ~string](p *pen, l []T) { penList(p, l, func(p *pen, s T) { p.text(string(s)) }) }

// penSaid writes a value, or null where it is unknown.
func penSaid[T comparable](p *pen, m Maybe[T], one func(*pen, T)) {
	if !m.Known {
		p.raw("null")
		return
	}
	one(p, m.Value)
}

// written is what a pen wrote behind what b held before.
func written(b []byte, write func(*pen)) ([]byte, error) {
	p := pen{b: b}
	write(&p)
	return p.b, p.err
}
