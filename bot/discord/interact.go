package discord

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"time"

	"strikeoff/bot"
)

// An interaction must be answered within three seconds; what takes longer is announced, and told later by its token.

// answer is what an interaction is answered with at once.
type answer struct {
	Type int `json:"type"`
	Data any `json:"data,omitempty"`
}

// The types of answer.
const (
	answerPong     = 1
	answerSay      = 4
	answerThinking = 5
	answerQuiet    = 6 // a press was heard; nothing is shown
	answerChoices  = 8
	answerForm     = 9
)

const (
	flagEphemeral = 1 << 6
	flagLoading   = 1 << 7
)

// keepTime is how long an interaction may wait for the ledger before the person is told that nothing was kept.
const keepTime = 2 * time.Second

// thinkTime is how long "thinking" is shown before it gives way to a plain word: what the command did may show on the job's card alone.
const thinkTime = 12 * time.Second

// sayAlone answers with a sentence that only the person sees.
func sayAlone(text string) answer {
	m := plain(text)
	m.Flags = flagEphemeral
	return answer{Type: answerSay, Data: m}
}

// answerOverREST handles an interaction that came over the gateway.
func (c *Chat) answerOverREST(ctx context.Context, in interaction) {
	a := c.act(ctx, in)
	err := c.rest.do(ctx, call{method: http.MethodPost, path: "/interactions/" + in.ID + "/" + in.Token + "/callback", body: a, free: true, again: true}, nil)
	switch {
	case err == nil || ctx.Err() != nil:
	case is(err, codeAcknowledged):
		// Another copy of the program was faster, or an attempt of ours got through unheard.
	default:
		c.log.Warn("an interaction could not be answered in time", "interaction", in.ID, "err", err)
	}
}

// act handles an interaction and returns what it is answered with. What it asks for is kept before.
func (c *Chat) act(ctx context.Context, in interaction) answer {
	d := in.Data.V
	switch in.Type {
	case interPing:
		return answer{Type: answerPong}
	case interAutocomplete:
		return answer{Type: answerChoices, Data: map[string]any{"choices": c.complete(ctx, d)}}
	case interCommand:
		if d.Type.V == commandOnMessage {
			return c.shortcut(ctx, in)
		}
		text, ok := slashText(d)
		if !ok {
			return sayAlone("Nothing was kept: strikeoff does not know the command " + clip(d.Name, 40) + " any more. Type help to see what it knows.")
		}
		return c.command(ctx, in, text)
	case interComponent:
		id := d.Custom
		if len(d.Values.V) > 0 {
			id = d.Values.V[0]
		}
		ctx, cancel := context.WithTimeout(ctx, keepTime)
		defer cancel()
		p, err := c.pressed(ctx, id)
		if err != nil {
			return c.lost(err, "")
		}
		if p.Needs != "" {
			return answer{Type: answerForm, Data: formFor(p, id)}
		}
		return c.command(ctx, in, p.Command)
	case interModal:
		ctx, cancel := context.WithTimeout(ctx, keepTime)
		defer cancel()
		said, _ := field(d.Components.V, formField)
		p, err := c.pressed(ctx, d.Custom)
		if err != nil {
			return c.lost(err, said)
		}
		return c.command(ctx, in, strings.TrimSpace(p.Command+" "+oneLine(said)))
	}
	return sayAlone("Nothing was kept: strikeoff does not know this kind of request.")
}

// lost tells that a press could not be made out.
func (c *Chat) lost(err error, said string) answer {
	if errors.Is(err, errNotOurs) {
		return sayAlone("Nothing was kept: this button is not known any more. Type help to see what can be said." + repeatBack(said))
	}
	c.log.Error("what a button does could not be looked up", "err", err)
	return sayAlone(bot.Down(err) + repeatBack(said))
}

// repeatBack gives back what a person typed into a form that could not be kept.
func repeatBack(said string) string {
	if said = strings.TrimSpace(said); said == "" {
		return ""
	}
	return "\nYou wrote: " + clip(said, 1500)
}

// oneLine joins the lines of a form's input: a command is one line.
func oneLine(s string) string {
	var parts []string
	for line := range strings.Lines(s) {
		if line = strings.TrimSpace(line); line != "" {
			parts = append(parts, line)
		}
	}
	return strings.Join(parts, "; ")
}

// command hands a command in and answers that it was heard.
func (c *Chat) command(ctx context.Context, in interaction, text string) answer {
	at, anchor := c.placeOfAction(ctx, in)
	i := bot.Inbound{Key: Door + ":i:" + in.ID, Sort: bot.Command, Place: at, Anchor: anchor, By: actor(in), Text: text, Called: true, Said: snowTime(in.ID)}
	// A press on a message shows nothing of its own; a typed command shows that the bot thinks, until the answer.
	return c.keepAction(ctx, in, i, in.Type == interCommand || in.Message.V == nil)
}

// shortcut hands in a message that somebody wants read as an order.
func (c *Chat) shortcut(ctx context.Context, in interaction) answer {
	d := in.Data.V
	m, ok := d.Resolved.V.Messages[d.Target.V]
	if !ok || d.Target.V == "" {
		return sayAlone("Nothing was kept: Discord did not send the message along. Please ask again.")
	}
	m.ID = d.Target.V
	if m.Channel == "" {
		m.Channel = in.ChannelID
	}
	if m.Author != nil && m.Author.ID == c.id() && c.id() != "" {
		return sayAlone("This message is strikeoff's own. Ask it of the customer's request.")
	}
	at, _ := c.placeOfAction(ctx, in)
	i := bot.Inbound{Key: Door + ":i:" + in.ID, Sort: bot.Shortcut, Of: messageKey(m.Channel, m.ID), Place: at, Anchor: anchorOf(at, m.ID), By: actor(in),
		Text: c.textOf(m), Files: filesOf(m), Called: true, Said: snowTime(in.ID)}
	a := c.keepAction(ctx, in, i, false)
	if a.Type != answerQuiet {
		return a
	}
	c.handFiles(i)
	return sayAlone("Kept. The answer comes in that message's thread.")
}

// keepAction keeps an inbound, then says that it was heard; or says that nothing was kept.
func (c *Chat) keepAction(ctx context.Context, in interaction, i bot.Inbound, waits bool) answer {
	r := reply{Waits: waits, App: in.Application, ID: in.ID, Token: in.Token}
	i.Reply = r.String()
	ctx, cancel := context.WithTimeout(ctx, keepTime)
	defer cancel()
	fresh, err := c.cfg.Desk.Keep(ctx, i)
	if c.tried != nil {
		c.tried(i.Key, fresh, err)
	}
	if err != nil {
		c.log.Error("a command could not be kept", "interaction", in.ID, "err", err)
		return sayAlone(bot.Down(err) + repeatBack(i.Text))
	}
	if waits {
		if _, known := c.replies.get(in.ID); !known {
			c.replies.set(in.ID, true, c.cfg.Now())
			time.AfterFunc(thinkTime, func() { c.stopThinking(r) })
		}
		return answer{Type: answerThinking, Data: map[string]int{"flags": flagEphemeral}}
	}
	return answer{Type: answerQuiet}
}

// stopThinking ends "thinking" where no answer did.
func (c *Chat) stopThinking(r reply) {
	if waiting, known := c.replies.get(r.ID); !known || !waiting {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	if thinks, err := c.thinks(ctx, r); err != nil || !thinks {
		return
	}
	m := plain("Kept. What comes of it is shown in the job's thread.")
	if err := c.rest.do(ctx, call{method: http.MethodPatch, path: r.path("/messages/@original"), body: m, free: true, again: true}, nil); err != nil {
		c.log.Info("an interaction could not be brought to an end", "interaction", r.ID, "err", err)
	}
}

// actor is who pressed: a member in a server, a user in a direct message.
func actor(in interaction) bot.Person {
	if m := in.Member.V; m != nil {
		return personOf(m.User, m)
	}
	return personOf(in.User.V, nil)
}

// placeOfAction is where an interaction happened, and what an answer to it threads under.
func (c *Chat) placeOfAction(ctx context.Context, in interaction) (bot.Place, string) {
	id := in.ChannelID
	ch, known := c.rooms.get(id)
	if in.Channel.V != nil && in.Channel.V.ID != "" {
		ch, known = *in.Channel.V, true
		c.rooms.put(ch)
		id = ch.ID
	}
	if !known {
		short, cancel := context.WithTimeout(ctx, time.Second)
		defer cancel()
		var err error
		if ch, err = c.channel(short, id); err != nil {
			ch = channel{ID: id}
		}
	}
	at := placeOf(ch)
	if at.Thread == "" && in.Message.V != nil {
		// A press on a post outside a thread: where the post answers a request, it belongs to that request.
		if ref := in.Message.V.Reference.V; ref != nil && ref.Message != "" {
			at.Thread = ref.Message
			return at, at.Thread
		}
	}
	return at, at.Thread
}
