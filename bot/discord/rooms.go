package discord

import (
	"context"
	"net/http"
	"sync"

	"strikeoff/bot"
)

// rooms remembers what kind of channel an id is and where its parent is. A message says only the channel it stands in, and a thread is a
// channel of its own.
type rooms struct {
	mu    sync.Mutex
	known map[string]channel
}

// roomsKept bounds the memory: a channel that was forgotten is asked for again.
const roomsKept = 20000

func (r *rooms) put(chs ...channel) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for _, c := range chs {
		if c.ID == "" {
			continue
		}
		if len(r.known) >= roomsKept {
			for id := range r.known {
				delete(r.known, id)
				break
			}
		}
		if old, ok := r.known[c.ID]; ok && c.Owner.V == "" {
			c.Owner = old.Owner // an interaction's channel is cut short
		}
		r.known[c.ID] = c
	}
}

func (r *rooms) get(id string) (channel, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	c, ok := r.known[id]
	return c, ok
}

func (r *rooms) drop(id string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	delete(r.known, id)
}

// channel finds out what a channel is. One that Discord will not tell of counts as a room.
func (c *Chat) channel(ctx context.Context, id string) (channel, error) {
	if ch, ok := c.rooms.get(id); ok {
		return ch, nil
	}
	var ch channel
	err := c.rest.do(ctx, call{method: http.MethodGet, path: "/channels/" + id, again: true}, &ch)
	if refused(err) {
		return channel{ID: id}, nil
	}
	if err != nil {
		return channel{}, err
	}
	c.rooms.put(ch)
	return ch, nil
}

// placeOf is a channel as a place: a thread stands in its parent room.
func placeOf(ch channel) bot.Place {
	if ch.isThread() && ch.Parent.V != "" {
		return bot.Place{Door: Door, Room: ch.Parent.V, Thread: ch.ID}
	}
	return bot.Place{Door: Door, Room: ch.ID}
}
