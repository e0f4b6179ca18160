package fake

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"encoding/json"
)

func (s *Slack) postMessage(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	m, word := s.compose(a)
	if word != "" {
		return nil, word
	}
	if th := a.str("thread_ts"); th != "" {
		root := s.find(c.id, th)
		if root == nil {
			return nil, "thread_not_found"
		}
		if root.ThreadTS != "" {
			th = root.ThreadTS
		}
		m.ThreadTS = th
	}
	m.Channel, m.TS, m.User, m.BotID, m.AppID = c.id, s.ts(), BotUser, BotID, AppID
	c.messages = append(c.messages, m)
	s.change()
	s.echo(m)
	if s.onPost != nil {
		s.onPost(*m)
	}
	return map[string]any{"channel": c.id, "ts": m.TS, "message": m}, ""
}

func (s *Slack) update(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	m := s.find(c.id, a.str("ts"))
	switch {
	case m == nil:
		return nil, "message_not_found"
	case m.BotID != BotID:
		return nil, "cant_update_message"
	}
	n, word := s.compose(a)
	if word != "" {
		return nil, word
	}
	m.Text, m.Blocks = n.Text, n.Blocks
	if n.Metadata != nil {
		m.Metadata = n.Metadata
	}
	m.Updates++
	s.change()
	return map[string]any{"channel": c.id, "ts": m.TS, "text": m.Text}, ""
}

func (s *Slack) delete(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	m := s.find(c.id, a.str("ts"))
	switch {
	case m == nil:
		return nil, "message_not_found"
	case m.BotID != BotID:
		return nil, "cant_delete_message"
	}
	c.messages = slices.DeleteFunc(c.messages, func(x *Message) bool { return x == m })
	s.change()
	return map[string]any{"channel": c.id, "ts": m.TS}, ""
}

func (s *Slack) postEphemeral(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	if _, ok := s.users[a.str("user")]; !ok {
		return nil, "user_not_in_channel"
	}
	m, word := s.compose(a)
	if word != "" {
		return nil, word
	}
	s.ephemerals = append(s.ephemerals, Ephemeral{Channel: c.id, User: a.str("user"), ThreadTS: a.str("thread_ts"), Text: m.Text, Blocks: m.Blocks})
	s.change()
	return map[string]any{"message_ts": s.ts()}, ""
}

// room is a channel that the app may write in.
func (s *Slack) room(id string) (*channel, string) {
	c := s.channels[id]
	switch {
	case c == nil:
		return nil, "channel_not_found"
	case !c.member:
		return nil, "not_in_channel"
	}
	return c, ""
}

// compose checks what a message says.
func (s *Slack) compose(a args) (*Message, string) {
	m := &Message{Text: a.str("text")}
	if !a.object("blocks", &m.Blocks) {
		return nil, "invalid_blocks_format"
	}
	if !a.object("metadata", &m.Metadata) {
		return nil, "metadata_must_be_sent_from_app"
	}
	if m.Text == "" && len(m.Blocks) == 0 {
		return nil, "no_text"
	}
	if len([]rune(m.Text)) > 40000 {
		return nil, "msg_too_long"
	}
	return m, checkBlocks(m.Blocks, inMessage)
}

// respond serves response URLs: five posts within 30 minutes. The error words here are from memory.
func (s *Slack) respond(w http.ResponseWriter, r *http.Request) {
	a := args{}
	if json.NewDecoder(r.Body).Decode(&a) != nil {
		answer(w, nil, "invalid_payload")
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	u := s.responses[r.PathValue("id")]
	if u == nil || u.uses >= 5 || s.o.Now().Sub(u.at) > 30*time.Minute {
		w.WriteHeader(http.StatusNotFound)
		answer(w, nil, "used_url")
		return
	}
	m, word := s.compose(a)
	if word != "" {
		w.WriteHeader(http.StatusBadRequest)
		answer(w, nil, word)
		return
	}
	u.uses++
	s.ephemerals = append(s.ephemerals, Ephemeral{Channel: u.channel, User: u.user, Text: m.Text, Blocks: m.Blocks, ByURL: true})
	s.change()
	answer(w, nil, "")
}

func (s *Slack) history(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	return s.page(a, c.messages, func(m *Message) bool { return m.ThreadTS == "" || m.Subtype == "thread_broadcast" }, true)
}

func (s *Slack) replies(a args) (map[string]any, string) {
	c, word := s.room(a.str("channel"))
	if word != "" {
		return nil, word
	}
	ts := a.str("ts")
	if s.find(c.id, ts) == nil {
		return nil, "thread_not_found"
	}
	return s.page(a, c.messages, func(m *Message) bool { return m.ThreadTS == ts || m.TS == ts }, false)
}

// page answers one page: history newest first, replies oldest first, as Slack does.
func (s *Slack) page(a args, all []*Message, want func(*Message) bool, newest bool) (map[string]any, string) {
	oldest, latest := a.str("oldest"), a.str("latest")
	inclusive := a.str("inclusive") == "true" || a.str("inclusive") == "1"
	var list []map[string]any
	for _, m := range all {
		after := oldest == "" || Later(m.TS, oldest) || inclusive && m.TS == oldest
		before := latest == "" || Later(latest, m.TS) || inclusive && m.TS == latest
		root := !newest && m.ThreadTS == "" // a thread's root comes with every page of its replies
		if want(m) && (root || after && before) {
			list = append(list, s.shown(m, a))
		}
	}
	if newest {
		slices.Reverse(list)
	}
	limit := a.num("limit")
	if limit <= 0 {
		limit = 100
	}
	start := 0
	if cur := a.str("cursor"); cur != "" {
		n, ok := strings.CutPrefix(cur, "next:")
		if !ok {
			return nil, "invalid_cursor"
		}
		start = args{"n": n}.num("n")
	}
	start = min(start, len(list))
	end := min(start+limit, len(list))
	out := map[string]any{"messages": list[start:end], "has_more": end < len(list)}
	if list == nil {
		out["messages"] = []any{}
	}
	if end < len(list) {
		out["response_metadata"] = map[string]any{"next_cursor": "next:" + itoa(end)}
	}
	return out, ""
}

// shown is a message as history shows it: with its thread's counters, and its metadata where asked for.
func (s *Slack) shown(m *Message, a args) map[string]any {
	b, _ := json.Marshal(m)
	out := map[string]any{}
	json.Unmarshal(b, &out)
	out["type"] = "message"
	if v := a.str("include_all_metadata"); v != "true" && v != "1" {
		delete(out, "metadata")
	}
	n, last := 0, ""
	for _, r := range s.channels[m.Channel].messages {
		if r.ThreadTS == m.TS {
			n, last = n+1, r.TS
		}
	}
	if n > 0 {
		out["thread_ts"], out["reply_count"], out["latest_reply"] = m.TS, n, last
	}
	return out
}

func (s *Slack) conversationInfo(a args) (map[string]any, string) {
	c := s.channels[a.str("channel")]
	if c == nil {
		return nil, "channel_not_found"
	}
	return map[string]any{"channel": map[string]any{"id": c.id, "name": c.name, "is_channel": c.im == "", "is_im": c.im != "", "is_member": c.member}}, ""
}

func (s *Slack) conversationOpen(a args) (map[string]any, string) {
	who := a.str("users")
	if _, ok := s.users[who]; !ok {
		return nil, "user_not_found"
	}
	for id, c := range s.channels {
		if c.im == who {
			return map[string]any{"channel": map[string]any{"id": id}}, ""
		}
	}
	id := s.id("D")
	s.channels[id] = &channel{id: id, name: "direct", member: true, im: who}
	return map[string]any{"channel": map[string]any{"id": id}}, ""
}

// Later reports whether message id a is later than b.
func Later(a, b string) bool {
	as, am, _ := strings.Cut(a, ".")
	bs, bm, _ := strings.Cut(b, ".")
	if len(as) != len(bs) {
		return len(as) > len(bs)
	}
	if as != bs {
		return as > bs
	}
	return am > bm
}

func (s *Slack) ownConversations(args) (map[string]any, string) {
	list := []map[string]any{}
	for _, c := range s.channels {
		if c.member {
			list = append(list, map[string]any{"id": c.id, "name": c.name, "is_im": c.im != ""})
		}
	}
	return map[string]any{"channels": list}, ""
}
