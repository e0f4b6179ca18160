package discord

import "strings"

// escape is text as nothing but text. A backslash before a character of Discord's markup makes it a character again: what a customer wrote
// can then neither ping, nor link, nor dress itself up. Backslashes only stand where they are needed, so that text stays short. Control
// characters, and those that turn the direction of writing round, are left out.
func escape(s string) string {
	s = strings.Map(func(r rune) rune { // first, so that what they held apart ("://" in two) is seen joined
		if r < ' ' && r != '\n' && r != '\t' || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return -1
		}
		return r
	}, s)
	var b strings.Builder
	b.Grow(len(s) + 16)
	start, digits := true, false // at the beginning of a line, spaces aside; after nothing but digits there
	for i, r := range s {
		switch {
		case strings.ContainsRune("\\`*_~|<>@[]", r),
			r == ':' && strings.HasPrefix(s[i:], "://"), // a bare link
			start && strings.ContainsRune("#-+", r),     // a heading, a list
			digits && (r == '.' || r == ')'):            // a list that Discord numbers its own way
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		digits = (start || digits) && r >= '0' && r <= '9'
		start = r == '\n' || start && (r == ' ' || r == '\t')
	}
	return b.String()
}
