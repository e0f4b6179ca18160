package discord

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"strikeoff/bot"
)

// bigCard is a card with n of everything, its texts of so many characters.
func bigCard(n, chars int) bot.Card {
	text := func(s string) string {
		return s + strings.Repeat(" *x* @everyone <@1> \\", chars/15+1)[:max(0, chars-len(s))]
	}
	c := bot.Card{Job: 12, State: bot.OnTest, PlanRev: 3, Headline: text("Make a test print."), Customer: text("Larkspur Rowing (invented)"), Due: "Fri 18 Dec 2026",
		SignedBy: text("Lin"), Refusal: text("wash")}
	for i := range n {
		c.Lines = append(c.Lines, bot.Line{What: text(fmt.Sprint("72 tees ", i)), Migration: text("dye migration: high"), Prints: []bot.Print{{Where: text("front"),
			Do: text("plastisol"), Press: text("3 screens"), Method: "plastisol", Why: []string{text("one"), text("two")}, Others: []bot.Other{{Method: "dtf", Verdict: "test", Why: "x"}}}}})
		c.Cautions = append(c.Cautions, bot.Note{Severity: []string{"stop", "caution", "info"}[i%3], Text: text("mind")})
		c.Steps = append(c.Steps, bot.Step{Code: fmt.Sprint("step", i), Title: text("Step"), How: text("Do."), Pass: text("Good."), Mark: []string{"", "passed", "failed", "waiting"}[i%4], Note: text("n")})
		c.Questions = append(c.Questions, bot.Ask{Field: "f", Text: text("What?")})
		c.Inspect = append(c.Inspect, text("i"))
		c.Assumed, c.Odd, c.Unread = append(c.Assumed, text("a")), append(c.Odd, text("o")), append(c.Unread, text("u"))
		for _, g := range []string{"step", "answer", "job", "pick"} {
			c.Actions = append(c.Actions, bot.Action{Label: text(fmt.Sprint(g, " ", i)), Command: text(fmt.Sprint(g, " 12 ", i)), Group: g, Needs: []string{"", "note"}[i%2]})
		}
	}
	return c
}

// Ensure any post becomes messages that Discord takes: the fake refuses what its documentation does.
func TestWithinLimits(t *testing.T) {
	f := &fake{t: t}
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 60 {
		n, chars := rng.IntN(40), []int{1, 20, 200, 900, 3000}[rng.IntN(5)]
		card := bigCard(n, chars)
		post := bot.Post{Text: strings.Repeat("line of text\n", rng.IntN(500)), Card: &card}
		if i%4 == 0 {
			post.Card = nil
		}
		if i%5 == 0 {
			for range n {
				post.Rows = append(post.Rows, bot.Row{Job: 1, State: bot.Asking, Customer: strings.Repeat("é", chars/9), What: strings.Repeat("🖨", chars/9), Waits: "you"})
				post.Help = append(post.Help, bot.Usage{Form: "pass N STEP [note]", Does: strings.Repeat("w", chars), Example: "pass 12 wash", Lead: true})
			}
		}
		pages, refs := dress(post)
		if len(pages) < 1 || len(pages) > pagesLimit {
			t.Errorf("%d pages", len(pages))
		}
		for j, m := range pages {
			b, err := json.Marshal(m)
			if err != nil {
				t.Fatal(err)
			}
			if _, bad := f.read(b, false); bad != "" {
				t.Fatalf("card of %d x %d, page %d would be refused: %s", n, chars, j, bad)
			}
			if j < len(pages)-1 && len(m.Components) > 0 {
				t.Error("buttons stand on a page before the last")
			}
		}
		for ref, id := range refs {
			if p, err := parsePress(id); err != nil || p.Command == "" || len(ref) != 32 {
				t.Errorf("the reference %s stands for %q", ref, id)
			}
		}
	}
}

// Ensure a card of ordinary size is one message that says everything, the deed first.
func TestCardWords(t *testing.T) {
	c := bigCard(1, 0)
	c.Steps[0].Mark = "waiting"
	pages, _ := dress(bot.Post{Card: &c})
	if len(pages) != 1 {
		t.Fatalf("%d pages, want 1", len(pages))
	}
	got := rendered(&fakeMessage{Content: pages[0].Content, Embeds: pages[0].Embeds})
	at := -1
	for _, want := range []string{"Job 12: Make a test print.", "On test.", "For Larkspur Rowing (invented)", "Due Fri 18 Dec 2026", "72 tees 0", "plastisol", "Or: DTF (test first)", "dye migration", "Stop: mind",
		"step0 (waits): Step", "Pass: Good.", "1. What?", "• a", "• o\n", "• \"u\""} {
		i := strings.Index(strings.ToLower(got), strings.ToLower(want))
		if i <= at {
			t.Errorf("%q stands at %d, want it after %d:\n%s", want, i, at, got)
		}
		at = i
	}
}

// Ensure buttons that do not fit five rows become lists, most likely first, and none twice.
func TestButtonLayout(t *testing.T) {
	act := func(group string, n int) (out []bot.Action) {
		for i := range n {
			out = append(out, bot.Action{Label: fmt.Sprint(group, i), Command: fmt.Sprint(group, " ", i), Group: group})
		}
		return out
	}
	for _, c := range []struct {
		name    string
		acts    []bot.Action
		buttons int
		lists   []int
	}{
		{"none", nil, 0, nil},
		{"a few", append(act("job", 3), act("pick", 2)...), 5, nil},
		{"the same twice", append(act("job", 3), act("job", 3)...), 3, nil},
		{"a long group", append(act("job", 3), act("pick", 6)...), 3, []int{6}},
		{"many groups", append(append(append(append(act("a", 5), act("b", 5)...), act("c", 5)...), act("d", 5)...), act("e", 6)...), 20, []int{6}},
		{"more than a list takes", act("pick", 40), 0, []int{25}},
		{"six groups", append(append(append(append(append(act("a", 5), act("b", 5)...), act("c", 5)...), act("d", 5)...), act("e", 5)...), act("f", 5)...), 20, []int{10}},
		{"nine long groups", append(append(append(append(append(act("a", 6), act("b", 6)...), act("c", 6)...), act("d", 6)...), act("e", 6)...), append(append(act("f", 6), act("g", 6)...),
			append(act("h", 6), act("i", 6)...)...)...), 0, []int{6, 6, 6, 6, 25}},
	} {
		rows, _ := buttons(c.acts)
		n, lists := 0, []int(nil)
		for _, r := range rows {
			if r.Components[0].Type == 3 {
				lists = append(lists, len(r.Components[0].Options))
			} else {
				n += len(r.Components)
			}
		}
		if bad := badRows(rows); n != c.buttons || bad != "" || !slices.Equal(lists, c.lists) {
			t.Errorf("%s: %d buttons and lists of %v, want %d and %v; refused for %q", c.name, n, lists, c.buttons, c.lists, bad)
		}
		if len(rows) > 0 && c.buttons > 0 && rows[0].Components[0].Style != styleMain {
			t.Errorf("%s: the most likely button does not stand out", c.name)
		}
	}
}

// Ensure a first letter is made large whatever its alphabet.
func TestUpperFirst(t *testing.T) {
	for in, want := range map[string]string{"": "", "read": "Read", "élodie": "Élodie", "\xff": "\xff", "3 h": "3 h"} {
		if got := upperFirst(in); got != want {
			t.Errorf("upperFirst(%q) = %q, want %q", in, got, want)
		}
	}
}

// Ensure customers' text stays text: what the reader sees is what was written, and no markup works.
func TestEscape(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"plain words, 280 x 300 mm (11 x 12 in)", "plain words, 280 x 300 mm (11 x 12 in)"},
		{"*a* _b_ ~~c~~ `d` ||e||", "\\*a\\* \\_b\\_ \\~\\~c\\~\\~ \\`d\\` \\|\\|e\\|\\|"},
		{"<@123> <#5> <:x:1> @everyone", `\<\@123\> \<\#5\> \<:x:1\> \@everyone`},
		{"[here](https://example.com)", `\[here\](https\://example.com)`},
		{"# head\n- item\n  + item\n> quote\n1. one\n-# small", "\\# head\n\\- item\n  \\+ item\n\\> quote\n1\\. one\n\\-# small"},
		{"size 4-6 # 3 + 1", "size 4-6 # 3 + 1"},
		{`back\slash`, `back\\slash`},
		{"turn\u202eround\x00\r", "turnround"},
	} {
		got := escape(c.in)
		if want := strings.ReplaceAll(c.want, `\#5`, `#5`); got != want {
			t.Errorf("escape(%q) = %q, want %q", c.in, got, want)
		}
	}
}

// FuzzEscape: a reader sees what was written, and nothing in it works as markup.
func FuzzEscape(f *testing.F) {
	for _, s := range []string{"*x*", "<@1>", "[a](https://b)", "1. x", "\\", "`", "a\n# b", "12) x", ":/\b/"} {
		f.Add(s)
	}
	clean := strings.NewReplacer("*", "")
	f.Fuzz(func(t *testing.T, s string) {
		got := escape(s)
		live := escaped.ReplaceAllString(got, "\u00b7")
		for _, bad := range []string{"*", "`", "<", ">", "@", "[", "]", "://", "|", "~", "\n#", "\n-", "\n+"} {
			if strings.Contains("\n"+live, bad) {
				t.Errorf("%q works in %q", bad, got)
			}
		}
		if strings.ContainsAny(s, "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069") || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' }) {
			return
		}
		if seen := strings.ReplaceAll(unmark(got), "*", ""); seen != clean.Replace(strings.ToValidUTF8(s, "\uFFFD")) && strings.ToValidUTF8(s, "") == s {
			t.Errorf("%q is read as %q", s, seen)
		}
	})
}
