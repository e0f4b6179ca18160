package discord

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"slices"
	"strconv"
	"strings"
)

// ServeHTTP is the HTTP API, the gateway's address and the file host.
func (f *fake) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	path := r.URL.Path
	if path == "/gw" || strings.HasPrefix(path, "/gw/") || path == "/resume" || strings.HasPrefix(path, "/resume/") {
		f.gate(w, r)
		return
	}
	if host := r.Header.Get("X-Meant-For"); slices.Contains(fileHosts, host) {
		if r.Header.Get("Authorization") != "" {
			f.t.Error("the token went to the file host")
		}
		io.WriteString(w, "bytes of "+path)
		return
	}
	path = strings.TrimPrefix(strings.TrimPrefix(path, "/api/v10"), "/api/v9")
	body, _ := io.ReadAll(r.Body)
	f.mu.Lock()
	f.calls = append(f.calls, r.Method+" "+path)
	f.checkNeeds(r.Method, path)
	fault := f.fault
	f.mu.Unlock()
	if fault != nil {
		if a := fault(r); a != nil {
			for k, v := range a.header {
				w.Header().Set(k, v)
			}
			if a.lost {
				f.serve(discard{}, r, path, body)
				panic(http.ErrAbortHandler)
			}
			if a.status != 0 {
				w.WriteHeader(a.status)
				io.WriteString(w, a.body)
				return
			}
		}
	}
	f.serve(w, r, path, body)
}

// discard is a reply that nobody hears.
type discard struct{}

func (discard) Header() http.Header         { return http.Header{} }
func (discard) Write(b []byte) (int, error) { return len(b), nil }
func (discard) WriteHeader(int)             {}

// reply writes JSON.
func reply200(w http.ResponseWriter, v any) {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	w.Header().Set("Content-Type", "application/json")
	w.Write(b)
}

// refuse writes one of Discord's errors.
func refuse(w http.ResponseWriter, status, code int, text string) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	fmt.Fprintf(w, `{"code":%d,"message":%q}`, code, text)
}

func (f *fake) serve(w http.ResponseWriter, r *http.Request, path string, body []byte) {
	var echo []gateEvent // what everybody hears of it, the bot too
	f.mu.Lock()
	defer func() {
		echo, f.echo = f.echo, nil
		f.mu.Unlock()
		for _, e := range echo {
			f.dispatch(e.Type, e.Data)
		}
	}()
	p := strings.Split(strings.TrimPrefix(path, "/"), "/")
	free := p[0] == "interactions" || p[0] == "webhooks"
	if path != "/gateway" && !free && r.Header.Get("Authorization") != "Bot "+fakeToken {
		refuse(w, 401, 0, "401: Unauthorized")
		return
	}
	if free && r.Header.Get("Authorization") != "" {
		f.t.Errorf("the token was sent to %s, which needs none", p[0])
	}
	what := r.Method + " " + p[0]
	switch {
	case path == "/gateway":
		reply200(w, map[string]string{"url": "ws" + strings.TrimPrefix(f.srv.URL, "http") + "/gw"})
	case path == "/applications/@me":
		reply200(w, map[string]any{"id": fakeApp, "flags": f.appFlags, "verify_key": f.publicKey()})
	case path == "/users/@me":
		reply200(w, map[string]any{"id": fakeBot, "username": "strikeoff", "bot": true})
	case p[0] == "applications" && p[len(p)-1] == "commands":
		f.serveCommands(w, r, path, body)
	case what == "GET guilds" && len(p) == 3 && p[2] == "channels":
		var out []*fakeChannel
		for _, c := range f.channels {
			if c.Guild != "" && c.Type == kindText {
				out = append(out, c)
			}
		}
		reply200(w, out)
	case what == "GET guilds" && path == "/guilds/"+p[1]+"/threads/active":
		out := []*fakeChannel{}
		for _, c := range f.channels {
			if c.Type == kindPublicThread && !c.archived {
				out = append(out, c)
			}
		}
		reply200(w, map[string]any{"threads": out, "members": []any{}})
	case p[0] == "channels":
		f.serveChannel(w, r, p[1:], body)
	case p[0] == "interactions" && len(p) == 4 && r.Method == http.MethodPost:
		f.serveCallback(w, p[1], p[2], body)
	case p[0] == "webhooks":
		f.serveHook(w, r, p[1:], body)
	default:
		refuse(w, 404, 0, "404: Not Found")
	}
}

func (f *fake) serveCommands(w http.ResponseWriter, r *http.Request, path string, body []byte) {
	if r.Method == http.MethodPut {
		var cs []appCommand
		if err := json.Unmarshal(body, &cs); err != nil {
			refuse(w, 400, 50035, "Invalid Form Body")
			return
		}
		if bad := badCommands(cs); bad != "" {
			f.t.Errorf("the commands would be refused: %s", bad)
			refuse(w, 400, 50035, bad)
			return
		}
		f.writes++
		f.commands[path] = body
		w.Write(body)
		return
	}
	have := f.commands[path]
	if have == nil {
		have = json.RawMessage("[]")
	}
	var cs []map[string]any
	json.Unmarshal(have, &cs)
	for _, c := range cs { // what Discord adds by itself
		c["id"], c["version"], c["dm_permission"], c["nsfw"], c["default_member_permissions"] = f.id(), "1", true, false, nil
	}
	slices.Reverse(cs)
	reply200(w, cs)
}

func (f *fake) serveChannel(w http.ResponseWriter, r *http.Request, p []string, body []byte) {
	c := f.channels[p[0]]
	if c == nil {
		refuse(w, 404, codeUnknownChannel, "Unknown Channel")
		return
	}
	what := r.Method + " " + strings.Join(p[1:], "/")
	switch {
	case what == "GET ":
		reply200(w, c)
	case what == "PATCH ":
		c.archived = false
		reply200(w, c)
	case what == "GET messages":
		f.serveHistory(w, r, c)
	case what == "POST messages":
		f.servePost(w, r, c, body)
	case len(p) == 3 && p[1] == "messages":
		f.serveMessage(w, r, c, p[2], body)
	case len(p) == 4 && p[3] == "threads" && r.Method == http.MethodPost:
		f.serveThread(w, c, p[2], body)
	default:
		refuse(w, 404, 0, "404: Not Found")
	}
}

func (f *fake) serveHistory(w http.ResponseWriter, r *http.Request, c *fakeChannel) {
	q := r.URL.Query()
	limit, _ := strconv.Atoi(q.Get("limit"))
	if limit < 1 || limit > 100 || q.Get("after") == "" {
		refuse(w, 400, 50035, "Invalid Form Body")
		return
	}
	page := []*fakeMessage{}
	for _, m := range c.messages {
		if newer(m.ID, q.Get("after")) && len(page) < limit {
			page = append(page, m)
		}
	}
	slices.Reverse(page) // newest first
	reply200(w, page)
}

func (f *fake) servePost(w http.ResponseWriter, r *http.Request, c *fakeChannel, body []byte) {
	var files []map[string]any
	if kind, args, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind == "multipart/form-data" {
		form, err := multipart.NewReader(strings.NewReader(string(body)), args["boundary"]).ReadForm(1 << 20)
		if err != nil {
			refuse(w, 400, 50035, err.Error())
			return
		}
		if js := form.Value["payload_json"]; len(js) == 1 {
			body = []byte(js[0])
		}
		for _, h := range form.File["files[0]"] {
			files = append(files, map[string]any{"id": f.id(), "filename": h.Filename, "size": h.Size, "url": "https://cdn.discordapp.com/" + h.Filename})
		}
	}
	m, bad := f.read(body, files != nil)
	if bad != "" {
		f.t.Errorf("a post would be refused: %s\n%s", bad, body)
		refuse(w, 400, 50035, bad)
		return
	}
	if m.Nonce != "" && m.Enforce {
		if old := f.nonces[c.ID+m.Nonce]; old != nil {
			reply200(w, old)
			return
		}
	}
	out := f.botMessage(c.ID, m)
	out.Attachments = append(out.Attachments, files...)
	if m.Reference != nil {
		out.Reference = map[string]any{"message_id": m.Reference.Message, "channel_id": c.ID}
	}
	f.add(out)
	f.heard("MESSAGE_CREATE", out)
	if m.Nonce != "" {
		f.nonces[c.ID+m.Nonce] = out
	}
	if f.posted != nil {
		f.posted(c.ID)
	}
	reply200(w, out)
}

// heard lays an event by, to be told once the call is answered for.
func (f *fake) heard(typ string, v any) {
	b, err := json.Marshal(v)
	if err != nil {
		f.t.Errorf("encode %s: %v", typ, err)
		return
	}
	f.echo = append(f.echo, gateEvent{Type: typ, Data: b})
}

func (f *fake) botMessage(channelID string, m outMessage) *fakeMessage {
	return &fakeMessage{ID: f.id(), Channel: channelID, Author: map[string]any{"id": fakeBot, "username": "strikeoff", "bot": true}, Content: m.Content,
		Embeds: m.Embeds, Components: m.Components, Attachments: []map[string]any{}, Mentions: []map[string]any{}, Application: fakeApp, Flags: int64(m.Flags)}
}

func (f *fake) serveMessage(w http.ResponseWriter, r *http.Request, c *fakeChannel, id string, body []byte) {
	m := f.find(c.ID, id)
	switch {
	case m == nil:
		refuse(w, 404, codeUnknownMessage, "Unknown Message")
	case r.Method == http.MethodGet:
		reply200(w, m)
	case m.Author["id"] != fakeBot:
		refuse(w, 403, codeNotOurs, "Cannot edit a message authored by another user")
	case r.Method == http.MethodDelete:
		f.cut(c.ID, id)
		w.WriteHeader(204)
	case c.archived:
		refuse(w, 400, codeArchived, "Thread is archived")
	default:
		in, bad := f.read(body, false)
		if bad != "" || in.Nonce != "" {
			f.t.Errorf("a change would be refused: %s%s", bad, in.Nonce)
			refuse(w, 400, 50035, bad)
			return
		}
		m.Content, m.Embeds, m.Components = in.Content, in.Embeds, in.Components
		f.heard("MESSAGE_UPDATE", m)
		reply200(w, m)
	}
}

func (f *fake) serveThread(w http.ResponseWriter, c *fakeChannel, id string, body []byte) {
	m := f.find(c.ID, id)
	var in struct {
		Name    string `json:"name"`
		Archive int    `json:"auto_archive_duration"`
	}
	switch {
	case json.Unmarshal(body, &in) != nil || in.Name == "" || len([]rune(in.Name)) > 100 || !slices.Contains([]int{60, 1440, 4320, 10080}, in.Archive):
		f.t.Errorf("a thread would be refused: %s", body)
		refuse(w, 400, 50035, "Invalid Form Body")
	case c.Type != kindText:
		refuse(w, 400, 50024, "Cannot execute action on this channel type")
	case m == nil:
		refuse(w, 404, codeUnknownMessage, "Unknown Message")
	case f.channels[id] != nil:
		refuse(w, 400, codeHasThread, "A thread has already been created for this message")
	default:
		t := &fakeChannel{ID: id, Type: kindPublicThread, Guild: fakeGuild, Parent: c.ID, Owner: fakeBot, Name: in.Name}
		f.channels[id] = t
		m.Flags |= flagHasThread
		f.heard("THREAD_CREATE", t)
		f.heard("MESSAGE_UPDATE", m) // its flags changed; nobody wrote
		w.WriteHeader(201)
		reply200(w, t)
	}
}

func (f *fake) serveCallback(w http.ResponseWriter, id, token string, body []byte) {
	in := f.inters[token]
	if in == nil || in.id != id || f.now().Sub(snowTime(id)).Seconds() > 3 {
		refuse(w, 404, codeUnknownInter, "Unknown interaction")
		return
	}
	if in.said {
		refuse(w, 400, codeAcknowledged, "Interaction has already been acknowledged.")
		return
	}
	f.take(in, body)
	w.WriteHeader(204)
}

// take carries out the first answer to an interaction, however it came.
func (f *fake) take(in *fakeInteraction, body []byte) {
	var a struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if err := json.Unmarshal(body, &a); err != nil {
		f.t.Errorf("an answer to an interaction is no JSON: %v", err)
		return
	}
	in.said = true
	if f.acted != nil {
		f.acted(in.id)
	}
	switch a.Type {
	case answerSay:
		m, bad := f.read(a.Data, false)
		if bad != "" || m.Flags&flagEphemeral == 0 {
			f.t.Errorf("an answer would be refused or be seen by all: %s %s", bad, a.Data)
		}
		f.alone[in.user] = append(f.alone[in.user], f.botMessage("", m))
	case answerThinking:
		if string(a.Data) != `{"flags":64}` {
			f.t.Errorf("deferred with %s, want only the flag for one person", a.Data)
		}
		in.original = &fakeMessage{ID: f.id(), Author: map[string]any{"id": fakeBot}, Flags: flagEphemeral | flagLoading}
		f.alone[in.user] = append(f.alone[in.user], in.original)
	case answerForm:
		f.lastForm = slices.Clone(body)
	case answerQuiet, answerChoices:
	default:
		f.t.Errorf("answered with type %d", a.Type)
	}
}

func (f *fake) serveHook(w http.ResponseWriter, r *http.Request, p []string, body []byte) {
	in := f.inters[p[1]]
	switch {
	case in == nil || p[0] != fakeApp:
		refuse(w, 404, codeUnknownHook, "Unknown Webhook")
		return
	case f.now().Sub(snowTime(in.id)).Minutes() > 15:
		refuse(w, 401, codeHookToken, "Invalid Webhook Token")
		return
	case !in.said:
		refuse(w, 404, codeUnknownHook, "Unknown Webhook")
		return
	}
	if r.Method == http.MethodGet && in.original != nil {
		reply200(w, in.original)
		return
	}
	m, bad := f.read(body, false)
	if bad != "" {
		f.t.Errorf("a follow-up would be refused: %s\n%s", bad, body)
		refuse(w, 400, 50035, bad)
		return
	}
	switch {
	case r.Method == http.MethodPatch && in.original != nil:
		in.original.Content, in.original.Embeds, in.original.Components, in.original.Flags = m.Content, m.Embeds, m.Components, flagEphemeral
		reply200(w, in.original)
	case r.Method == http.MethodPost:
		if m.Flags&flagEphemeral == 0 {
			f.t.Error("a follow-up is seen by all")
		}
		out := f.botMessage("", m)
		f.alone[in.user] = append(f.alone[in.user], out)
		reply200(w, out)
	default:
		refuse(w, 404, codeUnknownMessage, "Unknown Message")
	}
}
