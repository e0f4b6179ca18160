package discord

import (
	"context"
	"errors"
	"regexp"
	"strings"

	"strikeoff/bot"
)

// messageKey names a message for the ledger. It is the same at every delivery and in the history.
func messageKey(channel, id string) string { return Door + ":" + channel + ":" + id }

// anchorOf is what a reply threads under: the thread, or the message itself. A thread that is started on a message has the message's id.
func anchorOf(at bot.Place, id string) string {
	if at.Thread != "" {
		return at.Thread
	}
	return id
}

// inbound turns a message into what the desk keeps, or says that it is none of the desk's business. An error is that Discord or the ledger
// could not be asked where it belongs.
func (c *Chat) inbound(ctx context.Context, m message, changed bool) (bot.Inbound, bool, error) {
	if m.Author == nil || m.ID == "" || m.Channel == "" || m.Author.ID == c.id() || m.Application.V != "" && m.Application.V == c.app() {
		return bot.Inbound{}, false, nil
	}
	if changed && m.Edited.V == "" {
		return bot.Inbound{}, false, nil // a link grew a picture, a thread grew a reply: nobody wrote anything
	}
	if m.Type.V != typeDefault && m.Type.V != typeReply {
		return bot.Inbound{}, false, nil
	}
	ch, err := c.channel(ctx, m.Channel)
	if err != nil {
		return bot.Inbound{}, false, err
	}
	at := placeOf(ch)
	called := ch.isDirect() || c.mentioned(m)
	if !c.listens(at, ch, called) {
		// A request may come from a room that is not read, by a mention or by Read as order; then its changes matter.
		if !changed {
			return bot.Inbound{}, false, nil
		}
		if ours, err := c.ours(ctx, at, m.ID); err != nil || !ours {
			return bot.Inbound{}, false, err
		}
	}
	if at.Thread == "" {
		at.Thread = c.repliesTo(m)
	}
	in := bot.Inbound{Key: messageKey(m.Channel, m.ID), Sort: bot.Message, Place: at, Anchor: anchorOf(at, m.ID), By: personOf(m.Author, m.Member.V),
		Text: c.textOf(m), Files: filesOf(m), Called: called, Said: snowTime(m.ID)}
	if changed {
		in.Of, in.Sort = in.Key, bot.Edited
		in.Key += ":e:" + m.Edited.V
	}
	if in.Text == "" && len(in.Files) == 0 && !called && !changed {
		return bot.Inbound{}, false, nil
	}
	return in, true, nil
}

// ours reports whether a job stands under a message.
func (c *Chat) ours(ctx context.Context, at bot.Place, id string) (bool, error) {
	at.Thread = anchorOf(at, id)
	_, err := c.cfg.Desk.Ledger.InThread(ctx, at)
	if errors.Is(err, bot.ErrNoJob) {
		return false, nil
	}
	return err == nil, err
}

// mentioned reports whether the message calls the bot by name. An answer to one of its posts calls it too, by Discord's own habit.
func (c *Chat) mentioned(m message) bool {
	for _, u := range m.Mentions.V {
		if u.ID == c.id() && u.ID != "" {
			return true
		}
	}
	return false
}

// repliesTo is the thread that a reply outside any thread belongs to: the replied message's own, or the one whose request the replied
// post of ours stands under; "" where there is none.
func (c *Chat) repliesTo(m message) string {
	r := m.Referenced.V
	switch {
	case m.Type.V != typeReply || r == nil:
		return ""
	case r.Flags.V&flagHasThread != 0:
		return r.ID
	case r.Author != nil && r.Author.ID == c.id() && r.Reference.V != nil:
		return r.Reference.V.Message
	}
	return ""
}

// personOf is a writer as the desk knows people. Roles are groups.
func personOf(u *user, m *member) bot.Person {
	if u == nil {
		return bot.Person{}
	}
	p := bot.Person{ID: u.ID, Name: u.Username, Bot: u.Bot.V}
	if u.Global.V != "" {
		p.Name = u.Global.V
	}
	if m != nil {
		p.Groups = m.Roles.V
		if m.Nick.V != "" {
			p.Name = m.Nick.V
		}
	}
	return p
}

var (
	mentionPattern = regexp.MustCompile(`<@!?(\d+)>`)
	emojiPattern   = regexp.MustCompile(`<a?:(\w+):\d+>`)
)

// textOf is what a message says as its writer saw it: mentions by name, without the one that called the bot. A forwarded message says
// what was forwarded; a program's message may say it all in embeds.
func (c *Chat) textOf(m message) string {
	text := m.Content
	if strings.TrimSpace(text) == "" {
		for _, s := range m.Snapshots.V {
			text = strings.TrimSpace(text + "\n" + s.Message.V.Content)
		}
	}
	if text == "" && m.Author != nil && m.Author.Bot.V {
		text = embedText(m.Embeds.V)
	}
	text = mentionPattern.ReplaceAllStringFunc(text, func(s string) string {
		id := mentionPattern.FindStringSubmatch(s)[1]
		if id == c.id() {
			return ""
		}
		for _, u := range m.Mentions.V {
			if u.ID == id {
				return "@" + personOf(&u, nil).Name
			}
		}
		return s
	})
	text = emojiPattern.ReplaceAllString(text, ":$1:")
	return strings.TrimSpace(text)
}

// embedText is the words of embeds, a line each.
func embedText(es []embed) string {
	var out []string
	add := func(s string) {
		if s != "" {
			out = append(out, s)
		}
	}
	for _, e := range es {
		add(e.Title)
		add(e.Description)
		for _, f := range e.Fields {
			add(f.Name + ": " + f.Value)
		}
	}
	return strings.Join(out, "\n")
}

// filesOf names a message's files. The id finds the message again, since the address that Discord gives runs out.
func filesOf(m message) []bot.File {
	var out []bot.File
	add := func(as []attachment) {
		for _, a := range as {
			out = append(out, bot.File{ID: fileID(m.Channel, m.ID, a.ID), Name: a.Name, Type: a.Type.V, Bytes: a.Size.V})
		}
	}
	add(m.Attachments.V)
	for _, s := range m.Snapshots.V {
		add(s.Message.V.Attachments.V)
	}
	return out
}

// app is the application's id; "" before it is known.
func (c *Chat) app() string { return c.appID.Load().(string) }
