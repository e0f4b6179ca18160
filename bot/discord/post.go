package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"

	"strikeoff/bot"
)

// Post puts a parcel up, or brings the post that its Ref names up to date. A post for one person is shown to that person alone while the
// interaction that asked for it can be answered, and is an ordinary post after. The error is bot.Permanent where Discord will never take
// the post, and bot.After where it asked to be left alone for longer than ctx allows.
func (c *Chat) Post(ctx context.Context, p bot.Parcel) (string, error) {
	ref, err := c.post(ctx, p)
	var e *apiError
	var w *waitError
	switch {
	case err == nil:
		return ref, nil
	case errors.As(err, &w):
		return "", bot.After(err, w.wait)
	case errors.As(err, &e) && e.Status == http.StatusTooManyRequests:
		return "", bot.After(err, e.after)
	case errors.As(err, &e) && (e.Status == http.StatusBadRequest || e.Status == http.StatusNotFound):
		return "", bot.Permanent(err)
	}
	return "", err
}

func (c *Chat) post(ctx context.Context, p bot.Parcel) (string, error) {
	pages, refs := dress(p.Post)
	if err := c.keepRefs(ctx, refs); err != nil {
		return "", err
	}
	for i := range pages {
		pages[i].Nonce, pages[i].Enforce = nonce(p.Key, i), true
	}
	r, asked := parseReply(p.Reply)
	asked = asked && r.alive(c.cfg.Now())
	if p.To != "" && asked {
		err := c.tellAlone(ctx, r, pages)
		// The desk may be faster than the acknowledgement of the press, and before that there is nothing to follow up on.
		for try := 0; try < overtakes && is(err, codeUnknownHook) && c.cfg.Now().Sub(snowTime(r.ID)) < 5*time.Second; try++ {
			if werr := c.rest.wait(ctx, overtakeWait); werr != nil {
				return "", werr
			}
			err = c.tellAlone(ctx, r, pages)
		}
		if !is(err, codeUnknownHook, codeUnknownInter, codeHookToken) {
			return "", err
		}
		asked = false // the interaction is over after all
	}
	if p.Ref != "" {
		ref, err := c.bringUpToDate(ctx, p, pages)
		if !is(err, codeUnknownMessage, codeUnknownChannel, codeNotOurs) {
			return ref, err
		}
		// The post is gone: somebody deleted it. It is put up again.
	}
	ref, err := c.putUp(ctx, p, pages)
	if err == nil && asked && r.Waits {
		c.point(ctx, r, ref)
	}
	return ref, err
}

// How often, and after how long, an answer that overtook the acknowledgement of its press is sent again. Discord gives 3 s for that.
const (
	overtakes    = 12
	overtakeWait = 250 * time.Millisecond
)

// nonce is what makes a repeated post one post: Discord gives back the earlier message for some minutes. At most 25 characters.
func nonce(key string, page int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%d %s", page, key))
	return base64.RawURLEncoding.EncodeToString(sum[:16])
}

// A ref names the messages of a post: "channel/message", more pages with a plus.
func refOf(channelID string, ids []string) string { return channelID + "/" + strings.Join(ids, "+") }

func parseRef(ref string) (channelID string, ids []string, ok bool) {
	channelID, list, ok := strings.Cut(ref, "/")
	if !ok || channelID == "" || list == "" {
		return "", nil, false
	}
	return channelID, strings.Split(list, "+"), true
}

// putUp makes new messages.
func (c *Chat) putUp(ctx context.Context, p bot.Parcel, pages []outMessage) (string, error) {
	channelID, under, err := c.target(ctx, p.Place, p.Post)
	if err != nil {
		return "", err
	}
	var ids []string
	for i, m := range pages {
		if i == 0 && under != "" {
			m.Reference = &replyRef{Message: under}
		}
		id, err := c.send(ctx, channelID, m)
		if is(err, codeUnknownChannel) && i == 0 && p.Place.Thread == channelID {
			c.rooms.drop(channelID) // the thread was deleted: start it again, or answer in the room
			if channelID, under, err = c.target(ctx, p.Place, p.Post); err == nil {
				if under != "" {
					m.Reference = &replyRef{Message: under}
				}
				id, err = c.send(ctx, channelID, m)
			}
		}
		if err != nil {
			return "", err
		}
		ids = append(ids, id)
	}
	return refOf(channelID, ids), nil
}

func (c *Chat) send(ctx context.Context, channelID string, m outMessage) (string, error) {
	var made struct {
		ID string `json:"id"`
	}
	err := c.rest.do(ctx, call{method: http.MethodPost, path: "/channels/" + channelID + "/messages", body: m, again: m.Enforce}, &made)
	return made.ID, err
}

// bringUpToDate changes the messages of a post; a page more is posted, a page too many taken away.
func (c *Chat) bringUpToDate(ctx context.Context, p bot.Parcel, pages []outMessage) (string, error) {
	channelID, ids, ok := parseRef(p.Ref)
	if !ok {
		return "", bot.Permanent(fmt.Errorf("discord: %q names no post of this door", p.Ref))
	}
	for i, m := range pages {
		if i >= len(ids) {
			id, err := c.send(ctx, channelID, m)
			if err != nil {
				return "", err
			}
			ids = append(ids, id)
			continue
		}
		m.Nonce, m.Enforce = "", false
		path := "/channels/" + channelID + "/messages/" + ids[i]
		err := c.rest.do(ctx, call{method: http.MethodPatch, path: path, body: m, again: true}, nil)
		if is(err, codeArchived) {
			if err = c.wakeThread(ctx, channelID); err == nil {
				err = c.rest.do(ctx, call{method: http.MethodPatch, path: path, body: m, again: true}, nil)
			}
		}
		if err != nil {
			return "", err
		}
	}
	for _, id := range ids[len(pages):] {
		err := c.rest.do(ctx, call{method: http.MethodDelete, path: "/channels/" + channelID + "/messages/" + id, again: true}, nil)
		if err != nil && !is(err, codeUnknownMessage) {
			return "", err
		}
	}
	return refOf(channelID, ids[:len(pages)]), nil
}

// wakeThread opens a thread that fell asleep, so that a message in it can be changed.
func (c *Chat) wakeThread(ctx context.Context, id string) error {
	return c.rest.do(ctx, call{method: http.MethodPatch, path: "/channels/" + id, body: map[string]bool{"archived": false}, again: true}, nil)
}

// tellAlone answers an interaction so that only who asked sees it. Where "thinking" still stands it becomes the first page.
func (c *Chat) tellAlone(ctx context.Context, r reply, pages []outMessage) error {
	for i, m := range pages {
		m.Nonce, m.Enforce = "", false // the endpoint has none
		thinks := false
		if i == 0 {
			var err error
			if thinks, err = c.thinks(ctx, r); err != nil {
				return err
			}
		}
		if thinks {
			if err := c.rest.do(ctx, call{method: http.MethodPatch, path: r.path("/messages/@original"), body: m, free: true, again: true}, nil); err != nil {
				return err
			}
			c.replies.set(r.ID, false, c.cfg.Now())
			continue
		}
		m.Flags = flagEphemeral
		if err := c.rest.do(ctx, call{method: http.MethodPost, path: r.path(""), body: m, free: true}, nil); err != nil {
			return err
		}
	}
	return nil
}

// thinks reports whether an interaction still shows "thinking".
func (c *Chat) thinks(ctx context.Context, r reply) (bool, error) {
	if !r.Waits {
		return false, nil
	}
	if waiting, known := c.replies.get(r.ID); known && !waiting {
		return false, nil
	}
	// Another copy of the program may have answered meanwhile: Discord knows.
	var m message
	err := c.rest.do(ctx, call{method: http.MethodGet, path: r.path("/messages/@original"), free: true, again: true}, &m)
	return err == nil && m.Flags.V&flagLoading != 0, err
}

// point ends "thinking" by saying where the answer stands, since it is there for everybody. It is a courtesy: its failure is only noted.
func (c *Chat) point(ctx context.Context, r reply, ref string) {
	channelID, _, _ := parseRef(ref)
	if thinks, err := c.thinks(ctx, r); err != nil || !thinks {
		return
	}
	m := newMessage()
	m.Content = "Done: see <#" + channelID + ">."
	if err := c.rest.do(ctx, call{method: http.MethodPatch, path: r.path("/messages/@original"), body: m, free: true, again: true}, nil); err != nil {
		c.log.Info("where the answer stands could not be shown", "err", err)
		return
	}
	c.replies.set(r.ID, false, c.cfg.Now())
}

// waitError says that a call may only go out after a wait that its context does not allow.
type waitError struct{ wait time.Duration }

func (e *waitError) Error() string {
	return fmt.Sprintf("Discord wants %s of silence first", e.wait.Round(time.Millisecond))
}
