package slack

import (
	"context"
	"errors"
	"strings"
	"sync"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// Post puts a post up, or brings one up to date. The reference it returns names the channel and every message that the post was split
// into: "C123/1531420618.000100,1531420618.000200". Private posts have none.
func (d *Door) Post(ctx context.Context, p bot.Parcel) (ref string, err error) {
	b := backFrom(p.Reply)
	if p.To != "" {
		b.user = p.To
		return d.private(ctx, p, b)
	}
	if p.Place.Room == "" {
		return d.private(ctx, p, b)
	}
	if p.Ref != "" {
		return d.renew(ctx, p)
	}
	ref, err = d.public(ctx, p, nil)
	if w := word(err); b.user != "" && (w == "not_in_channel" || w == "channel_not_found") {
		// Somebody asked in a channel that the app is not in: they at least shall have the answer, and know why the others do not.
		q := p
		q.Post.Text = strings.TrimSpace("strikeoff is not in this channel, so only you see this. Invite it with /invite, then ask again.\n" + p.Post.Text)
		return d.private(ctx, q, b)
	}
	return ref, err
}

// public posts a new post, using what is there already of it, and answers its reference.
func (d *Door) public(ctx context.Context, p bot.Parcel, parts [][]sdk.Block) (string, error) {
	fallback, usual := dress(p.Post, d.c.Limits.Parts)
	if parts == nil {
		parts = usual
	}
	there, err := d.there(ctx, p)
	if err != nil {
		return "", err
	}
	var sent []string
	for i, blocks := range parts {
		ts := there[i]
		if ts == "" {
			var err error
			if ts, err = d.send(ctx, p, i, fallback, blocks); err != nil {
				if word(err) == "msg_blocks_too_long" && i == 0 && len(parts) == len(usual) {
					return d.public(ctx, p, dressTight(p.Post, d.c.Limits.Parts))
				}
				if i > 0 {
					d.doubts.add(p.Key)
				}
				return "", err
			}
		}
		sent = append(sent, ts)
	}
	d.doubts.drop(p.Key)
	return refOf(p.Place.Room, sent), nil
}

// there is what is up already of a post that may have been tried before, by part.
func (d *Door) there(ctx context.Context, p bot.Parcel) (map[int]string, error) {
	if p.Tries <= 1 && !d.doubts.has(p.Key) {
		return nil, nil
	}
	return d.find(ctx, p)
}

// speechOptions are the same for every message: nothing in it is looked for links, names or previews.
func speechOptions(fallback string, blocks []sdk.Block) []sdk.MsgOption {
	return []sdk.MsgOption{sdk.MsgOptionText(fallback, true), sdk.MsgOptionBlocks(blocks...), sdk.MsgOptionParse(false), sdk.MsgOptionLinkNames(false),
		sdk.MsgOptionDisableLinkUnfurl(), sdk.MsgOptionDisableMediaUnfurl()}
}

// send posts one message.
func (d *Door) send(ctx context.Context, p bot.Parcel, part int, fallback string, blocks []sdk.Block) (ts string, err error) {
	if err := d.open("chat.postMessage", p.Place.Room); err != nil {
		return "", err
	}
	opts := append(speechOptions(fallback, blocks), sdk.MsgOptionMetadata(mark(p.Key, part)))
	if p.Place.Thread != "" {
		opts = append(opts, sdk.MsgOptionTS(p.Place.Thread))
	}
	_, ts, err = d.api.PostMessageContext(ctx, p.Place.Room, opts...)
	if err != nil {
		if unknown(err) {
			d.doubts.add(p.Key)
		}
		return "", d.failed("chat.postMessage", p.Place.Room, err)
	}
	return ts, nil
}

// renew brings a post up to date: its messages are changed, those that are too many taken away, those that are missing added. Where the
// post is gone a new one is made.
func (d *Door) renew(ctx context.Context, p bot.Parcel) (string, error) {
	room, old := readRef(p.Ref)
	if room == "" || len(old) == 0 {
		return d.public(ctx, p, nil)
	}
	fallback, parts := dress(p.Post, d.c.Limits.Parts)
	var there map[int]string
	if len(parts) > len(old) {
		var err error
		if there, err = d.there(ctx, p); err != nil {
			return "", err
		}
	}
	var now []string
	for i, blocks := range parts {
		if i >= len(old) {
			ts := there[i]
			if ts == "" {
				var err error
				if ts, err = d.send(ctx, p, i, fallback, blocks); err != nil {
					d.doubts.add(p.Key) // earlier parts may be up
					return "", err
				}
			}
			now = append(now, ts)
			continue
		}
		if err := d.open("chat.update", room); err != nil {
			return "", err
		}
		_, _, _, err := d.api.UpdateMessageContext(ctx, room, old[i], speechOptions(fallback, blocks)...)
		switch w := word(err); {
		case err == nil:
			now = append(now, old[i])
		case w == "message_not_found" || w == "cant_update_message" || w == "edit_window_closed":
			d.log.Info("a post that should be changed is gone, and is made anew", "room", room, "ts", old[i])
			ts, err := d.send(ctx, p, i, fallback, blocks)
			if err != nil {
				return "", err
			}
			now = append(now, ts)
		default:
			return "", d.failed("chat.update", room, err)
		}
	}
	for _, ts := range old[min(len(parts), len(old)):] {
		if _, _, err := d.api.DeleteMessageContext(ctx, room, ts); err != nil && word(err) != "message_not_found" {
			d.log.Warn("a message that is not needed any more could not be taken away", "err", d.failed("chat.delete", room, err))
		}
	}
	d.doubts.drop(p.Key)
	return refOf(room, now), nil
}

// private shows a post to one person: in the modal that waits for it, on their Home tab, in the channel for them alone, at the response
// URL, or in a direct message; the first that works.
func (d *Door) private(ctx context.Context, p bot.Parcel, b back) (string, error) {
	if b.user == "" {
		return "", bot.Permanent(errors.New("slack: a private post to nobody"))
	}
	if b.view != "" {
		_, err := d.api.UpdateViewContext(ctx, shown("strikeoff", dressView(p.Post)), "", "", b.view)
		if err == nil {
			return "", nil
		}
		if word(err) == "" {
			return "", d.failed("views.update", "", err)
		} // the person closed it: another way
	}
	if b.home {
		_, err := d.api.PublishViewContext(ctx, sdk.PublishViewContextRequest{UserID: b.user, View: sdk.HomeTabViewRequest{Type: sdk.VTHomeTab,
			Blocks: sdk.Blocks{BlockSet: homeBlocks(p.Post)}}})
		return "", d.failed("views.publish", "", err)
	}
	if p.Place.Room != "" && !strings.HasPrefix(p.Place.Room, "D") {
		err := d.whisper(ctx, p, b.user)
		if w := word(err); err == nil || w == "" {
			return "", err
		}
	}
	if u := d.urls.get(b.url); u != "" {
		if d.respond(ctx, u, p.Post) == nil {
			return "", nil
		}
	}
	return "", d.direct(ctx, p, b.user)
}

// whisper shows something to one person in a channel.
func (d *Door) whisper(ctx context.Context, p bot.Parcel, user string) error {
	at := p.Place
	fallback, parts := dress(p.Post, d.c.Limits.Parts)
	for _, blocks := range parts {
		if err := d.open("chat.postEphemeral", at.Room); err != nil {
			return err
		}
		opts := speechOptions(fallback, blocks)
		if at.Thread != "" {
			opts = append(opts, sdk.MsgOptionTS(at.Thread))
		}
		if _, err := d.api.PostEphemeralContext(ctx, at.Room, user, opts...); err != nil {
			return d.failed("chat.postEphemeral", at.Room, err)
		}
	}
	return nil
}

// direct writes to one person.
func (d *Door) direct(ctx context.Context, p bot.Parcel, user string) error {
	if err := d.open("conversations.open", ""); err != nil {
		return err
	}
	ch, _, _, err := d.api.OpenConversationContext(ctx, &sdk.OpenConversationParameters{Users: []string{user}})
	if err != nil {
		return d.failed("conversations.open", "", err)
	}
	p.Place, p.To, p.Ref = bot.Place{Door: Name, Room: ch.ID}, "", ""
	_, err = d.public(ctx, p, nil)
	return err
}

// homeBlocks is the Home tab: the open jobs.
func homeBlocks(p bot.Post) []sdk.Block {
	head := []sdk.Block{sdk.NewHeaderBlock(plainText("Open jobs"))}
	return append(head, dressView(p)...)
}

// refOf and readRef write and read references.
func refOf(room string, ts []string) string { return room + "/" + strings.Join(ts, ",") }

func readRef(ref string) (room string, ts []string) {
	room, list, ok := strings.Cut(ref, "/")
	if !ok || list == "" {
		return "", nil
	}
	return room, strings.Split(list, ",")
}

// doubts are the keys of posts that may be up although the call failed.
type doubts struct {
	mu   sync.Mutex
	keys map[string]bool
}

func (d *doubts) add(key string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.keys == nil {
		d.keys = map[string]bool{}
	}
	d.keys[key] = true
}

func (d *doubts) has(key string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keys[key]
}

func (d *doubts) drop(key string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.keys, key)
}

// Pace is what Slack allows in one channel: about one post a second, with short bursts.
// https://docs.slack.dev/apis/web-api/rate-limits
func (d *Door) Pace() (perSecond float64, burst int) { return 1, 5 }
