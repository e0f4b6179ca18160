package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"strikeoff/bot"
)

const (
	historyPage  = 100 // Discord's most
	historyPages = 200 // a channel at most, so that a mistake cannot read for ever: 20,000 messages
	// overlap is how far before the last kept message the history is read again: an edit made while the bot was away is seen there.
	overlap = 10 * time.Minute
	// openThreads is how many threads of open jobs are looked at beyond those that Discord calls active.
	openThreads = 500
)

// onReady hears that a new session began: whatever was said since the last one ended was not delivered.
func (c *Chat) onReady(raw []byte) {
	var r struct {
		User   user `json:"user"`
		Guilds loose[[]struct {
			ID string `json:"id"`
		}] `json:"guilds"`
	}
	if c.decode("READY", raw, &r) && r.User.ID != "" {
		c.self.Store(r.User.ID)
	}
	guilds := []string{}
	for _, g := range r.Guilds.V {
		guilds = append(guilds, g.ID)
	}
	c.guilds.Store(&guilds)
	c.cursors.hold()
	c.again()
}

// again asks for a catch-up; one that waits already is enough.
func (c *Chat) again() {
	select {
	case c.ready <- struct{}{}:
	default:
	}
}

// catchUps reads the history whenever it is asked to, until ctx ends.
func (c *Chat) catchUps(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-c.ready:
		}
		for wait := time.Second; ; wait = min(2*wait, time.Minute) {
			err := c.catchUp(ctx)
			if err == nil {
				c.cursors.free()
				c.flush(ctx) // at the first start of all, this is what a lost session is caught up from
				break
			}
			if ctx.Err() != nil {
				return
			}
			c.log.Warn("the history could not be read; trying again", "err", err, "wait", wait)
			if sleep(ctx, wait) != nil {
				return
			}
		}
		if c.caught != nil {
			c.caught()
		}
	}
}

// firstMark, after a room's id, is where the ledger keeps the moment at which the room was read first: what is older is not ours.
const firstMark = " first"

// marks are where a room was read last and first; "" where it never was.
type marks struct{ last, first string }

// catchUp reads what was said in every room and thread since the last message that was kept there.
func (c *Chat) catchUp(ctx context.Context) error {
	var guilds []string
	if g := c.guilds.Load(); g != nil {
		guilds = *g
	}
	roomIDs, threads, err := c.where(ctx, guilds)
	if err != nil {
		return err
	}
	// Read the rooms' marks before anything is kept: a thread without one of its own starts where its room stood.
	rooms := map[string]marks{}
	for _, r := range roomIDs {
		if rooms[r], err = c.marksOf(ctx, r); err != nil {
			return err
		}
	}
	for _, r := range roomIDs {
		if err := c.history(ctx, r, rooms[r]); err != nil {
			return err
		}
	}
	for _, t := range threads {
		room, listed := rooms[t.Parent.V]
		at, err := c.marksOf(ctx, t.ID)
		if err != nil {
			return err
		}
		at.first = room.first
		switch {
		case at.last == "" && listed && room.last == "":
			continue // the first start of all
		case at.last == "" && listed:
			at.last = room.last
		case at.last == "":
			at.last = t.ID
		}
		if t.Last.V != "" && !newer(t.Last.V, at.last) && c.cfg.Now().Sub(snowTime(at.last)) > overlap {
			continue // nothing new, and nothing young enough to have been changed
		}
		if err := c.history(ctx, t.ID, at); err != nil {
			return err
		}
	}
	return nil
}

func (c *Chat) marksOf(ctx context.Context, id string) (m marks, err error) {
	if m.last, err = c.cfg.Desk.Ledger.Cursor(ctx, Door, id); err == nil {
		m.first, err = c.cfg.Desk.Ledger.Cursor(ctx, Door, id+firstMark)
	}
	if err != nil {
		return m, fmt.Errorf("read how far channel %s was read: %w", id, err)
	}
	return m, nil
}

// where lists the rooms and threads that are read.
func (c *Chat) where(ctx context.Context, guilds []string) (roomIDs []string, threads []channel, err error) {
	roomIDs = slices.Clone(c.cfg.OrdersRooms)
	seen := map[string]bool{}
	for _, g := range guilds {
		if len(c.cfg.OrdersRooms) == 0 {
			var chs []channel
			if err := c.rest.do(ctx, call{method: http.MethodGet, path: "/guilds/" + g + "/channels", again: true}, &chs); err != nil && !refused(err) {
				return nil, nil, err
			}
			for _, ch := range chs {
				c.rooms.put(ch)
				if ch.Type == kindText || ch.Type == kindNews {
					roomIDs = append(roomIDs, ch.ID)
				}
			}
		}
		var active struct {
			Threads []channel `json:"threads"`
		}
		if err := c.rest.do(ctx, call{method: http.MethodGet, path: "/guilds/" + g + "/threads/active", again: true}, &active); err != nil && !refused(err) {
			return nil, nil, err
		}
		for _, t := range active.Threads {
			c.rooms.put(t)
			if c.listens(placeOf(t), t, false) {
				threads, seen[t.ID] = append(threads, t), true
			}
		}
	}
	// A thread that fell asleep is not active, but its job may be open.
	jobs, err := c.cfg.Desk.Jobs(ctx, bot.OpenStates, 0, openThreads)
	if err != nil {
		return nil, nil, fmt.Errorf("list the open jobs: %w", err)
	}
	for _, j := range jobs {
		if j.Place.Door != Door || j.Place.Thread == "" || seen[j.Place.Thread] {
			continue
		}
		room, err := c.channel(ctx, j.Place.Room)
		if err != nil {
			return nil, nil, err
		}
		switch {
		case !room.isDirect():
			t := channel{ID: j.Place.Thread}
			t.Parent.V, seen[t.ID] = j.Place.Room, true
			threads = append(threads, t)
		case !slices.Contains(roomIDs, room.ID):
			roomIDs = append(roomIDs, room.ID) // a direct message has no threads
		}
	}
	return roomIDs, threads, nil
}

// history hands in what stands in a channel after the given message, oldest first, through the same door as what is heard live. A channel
// that was never read begins now: what was said before the bot came was not said to it.
func (c *Chat) history(ctx context.Context, channelID string, at marks) error {
	if at.last == "" {
		now := snowAt(c.cfg.Now())
		if err := c.cfg.Desk.Ledger.SetCursor(ctx, Door, channelID+firstMark, now); err != nil {
			return fmt.Errorf("note when channel %s was read first: %w", channelID, err)
		}
		c.cursors.note(channelID, now)
		return nil
	}
	after := snowAt(snowTime(at.last).Add(-overlap))
	if newer(at.first, after) {
		after = at.first
	}
	for range historyPages {
		page, err := c.page(ctx, channelID, after)
		if ch, ok := c.rooms.get(channelID); is(err, codeUnknownChannel) || refused(err) && ok && (ch.Type == kindForum || ch.Type == kindMedia) {
			return nil // it was deleted, or holds nothing but threads
		}
		if refused(err) {
			c.log.Warn("a channel's history may not be read: the bot lacks View Channel or Read Message History there, or it is gone", "channel", channelID, "err", err)
			return nil
		}
		if err != nil {
			return err
		}
		for _, m := range page {
			if err := c.missed(ctx, m); err != nil {
				return err
			}
			after = m.ID
		}
		if len(page) < historyPage {
			return nil
		}
	}
	c.log.Error("more was said while the bot was away than is read back", "channel", channelID, "messages", historyPage*historyPages)
	return nil
}

// page reads one page of history, oldest first. Each message is read by itself, so that an odd one costs only itself.
func (c *Chat) page(ctx context.Context, channelID, after string) ([]message, error) {
	var raw []json.RawMessage
	q := url.Values{"after": {after}, "limit": {strconv.Itoa(historyPage)}}
	if err := c.rest.do(ctx, call{method: http.MethodGet, path: "/channels/" + channelID + "/messages", query: q, again: true}, &raw); err != nil {
		return nil, err
	}
	var page []message
	for _, r := range raw {
		var m message
		if !c.decode("history", r, &m) {
			var bare struct {
				ID string `json:"id"`
			}
			if json.Unmarshal(r, &bare) != nil {
				continue
			}
			m = message{ID: bare.ID}
		}
		m.Channel = channelID
		page = append(page, m)
	}
	slices.SortFunc(page, func(a, b message) int {
		switch {
		case newer(a.ID, b.ID):
			return 1
		case newer(b.ID, a.ID):
			return -1
		}
		return 0
	})
	return page, nil
}

// missed hands in a message of the history. One that was kept before and edited since is handed in as the edit that it is.
func (c *Chat) missed(ctx context.Context, m message) error {
	in, ok, err := c.inbound(ctx, m, false)
	if err != nil {
		return err
	}
	if ok {
		fresh, err := c.cfg.Desk.Keep(ctx, in)
		if c.tried != nil {
			c.tried(in.Key, fresh, err)
		}
		if err != nil {
			return fmt.Errorf("keep a missed message: %w", err)
		}
		c.handFiles(in)
		if !fresh && m.Edited.V != "" {
			if in, ok, err := c.inbound(ctx, m, true); err == nil && ok {
				if _, err := c.cfg.Desk.Keep(ctx, in); err != nil {
					return fmt.Errorf("keep a missed edit: %w", err)
				}
			}
		}
	}
	c.cursors.note(m.Channel, m.ID)
	return nil
}
