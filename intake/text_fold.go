package intake

import (
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// foldTable maps the runes below foldSpan to the plain lower-case letters they are matched as: "É" to "e", "Ａ" is above and goes the slow way.
// Zero means: no letter or digit.
const foldSpan = 0x250

var foldTable = makeFoldTable()

func makeFoldTable() (t [foldSpan]rune) {
	for r := rune(0); r < foldSpan; r++ {
		t[r] = foldSlow(r)
	}
	return t
}

// foldSlow takes a letter apart and keeps its base in lower case.
func foldSlow(r rune) rune {
	switch r {
	case 'ª', 'º':
		return 0
	}
	if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
		return 0
	}
	for _, b := range norm.NFKD.String(string(r)) {
		return unicode.ToLower(b)
	}
	return unicode.ToLower(r)
}

// foldRune is the plain lower-case form of a letter or digit, 0 for anything else.
func foldRune(r rune) rune {
	if r < foldSpan {
		return foldTable[r]
	}
	if unicode.IsLetter(r) || unicode.IsDigit(r) {
		return foldSlow(r)
	}
	return 0
}

// foldWord is s as the vocabulary spells it.
func foldWord(s string) string {
	plain := 0
	for plain < len(s) && (s[plain] >= 'a' && s[plain] <= 'z' || s[plain] >= '0' && s[plain] <= '9') {
		plain++
	}
	if plain == len(s) {
		return s
	}
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if f := foldRune(r); f != 0 {
			out = append(out, f)
		}
	}
	return string(out)
}
