package slack

import (
	"context"
	"encoding/json"
	"strings"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// The ids within a form.
const (
	formCall  = "words"
	formBlock = "words"
	formInput = "said"
)

// formNote is what a form remembers while it is open. It is private_metadata: Slack hands it back and shows it to nobody.
type formNote struct {
	Line   string `json:"l"`
	Need   string `json:"n"`
	Room   string `json:"r"`
	Thread string `json:"t"`
	Anchor string `json:"a"`
}

// plainText is a plain text object, in which nothing is markup; emoji names are not turned into pictures.
func plainText(s string) *sdk.TextBlockObject {
	return sdk.NewTextBlockObject(sdk.PlainTextType, s, false, false)
}

// needs are the words for what a form asks; another need is shown as it is called.
var needs = map[string]struct{ label, hint string }{
	"reason": {"Reason", "It is kept with the job and shown in its thread."},
	"note":   {"Note or readings", "What you saw, or what the instrument read. It is kept with the job."},
	"change": {"What changes", "As the customer said it, for example: make it 60, and navy."},
	"method": {"Method", "For example: dtf. With several prints name the one you mean: dtf 2.1"},
}

// form is the modal that asks for words.
func form(label, need string, note formNote) sdk.ModalViewRequest {
	n, ok := needs[need]
	if !ok {
		n.label = need
	}
	if n.label == "" {
		n.label = "Words"
	}
	input := sdk.NewPlainTextInputBlockElement(nil, formInput)
	input.Multiline, input.MaxLength = true, 2500
	ask := sdk.NewInputBlock(formBlock, plainText(cut(n.label, 200)), nil, input)
	if n.hint != "" {
		ask.Hint = plainText(n.hint)
	}
	return sdk.ModalViewRequest{Type: sdk.VTModal, Title: plainText(title(label)), Submit: plainText("Save"), Close: plainText("Back"), CallbackID: formCall,
		PrivateMetadata: string(mustJSON(note)),
		Blocks:          sdk.Blocks{BlockSet: []sdk.Block{rich(line(span("Kept as: "), code(cut(note.Line, 200)), span(" and your words."))), ask}}}
}

// title is a modal's title: at most 24 characters, never empty.
func title(label string) string {
	if strings.TrimSpace(label) == "" {
		label = "strikeoff"
	}
	return cut(label, 24)
}

// waiting is the modal that is shown until the answer comes.
func waiting(label string) sdk.ModalViewRequest {
	return shown(label, []sdk.Block{rich(line(span("One moment.")))})
}

// shown is a modal that says something.
func shown(label string, blocks []sdk.Block) sdk.ModalViewRequest {
	return sdk.ModalViewRequest{Type: sdk.VTModal, Title: plainText(title(label)), Close: plainText("Close"), Blocks: sdk.Blocks{BlockSet: blocks}}
}

// openForm opens a form for a press. A trigger lives 3 seconds; where it is too old the person is told what to do instead.
func (d *Door) openForm(ctx context.Context, trigger, label, need string, p press) {
	note := formNote{Line: p.line, Need: need, Room: p.at.Room, Thread: p.at.Thread, Anchor: p.anchor}
	_, err := d.api.OpenViewContext(ctx, trigger, form(label, need, note))
	if err == nil {
		return
	}
	d.log.Warn("a form could not be opened", "user", p.back.user, "err", d.failed("views.open", "", err))
	d.tell(ctx, p.back, p.at, "The form did not open in time, and nothing was kept. Press again, or type: "+p.line+" and the "+need+".")
}

// submitted handles a form that was sent. It closes only when its words are kept; until then they stay in the form.
func (d *Door) submitted(ctx context.Context, me self, f fields) reply {
	v := f.sub("view")
	if v.str("callback_id") != formCall {
		return reply{}
	}
	var note formNote
	if json.Unmarshal([]byte(v.str("private_metadata")), &note) != nil || note.Line == "" {
		return refuse("This form is from an older strikeoff, and nothing was kept. Close it and press the button again.")
	}
	words := strings.Join(strings.Fields(v.sub("state").sub("values").sub(formBlock).sub(formInput).str("value")), " ")
	if words == "" {
		need := note.Need
		if need == "" {
			need = "text"
		}
		return refuse("The " + need + " is empty. Write it, and save again.")
	}
	b := back{user: f.sub("user").str("id")}
	in := d.command(ctx, f, bot.Place{Door: Name, Room: note.Room, Thread: note.Thread}, note.Anchor, b)
	in.Key, in.Text = formKey(me.team, v.str("id"), v.str("hash")), note.Line+" "+words
	if _, err := d.desk.Keep(ctx, in); err != nil {
		d.log.Error("a form was not kept", "key", in.Key, "err", err)
		return refuse(bot.Down(err))
	}
	return reply{}
}

// refuse keeps a form open and says why under its input.
func refuse(why string) reply {
	return reply{body: sdk.NewErrorsViewSubmissionResponse(map[string]string{formBlock: why})}
}
