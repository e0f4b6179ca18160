package slack

import (
	"strconv"
	"strings"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// looks are the commands that change nothing: their answer is for the asker alone, and a modal is the place for it.
var looks = map[string]bool{"why": true, "job": true, "jobs": true, "help": true}

// buttons numbers the buttons of one post, so that no two have the same id.
type buttons struct {
	n     int
	still bool // only those that look are made
}

// of is a button for an action.
func (b *buttons) of(a bot.Action, style sdk.Style) *sdk.ButtonBlockElement {
	id := actDo
	switch {
	case a.Needs != "":
		id = actAsk + strings.ReplaceAll(cut(a.Needs, 40), "/", " ") + "/"
	case looking(a):
		id = actLook
	}
	b.n++
	label := strings.TrimSpace(clean(a.Label))
	if label == "" {
		label = a.Command
	}
	e := sdk.NewButtonBlockElement(id+strconv.Itoa(b.n), a.Command, plainText(cut(label, 75)))
	if style != "" {
		e.WithStyle(style)
	}
	return e
}

// block is rows of buttons; an action whose command is too long for a button is left out, for it would say something else when cut.
func (b *buttons) block(as ...bot.Action) []sdk.Block { return b.row("", as...) }

// row is block with a style for the first button, the most likely one, unless nobody should be urged to press it.
func (b *buttons) row(first sdk.Style, as ...bot.Action) []sdk.Block {
	var out []sdk.Block
	var es []sdk.BlockElement
	for i, a := range as {
		if a.Command == "" || len([]rune(a.Command)) > 2000 || b.still && !looking(a) {
			continue
		}
		style := first
		if i > 0 || a.Needs != "" || looking(a) {
			style = ""
		}
		if es = append(es, b.of(a, style)); len(es) == 25 {
			out, es = append(out, sdk.NewActionBlock("", es...)), nil
		}
	}
	if len(es) > 0 {
		out = append(out, sdk.NewActionBlock("", es...))
	}
	return out
}

// looking reports whether an action changes nothing.
func looking(a bot.Action) bool {
	word, _, _ := strings.Cut(a.Command, " ")
	return a.Needs == "" && looks[word]
}
