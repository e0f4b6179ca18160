package slack

import (
	"errors"
	"fmt"
	"sync"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// lasting are the errors that trying again will not mend: the post goes where it cannot go, or is not as Slack wants it.
var lasting = map[string]bool{
	"channel_not_found": true, "not_in_channel": true, "is_archived": true, "user_not_in_channel": true, "user_not_found": true,
	"restricted_action": true, "restricted_action_read_only_channel": true, "restricted_action_thread_only_channel": true,
	"restricted_action_non_threadable_channel": true, "cannot_reply_to_message": true, "thread_not_found": true, "no_text": true,
	"msg_too_long": true, "msg_blocks_too_long": true, "invalid_blocks": true, "invalid_blocks_format": true, "invalid_arguments": true,
	"cant_update_message": true, "edit_window_closed": true, "message_not_found": true, "not_found": true, "cannot_dm_bot": true,
	"messages_tab_disabled": true, "missing_scope": true,
}

// failed dresses an error of a call for the desk: without secrets, with how long to wait where Slack said so, marked permanent where
// trying again is of no use. A method that is over its rate stays shut for that room until then.
func (d *Door) failed(method, room string, err error) error {
	if err == nil {
		return nil
	}
	clean := d.scrub.err(fmt.Errorf("slack %s: %w", method, err))
	if limit, ok := errors.AsType[*sdk.RateLimitedError](err); ok {
		wait := max(limit.RetryAfter, time.Second)
		d.paces.shut(method, room, wait)
		return bot.After(clean, wait)
	}
	if lasting[word(err)] {
		return bot.Permanent(clean)
	}
	return clean
}

// word is Slack's word for what went wrong, "" where Slack did not answer.
func word(err error) string {
	if r, ok := errors.AsType[sdk.SlackErrorResponse](err); ok {
		return r.Err
	}
	return ""
}

// unknown reports whether a call may have taken effect although it failed: Slack did not answer, or not clearly.
func unknown(err error) bool {
	if err == nil {
		return false
	}
	if _, limited := errors.AsType[*sdk.RateLimitedError](err); limited {
		return false
	}
	return word(err) == ""
}

// paces remember which method may not be called for a while, by room where Slack counts by room.
type paces struct {
	now  func() time.Time
	mu   sync.Mutex
	till map[string]time.Time
}

// perRoom are the methods that Slack limits by channel; the others it limits by workspace.
var perRoom = map[string]bool{"chat.postMessage": true, "chat.postEphemeral": true}

func paceKey(method, room string) string {
	if perRoom[method] {
		return method + " " + room
	}
	return method
}

// shut closes a method for a while.
func (p *paces) shut(method, room string, wait time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.till == nil {
		p.till = map[string]time.Time{}
	}
	p.till[paceKey(method, room)] = p.now().Add(wait)
}

// wait is how long a method stays closed, 0 where it is open.
func (p *paces) wait(method, room string) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	k := paceKey(method, room)
	left := p.till[k].Sub(p.now())
	if left <= 0 {
		delete(p.till, k)
		return 0
	}
	return left
}

// errShut is what a call that was not made answers.
var errShut = errors.New("slack asked to be left alone for a while")

// open is nil where a method may be called now, and else how long to wait.
func (d *Door) open(method, room string) error {
	if left := d.paces.wait(method, room); left > 0 {
		return bot.After(fmt.Errorf("%s: %w", method, errShut), left)
	}
	return nil
}
