package fake

import (
	"encoding/json"
	"time"
	"unicode/utf8"
)

// TriggerLife is how long a trigger id may be used.
const TriggerLife = 3 * time.Second

// View is an open modal or a Home tab.
type View struct {
	ID       string
	Hash     string
	User     string
	Type     string
	Callback string
	Title    string
	Private  string
	Blocks   []map[string]any
	Submit   bool
	Closed   bool
	Updates  int
	raw      map[string]any
}

func (s *Slack) viewOpen(a args) (map[string]any, string) {
	id := a.str("trigger_id")
	t, ok := s.triggers[id]
	switch {
	case !ok:
		return nil, "invalid_trigger_id"
	case t.used:
		return nil, "exchanged_trigger_id"
	case s.o.Now().Sub(t.at) > TriggerLife:
		return nil, "expired_trigger_id"
	}
	v, word := s.view(a, inModal)
	if word != "" {
		return nil, word
	}
	t.used = true
	s.triggers[id] = t
	v.ID, v.User = s.id("V"), triggerUser(id)
	s.views[v.ID] = v
	s.change()
	return map[string]any{"view": s.viewShown(v)}, ""
}

func (s *Slack) viewUpdate(a args) (map[string]any, string) {
	old := s.views[a.str("view_id")]
	if old == nil || old.Closed {
		return nil, "not_found"
	}
	if h := a.str("hash"); h != "" && h != old.Hash {
		return nil, "hash_conflict"
	}
	v, word := s.view(a, inModal)
	if word != "" {
		return nil, word
	}
	v.ID, v.User, v.Updates = old.ID, old.User, old.Updates+1
	s.views[v.ID] = v
	s.change()
	return map[string]any{"view": s.viewShown(v)}, ""
}

func (s *Slack) viewPublish(a args) (map[string]any, string) {
	who := a.str("user_id")
	if _, ok := s.users[who]; !ok {
		return nil, "user_not_found"
	}
	v, word := s.view(a, inHome)
	if word != "" {
		return nil, word
	}
	v.ID, v.User = s.id("V"), who
	if old := s.homes[who]; old != nil {
		v.ID, v.Updates = old.ID, old.Updates+1
	}
	s.homes[who] = v
	s.change()
	return map[string]any{"view": s.viewShown(v)}, ""
}

// view reads and checks a view.
func (s *Slack) view(a args, at surface) (*View, string) {
	var in struct {
		Type    string           `json:"type"`
		Title   map[string]any   `json:"title"`
		Submit  map[string]any   `json:"submit"`
		Close   map[string]any   `json:"close"`
		Blocks  []map[string]any `json:"blocks"`
		Private string           `json:"private_metadata"`
		Call    string           `json:"callback_id"`
	}
	if !a.object("view", &in) {
		return nil, "invalid_arguments"
	}
	raw := map[string]any{}
	a.object("view", &raw)
	c := checker{at: at, ids: map[string]bool{}}
	want := map[surface]string{inModal: "modal", inHome: "home"}[at]
	if in.Type != want {
		return nil, "invalid_arguments"
	}
	inputs := 0
	for _, b := range in.Blocks {
		if b["type"] == "input" {
			inputs++
		}
	}
	if at == inModal {
		c.text(in.Title, MaxViewTitle, true)
		if in.Submit != nil {
			c.text(in.Submit, MaxViewTitle, true)
		}
		if in.Close != nil {
			c.text(in.Close, MaxViewTitle, true)
		}
		if inputs > 0 && in.Submit == nil {
			c.fail("inputs without a submit button")
		}
	}
	if utf8.RuneCountInString(in.Private) > MaxMetadata || utf8.RuneCountInString(in.Call) > MaxID || c.wrong != "" {
		return nil, "invalid_arguments"
	}
	if len(in.Blocks) == 0 {
		return nil, "invalid_arguments"
	}
	if word := checkBlocks(in.Blocks, at); word != "" {
		return nil, "invalid_arguments"
	}
	title, _ := in.Title["text"].(string)
	return &View{Hash: s.id("h"), Type: in.Type, Callback: in.Call, Title: title, Private: in.Private, Blocks: in.Blocks, Submit: in.Submit != nil, raw: raw}, ""
}

func (s *Slack) viewShown(v *View) map[string]any {
	out := map[string]any{}
	b, _ := json.Marshal(v.raw)
	json.Unmarshal(b, &out)
	out["id"], out["hash"], out["team_id"], out["app_id"], out["bot_id"] = v.ID, v.Hash, Team, AppID, BotID
	return out
}

// Views are the open modals of a person, oldest first.
func (s *Slack) Views(user string) []View {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []View
	for i := 0; i <= s.serial; i++ {
		if v := s.views[numbered("V", i)]; v != nil && v.User == user && !v.Closed {
			out = append(out, *v)
		}
	}
	return out
}

// Home is a person's Home tab, and whether one was published.
func (s *Slack) Home(user string) (View, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if v := s.homes[user]; v != nil {
		return *v, true
	}
	return View{}, false
}

// CloseView is the person's cross on a modal.
func (s *Slack) CloseView(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if v := s.views[id]; v != nil {
		v.Closed = true
	}
}
