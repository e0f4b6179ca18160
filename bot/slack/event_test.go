package slack

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// hearing is a stage on a ledger of its own, by HTTP, with nobody who works: what is kept can be looked at.
func hearing(t *testing.T, change func(*Config)) (*stage, *bottest.Clock) {
	clock := bottest.NewClock()
	return open(t, bottest.NewDesk(newLedger(t), clock), overHTTP, change), clock
}

// one is the only message kept.
func (s *stage) one(clock *bottest.Clock) bot.Inbound {
	s.t.Helper()
	got := kept(s.t, s.desk.Ledger, clock.Now())
	if len(got) != 1 {
		s.t.Fatalf("%d messages were kept, want 1: %+v\nlog:\n%s", len(got), got, s.logs.text())
	}
	return got[0]
}

// none fails where anything was kept.
func (s *stage) none(clock *bottest.Clock) {
	s.t.Helper()
	if got := kept(s.t, s.desk.Ledger, clock.Now()); len(got) != 0 {
		s.t.Errorf("kept: %+v", got)
	}
}

func event(ev map[string]any) json.RawMessage {
	return mustJSONAny(map[string]any{"type": "event_callback", "team_id": fake.Team, "event_id": "Ev1", "event": ev})
}

func mustJSONAny(v any) json.RawMessage {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return b
}

// Ensure that a message that comes as "message" and as "app_mention", in either order, is kept once, and as one that called us.
func TestMentionOnce(t *testing.T) {
	for _, first := range []string{"message", "app_mention"} {
		t.Run(first, func(t *testing.T) {
			s, clock := hearing(t, nil)
			ts := tsOf(clock.Now())
			second := map[string]string{"message": "app_mention", "app_mention": "message"}[first]
			for _, kind := range []string{first, second, first} {
				if !s.settle(s.slack.Raw(event(map[string]any{"type": kind, "channel": orders, "user": repID, "ts": ts, "text": "<@U0BOT> help"}))) {
					t.Fatal("not acknowledged")
				}
			}
			if in := s.one(clock); !in.Called || in.Text != "help" {
				t.Errorf("kept %+v", in)
			}
		})
	}
}

// Ensure that an odd field costs that field and not the event, and that what cannot be read at all is acknowledged and passed over.
func TestOddEvents(t *testing.T) {
	s, clock := hearing(t, nil)
	ts := tsOf(clock.Now())
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "channel": orders, "user": repID, "ts": ts, "text": "72 tees", "display_as_bot": "false",
		"edited": "soon", "files": map[string]any{}, "blocks": []any{map[string]any{"type": "hologram"}}, "thread_ts": 12, "channel_type": nil})))
	if in := s.one(clock); in.Text != "72 tees" || in.Anchor != ts {
		t.Errorf("kept %+v", in)
	}
	for _, raw := range []string{`[]`, `"x"`, `null`, `{`, `{}`, `{"type":"event_callback"}`, `{"type":"event_callback","event":7}`, `{"type":"event_callback","event":{"type":"galaxy_joined"}}`,
		`{"type":"app_rate_limited","minute_rate_limited":1518467820}`, `{"type":"event_callback","event":{"type":"message","channel":"C0ORDERS"}}`,
		`{"type":"event_callback","event":{"type":"message","subtype":"channel_join","channel":"C0ORDERS","user":"U0REP","ts":"1.1","text":"joined"}}`,
		`{"type":"event_callback","event":{"type":"message","subtype":"message_changed","channel":"C0ORDERS"}}`,
		`{"type":"event_callback","event":{"type":"message","subtype":"message_deleted","channel":"C0ORDERS"}}`} {
		if !s.settle(s.slack.Raw(json.RawMessage(raw))) {
			t.Errorf("%s was not acknowledged: it would come again and again", raw)
		}
	}
	s.none(clock)
}

// Ensure that our own posts are dropped, and those of other programs are kept as such.
func TestPrograms(t *testing.T) {
	s, clock := hearing(t, nil)
	for _, ev := range []map[string]any{
		{"type": "message", "channel": orders, "user": fake.BotUser, "bot_id": fake.BotID, "ts": "1764061200.000001", "text": "72 tees"},
		{"type": "message", "subtype": "bot_message", "channel": orders, "bot_id": fake.BotID, "ts": "1764061200.000002", "text": "72 tees"},
	} {
		s.settle(s.slack.Raw(event(ev)))
	}
	s.none(clock)
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "subtype": "bot_message", "channel": orders, "bot_id": "B0FORM", "username": "Order form", "ts": "1764061200.000003", "text": "72 tees"})))
	if in := s.one(clock); !in.By.Bot || in.By.ID != "B0FORM" || in.By.Name != "Order form" {
		t.Errorf("kept %+v", in.By)
	}
}

// Ensure that only what is for us is kept: in other channels a mention, a direct message, and what is said in a job's thread.
func TestElsewhere(t *testing.T) {
	s, clock := hearing(t, nil)
	s.slack.AddChannel("C0SIDE", "side", true)
	ts, d := s.slack.Say("C0SIDE", repID, "", "72 tees in tri-blend, navy")
	s.settle(d)
	s.none(clock)
	s.settle(s.slack.Shortcut(repID, "C0SIDE", ts, "read_as_order"))
	in := s.one(clock)
	if in.Sort != "shortcut" || in.Of != messageKey(fake.Team, "C0SIDE", ts) || in.Anchor != ts || in.By.ID != repID || in.Text != "72 tees in tri-blend, navy" {
		t.Errorf("kept %+v", in)
	}
	s.settle(s.slack.Shortcut(repID, "C0SIDE", ts, "read_as_order"))
	bottest.Settle(t, s.desk) // a job stands there now
	_, d = s.slack.Say("C0SIDE", repID, ts, "make it 60")
	s.settle(d)
	if in := s.one(clock); in.Text != "make it 60" || in.Place.Thread != ts {
		t.Errorf("kept %+v", in)
	}
	s.settle(s.slack.Edit("C0SIDE", ts, "73 tees in tri-blend, navy"))
	if in := s.one(clock); in.Sort != "edited" && in.Sort != "message" {
		t.Errorf("kept %+v", in)
	}
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "channel": "D0REP", "channel_type": "im", "user": repID, "ts": tsOf(clock.Now()), "text": "jobs"})))
	if in := s.one(clock); !in.Called || in.Text != "jobs" {
		t.Errorf("kept %+v", in)
	}
}

// Ensure that an edit is told from Slack's own changes, and that both kinds of taking back are understood.
func TestEditsAndDeletes(t *testing.T) {
	s, clock := hearing(t, nil)
	ts := s.Say(bottest.Rep, "", "72 tees")
	s.one(clock)
	s.settle(s.slack.Unfurl(orders, ts))
	s.none(clock)
	s.Edit(bottest.Rep, ts, "60 tees")
	in := s.one(clock)
	if in.Sort != "edited" || in.Of != messageKey(fake.Team, orders, ts) || in.Text != "60 tees" || !strings.HasPrefix(in.Key, in.Of+":e:") {
		t.Errorf("kept %+v", in)
	}
	s.settle(s.slack.Unfurl(orders, ts)) // an edit that is not new
	s.none(clock)
	s.Say(bottest.Lead, ts, "ok")
	s.one(clock)
	s.Delete(bottest.Rep, ts) // leaves a tombstone
	if in := s.one(clock); in.Sort != "deleted" || in.Of != messageKey(fake.Team, orders, ts) || in.Text != "" || in.By.ID != repID {
		t.Errorf("kept %+v", in)
	}
	ts = s.Say(bottest.Rep, "", "12 caps")
	s.one(clock)
	s.Delete(bottest.Rep, ts) // gone without a trace
	if in := s.one(clock); in.Sort != "deleted" || in.Of != messageKey(fake.Team, orders, ts) {
		t.Errorf("kept %+v", in)
	}
}

// Ensure that an edit that overtakes its message stands for it, and that a message taken back before it came says nothing.
func TestOvertaking(t *testing.T) {
	s, clock := hearing(t, nil)
	s.slack.Hold(true)
	ts, lost := s.slack.Say(orders, repID, "", "72 tees")
	s.settle(lost)
	s.slack.Hold(false)
	s.settle(s.slack.Edit(orders, ts, "60 tees"))
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "channel": orders, "user": repID, "ts": ts, "text": "72 tees"})))
	if in := s.one(clock); in.Sort != "message" || in.Text != "60 tees" || in.Key != messageKey(fake.Team, orders, ts) {
		t.Errorf("kept %+v", in)
	}

	s.slack.Hold(true)
	ts, lost = s.slack.Say(orders, repID, "", "12 caps")
	s.settle(lost)
	s.slack.Hold(false)
	s.Delete(bottest.Rep, ts)
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "channel": orders, "user": repID, "ts": ts, "text": "12 caps"})))
	for _, in := range kept(t, s.desk.Ledger, clock.Now()) {
		if in.Text != "" {
			t.Errorf("kept %+v", in)
		}
	}
	// An old message is not taken for a new one because somebody mends a word in it.
	clock.Move(time.Hour)
	ts = tsOf(clock.Now().Add(-30 * time.Minute))
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "subtype": "message_changed", "channel": orders, "ts": tsOf(clock.Now()),
		"message": map[string]any{"type": "message", "user": repID, "ts": ts, "text": "72 tees", "edited": map[string]any{"user": repID, "ts": tsOf(clock.Now())}}})))
	if in := s.one(clock); in.Sort != "edited" {
		t.Errorf("kept %+v", in)
	}
}

// Ensure that a reply that comes before the request that it changes is kept after it, and that the request is not looked for again.
func TestReplyBeforeRequest(t *testing.T) {
	s, clock := hearing(t, nil)
	s.slack.Hold(true)
	ts, lost := s.slack.Say(orders, repID, "", bottest.Request)
	s.settle(lost)
	s.slack.Hold(false)
	s.Say(bottest.Rep, ts, "make it 60")
	s.Say(bottest.Rep, ts, "in black")
	s.settle(s.slack.Raw(event(map[string]any{"type": "message", "channel": orders, "user": repID, "ts": ts, "text": bottest.Request})))
	bottest.Settle(t, s.desk)
	j, err := s.desk.Job(t.Context(), 1)
	if err != nil || len(j.Order.Lines) != 1 || j.PlanRev != 3 {
		t.Errorf("job 1: plan %d of %+v, %v", j.PlanRev, j.Order, err)
	}
	if n := len(s.slack.Calls("conversations.replies")); n != 1 {
		t.Errorf("the root was asked for %d times", n)
	}
	clock.Move(time.Hour)
	s.door.recent = recent{}
	s.Say(bottest.Rep, ts, "make it 61") // an old root is not asked for
	if n := len(s.slack.Calls("conversations.replies")); n != 1 {
		t.Errorf("the root was asked for %d times", n)
	}
}

// Ensure that a slash command is kept with its words, and one without asks for help.
func TestSlash(t *testing.T) {
	s, clock := hearing(t, nil)
	s.settle(s.slack.Slash(leadID, elsewhere, "/strikeoff", "pass 12 wash ok &amp; dry"))
	if in := s.one(clock); in.Sort != "command" || in.Text != "pass 12 wash ok & dry" || in.Place.Room != elsewhere || in.By.ID != leadID || in.Reply == "" || strings.Contains(in.Reply, "http") {
		t.Errorf("kept %+v", in)
	}
	s.settle(s.slack.Slash(leadID, orders, "/strikeoff", " "))
	if in := s.one(clock); in.Text != "help" {
		t.Errorf("kept %+v", in)
	}
}
