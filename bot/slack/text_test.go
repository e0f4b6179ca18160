package slack

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Ensure that a message's text is read as the person saw it. The forms are those of Slack's page on formatting text
// (https://docs.slack.dev/messaging/formatting-message-text).
func TestPlain(t *testing.T) {
	name := func(id string) string {
		return map[string]string{"U1": "Rea", "C1": "orders"}[id] + ""
	}
	for _, c := range []struct {
		in, want string
		called   bool
	}{
		{"72 tees", "72 tees", false},
		{"A &amp; B, 5 &lt; 6 &gt; 4", "A & B, 5 < 6 > 4", false},
		{"&amp;lt; stays", "&lt; stays", false},
		{"<@U0BOT> help", "help", true},
		{"help <@U0BOT|strikeoff>", "help", true},
		{"<@U1> said 60", "@Rea said 60", false},
		{"in <#C1> or <#C2|print-floor>", "in #orders or #print-floor", false},
		{"<!here> look", "@here look", false},
		{"<!subteam^S1|@leads> look", "@leads look", false},
		{"<!date^1392734382^{date}|18 Feb 2014>", "18 Feb 2014", false},
		{"see <https://example.com/art.png>", "see https://example.com/art.png", false},
		{"see <https://example.com/a?x=1&amp;y=2|the art>", "see the art (https://example.com/a?x=1&y=2)", false},
		{"<http://example.com|example.com>", "example.com", false},
		{"<mailto:a@example.com|a@example.com>", "a@example.com", false},
		{"3 < 4 and no end", "3 < 4 and no end", false},
		{"<", "<", false},
		{"", "", false},
		{"<>", "", false},
		{"<@>", "@", false},
	} {
		got, called := plain(c.in, "U0BOT", name)
		if got != c.want || called != c.called {
			t.Errorf("plain(%q) = %q, %v; want %q, %v", c.in, got, called, c.want, c.called)
		}
	}
}

// Ensure that cutting and splitting keep to their lengths and lose nothing that is not said to be lost.
func FuzzPieces(f *testing.F) {
	f.Add("a b c", 3)
	f.Add(strings.Repeat("word ", 1000), 50)
	f.Add(strings.Repeat("x", 5000), 100)
	f.Fuzz(func(t *testing.T, s string, n int) {
		if n < 4 || n > 4000 || !utf8.ValidString(s) {
			t.Skip()
		}
		if got := cut(s, n); utf8.RuneCountInString(got) > n {
			t.Errorf("cut to %d is %d long", n, utf8.RuneCountInString(got))
		}
		squeeze := func(s string) string {
			return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' }), "")
		}
		var all strings.Builder
		for _, p := range pieces(s, n) {
			if utf8.RuneCountInString(p) > n {
				t.Errorf("a piece of %d, at most %d", utf8.RuneCountInString(p), n)
			}
			all.WriteString(p)
		}
		if squeeze(all.String()) != squeeze(s) {
			t.Errorf("pieces(%q, %d) lost something", s, n)
		}
	})
}

// Ensure that reading any text neither panics nor loops.
func FuzzPlain(f *testing.F) {
	f.Add("<@U1> <http://x|y> &amp; <!here")
	f.Fuzz(func(t *testing.T, s string) {
		plain(s, "U0BOT", func(id string) string { return id })
	})
}
