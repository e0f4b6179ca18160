package slack

import (
	"flag"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// drawTo is where TestDraw writes its pages: go test ./bot/slack -run TestDraw -draw DIR. Without it the test only makes them.
var drawTo = flag.String("draw", "", "write pages that draw the answers' blocks into this folder")

// draw is a plain page of ours that shows blocks one under the other, as wide as a phone. It makes no attempt to look like Slack.
func draw(title string, messages ...[]map[string]any) string {
	var b strings.Builder
	b.WriteString(`<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>` + html.EscapeString(title) + `</title><style>
body{font:16px/1.45 sans-serif;max-width:30em;margin:1em auto;padding:0 1em;color:#111;background:#fff}
article{border:1px solid #999;padding:.7em;margin:0 0 1em}h2{font-size:1.25em;margin:.2em 0}small{color:#555}
p{margin:.4em 0;white-space:pre-wrap}ul{margin:.3em 0;padding-left:1.3em}blockquote{margin:.4em 0;padding-left:.7em;border-left:3px solid #999;white-space:pre-wrap}
code{background:#eee}button,b.b{display:inline-block;font:inherit;border:1px solid #555;background:#f4f4f4;padding:.25em .6em;margin:.15em .3em .15em 0}
button.primary{border-width:2px;font-weight:bold}
</style>`)
	for _, m := range messages {
		b.WriteString("<article>")
		for _, block := range m {
			drawBlock(&b, block)
		}
		b.WriteString("</article>")
	}
	return b.String() + "</html>"
}

func drawBlock(b *strings.Builder, m map[string]any) {
	switch m["type"] {
	case "header":
		b.WriteString("<h2>" + words(m["text"]) + "</h2>")
	case "context":
		b.WriteString("<small>")
		for _, e := range m["elements"].([]any) {
			b.WriteString(words(e) + " ")
		}
		b.WriteString("</small>")
	case "section":
		b.WriteString("<p>" + words(m["text"]) + "</p>")
		if a, ok := m["accessory"].(map[string]any); ok {
			drawButton(b, a)
		}
	case "actions":
		b.WriteString("<div>")
		for _, e := range m["elements"].([]any) {
			drawButton(b, e.(map[string]any))
		}
		b.WriteString("</div>")
	case "input":
		b.WriteString("<p><strong>" + words(m["label"]) + "</strong><br><textarea rows=3 cols=34></textarea><br><small>" + words(m["hint"]) + "</small></p>")
	case "rich_text":
		for _, e := range m["elements"].([]any) {
			drawRich(b, e.(map[string]any))
		}
	default:
		b.WriteString("<p>(" + html.EscapeString(m["type"].(string)) + ")</p>")
	}
}

func words(v any) string {
	m, _ := v.(map[string]any)
	s, _ := m["text"].(string)
	return html.EscapeString(s)
}

func drawButton(b *strings.Builder, e map[string]any) {
	style, _ := e["style"].(string)
	b.WriteString(`<button class="` + style + `">` + words(e["text"]) + "</button>")
}

func drawRich(b *strings.Builder, m map[string]any) {
	tag := map[any]string{"rich_text_section": "p", "rich_text_list": "ul", "rich_text_quote": "blockquote"}[m["type"]]
	b.WriteString("<" + tag + ">")
	for _, x := range m["elements"].([]any) {
		e := x.(map[string]any)
		if e["type"] != "text" {
			b.WriteString("<li>")
			for _, y := range e["elements"].([]any) {
				drawSpan(b, y.(map[string]any))
			}
			b.WriteString("</li>")
			continue
		}
		drawSpan(b, e)
	}
	b.WriteString("</" + tag + ">")
}

func drawSpan(b *strings.Builder, e map[string]any) {
	st, _ := e["style"].(map[string]any)
	s := html.EscapeString(e["text"].(string))
	for _, k := range []struct{ name, tag string }{{"bold", "strong"}, {"italic", "em"}, {"code", "code"}} {
		if st[k.name] == true {
			s = "<" + k.tag + ">" + s + "</" + k.tag + ">"
		}
	}
	b.WriteString(s)
}

// TestDraw draws two answers, a form and a Home tab with the shop's real reading and rules, so that a person can look at them.
func TestDraw(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(newLedger(t), clock)
	d.Read, d.Amend, d.Decide = nil, nil, nil
	k := &talk{open(t, d, overHTTP, nil), clock}
	pages := map[string]string{}

	at := k.Say(bottest.Rep, "", "Hi, 72 tees in tri-blend, navy, S 10, M 30, L 32, white front print 280 x 300 mm, 1 colour, for Larkspur Rowing, needed 18 Dec 2026. Please call before <!channel> delivery")
	bottest.Settle(t, k.desk)
	pages["answer-test-due"] = draw("an answer", k.card(at).Blocks)
	k.tap(leadID, at, "Test print made")
	k.clock.Move(80 * 3600e9)
	bottest.Settle(t, k.desk)
	var all [][]map[string]any
	for _, m := range k.ours(bot.Place{Room: orders, Thread: at}) {
		all = append(all, m.Blocks)
	}
	pages["thread-on-test"] = draw("a test print being read", all...)
	k.tap(leadID, at, "Refuse")
	pages["form"] = draw("a form", k.form(leadID).Blocks)
	ask := k.Say(bottest.Rep, "", "60 hoodies, red, white back print for Marsh Lane Choir")
	bottest.Settle(t, k.desk)
	pages["answer-asking"] = draw("an answer that asks", k.card(ask).Blocks)
	dd, err := k.slack.Press(repID, orders, k.card(at).TS, "Why")
	if err != nil {
		t.Fatal(err)
	}
	k.rest(dd)
	vs := k.slack.Views(repID)
	pages["why"] = draw("why", vs[len(vs)-1].Blocks)
	k.rest(k.slack.OpenHome(repID))
	h, _ := k.slack.Home(repID)
	pages["home"] = draw("open jobs", h.Blocks)

	for name, page := range pages {
		if strings.Contains(page, "<article></article>") || strings.Contains(page, "<p></p>") || !strings.Contains(page, "<article>") {
			t.Errorf("%s has an empty part: %s", name, page)
		}
		if *drawTo != "" {
			if err := os.WriteFile(filepath.Join(*drawTo, name+".html"), []byte(page), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, m := range k.ours(bot.Place{Room: orders, Thread: at}) {
		if err := fake.CheckMessage(m.Blocks); err != nil {
			t.Error(err)
		}
	}
}
