package fake

import (
	"encoding/json"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// itoa and numbered spell the fake's own ids.
func itoa(n int) string { return strconv.Itoa(n) }

func numbered(prefix string, n int) string { return fmt.Sprintf("%s%06d", prefix, n) }

// Say is a person who writes a message, with files where ids are given. It returns the message's ts at once; the event is under way.
func (s *Slack) Say(channel, user, thread, text string, files ...string) (ts string, d *Delivery) {
	s.mu.Lock()
	m := &Message{Channel: channel, TS: s.ts(), ThreadTS: thread, User: user, Text: text}
	for _, id := range files {
		f := s.files[id]
		if f.hidden {
			m.Files = append(m.Files, map[string]any{"id": f.id, "file_access": "check_file_info"})
		} else {
			m.Files = append(m.Files, s.fileShown(f))
		}
		m.Subtype = "file_share"
	}
	s.channels[channel].messages = append(s.channels[channel].messages, m)
	ev := s.event(m)
	s.change()
	s.mu.Unlock()
	return m.TS, s.Event(ev)
}

// event is the message event of a message. The lock is held.
func (s *Slack) event(m *Message) map[string]any {
	b, _ := json.Marshal(m)
	ev := map[string]any{}
	json.Unmarshal(b, &ev)
	ev["type"], ev["channel"], ev["event_ts"] = "message", m.Channel, m.TS
	ev["channel_type"] = "channel"
	if c := s.channels[m.Channel]; c != nil && c.im != "" {
		ev["channel_type"] = "im"
	}
	return ev
}

// echo delivers the app's own post back to it, as Slack does. The lock is held.
func (s *Slack) echo(m *Message) {
	ev := s.event(m)
	go s.Event(ev)
}

// Edit changes a person's message.
func (s *Slack) Edit(channel, ts, text string) *Delivery {
	s.mu.Lock()
	m := s.find(channel, ts)
	prev := s.event(m)
	at := s.ts()
	m.Text, m.Edited = text, map[string]any{"user": m.User, "ts": at}
	ev := map[string]any{"type": "message", "subtype": "message_changed", "channel": channel, "channel_type": "channel", "hidden": true,
		"ts": at, "event_ts": at, "message": s.event(m), "previous_message": prev}
	s.mu.Unlock()
	return s.Event(ev)
}

// Unfurl is Slack's own change of a message that no person edited: a link got a preview.
func (s *Slack) Unfurl(channel, ts string) *Delivery {
	s.mu.Lock()
	m := s.find(channel, ts)
	at := s.ts()
	ev := map[string]any{"type": "message", "subtype": "message_changed", "channel": channel, "hidden": true, "ts": at, "event_ts": at,
		"message": s.event(m), "previous_message": s.event(m)}
	s.mu.Unlock()
	return s.Event(ev)
}

// Delete takes a person's message back. One with replies leaves a tombstone, as in Slack.
func (s *Slack) Delete(channel, ts string) *Delivery {
	s.mu.Lock()
	m := s.find(channel, ts)
	prev := s.event(m)
	at := s.ts()
	c := s.channels[channel]
	ev := map[string]any{"type": "message", "channel": channel, "hidden": true, "ts": at, "event_ts": at, "previous_message": prev}
	if slices.ContainsFunc(c.messages, func(x *Message) bool { return x.ThreadTS == ts }) {
		m.Subtype, m.Text, m.User, m.Files = "tombstone", "This message was deleted.", "USLACKBOT", nil
		ev["subtype"], ev["message"] = "message_changed", s.event(m)
	} else {
		c.messages = slices.DeleteFunc(c.messages, func(x *Message) bool { return x == m })
		ev["subtype"], ev["deleted_ts"] = "message_deleted", ts
	}
	s.mu.Unlock()
	return s.Event(ev)
}

// OpenHome is a person who opens the app's Home tab.
func (s *Slack) OpenHome(user string) *Delivery {
	s.mu.Lock()
	at := s.ts()
	s.mu.Unlock()
	return s.Event(map[string]any{"type": "app_home_opened", "user": user, "channel": "D0" + user, "tab": "home", "event_ts": at})
}

// trigger gives a trigger id for a person's deed. The lock is held.
func (s *Slack) trigger(user string) string {
	id := s.id("trig") + "." + user
	s.triggers[id] = trigger{at: s.o.Now().Add(-s.slow)}
	return id
}

func triggerUser(id string) string {
	_, user, _ := strings.Cut(id, ".")
	return user
}

// responseURL gives a response URL. The lock is held.
func (s *Slack) responseURL(channel, user string) string {
	id := s.id("R")
	s.responses[id] = &response{channel: channel, user: user, at: s.o.Now()}
	return s.base() + "/respond/" + id
}

func (s *Slack) who(user string) map[string]any {
	return map[string]any{"id": user, "username": s.users[user].name, "name": s.users[user].name, "team_id": Team}
}

// Press is a person who presses the button with that label (its start is enough) on a message.
func (s *Slack) Press(user, channel, ts, label string) (*Delivery, error) {
	s.mu.Lock()
	m := s.find(channel, ts)
	if m == nil {
		s.mu.Unlock()
		return nil, fmt.Errorf("no message %s in %s", ts, channel)
	}
	b := FindButton(m.Blocks, label)
	if b == nil {
		s.mu.Unlock()
		return nil, fmt.Errorf("no button %q on message %s; there are %q", label, ts, Buttons(m.Blocks))
	}
	b["action_ts"] = s.ts()
	p := map[string]any{"type": "block_actions", "user": s.who(user), "team": map[string]any{"id": Team}, "api_app_id": AppID,
		"container":  map[string]any{"type": "message", "message_ts": ts, "channel_id": channel, "thread_ts": m.ThreadTS, "is_ephemeral": false},
		"trigger_id": s.trigger(user), "channel": map[string]any{"id": channel, "name": s.channels[channel].name}, "message": s.event(m),
		"response_url": s.responseURL(channel, user), "actions": []any{b}}
	s.mu.Unlock()
	return s.deliver("interactive", p), nil
}

// PressView is Press on a modal or a Home tab.
func (s *Slack) PressView(user string, v View, label string) (*Delivery, error) {
	s.mu.Lock()
	b := FindButton(v.Blocks, label)
	if b == nil {
		s.mu.Unlock()
		return nil, fmt.Errorf("no button %q on view %s; there are %q", label, v.ID, Buttons(v.Blocks))
	}
	b["action_ts"] = s.ts()
	p := map[string]any{"type": "block_actions", "user": s.who(user), "team": map[string]any{"id": Team}, "api_app_id": AppID,
		"container": map[string]any{"type": "view", "view_id": v.ID}, "trigger_id": s.trigger(user), "view": s.viewShown(&v), "actions": []any{b}}
	s.mu.Unlock()
	return s.deliver("interactive", p), nil
}

// Submit is a person who sends a modal with the given words in its one input.
func (s *Slack) Submit(user string, v View, words string) *Delivery {
	s.mu.Lock()
	values := map[string]any{}
	for _, b := range v.Blocks {
		if b["type"] == "input" {
			el, _ := b["element"].(map[string]any)
			id, _ := b["block_id"].(string)
			act, _ := el["action_id"].(string)
			var val any
			if words != "" {
				val = words
			}
			values[id] = map[string]any{act: map[string]any{"type": "plain_text_input", "value": val}}
		}
	}
	shown := s.viewShown(&v)
	shown["state"] = map[string]any{"values": values}
	p := map[string]any{"type": "view_submission", "user": s.who(user), "team": map[string]any{"id": Team}, "api_app_id": AppID,
		"trigger_id": s.trigger(user), "view": shown, "response_urls": []any{}}
	s.mu.Unlock()
	d := s.deliver("interactive", p)
	go func() {
		if r, err := d.Wait(); err == nil && !strings.Contains(string(r), `"errors"`) {
			s.CloseView(v.ID)
		}
	}()
	return d
}

// Shortcut is a person who uses the message shortcut on a message.
func (s *Slack) Shortcut(user, channel, ts, callback string) *Delivery {
	s.mu.Lock()
	m := s.find(channel, ts)
	p := map[string]any{"type": "message_action", "callback_id": callback, "action_ts": s.ts(), "user": s.who(user), "team": map[string]any{"id": Team},
		"channel": map[string]any{"id": channel, "name": s.channels[channel].name}, "message_ts": ts, "message": s.event(m),
		"trigger_id": s.trigger(user), "response_url": s.responseURL(channel, user)}
	s.mu.Unlock()
	return s.deliver("interactive", p)
}

// Slash is a person who types a slash command.
func (s *Slack) Slash(user, channel, command, text string) *Delivery {
	s.mu.Lock()
	f := url.Values{"token": {"unused"}, "team_id": {Team}, "channel_id": {channel}, "channel_name": {s.channels[channel].name}, "user_id": {user},
		"user_name": {s.users[user].name}, "command": {command}, "text": {text}, "api_app_id": {AppID}, "response_url": {s.responseURL(channel, user)},
		"trigger_id": {s.trigger(user)}}
	s.mu.Unlock()
	return s.deliver("slash_commands", f)
}

// FindButton is the button whose label begins so, nil where there is none.
func FindButton(blocks []map[string]any, label string) map[string]any {
	for _, b := range blocks {
		for _, e := range elements(b) {
			if t, _ := e["text"].(map[string]any); t != nil {
				if s, _ := t["text"].(string); strings.HasPrefix(s, label) {
					out := map[string]any{"block_id": b["block_id"]}
					for k, v := range e {
						out[k] = v
					}
					return out
				}
			}
		}
	}
	return nil
}

// Buttons are the labels of every button.
func Buttons(blocks []map[string]any) []string {
	var out []string
	for _, b := range blocks {
		for _, e := range elements(b) {
			if t, _ := e["text"].(map[string]any); t != nil {
				s, _ := t["text"].(string)
				out = append(out, s)
			}
		}
	}
	return out
}

func elements(b map[string]any) []map[string]any {
	var out []map[string]any
	switch b["type"] {
	case "actions":
		list, _ := b["elements"].([]any)
		for _, e := range list {
			if m, _ := e.(map[string]any); m["type"] == "button" {
				out = append(out, m)
			}
		}
	case "section":
		if m, _ := b["accessory"].(map[string]any); m["type"] == "button" {
			out = append(out, m)
		}
	}
	return out
}

// Words are everything a list of blocks says, a block a line, for looking things up in it.
func Words(blocks []map[string]any) string {
	var b strings.Builder
	for _, x := range blocks {
		words(&b, x)
		b.WriteByte('\n')
	}
	return b.String()
}

func words(b *strings.Builder, v any) {
	switch v := v.(type) {
	case map[string]any:
		if s, ok := v["text"].(string); ok {
			b.WriteString(s)
		} else {
			words(b, v["text"])
		}
		words(b, v["label"])
		words(b, v["elements"])
		words(b, v["accessory"])
	case []any:
		for _, e := range v {
			words(b, e)
			b.WriteByte(' ')
		}
	}
}

// PressCommand is a press of a button with that value and action id in a thread, whether or not such a button is to be seen there.
func (s *Slack) PressCommand(user, channel, thread, actionID, value string) *Delivery {
	s.mu.Lock()
	at := s.ts()
	b := map[string]any{"type": "button", "action_id": actionID, "block_id": "b", "value": value, "action_ts": at,
		"text": map[string]any{"type": "plain_text", "text": "Press"}}
	p := map[string]any{"type": "block_actions", "user": s.who(user), "team": map[string]any{"id": Team}, "api_app_id": AppID,
		"container":  map[string]any{"type": "message", "message_ts": at, "channel_id": channel, "thread_ts": thread},
		"trigger_id": s.trigger(user), "channel": map[string]any{"id": channel, "name": s.channels[channel].name},
		"message": map[string]any{"ts": at, "thread_ts": thread, "text": "a card"}, "response_url": s.responseURL(channel, user), "actions": []any{b}}
	s.mu.Unlock()
	return s.deliver("interactive", p)
}

// Again delivers the last delivery once more, as it was.
func (s *Slack) Again() *Delivery {
	s.mu.Lock()
	kind, payload := s.lastKind, s.lastPayload
	s.mu.Unlock()
	return s.deliver(kind, payload)
}
