package slack

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// CatchUp hands in what was said while nobody listened: each orders channel's history since its mark, less an overlap, and the threads in
// which an open job stands, oldest first, by the same way as events. What was kept already does nothing. Edits are found by their time;
// deletions and presses cannot be caught up, which leaves a job held: the safe side. A channel without a mark begins now.
func (d *Door) CatchUp(ctx context.Context) error {
	me, err := d.whoami(ctx)
	if err != nil {
		return err
	}
	rooms, err := d.catchRooms(ctx)
	if err != nil {
		return err
	}
	var errs []error
	for room, roots := range rooms {
		if err := d.catchRoom(ctx, me, room, roots); err != nil {
			errs = append(errs, fmt.Errorf("channel %s: %w", room, err))
		}
	}
	return errors.Join(errs...)
}

// catchRooms are the channels to read, each with the roots of threads that are read by themselves, mapped to what they are read from at
// the earliest.
func (d *Door) catchRooms(ctx context.Context) (map[string]map[string]time.Time, error) {
	rooms := map[string]map[string]time.Time{}
	add := func(room string) map[string]time.Time {
		if rooms[room] == nil {
			rooms[room] = map[string]time.Time{}
		}
		return rooms[room]
	}
	for _, id := range d.c.Orders {
		add(id)
	}
	if len(d.c.Orders) == 0 {
		cursor := ""
		for {
			var list []sdk.Channel
			var next string
			err := d.patient(ctx, "users.conversations", func() (err error) {
				list, next, err = d.api.GetConversationsForUserContext(ctx, &sdk.GetConversationsForUserParameters{Cursor: cursor, Limit: 200, ExcludeArchived: true,
					Types: []string{"public_channel", "private_channel", "im"}})
				return err
			})
			if err != nil {
				return nil, err
			}
			for _, c := range list {
				add(c.ID)
			}
			if cursor = next; cursor == "" {
				break
			}
		}
	}
	jobs, err := d.desk.Jobs(ctx, bot.OpenStates, 0, 500)
	if err != nil {
		return nil, err
	}
	for _, j := range jobs {
		if j.Place.Door == Name && j.Place.Room != "" && j.Place.Thread != "" {
			add(j.Place.Room)[j.Place.Thread] = j.Opened.At
		}
	}
	return rooms, nil
}

// catchRoom catches one channel up.
func (d *Door) catchRoom(ctx context.Context, me self, room string, roots map[string]time.Time) error {
	lost := d.marks.lost()[room]
	from, err := d.desk.Ledger.Cursor(ctx, Name, room)
	if err != nil {
		return err
	}
	if lost != "" && (from == "" || later(from, lost)) {
		from = lost
	}
	if from == "" {
		return d.begin(ctx, room, roots)
	}
	oldest := tsOf(stamp(from).Add(-d.c.Limits.Overlap))
	begun, err := d.desk.Ledger.Cursor(ctx, Name, room+beginning)
	if err != nil {
		return err
	}
	if later(begun, oldest) {
		oldest = begun // what was said before we listened is not answered
	}
	all, err := d.history(ctx, room, oldest, roots)
	if err != nil {
		return err
	}
	slices.SortStableFunc(all, func(a, b said) int {
		switch {
		case later(a.ts, b.ts):
			return 1
		case later(b.ts, a.ts):
			return -1
		}
		return 0
	})
	fresh := 0
	for _, m := range all {
		isNew, err := d.spoke(ctx, me, m)
		if err != nil {
			return err
		}
		if isNew {
			fresh++
		} else if later(m.edited, oldest) && !m.own(me) {
			if err := d.changed(ctx, me, m); err != nil {
				return err
			}
		}
	}
	if fresh > 0 {
		d.log.Info("caught up", "room", room, "messages", fresh)
	}
	d.marks.caughtUp(room, lost)
	if len(all) > 0 {
		d.marks.saw(room, all[len(all)-1].ts)
	}
	return nil
}

// beginning, after a channel's id, names the mark of when we began to hear that channel.
const beginning = "/begun"

// begin marks a channel that was never heard before: its hearing begins now, or where a job stands in it, with that job.
func (d *Door) begin(ctx context.Context, room string, roots map[string]time.Time) error {
	at := tsOf(d.c.Now().Add(-time.Microsecond)) // history after this, not at it
	for _, opened := range roots {
		if t := tsOf(opened); later(at, t) {
			at = t
		}
	}
	if err := d.desk.Ledger.SetCursor(ctx, Name, room+beginning, at); err != nil {
		return err
	}
	return d.putMark(ctx, room, at)
}

// history reads a channel's messages after oldest, and the replies of every thread that moved since or stands in roots.
func (d *Door) history(ctx context.Context, room, oldest string, roots map[string]time.Time) ([]said, error) {
	var all []said
	seen := map[string]bool{}
	note := func(m sdk.Message) {
		if !seen[m.Timestamp] {
			seen[m.Timestamp] = true
			all = append(all, saidThere(m, room))
		}
	}
	threads := map[string]bool{}
	for root := range roots {
		threads[root] = true
	}
	cursor := ""
	for page := 0; ; page++ {
		if page >= d.c.Limits.Pages {
			d.log.Warn("a channel has more history than is caught up; the oldest part is passed over", "room", room, "pages", page)
			break
		}
		var h *sdk.GetConversationHistoryResponse
		err := d.patient(ctx, "conversations.history", func() (err error) {
			h, err = d.api.GetConversationHistoryContext(ctx, &sdk.GetConversationHistoryParameters{ChannelID: room, Oldest: oldest, Limit: 200, Cursor: cursor})
			return err
		})
		if err != nil {
			return nil, err
		}
		for _, m := range h.Messages {
			note(m)
			if later(m.LatestReply, oldest) {
				threads[m.Timestamp] = true
			}
		}
		if cursor = h.ResponseMetaData.NextCursor; cursor == "" {
			break
		}
	}
	for root := range threads {
		cursor := ""
		for range d.c.Limits.Pages {
			var ms []sdk.Message
			var next string
			err := d.patient(ctx, "conversations.replies", func() (err error) {
				ms, _, next, err = d.api.GetConversationRepliesContext(ctx, &sdk.GetConversationRepliesParameters{ChannelID: room, Timestamp: root, Oldest: oldest, Limit: 200, Cursor: cursor})
				return err
			})
			if word(err) == "thread_not_found" {
				break
			}
			if err != nil {
				return nil, err
			}
			for _, m := range ms {
				if m.Timestamp != root { // the root comes with every page; where it is new, history has it
					note(m)
				}
			}
			if cursor = next; cursor == "" {
				break
			}
		}
	}
	return all, nil
}

// saidThere is a message of history.
func saidThere(m sdk.Message, room string) said {
	s := said{channel: room, ts: m.Timestamp, thread: m.ThreadTimestamp, user: m.User, botID: m.BotID, name: m.Username, subtype: m.SubType, text: m.Text,
		direct: room[0] == 'D'}
	if s.thread == s.ts {
		s.thread = ""
	}
	if m.Edited != nil {
		s.edited = m.Edited.Timestamp
	}
	for _, f := range m.Files {
		s.files = append(s.files, fields{"id": mustJSON(f.ID), "name": mustJSON(f.Name), "mimetype": mustJSON(f.Mimetype), "size": mustJSON(f.Size),
			"mode": mustJSON(f.Mode), "is_external": mustJSON(f.IsExternal)})
	}
	return s
}

// patient makes a call that only reads, and waits where Slack says so.
func (d *Door) patient(ctx context.Context, method string, call func() error) error {
	for range 20 {
		err := call()
		limit, limited := errors.AsType[*sdk.RateLimitedError](err)
		if !limited {
			if err != nil {
				return d.scrub.err(fmt.Errorf("slack %s: %w", method, err))
			}
			return nil
		}
		if !pause(ctx, max(limit.RetryAfter, time.Second)) {
			return ctx.Err()
		}
	}
	return fmt.Errorf("slack %s: over its rate again and again", method)
}

// putMark tells the ledger where a channel stands.
func (d *Door) putMark(ctx context.Context, room, at string) error {
	if err := d.desk.Ledger.SetCursor(ctx, Name, room, at); err != nil {
		return err
	}
	d.marks.written(room, at)
	return nil
}

// putMarks tells the ledger of every channel that moved, with a rest between, so that what people say is not held up by it.
func (d *Door) putMarks(ctx context.Context, rest time.Duration) error {
	var errs []error
	for room, at := range d.marks.moved() {
		errs = append(errs, d.putMark(ctx, room, at))
		if rest > 0 && !pause(ctx, rest) {
			break
		}
	}
	return errors.Join(errs...)
}
