package slack

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// The kinds of delivery, as Socket Mode names them; HTTP requests are told apart and named so too.
const (
	kindEvent = "events_api"
	kindPress = "interactive"
	kindSlash = "slash_commands"
)

// takeMost is how long a delivery may take to be kept: Slack gives up after 3 s, and a person must hear of it before.
const takeMost = 2700 * time.Millisecond

// reply is what goes back with an acknowledgement, and what is done after it.
type reply struct {
	body  any                   // nil for an empty acknowledgement
	after func(context.Context) // nil for nothing
}

// take handles one delivery. An error means: do not acknowledge, so that Slack delivers again. Only events are delivered again; for the
// rest take tells the person itself and returns no error.
func (d *Door) take(ctx context.Context, kind string, payload []byte) (reply, error) {
	ctx, cancel := context.WithTimeout(ctx, takeMost)
	defer cancel()
	me, err := d.whoami(ctx)
	if err != nil {
		return reply{}, err
	}
	f, err := readFields(payload)
	if err != nil {
		d.log.Warn("a delivery could not be read and is passed over", "kind", kind, "err", err)
		return reply{}, nil // the same bytes would come again: acknowledge them
	}
	switch kind {
	case kindEvent:
		return reply{}, d.event(ctx, me, f)
	case kindPress:
		return d.interaction(ctx, me, f), nil
	case kindSlash:
		return d.slash(ctx, me, f), nil
	}
	d.log.Debug("a delivery of a kind that is not used", "kind", kind)
	return reply{}, nil
}

// event handles one event.
func (d *Door) event(ctx context.Context, me self, outer fields) error {
	switch outer.str("type") {
	case "app_rate_limited":
		d.log.Warn("Slack drops events: the workspace is over its hourly limit", "minute", outer.num("minute_rate_limited"))
		return nil
	case "event_callback", "":
	default:
		return nil
	}
	ev := outer.sub("event")
	switch ev.str("type") {
	case "message", "app_mention":
		return d.message(ctx, me, ev)
	case "app_home_opened":
		return d.homeOpened(ctx, me, ev)
	case "user_change", "team_join":
		d.people.forget(ev.sub("user").str("id"))
	}
	return nil
}

// errNotKept says that a delivery must not be acknowledged.
var errNotKept = errors.New("the message was not kept")

func notKept(err error) error { return fmt.Errorf("%w: %w", errNotKept, err) }
