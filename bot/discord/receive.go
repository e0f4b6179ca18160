package discord

import (
	"context"
	"encoding/json"
	"time"

	"strikeoff/bot"
)

// event hears one event of the gateway. It is called from the reading loop and only sorts: the work is done in the lanes.
func (c *Chat) event(ctx context.Context, typ string, raw []byte) {
	switch typ {
	case "READY":
		c.onReady(raw)
	case "RESUMED":
		c.up.Store(true)
	case "GUILD_CREATE":
		var g struct {
			Channels loose[[]channel] `json:"channels"`
			Threads  loose[[]channel] `json:"threads"`
		}
		c.decode(typ, raw, &g)
		c.rooms.put(g.Channels.V...)
		c.rooms.put(g.Threads.V...)
	case "CHANNEL_CREATE", "CHANNEL_UPDATE", "THREAD_CREATE", "THREAD_UPDATE":
		var ch channel
		if c.decode(typ, raw, &ch) {
			c.rooms.put(ch)
		}
	case "THREAD_LIST_SYNC":
		var l struct {
			Threads loose[[]channel] `json:"threads"`
		}
		c.decode(typ, raw, &l)
		c.rooms.put(l.Threads.V...)
	case "CHANNEL_DELETE", "THREAD_DELETE":
		var ch channel
		if c.decode(typ, raw, &ch) {
			c.rooms.drop(ch.ID)
		}
	case "MESSAGE_CREATE", "MESSAGE_UPDATE":
		var m message
		if c.decode(typ, raw, &m) {
			c.queue(m.Channel, func(ctx context.Context) { c.heard(ctx, m, typ == "MESSAGE_UPDATE") })
		}
	case "MESSAGE_DELETE":
		var m struct {
			ID      string `json:"id"`
			Channel string `json:"channel_id"`
		}
		if c.decode(typ, raw, &m) {
			c.queue(m.Channel, func(ctx context.Context) { c.gone(ctx, m.Channel, m.ID) })
		}
	case "MESSAGE_DELETE_BULK":
		var m struct {
			IDs     []string `json:"ids"`
			Channel string   `json:"channel_id"`
		}
		if c.decode(typ, raw, &m) {
			for _, id := range m.IDs {
				c.queue(m.Channel, func(ctx context.Context) { c.gone(ctx, m.Channel, id) })
			}
		}
	case "INTERACTION_CREATE":
		var in interaction
		if c.decode(typ, raw, &in) && !c.lanes.act(func(ctx context.Context) { c.answerOverREST(ctx, in) }) {
			c.log.Error("too many presses at once: one was not answered", "interaction", in.ID)
		}
	}
}

// decode reads an event, or notes that it could not.
func (c *Chat) decode(typ string, raw []byte, v any) bool {
	if err := json.Unmarshal(raw, v); err != nil {
		c.log.Error("an event of Discord's could not be read", "type", typ, "err", err)
		return false
	}
	return true
}

// queue hands work on a channel to its lane. Where the lane is full the rest is left to the history.
func (c *Chat) queue(channel string, do func(context.Context)) {
	if !c.lanes.say(channel, do) {
		c.log.Error("more is being said than the ledger keeps up with: the rest will be read from the history", "channel", channel)
		c.cursors.hold()
		c.again()
	}
}

// heard hands in a message that was written or changed.
func (c *Chat) heard(ctx context.Context, m message, changed bool) {
	in, ok := c.retry(ctx, func() (bot.Inbound, bool, error) { return c.inbound(ctx, m, changed) })
	if ctx.Err() != nil {
		return
	}
	if ok {
		if !c.keep(ctx, in) {
			return
		}
		c.handFiles(in)
	}
	if !changed {
		c.cursors.note(m.Channel, m.ID)
	}
}

// gone hands in that a message was taken back. Discord does not say by whom.
func (c *Chat) gone(ctx context.Context, channelID, id string) {
	in, ok := c.retry(ctx, func() (bot.Inbound, bool, error) {
		ch, err := c.channel(ctx, channelID)
		if err != nil {
			return bot.Inbound{}, false, err
		}
		at := placeOf(ch)
		if !c.listens(at, ch, false) {
			if ours, err := c.ours(ctx, at, id); err != nil || !ours {
				return bot.Inbound{}, false, err
			}
		}
		key := messageKey(channelID, id)
		return bot.Inbound{Key: key + ":d", Sort: bot.Deleted, Of: key, Place: at, Anchor: anchorOf(at, id), Said: c.cfg.Now()}, true, nil
	})
	if ok && ctx.Err() == nil {
		c.keep(ctx, in)
	}
}

// retry does what needs Discord or the ledger until it can be done or ctx ends.
func (c *Chat) retry(ctx context.Context, do func() (bot.Inbound, bool, error)) (bot.Inbound, bool) {
	for wait := 500 * time.Millisecond; ; wait = min(2*wait, 30*time.Second) {
		in, ok, err := do()
		if err == nil {
			return in, ok
		}
		if ctx.Err() == nil {
			c.log.Warn("it is not known yet where a message belongs; trying again", "err", err, "wait", wait)
		}
		if c.pause(ctx, wait) != nil {
			return bot.Inbound{}, false
		}
	}
}

// keep hands a message to the desk, again and again while the ledger cannot be reached: Discord delivers once, so it must not be let go.
// false is the end of ctx; the message then comes back from the history.
func (c *Chat) keep(ctx context.Context, in bot.Inbound) bool {
	for wait := 250 * time.Millisecond; ; wait = min(2*wait, 10*time.Second) {
		fresh, err := c.cfg.Desk.Keep(ctx, in)
		if c.tried != nil {
			c.tried(in.Key, fresh, err)
		}
		if err == nil {
			return true
		}
		if ctx.Err() == nil {
			c.log.Error("a message could not be kept; trying again", "key", in.Key, "err", err, "wait", wait)
		}
		if c.pause(ctx, wait) != nil {
			return false
		}
	}
}
