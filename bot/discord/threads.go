package discord

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"strikeoff/bot"
)

// archiveAfter is how long a thread stays in the channel list without talk, in minutes: a week, the longest that Discord knows.
const archiveAfter = 10080

// target finds the channel that a post for a place goes into: the thread, started on the request where there is none yet. Where no thread
// can be had (a direct message, a room without the permission) the post answers the request in the room, and under names it.
func (c *Chat) target(ctx context.Context, at bot.Place, p bot.Post) (channelID, under string, err error) {
	if at.Thread == "" || at.Thread == at.Room {
		return at.Room, "", nil
	}
	if ch, ok := c.rooms.get(at.Thread); ok && ch.isThread() {
		return at.Thread, "", nil
	}
	room, err := c.channel(ctx, at.Room)
	if err != nil {
		return "", "", err
	}
	if room.isDirect() {
		return at.Room, at.Thread, nil
	}
	body := map[string]any{"name": threadName(p), "auto_archive_duration": archiveAfter}
	var made channel
	err = c.rest.do(ctx, call{method: http.MethodPost, path: "/channels/" + at.Room + "/messages/" + at.Thread + "/threads", body: body, again: true}, &made)
	switch {
	case err == nil:
		c.rooms.put(made)
		return at.Thread, "", nil
	case is(err, codeHasThread):
		// Another copy of the program started it, or a person did.
		c.rooms.put(threadChannel(at))
		return at.Thread, "", nil
	case !refused(err):
		return "", "", err
	}
	// No thread can be started there. It may be one that was not started on a message.
	var ch channel
	switch lookErr := c.rest.do(ctx, call{method: http.MethodGet, path: "/channels/" + at.Thread, again: true}, &ch); {
	case lookErr == nil && ch.isThread():
		c.rooms.put(ch)
		return at.Thread, "", nil
	case lookErr != nil && !refused(lookErr):
		return "", "", lookErr
	}
	c.log.Warn("no thread could be started: give the bot Create Public Threads in that channel. The answer goes into the channel", "channel", at.Room, "err", err)
	return at.Room, at.Thread, nil
}

func threadChannel(at bot.Place) channel {
	ch := channel{ID: at.Thread, Type: kindPublicThread}
	ch.Parent.V = at.Room
	return ch
}

// threadName is what a request's thread is called: at most 100 characters, on one line.
func threadName(p bot.Post) string {
	name := "Print request"
	if p.Card != nil && p.Card.Job != 0 {
		name = fmt.Sprintf("Job %d", p.Card.Job)
		if who := strings.Join(strings.Fields(p.Card.Customer), " "); who != "" {
			name += ", " + who
		}
	}
	return clip(name, 100)
}
