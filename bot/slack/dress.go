package slack

import (
	"fmt"
	"strings"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// dress is a post as Slack shows it: the text that notifications and screen readers get, and the blocks of one message or, where it is
// long, of several. There is always at least one message with at least one block.
func dress(p bot.Post, messages int) (fallback string, parts [][]sdk.Block) {
	return summary(p), pack(units(p, true), blocksMost, totalMost, max(messages, 1))
}

// dressTight is dress with half the room, for when Slack found a message too long.
func dressTight(p bot.Post, messages int) [][]sdk.Block {
	return pack(units(p, true), blocksMost, totalMost/2, 2*max(messages, 1))
}

// dressView is a post within a modal or Home tab, without the buttons that need a form: a modal cannot open one above itself.
func dressView(p bot.Post) []sdk.Block {
	return pack(units(p, false), 95, totalMost, 1)[0]
}

// summary is the first thing that is to be known, in one or two lines.
func summary(p bot.Post) string {
	s := p.Text
	if s == "" && p.Card != nil {
		s = fmt.Sprintf("Job %d: %s", p.Card.Job, p.Card.Headline)
	}
	if s == "" && len(p.Rows) > 0 {
		s = fmt.Sprintf("%d jobs", len(p.Rows))
	}
	if s == "" && len(p.Help) > 0 {
		s = "What can be typed here"
	}
	if s = strings.TrimSpace(clean(s)); s == "" {
		s = "strikeoff"
	}
	return cut(s, 1000)
}

// units are a post's parts in the order they are read. Where it cannot act, only buttons that look are made.
func units(p bot.Post, act bool) []unit {
	b := &buttons{still: !act}
	var us []unit
	add := func(blocks ...sdk.Block) {
		if len(blocks) > 0 {
			us = append(us, blocks)
		}
	}
	if t := strings.TrimSpace(clean(p.Text)); t != "" {
		for _, x := range textBlocks(t, p.Loud) {
			add(x)
		}
	}
	add(b.block(p.Quick...)...)
	if p.Card != nil {
		us = append(us, cardUnits(*p.Card, b)...)
	}
	for _, r := range p.Rows {
		add(rowBlocks(r, b)...)
	}
	for _, x := range helpBlocks(p.Help) {
		add(x)
	}
	if p.Link != nil {
		add(sdk.NewRichTextBlock("", sdk.NewRichTextSection(sdk.NewRichTextSectionLinkElement(p.Link.URL, p.Link.Label, nil))))
	}
	if len(us) == 0 {
		add(rich(line(span(summary(p)))))
	}
	return us
}

// textBlocks is a plain text: what stands on lines that begin with a dash is a list.
func textBlocks(text string, loud bool) []sdk.Block {
	style := span
	if loud {
		style = bold
	}
	var out []sdk.Block
	var talk, list []row
	flush := func() {
		out = append(out, paragraphs(talk...)...)
		out = append(out, bullets("", list...)...)
		talk, list = nil, nil
	}
	for l := range strings.SplitSeq(text, "\n") {
		item, dashed := strings.CutPrefix(strings.TrimSpace(l), "- ")
		if dashed {
			list = append(list, line(style(item)))
			continue
		}
		if len(list) > 0 {
			flush()
		}
		talk = append(talk, line(style(strings.TrimRight(l, " "))))
	}
	flush()
	return out
}

// rowBlocks is one job of a list.
func rowBlocks(r bot.Row, b *buttons) []sdk.Block {
	head := []string{fmt.Sprintf("Job %d", r.Job), string(r.State)}
	for _, s := range []string{r.Customer, r.Due} {
		if s = strings.TrimSpace(s); s != "" {
			head = append(head, s)
		}
	}
	text := cut(clean(strings.Join(head, " · ")), 500)
	for _, s := range []string{r.What, r.Waits} {
		if s = strings.TrimSpace(clean(s)); s != "" {
			text += "\n" + cut(s, 600)
		}
	}
	open := b.of(bot.Action{Label: "Look", Command: fmt.Sprintf("job %d", r.Job)}, "")
	return []sdk.Block{sdk.NewSectionBlock(plainText(text), nil, sdk.NewAccessory(open))}
}

// helpBlocks are the commands.
func helpBlocks(us []bot.Usage) []sdk.Block {
	var rows []row
	for _, u := range us {
		bits := []bit{code(u.Form), span("  " + u.Does)}
		if u.Lead {
			bits = append(bits, italic(" (leads)"))
		}
		if u.Example != "" {
			bits = append(bits, span("  For example: "), code(u.Example))
		}
		rows = append(rows, line(bits...))
	}
	return bullets("", rows...)
}
