package slack

import (
	"context"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// markType is the event_type of the metadata that every post of ours carries: chat.postMessage has no way to say that a post is the same
// as one before, so what stands there is looked for by its key.
const markType = "strikeoff_post"

func mark(key string, part int) sdk.SlackMetadata {
	return sdk.SlackMetadata{EventType: markType, EventPayload: map[string]any{"key": key, "part": part}}
}

// find looks in the thread, or in the channel's newest messages, for what is already up of a post, by part. Of a thread it reads up to
// 600 messages, of a channel up to 200.
func (d *Door) find(ctx context.Context, p bot.Parcel) (map[int]string, error) {
	me, err := d.whoami(ctx)
	if err != nil {
		return nil, err
	}
	out := map[int]string{}
	note := func(ms []sdk.Message) {
		for _, m := range ms {
			if m.BotID != me.bot || m.Metadata.EventType != markType || m.Metadata.EventPayload["key"] != p.Key {
				continue
			}
			if part, ok := m.Metadata.EventPayload["part"].(float64); ok {
				out[int(part)] = m.Timestamp
			}
		}
	}
	if p.Place.Thread == "" {
		if err := d.open("conversations.history", ""); err != nil {
			return nil, err
		}
		h, err := d.api.GetConversationHistoryContext(ctx, &sdk.GetConversationHistoryParameters{ChannelID: p.Place.Room, Limit: 200, IncludeAllMetadata: true})
		if err != nil {
			return nil, d.failed("conversations.history", "", err)
		}
		note(h.Messages)
		return out, nil
	}
	cursor := ""
	for range 3 {
		if err := d.open("conversations.replies", ""); err != nil {
			return nil, err
		}
		ms, _, next, err := d.api.GetConversationRepliesContext(ctx, &sdk.GetConversationRepliesParameters{ChannelID: p.Place.Room, Timestamp: p.Place.Thread,
			Limit: 200, Cursor: cursor, IncludeAllMetadata: true})
		if err != nil {
			return nil, d.failed("conversations.replies", "", err)
		}
		note(ms)
		if cursor = next; cursor == "" {
			break
		}
	}
	return out, nil
}
