package slack

import (
	"context"

	"strikeoff/bot"
)

// homeOpened asks the desk for the list of jobs when a person opens the app's Home tab; the answer is published there.
func (d *Door) homeOpened(ctx context.Context, me self, ev fields) error {
	user, at := ev.str("user"), ev.str("event_ts")
	if ev.str("tab") != "home" || user == "" || at == "" {
		return nil
	}
	in := bot.Inbound{Key: homeKey(me.team, user, at), Sort: "command", Place: bot.Place{Door: Name}, By: d.people.person(ctx, user, ""), Text: "jobs",
		Called: true, Reply: back{user: user, home: true}.token(), Said: stamp(at)}
	if _, err := d.desk.Keep(ctx, in); err != nil {
		return notKept(err)
	}
	return nil
}
