package intake

import (
	"unicode"
	"unicode/utf8"
)

// tokenKind is what sort of thing a token is.
type tokenKind uint8

const (
	tWord  tokenKind = iota
	tNum             // digits, with a decimal part where one is written
	tPunct           // one mark of punctuation, in ch
	tBreak           // end of a line
	tPart            // end of a part of the message: what follows was written later
)

// token is a stretch of the text as given.
type token struct {
	start, end int32 // byte offsets in the text as given
	kind       tokenKind
	ch         byte    // the mark, for tPunct: one of .,;:!?()/|-&+@#$%=*'"x~<> or 0
	glued      bool    // nothing stands between it and the token before
	upper      bool    // begins with a capital letter
	shout      bool    // is written in capitals altogether, two letters or more
	frac       bool    // a number with a decimal part or fraction
	lead0      bool    // a number written with a leading zero
	digits     uint8   // how many digits a number was written with
	typo       bool    // word was read as another
	word       int32   // index in the vocabulary; 0 where it is not there
	num        float64 // value, for tNum
}

// fractions are the vulgar fractions met in sizes.
func fraction(r rune) float64 {
	switch r {
	case '¼':
		return 0.25
	case '½':
		return 0.5
	case '¾':
		return 0.75
	case '⅓':
		return 1.0 / 3
	case '⅔':
		return 2.0 / 3
	case '⅛':
		return 0.125
	case '⅜':
		return 0.375
	case '⅝':
		return 0.625
	case '⅞':
		return 0.875
	}
	return 0
}

// mark is the plain form of a mark of punctuation; 0 where it is none that matters.
func mark(r rune) byte {
	switch r {
	case '.', ',', ';', ':', '!', '?', '(', ')', '/', '|', '-', '&', '+', '@', '#', '$', '%', '=', '*', '\'', '"', '~', '<', '>', '[', ']', '_', '\\', '{', '}', '`', '^':
		return byte(r)
	case '’', '‘', '´', '′', 'ʼ':
		return '\''
	case '“', '”', '″', '«', '»', '„':
		return '"'
	case '–', '—', '−', '‐', '‑', '‒', '―':
		return '-'
	case '•', '·', '●', '▪', '◦', '‣', '∙', '■', '◆', '○', '➤', '→', '✓', '☐':
		return '*'
	case '×', '✕', '✖', '╳':
		return 'x'
	case '£', '€', '¥', '¢':
		return '$'
	case '¿':
		return ','
	case '¡':
		return ','
	case '…':
		return '.'
	case '／':
		return '/'
	}
	return 0
}

// invisible runes are skipped without separating what stands around them.
func invisible(r rune) bool {
	switch r {
	case 0xAD, 0x200B, 0x200C, 0x200D, 0x2060, 0xFEFF, 0xFE0F, 0x200E, 0x200F, 0x202A, 0x202B, 0x202C, 0x202D, 0x202E, 0x2066, 0x2067, 0x2068, 0x2069:
		return true
	}
	return r >= 0x300 && r < 0x370 // combining accents: the letter stands without them
}

// tokenize appends the tokens of text[from:to] to dst. Every byte is looked at once.
func tokenize(dst []token, text string, from, to int) []token {
	i := from
	gap := true // white space or the start came before
	var key [48]byte
	for i < to {
		c := text[i]
		switch {
		case c == '\n':
			dst = append(dst, token{start: int32(i), end: int32(i + 1), kind: tBreak})
			i++
			gap = true
			continue
		case c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f' || c == 0:
			i++
			gap = true
			continue
		case c >= '0' && c <= '9':
			t := token{start: int32(i), kind: tNum, glued: !gap}
			i = scanNumber(text, i, to, &t)
			t.end = int32(i)
			if t.end-t.start <= 4 {
				t.word = vocab.words[text[t.start:t.end]]
			}
			dst = append(dst, t)
			gap = false
			continue
		}
		r, n := utf8.DecodeRuneInString(text[i:to])
		if f := fraction(r); f != 0 {
			t := token{start: int32(i), kind: tNum, glued: !gap, frac: true, num: f}
			if k := len(dst) - 1; k >= 0 && dst[k].kind == tNum && !dst[k].frac && (!gap || i-int(dst[k].end) == 1) {
				dst[k].num += f
				dst[k].frac = true
				dst[k].end = int32(i + n)
			} else {
				t.end = int32(i + n)
				dst = append(dst, t)
			}
			i += n
			gap = false
			continue
		}
		if foldRune(r) != 0 {
			t := token{start: int32(i), kind: tWord, glued: !gap, upper: unicode.IsUpper(r)}
			k, letters, caps, apostrophe := 0, 0, 0, false
			for i < to {
				r, n := utf8.DecodeRuneInString(text[i:to])
				if invisible(r) {
					i += n
					continue
				}
				f := foldRune(r)
				if f == 0 && mark(r) == '\'' && i+n < to && letterAt(text, i+n) && letters > 0 {
					i += n // don't, T's, l'eau: one word
					apostrophe = true
					continue
				}
				if f == 0 || r >= '0' && r <= '9' {
					break
				}
				if k+utf8.UTFMax <= len(key) {
					k += utf8.EncodeRune(key[k:], f)
				}
				letters++
				if unicode.IsUpper(r) {
					caps++
				}
				i += n
			}
			t.end = int32(i)
			t.shout = caps == letters && letters >= 2
			if apostrophe && string(key[:k]) == "wed" { // "we'd" is no Wednesday
				k = copy(key[:], "we'd")
			}
			t.word, t.typo = vocab.lookup(key[:k], !t.upper || t.shout || k > 4 && opens(dst))
			dst = append(dst, t)
			gap = false
			continue
		}
		if invisible(r) {
			i += n
			continue
		}
		if m := mark(r); m != 0 {
			if m == 'x' { // a multiplication sign is read as the letter
				dst = append(dst, token{start: int32(i), end: int32(i + n), kind: tWord, glued: !gap, word: wX})
			} else {
				t := token{start: int32(i), end: int32(i + n), kind: tPunct, ch: m, glued: !gap}
				switch m {
				case '/':
					t.word = wSlash
				case '+':
					t.word = wPlus
				case '&':
					t.word = wAmp
				}
				dst = append(dst, t)
			}
			gap = false
		} else {
			gap = true
			if unicode.IsSpace(r) || r == utf8.RuneError {
				i += n
				continue
			}
			dst = append(dst, token{start: int32(i), end: int32(i + n), kind: tPunct, ch: '~', glued: false})
		}
		i += n
	}
	return dst
}

// opens reports whether a word after these tokens begins a line, a sentence or a clause, where a capital does not make it a name.
func opens(dst []token) bool {
	if len(dst) == 0 {
		return true
	}
	p := &dst[len(dst)-1]
	return p.kind >= tBreak || p.kind == tPunct && (p.ch == '.' || p.ch == ':' || p.ch == ',' || p.ch == '-' || p.ch == '*' || p.ch == '|' || p.ch == '!' || p.ch == '?')
}

// dotted reports whether the number that ends at text[i] is a later part of one with points between, as in 17.07.2026.
func dotted(text string, i int) bool {
	for i--; i >= 0 && text[i] >= '0' && text[i] <= '9'; i-- {
	}
	return i > 0 && text[i] == '.' && text[i-1] >= '0' && text[i-1] <= '9'
}

// letterAt reports whether a letter stands at text[i].
func letterAt(text string, i int) bool {
	r, _ := utf8.DecodeRuneInString(text[i:])
	return foldRune(r) != 0 && !(r >= '0' && r <= '9')
}

// scanNumber reads digits with thousands commas, a decimal point or comma, and a fraction such as "4 1/2"; it returns where it stopped.
func scanNumber(text string, i, to int, t *token) int {
	v, d := 0.0, 0
	inList := i > 1 && (text[i-1] == ',' || text[i-1] == '.') && text[i-2] >= '0' && text[i-2] <= '9' // 5,15,20: no decimal comma
	t.lead0 = text[i] == '0'
	digit := func(j int) bool { return j < to && text[j] >= '0' && text[j] <= '9' }
	for digit(i) {
		if d < 15 {
			v = v*10 + float64(text[i]-'0')
		}
		d++
		i++
	}
	// thousands: 1,200 but not 1,20 and not 12,000,1
	for d <= 3 && i < to && text[i] == ',' && digit(i+1) && digit(i+2) && digit(i+3) && !digit(i+4) {
		v = v*1000 + float64(text[i+1]-'0')*100 + float64(text[i+2]-'0')*10 + float64(text[i+3]-'0')
		i += 4
		d = 3
	}
	if i+1 < to && (text[i] == '.' || text[i] == ',') && digit(i+1) {
		j, f, scale := i+1, 0.0, 1.0
		for digit(j) {
			if scale < 1e9 {
				f = f*10 + float64(text[j]-'0')
				scale *= 10
			}
			j++
		}
		dec := text[i] == '.' && !(inList && text[max(0, i-1)] != 0 && dotted(text, i)) || text[i] == ',' && j-i <= 3 && !inList && !(j < to && text[j] == ',')
		if j < to && text[j] == '.' && digit(j+1) { // 17.07.2026, 1.2.3: no decimal
			dec = false
		}
		if dec {
			v += f / scale
			t.frac = f != 0 || text[i] == '.'
			i = j
		}
	}
	if !t.frac && i+3 < to && (text[i] == ' ' || text[i] == '-') && (text[i+1] == '1' || text[i+1] == '3') && text[i+2] == '/' && (text[i+3] == '2' || text[i+3] == '4' || text[i+3] == '8') && !digit(i+4) && d <= 2 {
		v += float64(text[i+1]-'0') / float64(text[i+3]-'0')
		t.frac = true
		i += 4
	}
	if d > 255 {
		d = 255
	}
	t.num, t.digits = v, uint8(d)
	return i
}
