package discord

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// interact makes an interaction of a person and returns it as it goes over the wire.
func (f *fake) interact(who, channelID string, typ int, data map[string]any, on *fakeMessage) (*fakeInteraction, map[string]any) {
	f.mu.Lock()
	defer f.mu.Unlock()
	in := &fakeInteraction{id: f.id(), user: who}
	in.token = "secret-token-of-" + in.id
	f.inters[in.token] = in
	u, mem := person(who)
	mem["user"] = u
	body := map[string]any{"id": in.id, "application_id": fakeApp, "type": typ, "token": in.token, "version": 1, "channel_id": channelID, "data": data}
	if c := f.channels[channelID]; c != nil {
		body["channel"] = map[string]any{"id": c.ID, "type": c.Type, "parent_id": c.Parent, "guild_id": c.Guild}
		if c.Guild == "" {
			body["user"] = u
		} else {
			body["member"], body["guild_id"] = mem, c.Guild
		}
	}
	if on != nil {
		body["message"] = on
	}
	return in, body
}

// way is how interactions reach the door.
type way func(in *fakeInteraction, body map[string]any) json.RawMessage

// overGateway dispatches interactions and waits until the callback came.
func (f *fake) overGateway() way {
	return func(in *fakeInteraction, body map[string]any) json.RawMessage {
		f.dispatch("INTERACTION_CREATE", body)
		f.await("an answer to an interaction", func() bool { return in.said })
		return nil
	}
}

// overHTTP posts interactions to an endpoint, signed, and carries out the answer.
func (f *fake) overHTTP(h http.Handler) way {
	return func(in *fakeInteraction, body map[string]any) json.RawMessage {
		b, err := json.Marshal(body)
		if err != nil {
			f.t.Error(err)
			return nil
		}
		res := call2(h, f.signed(b, f.now()))
		if res.code != 200 || !strings.HasPrefix(res.header.Get("Content-Type"), "application/json") {
			f.t.Errorf("the endpoint answered %d (%s): %s", res.code, res.header.Get("Content-Type"), res.body)
			return nil
		}
		f.mu.Lock()
		defer f.mu.Unlock()
		if !in.said {
			f.take(in, res.body)
		}
		return res.body
	}
}

// signed is a call as Discord signs it.
func (f *fake) signed(body []byte, at time.Time) *http.Request {
	stamp := strconv.FormatInt(at.Unix(), 10)
	r, err := http.NewRequest(http.MethodPost, "/interactions", bytes.NewReader(body))
	if err != nil {
		f.t.Fatal(err)
	}
	r.Header.Set("X-Signature-Timestamp", stamp)
	r.Header.Set("X-Signature-Ed25519", hex.EncodeToString(ed25519.Sign(f.key, append([]byte(stamp), body...))))
	return r
}

type httpAnswer struct {
	code   int
	header http.Header
	body   []byte
}

// call2 calls a handler.
func call2(h http.Handler, r *http.Request) httpAnswer {
	w := &recorder{header: http.Header{}, code: 200}
	h.ServeHTTP(w, r)
	return httpAnswer{w.code, w.header, w.buf.Bytes()}
}

type recorder struct {
	header http.Header
	code   int
	buf    bytes.Buffer
}

func (r *recorder) Header() http.Header         { return r.header }
func (r *recorder) Write(b []byte) (int, error) { return r.buf.Write(b) }
func (r *recorder) WriteHeader(code int)        { r.code = code }

// await waits until a thing is so; the fake's lock is held while it is asked.
func (f *fake) await(what string, so func() bool) {
	end := time.Now().Add(10 * time.Second)
	for time.Now().Before(end) {
		f.mu.Lock()
		ok := so()
		f.mu.Unlock()
		if ok {
			return
		}
		time.Sleep(time.Millisecond)
	}
	f.t.Fatalf("waited in vain for %s", what)
}

// press presses the control that does a command, wherever it stands among the bot's posts in the channels. It fills in a form that opens.
// It reports whether there was such a control.
func (f *fake) press(send way, who, command string, channelIDs ...string) bool {
	for _, ch := range channelIDs {
		posts := f.posts(ch)
		for i := len(posts) - 1; i >= 0; i-- {
			for _, r := range posts[i].Components {
				for _, c := range r.Components {
					ids := []string{c.Custom}
					for _, o := range c.Options {
						ids = append(ids, o.Value)
					}
					for _, id := range ids {
						said, ok := does(id, command)
						if !ok {
							continue
						}
						data := map[string]any{"custom_id": c.Custom, "component_type": c.Type}
						if c.Type == 3 {
							data["values"] = []string{id}
						}
						in, body := f.interact(who, ch, interComponent, data, posts[i])
						f.form(send, who, ch, said, posts[i], send(in, body))
						return true
					}
				}
			}
		}
	}
	return false
}

// does reports whether a control's id does a command, and what is left to be typed into its form.
func does(id, command string) (said string, ok bool) {
	if do, is := strings.CutPrefix(id, "do:"); is {
		return "", do == command || strings.HasPrefix(do, command+" plan ")
	}
	kind, head, is := strings.Cut(id, ":")
	if !is || !strings.HasPrefix(kind, "ask ") {
		return "", false
	}
	said, ok = strings.CutPrefix(command, head+" ")
	return said, ok
}

// form submits the form that a press opened, if one did. Over the gateway the fake does not hand the answer back, so the form is built as
// the door would; over HTTP its own is used.
func (f *fake) form(send way, who, channelID, said string, on *fakeMessage, answered json.RawMessage) {
	if said == "" {
		return
	}
	var a struct {
		Type int `json:"type"`
		Data struct {
			Custom     string `json:"custom_id"`
			Title      string `json:"title"`
			Components []struct {
				Type      int    `json:"type"`
				Label     string `json:"label"`
				Component struct {
					Custom string `json:"custom_id"`
					Type   int    `json:"type"`
					Hint   string `json:"placeholder"`
				} `json:"component"`
			} `json:"components"`
		} `json:"data"`
	}
	f.mu.Lock()
	if answered == nil {
		answered = f.lastForm
	}
	f.mu.Unlock()
	if err := json.Unmarshal(answered, &a); err != nil || a.Type != answerForm {
		f.t.Errorf("a press that needs words opened no form: %s", answered)
		return
	}
	d := a.Data
	if d.Custom == "" || length(d.Custom) > 100 || d.Title == "" || length(d.Title) > 45 || len(d.Components) != 1 || d.Components[0].Type != 18 ||
		d.Components[0].Label == "" || length(d.Components[0].Label) > 45 || length(d.Components[0].Component.Hint) > 100 {
		f.t.Errorf("a form would be refused: %s", answered)
	}
	in, body := f.interact(who, channelID, interModal, map[string]any{"custom_id": d.Custom, "components": []any{map[string]any{"type": 18, "id": 1,
		"component": map[string]any{"type": 4, "id": 2, "custom_id": d.Components[0].Component.Custom, "value": said}}}}, on)
	send(in, body)
}

// slash types a command after a stroke, its words spread over the options.
func (f *fake) slash(send way, who, channelID, command string) {
	words := strings.Fields(command)
	data := map[string]any{"id": "1", "type": commandTyped, "name": words[0]}
	var options []any
	rest := words[1:]
	for _, s := range slashes {
		if s.name != words[0] {
			continue
		}
		for i, a := range s.args {
			if len(rest) == 0 {
				break
			}
			var v any = rest[0]
			switch n, err := strconv.Atoi(rest[0]); {
			case a.number && err != nil:
				f.t.Errorf("%q has no number for %s", command, a.name)
				return
			case a.number:
				v, rest = n, rest[1:]
			case i == len(s.args)-1 || a.name == "note" || a.name == "change" || a.name == "reason":
				v, rest = strings.Join(rest, " "), nil
			default:
				rest = rest[1:]
			}
			options = append(options, map[string]any{"name": a.name, "type": optionText, "value": v})
		}
	}
	data["options"] = options
	in, body := f.interact(who, channelID, interCommand, data, nil)
	send(in, body)
}

// readAs asks for a message to be read as an order.
func (f *fake) readAs(send way, who, channelID, id string) {
	f.mu.Lock()
	m := f.find(channelID, id)
	f.mu.Unlock()
	if m == nil {
		f.t.Errorf("there is no message %s", id)
		return
	}
	in, body := f.interact(who, channelID, interCommand, map[string]any{"id": "2", "type": commandOnMessage, "name": readAsOrder, "target_id": id,
		"resolved": map[string]any{"messages": map[string]any{id: m}}}, nil)
	send(in, body)
}

// complete asks for suggestions.
func (f *fake) suggest(send way, who, channelID, command string, options ...map[string]any) []choice {
	in, body := f.interact(who, channelID, interAutocomplete, map[string]any{"id": "1", "type": commandTyped, "name": command, "options": options}, nil)
	raw := send(in, body)
	var a struct {
		Type int `json:"type"`
		Data struct {
			Choices []choice `json:"choices"`
		} `json:"data"`
	}
	if err := json.Unmarshal(raw, &a); err != nil || a.Type != answerChoices || a.Data.Choices == nil {
		f.t.Errorf("no suggestions: %s", raw)
	}
	return a.Data.Choices
}

// private is what one person was shown alone.
func (f *fake) private(who string) []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	var out []string
	for _, m := range f.alone[who] {
		if m.Flags&flagLoading == 0 {
			out = append(out, rendered(m))
		}
	}
	return out
}
