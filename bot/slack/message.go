package slack

import (
	"context"
	"errors"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// said is a message as Slack tells of it, in an event or in history.
type said struct {
	channel, ts, thread string
	user, botID, name   string
	subtype, text       string
	edited              string // ts of the person's last edit; "" for none
	direct              bool   // in a direct conversation with the app
	mention             bool   // came as app_mention
	files               []fields
}

// saidIn reads a message's fields.
func saidIn(f fields, channel string) said {
	m := said{channel: channel, ts: f.str("ts"), thread: f.str("thread_ts"), user: f.str("user"), botID: f.str("bot_id"), name: f.str("username"),
		subtype: f.str("subtype"), text: f.str("text"), edited: f.sub("edited").str("ts"), direct: f.str("channel_type") == "im",
		mention: f.str("type") == "app_mention", files: f.list("files")}
	if m.channel == "" {
		m.channel = f.str("channel")
	}
	if m.thread == m.ts {
		m.thread = "" // a thread's root carries its own ts
	}
	if len(m.channel) > 0 && m.channel[0] == 'D' {
		m.direct = true
	}
	return m
}

// speech are the subtypes of messages that somebody wrote; the others are Slack's own notes about the channel.
var speech = map[string]bool{"": true, "file_share": true, "thread_broadcast": true, "bot_message": true, "me_message": true}

// message handles a message event: something said, changed or taken back.
func (d *Door) message(ctx context.Context, me self, ev fields) error {
	channel := ev.str("channel")
	switch ev.str("subtype") {
	case "message_changed":
		now, was := ev.sub("message"), ev.sub("previous_message")
		m := saidIn(now, channel)
		if now.str("subtype") == "tombstone" { // taken back, with replies under it
			m = saidIn(was, channel)
			if m.ts == "" {
				m = saidIn(now, channel)
			}
			return d.tookBack(ctx, me, m, ev.str("event_ts"))
		}
		if m.edited == "" || m.edited == was.sub("edited").str("ts") {
			return nil // a preview or a counter changed, not what was said
		}
		return d.changed(ctx, me, m)
	case "message_deleted":
		m := saidIn(ev.sub("previous_message"), channel)
		if m.ts == "" {
			m.ts = ev.str("deleted_ts")
		}
		return d.tookBack(ctx, me, m, ev.str("event_ts"))
	}
	if _, lost := d.marks.lost()[channel]; lost {
		// Something said earlier was not kept. It comes first, or a reply would be read before what it replies to.
		d.logged("what was not kept before could not be fetched", d.catchRoom(ctx, me, channel, nil))
	}
	m := saidIn(ev, channel)
	d.rootFirst(ctx, me, m)
	_, err := d.spoke(ctx, me, m)
	return err
}

// rootFirst has a reply's root kept before the reply, where the reply overtook it: else the reply would be read before what it replies to, and
// change nothing. Only a young root that this process has not seen is asked for, and only once.
func (d *Door) rootFirst(ctx context.Context, me self, m said) {
	if m.thread == "" || m.own(me) || len(d.orders) > 0 && !d.orders[m.channel] || !d.late(said{ts: m.thread}) || d.recent.has(m.channel, m.thread) {
		return
	}
	if d.open("conversations.replies", "") != nil {
		return
	}
	ms, _, _, err := d.api.GetConversationRepliesContext(ctx, &sdk.GetConversationRepliesParameters{ChannelID: m.channel, Timestamp: m.thread, Limit: 1})
	if err != nil {
		d.logged("a thread's root could not be looked for", d.failed("conversations.replies", "", err))
		return
	}
	d.recent.add(m.channel, m.thread)
	if len(ms) > 0 && ms[0].Timestamp == m.thread {
		_, err := d.spoke(ctx, me, saidThere(ms[0], m.channel))
		d.logged("a thread's root was not kept", err)
	}
}

// young is how long a message may still be under way: Slack delivers it again for about so long.
const young = 10 * time.Minute

// late reports whether a message's own event may come after this.
func (d *Door) late(m said) bool { return d.c.Now().Sub(stamp(m.ts)) < young }

// own reports whether the app itself wrote a message.
func (m said) own(me self) bool {
	return m.user != "" && m.user == me.user || m.botID != "" && m.botID == me.bot
}

// spoke hands a message in, if it is for us, and reports whether it was new.
func (d *Door) spoke(ctx context.Context, me self, m said) (fresh bool, err error) {
	if m.ts == "" || m.channel == "" || m.own(me) || !speech[m.subtype] || m.user == "" && m.botID == "" {
		return false, nil
	}
	in := d.inbound(ctx, me, m)
	in.Sort, in.Key = "message", messageKey(me.team, m.channel, m.ts)
	if !in.Called {
		switch ours, err := d.ours(ctx, m); {
		case err != nil:
			return false, d.missed(m, err)
		case !ours:
			return false, nil
		}
	}
	fresh, err = d.desk.Keep(ctx, in)
	if err != nil {
		return false, d.missed(m, err)
	}
	d.marks.saw(m.channel, m.ts)
	d.recent.add(m.channel, m.ts)
	d.handFiles(in)
	return fresh, nil
}

// changed hands an edit in.
func (d *Door) changed(ctx context.Context, me self, m said) error {
	if m.ts == "" || m.own(me) || !speech[m.subtype] {
		return nil
	}
	if d.late(m) { // where the edit overtook the message, this is the message
		if fresh, err := d.spoke(ctx, me, m); fresh || err != nil {
			return err
		}
	}
	in := d.inbound(ctx, me, m)
	in.Sort, in.Of, in.Key = "edited", messageKey(me.team, m.channel, m.ts), editKey(me.team, m.channel, m.ts, m.edited)
	in.Said = stamp(m.edited)
	return d.about(ctx, m, in)
}

// tookBack hands in that a message was taken back.
func (d *Door) tookBack(ctx context.Context, me self, m said, at string) error {
	if m.ts == "" || m.own(me) {
		return nil
	}
	m.text, m.files = "", nil
	if d.late(m) { // where this overtook the message, its key is used up, so that it says nothing when it comes
		if fresh, err := d.spoke(ctx, me, m); fresh || err != nil {
			return err
		}
	}
	in := d.inbound(ctx, me, m)
	in.Sort, in.Of, in.Key = "deleted", messageKey(me.team, m.channel, m.ts), deleteKey(me.team, m.channel, m.ts)
	if t := stamp(at); !t.IsZero() {
		in.Said = t
	}
	return d.about(ctx, m, in)
}

// about hands in something about an earlier message, if that was for us.
func (d *Door) about(ctx context.Context, m said, in bot.Inbound) error {
	ours, err := d.ours(ctx, m)
	if err == nil && ours {
		_, err = d.desk.Keep(ctx, in)
	}
	if err != nil {
		return d.missed(m, err)
	}
	return nil
}

// missed notes that a message was not kept, so that catching up begins before it.
func (d *Door) missed(m said, err error) error {
	d.marks.missed(m.channel, m.ts)
	return notKept(err)
}

// ours reports whether a message that did not call us by name is for us all the same: said in an orders channel, to us directly, or in a
// thread in which a job stands.
func (d *Door) ours(ctx context.Context, m said) (bool, error) {
	if len(d.orders) == 0 || d.orders[m.channel] || m.direct {
		return true, nil
	}
	root := m.thread
	if root == "" {
		root = m.ts
	}
	_, err := d.desk.Ledger.InThread(ctx, bot.Place{Door: Name, Room: m.channel, Thread: root})
	if errors.Is(err, bot.ErrNoJob) {
		return false, nil
	}
	return err == nil, err
}

// inbound is a message in the desk's words; sort and key are left to the caller.
func (d *Door) inbound(ctx context.Context, me self, m said) bot.Inbound {
	text, called := plain(m.text, me.user, d.people.teller(ctx))
	in := bot.Inbound{Place: bot.Place{Door: Name, Room: m.channel, Thread: m.thread}, Anchor: m.thread, Text: text,
		Called: called || m.mention || m.direct, Said: stamp(m.ts)}
	if in.Anchor == "" {
		in.Anchor = m.ts
	}
	if m.user != "" {
		in.By = d.people.person(ctx, m.user, m.name)
	} else {
		in.By = bot.Person{ID: m.botID, Name: m.name}
		if in.By.Name == "" {
			in.By.Name = m.botID
		}
	}
	in.By.Bot = m.botID != ""
	for _, f := range m.files {
		if file, ok := fileIn(f); ok {
			in.Files = append(in.Files, file)
		}
	}
	return in
}
