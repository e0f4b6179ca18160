package fake

import (
	"encoding/json"
	"io"
	"mime"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// method is one API method: which token and scopes it takes (any one of the scopes will do), which arguments must be there, what it does.
type method struct {
	app    bool // takes the app-level token
	scopes []string
	need   []string
	do     func(s *Slack, a args) (map[string]any, string)
}

// methods are those of Slack's methods that this house may use. Scopes as each method's reference page lists them for bot tokens.
var methods = map[string]method{
	"auth.test":                    {do: (*Slack).authTest},
	"apps.connections.open":        {app: true, scopes: []string{"connections:write"}, do: (*Slack).connectionsOpen},
	"chat.postMessage":             {scopes: []string{"chat:write"}, need: []string{"channel"}, do: (*Slack).postMessage},
	"chat.update":                  {scopes: []string{"chat:write"}, need: []string{"channel", "ts"}, do: (*Slack).update},
	"chat.delete":                  {scopes: []string{"chat:write"}, need: []string{"channel", "ts"}, do: (*Slack).delete},
	"chat.postEphemeral":           {scopes: []string{"chat:write"}, need: []string{"channel", "user"}, do: (*Slack).postEphemeral},
	"conversations.history":        {scopes: []string{"channels:history", "groups:history", "im:history", "mpim:history"}, need: []string{"channel"}, do: (*Slack).history},
	"conversations.replies":        {scopes: []string{"channels:history", "groups:history", "im:history", "mpim:history"}, need: []string{"channel", "ts"}, do: (*Slack).replies},
	"conversations.info":           {scopes: []string{"channels:read", "groups:read", "im:read", "mpim:read"}, need: []string{"channel"}, do: (*Slack).conversationInfo},
	"conversations.open":           {scopes: []string{"im:write", "mpim:write"}, need: []string{"users"}, do: (*Slack).conversationOpen},
	"users.conversations":          {scopes: []string{"channels:read", "groups:read", "im:read", "mpim:read"}, do: (*Slack).ownConversations},
	"users.info":                   {scopes: []string{"users:read"}, need: []string{"user"}, do: (*Slack).userInfo},
	"usergroups.list":              {scopes: []string{"usergroups:read"}, do: (*Slack).groupList},
	"views.open":                   {need: []string{"trigger_id", "view"}, do: (*Slack).viewOpen},
	"views.update":                 {need: []string{"view"}, do: (*Slack).viewUpdate},
	"views.publish":                {need: []string{"user_id", "view"}, do: (*Slack).viewPublish},
	"files.info":                   {scopes: []string{"files:read"}, need: []string{"file"}, do: (*Slack).fileInfo},
	"files.getUploadURLExternal":   {scopes: []string{"files:write"}, need: []string{"filename", "length"}, do: (*Slack).uploadURL},
	"files.completeUploadExternal": {scopes: []string{"files:write"}, need: []string{"files"}, do: (*Slack).uploadDone},
}

// Scopes are the bot scopes that a method takes, any one of them; none where it takes none, and false where the fake does not know it.
func Scopes(name string) (any []string, app, known bool) {
	m, known := methods[name]
	return m.scopes, m.app, known
}

// args are a call's arguments, however they came.
type args map[string]any

func (a args) str(name string) string {
	switch v := a[name].(type) {
	case string:
		return v
	case nil:
		return ""
	case bool:
		return strconv.FormatBool(v)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return ""
}

func (a args) num(name string) int {
	n, _ := strconv.Atoi(a.str(name))
	return n
}

// object decodes an argument that is JSON, sent as a string in a form or in place in a JSON body.
func (a args) object(name string, to any) bool {
	switch v := a[name].(type) {
	case nil:
		return true
	case string:
		return v == "" || json.Unmarshal([]byte(v), to) == nil
	default:
		b, err := json.Marshal(v)
		return err == nil && json.Unmarshal(b, to) == nil
	}
}

// api serves every method.
func (s *Slack) api(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("method")
	m, ok := methods[name]
	if !ok {
		answer(w, nil, "unknown_method")
		return
	}
	a, errWord := readArgs(r)
	if errWord != "" {
		answer(w, nil, errWord)
		return
	}
	token := strings.TrimPrefix(r.Header.Get("Authorization"), "Bearer ")
	if token == "" {
		token = a.str("token")
	}
	delete(a, "token")
	call := Call{Method: name, Args: a, At: s.o.Now()}
	s.mu.Lock()
	s.calls = append(s.calls, call)
	var f Fault
	if q := s.faults[name]; len(q) > 0 {
		f, s.faults[name] = q[0], q[1:]
	}
	s.mu.Unlock()
	if f.Slow > 0 {
		select {
		case <-r.Context().Done():
		case <-time.After(f.Slow):
		}
	}
	switch {
	case f.CutBefore:
		cut(w)
		return
	case f.RetryAfter > 0:
		w.Header().Set("Retry-After", strconv.Itoa(f.RetryAfter))
		w.WriteHeader(http.StatusTooManyRequests)
		io.WriteString(w, `{"ok":false,"error":"ratelimited"}`)
		return
	case f.Status > 0:
		w.WriteHeader(f.Status)
		return
	case f.Error != "":
		answer(w, nil, f.Error)
		return
	}
	if word, needed := s.allowed(m, token); word != "" {
		answer(w, map[string]any{"needed": needed, "provided": strings.Join(s.o.Scopes, ",")}, word)
		return
	}
	for _, n := range m.need {
		if _, there := a[n]; !there || a[n] == "" {
			answer(w, map[string]any{"response_metadata": map[string]any{"messages": []string{"[ERROR] missing required field: " + n}}}, "invalid_arguments")
			return
		}
	}
	s.mu.Lock()
	out, word := m.do(s, a)
	s.mu.Unlock()
	if f.CutAfter {
		cut(w)
		return
	}
	answer(w, out, word)
}

// allowed says which error a token earns at a method, "" for none.
func (s *Slack) allowed(m method, token string) (word, needed string) {
	switch {
	case token == "":
		return "not_authed", ""
	case token == s.o.AppToken:
		if !m.app {
			return "not_allowed_token_type", ""
		}
		return "", ""
	case token != s.o.BotToken:
		return "invalid_auth", ""
	case m.app:
		return "not_allowed_token_type", ""
	}
	if len(m.scopes) == 0 {
		return "", ""
	}
	for _, have := range s.o.Scopes {
		for _, want := range m.scopes {
			if have == want {
				return "", ""
			}
		}
	}
	return "missing_scope", strings.Join(m.scopes, ",")
}

func readArgs(r *http.Request) (args, string) {
	a := args{}
	kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch kind {
	case "application/json":
		if err := json.NewDecoder(r.Body).Decode(&a); err != nil && err != io.EOF {
			return nil, "invalid_json"
		}
	case "application/x-www-form-urlencoded", "":
		if r.ParseForm() != nil {
			return nil, "invalid_form_data"
		}
		for k, v := range r.Form {
			a[k] = v[0]
		}
	default:
		return nil, "invalid_post_type"
	}
	return a, ""
}

func answer(w http.ResponseWriter, out map[string]any, word string) {
	if out == nil {
		out = map[string]any{}
	}
	out["ok"] = word == ""
	if word != "" {
		out["error"] = word
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	json.NewEncoder(w).Encode(out)
}

// cut ends the connection without an answer.
func cut(w http.ResponseWriter) {
	if h, ok := w.(http.Hijacker); ok {
		if c, _, err := h.Hijack(); err == nil {
			c.Close()
		}
	}
}

func (s *Slack) authTest(args) (map[string]any, string) {
	return map[string]any{"url": s.base() + "/", "team": "Test shop", "user": "strikeoff", "team_id": Team, "user_id": BotUser, "bot_id": BotID}, ""
}

func (s *Slack) userInfo(a args) (map[string]any, string) {
	u, ok := s.users[a.str("user")]
	if !ok {
		return nil, "user_not_found"
	}
	return map[string]any{"user": map[string]any{"id": u.id, "name": u.name, "real_name": u.display,
		"profile": map[string]any{"display_name": u.display, "real_name": u.display}}}, ""
}

func (s *Slack) groupList(a args) (map[string]any, string) {
	list := []map[string]any{}
	for id, people := range s.groups {
		g := map[string]any{"id": id, "handle": strings.ToLower(id), "name": id, "date_delete": 0}
		if v := a.str("include_users"); v == "true" || v == "1" {
			g["users"] = people
		}
		list = append(list, g)
	}
	return map[string]any{"usergroups": list}, ""
}
