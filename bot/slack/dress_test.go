package slack

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	sdk "github.com/slack-go/slack"
	"pgregory.net/rapid"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// maps is blocks as they go over the wire.
func maps(t interface{ Fatal(...any) }, blocks []sdk.Block) []map[string]any {
	b, err := json.Marshal(blocks)
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]any
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// anyText is text as people and customers write it, long and odd at times.
func anyText(most int) *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.Just(""),
		rapid.StringN(0, 40, -1),
		rapid.Map(rapid.IntRange(1, most), func(n int) string { return strings.Repeat("ink ", n/4+1)[:n] }),
		rapid.Map(rapid.IntRange(1, most), func(n int) string { return strings.Repeat("é", n) }),
		rapid.SampledFrom([]string{"<!channel>", "<@U0REP>", "*bold* _x_ `y`", ":fire:", "a\x00b", "\n\n", " ", "&amp;<>", "\u202egnirts", "\xff\xfe"}))
}

func anyTexts(n, most int) *rapid.Generator[[]string] { return rapid.SliceOfN(anyText(most), 0, n) }

// anyAction is an action with a command of any length.
var anyAction = rapid.Custom(func(t *rapid.T) bot.Action {
	return bot.Action{Label: anyText(200).Draw(t, "label"), Command: rapid.OneOf(anyText(3000), rapid.SampledFrom([]string{"pass 7 wash", "fail 7 wash", "why 7", "pick 7 dtf"})).Draw(t, "command"),
		Needs: rapid.OneOf(rapid.Just(""), anyText(300), rapid.Just("reason")).Draw(t, "needs"), Group: rapid.SampledFrom([]string{"step", "answer", "job", "pick", ""}).Draw(t, "group")}
})

// anyPost is a post of any size.
var anyPost = rapid.Custom(func(t *rapid.T) bot.Post {
	p := bot.Post{Text: anyText(9000).Draw(t, "text"), Loud: rapid.Bool().Draw(t, "loud"), Quick: rapid.SliceOfN(anyAction, 0, 40).Draw(t, "quick")}
	for range rapid.IntRange(0, 60).Draw(t, "rows") {
		p.Rows = append(p.Rows, bot.Row{Job: 7, State: "asking", Customer: anyText(3000).Draw(t, "customer"), What: anyText(3000).Draw(t, "what"), Due: anyText(100).Draw(t, "due"), Waits: anyText(2000).Draw(t, "waits")})
	}
	for range rapid.IntRange(0, 20).Draw(t, "help") {
		p.Help = append(p.Help, bot.Usage{Form: anyText(100).Draw(t, "form"), Does: anyText(3500).Draw(t, "does"), Example: anyText(100).Draw(t, "example")})
	}
	if !rapid.Bool().Draw(t, "card") {
		return p
	}
	c := &bot.Card{Job: 7, State: "test-due", Headline: anyText(4000).Draw(t, "headline"), Customer: anyText(3000).Draw(t, "customer"), Due: anyText(100).Draw(t, "due"),
		Assumed: anyTexts(20, 4000).Draw(t, "assumed"), Inspect: anyTexts(5, 400).Draw(t, "inspect"), Odd: anyTexts(5, 4000).Draw(t, "odd"), Unread: anyTexts(5, 9000).Draw(t, "unread"),
		SignedBy: anyText(4000).Draw(t, "signed"), Refusal: anyText(4000).Draw(t, "refusal"), Actions: rapid.SliceOfN(anyAction, 0, 60).Draw(t, "actions")}
	for range rapid.IntRange(0, 30).Draw(t, "lines") {
		l := bot.Line{What: anyText(4000).Draw(t, "what"), Migration: anyText(4000).Draw(t, "migration")}
		for range rapid.IntRange(0, 12).Draw(t, "prints") {
			l.Prints = append(l.Prints, bot.Print{Where: anyText(2000).Draw(t, "where"), Do: anyText(4000).Draw(t, "do"), Press: anyText(400).Draw(t, "press"), Why: anyTexts(3, 100).Draw(t, "why")})
		}
		c.Lines = append(c.Lines, l)
	}
	for range rapid.IntRange(0, 30).Draw(t, "cautions") {
		c.Cautions = append(c.Cautions, bot.Note{Severity: rapid.SampledFrom([]string{"stop", "caution", "info", "", "odd"}).Draw(t, "severity"), Text: anyText(4000).Draw(t, "caution")})
	}
	for range rapid.IntRange(0, 30).Draw(t, "steps") {
		c.Steps = append(c.Steps, bot.Step{Code: "wash", Title: anyText(4000).Draw(t, "title"), How: anyText(4000).Draw(t, "how"), Pass: anyText(4000).Draw(t, "pass"), Note: anyText(4000).Draw(t, "note"),
			Mark: rapid.SampledFrom([]string{"", "passed", "failed", "waiting"}).Draw(t, "mark")})
	}
	for range rapid.IntRange(0, 20).Draw(t, "questions") {
		c.Questions = append(c.Questions, bot.Ask{Text: anyText(4000).Draw(t, "ask"), Quick: anyTexts(5, 100).Draw(t, "quick")})
	}
	p.Card = c
	return p
})

// Ensure that whatever is to be said, every message and view that is made of it is one that Slack takes.
func TestDressKeepsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPost.Draw(t, "post")
		fallback, parts := dress(p, 8)
		if n := utf8.RuneCountInString(fallback); n == 0 || n > 1000 {
			t.Fatalf("a fallback of %d characters", n)
		}
		if len(parts) == 0 || len(parts) > 8 {
			t.Fatalf("%d messages", len(parts))
		}
		for i, part := range parts {
			if err := fake.CheckMessage(maps(t, part)); err != nil {
				t.Fatalf("message %d of %d: %v", i+1, len(parts), err)
			}
		}
		for i, part := range dressTight(p, 8) {
			if err := fake.CheckMessage(maps(t, part)); err != nil {
				t.Fatalf("tight message %d: %v", i+1, err)
			}
		}
		for _, blocks := range [][]sdk.Block{shown("x", dressView(p)).Blocks.BlockSet, homeBlocks(p)} {
			if err := fake.CheckModal(maps(t, blocks)); err != nil {
				t.Fatalf("view: %v", err)
			}
		}
	})
}

// Ensure that a form is one that Slack takes, whatever the button says.
func TestFormKeepsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAction.Draw(t, "action")
		f := form(a.Label, a.Needs, formNote{Line: a.Command})
		if err := fake.CheckModal(maps(t, f.Blocks.BlockSet)); err != nil {
			t.Fatal(err)
		}
		if n := utf8.RuneCountInString(f.Title.Text); n == 0 || n > 24 {
			t.Fatalf("a title of %d characters", n)
		}
	})
}

// Ensure that texts right at a limit stay whole, and one character more is handled.
func TestAtTheLimit(t *testing.T) {
	head := func(n int) []sdk.Block { return headline(strings.Repeat("é", n)) }
	if b := head(150); b[0].BlockType() != sdk.MBTHeader {
		t.Errorf("150 characters are no header but %s", b[0].BlockType())
	}
	if b := head(151); b[0].BlockType() != sdk.MBTRichText {
		t.Errorf("151 characters are a %s", b[0].BlockType())
	}
	for _, n := range []int{textMost, textMost + 1, 3000, 3001, 2 * textMost, 13200} {
		p := bot.Post{Text: strings.Repeat("é", n)}
		_, parts := dress(p, 8)
		got := 0
		for _, part := range parts {
			if err := fake.CheckMessage(maps(t, part)); err != nil {
				t.Errorf("%d characters: %v", n, err)
			}
			got += strings.Count(fake.Words(maps(t, part)), "é")
		}
		if got != n {
			t.Errorf("%d characters of %d are said", got, n)
		}
	}
	line := strings.Repeat("x", 2000)
	if b := (&buttons{}).block(bot.Action{Label: "At the limit", Command: line}); len(b) != 1 {
		t.Error("a command of 2000 characters has no button")
	}
	if b := (&buttons{}).block(bot.Action{Label: "Over it", Command: line + "x"}); len(b) != 0 {
		t.Error("a command of 2001 characters has a button: it would say something else")
	}
	var many []bot.Action
	for i := range 26 {
		many = append(many, bot.Action{Label: "a", Command: fmt.Sprint("pass ", i)})
	}
	if b := (&buttons{}).block(many...); len(b) != 2 {
		t.Errorf("26 buttons make %d blocks, want 2", len(b))
	}
}

// Ensure that a long job is split between its lines and not within one, that each line is said once and in order, that the controls are on
// the first message, and that what is left out beyond the last message is said to be.
func TestLongJobIsSplitWell(t *testing.T) {
	c := longCard(220)
	for i := range c.Lines {
		c.Lines[i].What = fmt.Sprintf("line number %d; 72 t-shirts, navy", i+1)
	}
	_, parts := dress(bot.Post{Card: c}, 20)
	if len(parts) < 4 {
		t.Fatalf("%d messages", len(parts))
	}
	next := 1
	for n, part := range parts {
		m := maps(t, part)
		if err := fake.CheckMessage(m); err != nil {
			t.Errorf("message %d: %v", n+1, err)
		}
		for _, b := range m {
			if w := fake.Words([]map[string]any{b}); strings.Contains(w, "line number") {
				if !strings.Contains(w, fmt.Sprintf("line number %d;", next)) || !strings.Contains(w, "dye migration") {
					t.Fatalf("message %d has %q where line %d is due, whole", n+1, w, next)
				}
				next++
			}
		}
		if has := fake.FindButton(m, "Test print made") != nil; has != (n == 0) {
			t.Errorf("message %d has the controls: %v", n+1, has)
		}
	}
	if next != 221 {
		t.Errorf("%d lines are said, want 220", next-1)
	}
	_, parts = dress(bot.Post{Card: c}, 2)
	if len(parts) != 2 || !strings.Contains(fake.Words(maps(t, parts[1])), "Left out here for length:") {
		t.Errorf("%d messages; the last says %q", len(parts), fake.Words(maps(t, parts[len(parts)-1])))
	}
}

// Ensure that a real answer is one message, says first what to do, has a control for every step that can be read, and a button that shows
// the reasons.
func TestCardReadsWell(t *testing.T) {
	talking(t, func(k *talk) {
		at := k.Say(bottest.Rep, "", bottest.Request+". PS: the usual thread colour")
		bottest.Settle(t, k.desk)
		m := k.card(at)
		if m.Blocks[0]["type"] != "header" || !strings.Contains(fake.Words(m.Blocks[:1]), "Make a test print") {
			t.Errorf("the first block is %v", m.Blocks[0])
		}
		if !strings.Contains(m.Text, "Job 1: Make a test print") {
			t.Errorf("the fallback is %q", m.Text)
		}
		if w := fake.Words(m.Blocks); strings.Contains(w, "dye moves at cure heat") {
			t.Error("the reasons are on the card, and not behind the button")
		}
		k.tap(leadID, at, "Test print made")
		k.clock.Move(25 * 3600e9)
		bottest.Settle(t, k.desk)
		m = k.card(at)
		for _, b := range []string{"Passed: Cure check", "Passed, with a note", "Failed: Cure check", "Failed: Wash test", "Refuse", "Why, and what else"} {
			if fake.FindButton(m.Blocks, b) == nil {
				t.Errorf("there is no button %q; there are %q", b, fake.Buttons(m.Blocks))
			}
		}
		if len(k.Seen(at)) < 1 || len(m.Blocks) > 20 {
			t.Errorf("%d blocks", len(m.Blocks))
		}
	})
}
