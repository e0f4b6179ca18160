package slack

import (
	"context"
	"encoding/json"
	"errors"
	"strings"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// What a button's action id says of it. Ids must differ within a block, so a number follows.
const (
	actDo   = "do/"   // its value is a command line
	actLook = "look/" // the same, and the answer is for the asker alone: it is shown in a modal
	actAsk  = "ask/"  // words are asked for first, in a form; what for follows, and then the number
)

// interaction handles a press, a form or a shortcut. None of these is delivered again.
func (d *Door) interaction(ctx context.Context, me self, f fields) reply {
	switch f.str("type") {
	case "block_actions":
		return d.pressed(ctx, me, f)
	case "view_submission":
		return d.submitted(ctx, me, f)
	case "message_action":
		return d.asked(ctx, me, f)
	}
	return reply{}
}

// command is what a press, form or slash command comes to, but for its key and words.
func (d *Door) command(ctx context.Context, f fields, at bot.Place, anchor string, b back) bot.Inbound {
	u := f.sub("user")
	name := u.str("name")
	if name == "" {
		name = u.str("username")
	}
	return bot.Inbound{Sort: "command", Place: at, Anchor: anchor, By: d.people.person(ctx, b.user, name), Called: true, Reply: b.token(), Said: d.c.Now()}
}

// pressed handles the press of a button.
func (d *Door) pressed(ctx context.Context, me self, f fields) reply {
	at, anchor, where := placeOf(f)
	b := back{user: f.sub("user").str("id"), url: d.urls.keep(f.str("response_url"))}
	var rs []reply
	for _, a := range f.list("actions") {
		if line := a.str("value"); a.str("type") == "button" && line != "" {
			rs = append(rs, d.pressedOne(ctx, me, f, a, press{line: line, at: at, anchor: anchor, where: where, back: b}))
		}
	}
	switch len(rs) {
	case 0:
		return reply{}
	case 1:
		return rs[0]
	}
	return reply{after: func(ctx context.Context) {
		for _, r := range rs {
			if r.after != nil {
				r.after(ctx)
			}
		}
	}}
}

// press is one button pressed.
type press struct {
	line, anchor, where string
	at                  bot.Place
	back                back
}

func (d *Door) pressedOne(ctx context.Context, me self, f, a fields, p press) reply {
	id := a.str("action_id")
	key := pressKey(me.team, p.back.user, p.where, id, a.str("action_ts"))
	trigger, label := f.str("trigger_id"), a.sub("text").str("text")
	switch {
	case strings.HasPrefix(id, actAsk):
		need, _, _ := strings.Cut(strings.TrimPrefix(id, actAsk), "/")
		return reply{after: func(ctx context.Context) { d.openForm(ctx, trigger, label, need, p) }}
	case strings.HasPrefix(id, actLook):
		in := d.command(ctx, f, p.at, p.anchor, p.back)
		in.Key, in.Text = key, p.line
		return reply{after: func(ctx context.Context) { d.look(ctx, trigger, label, in, p) }}
	}
	in := d.command(ctx, f, p.at, p.anchor, p.back)
	in.Key, in.Text = key, p.line
	if _, err := d.desk.Keep(ctx, in); err != nil {
		d.log.Error("a press was not kept", "key", key, "err", err)
		return reply{after: func(ctx context.Context) { d.tell(ctx, p.back, p.at, bot.Down(err)) }}
	}
	return reply{}
}

// look opens a modal that waits for the answer, and asks the desk for it. Where the modal cannot be opened the answer comes as other
// private answers do.
func (d *Door) look(ctx context.Context, trigger, label string, in bot.Inbound, p press) {
	b := p.back
	if v, err := d.api.OpenViewContext(ctx, trigger, waiting(label)); err == nil {
		b.view = v.ID
	} else {
		d.log.Info("a view could not be opened; the answer goes into the thread", "err", d.failed("views.open", "", err))
	}
	in.Reply = b.token()
	if _, err := d.desk.Keep(ctx, in); err != nil {
		d.log.Error("a press was not kept", "key", in.Key, "err", err)
		d.tell(ctx, b, p.at, bot.Down(err))
	}
}

// placeOf is where a press happened, what replies thread under, and an id of the place for keys.
func placeOf(f fields) (at bot.Place, anchor, where string) {
	c := f.sub("container")
	at = bot.Place{Door: Name, Room: c.str("channel_id")}
	if at.Room == "" {
		at.Room = f.sub("channel").str("id")
	}
	if v := c.str("view_id"); v != "" {
		return at, "", v
	}
	ts := c.str("message_ts")
	at.Thread = f.sub("message").str("thread_ts")
	if at.Thread == "" {
		at.Thread = c.str("thread_ts")
	}
	if at.Thread == ts {
		at.Thread = ""
	}
	anchor = at.Thread
	if anchor == "" {
		anchor = ts
	}
	return at, anchor, at.Room + "." + ts
}

// asked handles the message shortcut: somebody wants this very message read as an order.
func (d *Door) asked(ctx context.Context, me self, f fields) reply {
	m := saidIn(f.sub("message"), f.sub("channel").str("id"))
	if m.ts == "" {
		m.ts = f.str("message_ts")
	}
	b := back{user: f.sub("user").str("id"), url: d.urls.keep(f.str("response_url"))}
	in := d.inbound(ctx, me, m)
	by := d.command(ctx, f, in.Place, in.Anchor, b)
	in.Sort, in.Of, in.Key = "shortcut", messageKey(me.team, m.channel, m.ts), askKey(me.team, m.channel, m.ts, f.str("action_ts"))
	in.By, in.Called, in.Reply, in.Said = by.By, true, b.token(), by.Said
	if m.own(me) {
		return reply{after: func(ctx context.Context) {
			d.tell(ctx, b, in.Place, "That message is strikeoff's own. Use the shortcut on what the customer wrote.")
		}}
	}
	if d.outside(ctx, m.channel) {
		return reply{after: func(ctx context.Context) {
			d.tell(ctx, b, in.Place, "Nothing was kept: strikeoff is not in this channel and could not answer here. Type /invite @strikeoff, then use the shortcut again.")
		}}
	}
	if _, err := d.desk.Keep(ctx, in); err != nil {
		d.log.Error("a shortcut was not kept", "key", in.Key, "err", err)
		return reply{after: func(ctx context.Context) { d.tell(ctx, b, in.Place, bot.Down(err)) }}
	}
	d.handFiles(in)
	return reply{}
}

// outside reports whether the app is certainly not in a channel, so that an answer could not be posted there.
func (d *Door) outside(ctx context.Context, channel string) bool {
	if d.orders[channel] || d.open("conversations.info", "") != nil {
		return false
	}
	ctx, cancel := context.WithTimeout(ctx, askLimit)
	defer cancel()
	c, err := d.api.GetConversationInfoContext(ctx, &sdk.GetConversationInfoInput{ChannelID: channel})
	if err != nil {
		return word(d.failed("conversations.info", "", err)) == "channel_not_found"
	}
	return !c.IsMember && !c.IsIM
}

// slash handles a slash command.
func (d *Door) slash(ctx context.Context, me self, f fields) reply {
	b := back{user: f.str("user_id"), url: d.urls.keep(f.str("response_url"))}
	at := bot.Place{Door: Name, Room: f.str("channel_id")}
	who := fields{"user": mustJSON(map[string]string{"name": f.str("user_name")})}
	in := d.command(ctx, who, at, "", b)
	in.Text, _ = plain(f.str("text"), me.user, d.people.teller(ctx))
	if in.Text == "" {
		in.Text = "help"
	}
	in.Key = slashKey(me.team, f.str("trigger_id"))
	if f.str("trigger_id") == "" {
		d.log.Warn("a slash command without a trigger id is passed over")
		return reply{}
	}
	if _, err := d.desk.Keep(ctx, in); err != nil {
		d.log.Error("a slash command was not kept", "key", in.Key, "err", err)
		return reply{after: func(ctx context.Context) { d.tell(ctx, b, at, bot.Down(err)) }}
	}
	return reply{}
}

// mustJSON is v as JSON; v is made of strings.
func mustJSON(v any) json.RawMessage {
	b, err := json.Marshal(v)
	if err != nil {
		panic(errors.Join(errors.New("strings that are no JSON"), err))
	}
	return b
}
