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
type buttons struct{ n int }

// of is a button for an action.
func (b *buttons) of(a bot.Action, style sdk.Style) *sdk.ButtonBlockElement {
	id := actDo
	word, _, _ := strings.Cut(a.Command, " ")
	switch {
	case a.Needs != "":
		id = actAsk + strings.ReplaceAll(cut(a.Needs, 40), "/", " ") + "/"
	case looks[word]:
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
func (b *buttons) block(as ...bot.Action) []sdk.Block {
	var out []sdk.Block
	var es []sdk.BlockElement
	for _, a := range as {
		if a.Command == "" || len([]rune(a.Command)) > 2000 {
			continue
		}
		if es = append(es, b.of(a, "")); len(es) == 25 {
			out, es = append(out, sdk.NewActionBlock("", es...)), nil
		}
	}
	if len(es) > 0 {
		out = append(out, sdk.NewActionBlock("", es...))
	}
	return out
}
