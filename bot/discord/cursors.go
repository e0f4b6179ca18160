package discord

import (
	"context"
	"sync"
	"time"
)

// cursors are, per channel, the newest message that was kept or looked at and let go. They are written to the ledger every few seconds:
// what lies between is read twice after a crash, and kept once.
type cursors struct {
	mu   sync.Mutex
	held bool // a gap is being caught up: what is newer than the gap must not be written yet
	at   map[string]string
	dirt map[string]bool
}

// cursorsKept bounds what is remembered of channels in which nothing is new.
const cursorsKept = 20000

func newCursors() *cursors { return &cursors{at: map[string]string{}, dirt: map[string]bool{}} }

func (k *cursors) note(channel, id string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if newer(id, k.at[channel]) {
		k.at[channel], k.dirt[channel] = id, true
	}
	if len(k.at) > cursorsKept {
		for ch := range k.at { // what is forgotten is only noted again
			if !k.dirt[ch] {
				delete(k.at, ch)
			}
		}
	}
}

// hold keeps the cursors from being written until free.
func (k *cursors) hold() { k.mu.Lock(); k.held = true; k.mu.Unlock() }
func (k *cursors) free() { k.mu.Lock(); k.held = false; k.mu.Unlock() }

// take is what has to be written now.
func (k *cursors) take() map[string]string {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.held || len(k.dirt) == 0 {
		return nil
	}
	out := make(map[string]string, len(k.dirt))
	for ch := range k.dirt {
		out[ch] = k.at[ch]
	}
	k.dirt = map[string]bool{}
	return out
}

// flush writes the cursors, many at once, so that the ledger can put them into one flush to disk and what is kept meanwhile does not wait
// behind one after the other. One that cannot be written is written the next time.
func (c *Chat) flush(ctx context.Context) {
	var hands sync.WaitGroup
	room := make(chan struct{}, 128)
	for ch, id := range c.cursors.take() {
		room <- struct{}{}
		hands.Go(func() {
			defer func() { <-room }()
			if err := c.cfg.Desk.Ledger.SetCursor(ctx, Door, ch, id); err != nil {
				if ctx.Err() == nil {
					c.log.Warn("how far a channel was read could not be noted", "channel", ch, "err", err)
				}
				c.cursors.mu.Lock()
				c.cursors.dirt[ch] = true
				c.cursors.mu.Unlock()
			}
		})
	}
	hands.Wait()
}

// flushes writes the cursors every two seconds until ctx ends.
func (c *Chat) flushes(ctx context.Context) {
	for sleep(ctx, 2*time.Second) == nil {
		c.flush(ctx)
	}
}
