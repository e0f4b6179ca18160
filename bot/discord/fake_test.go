package discord

import (
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"
)

// fake is Discord on the loopback: its HTTP API, its gateway, and what people see. It is strict: a call that the real one would refuse it
// refuses, and a message that could ping anybody fails the test.
type fake struct {
	t   testing.TB
	now func() time.Time
	srv *httptest.Server
	key ed25519.PrivateKey

	mu       sync.Mutex
	last     uint64 // the last id given
	channels map[string]*fakeChannel
	nonces   map[string]*fakeMessage
	inters   map[string]*fakeInteraction // by token
	alone    map[string][]*fakeMessage   // what one person was shown, by user id
	commands map[string]json.RawMessage  // by scope
	writes   int                         // of commands
	appFlags int64
	calls    []string
	fault    func(r *http.Request) *fakeAnswer
	gates    []*fakeConn
	sessions map[string]*fakeSession
	greets   func(n int, c *fakeConn) bool // called at each connection; true took it over
	connects int
	resumeAt string // path for resuming; "" is the usual one
	echo     []gateEvent
	posted   func(channelID string) // told of every post; nil tells nobody
	acted    func(id string)        // told of every interaction that was answered
	lastForm json.RawMessage        // the last form that was opened over the gateway
}

// The people, places and ids of the fake. All are invented.
const (
	fakeToken      = "invented-bot-token-0123456789"
	fakeApp        = "100"
	fakeBot        = "101"
	fakeGuild      = "200"
	fakeOrders     = "300"
	fakeProduction = "301"
	fakeDM         = "302"
	fakeQuiet      = "303" // a room that is none of the bot's
	fakeRep        = "501"
	fakeLead       = "502"
	fakeLeadRole   = "900"
)

type fakeChannel struct {
	ID       string `json:"id"`
	Type     int    `json:"type"`
	Guild    string `json:"guild_id,omitempty"`
	Parent   string `json:"parent_id,omitempty"`
	Owner    string `json:"owner_id,omitempty"`
	Name     string `json:"name"`
	Last     string `json:"last_message_id,omitempty"`
	archived bool
	messages []*fakeMessage
}

type fakeMessage struct {
	ID          string           `json:"id"`
	Channel     string           `json:"channel_id"`
	Author      map[string]any   `json:"author"`
	Member      map[string]any   `json:"member,omitempty"`
	Content     string           `json:"content"`
	Edited      *string          `json:"edited_timestamp"`
	Type        int              `json:"type"`
	Flags       int64            `json:"flags"`
	Attachments []map[string]any `json:"attachments"`
	Mentions    []map[string]any `json:"mentions"`
	Embeds      []embed          `json:"embeds"`
	Components  []row            `json:"components"`
	Reference   map[string]any   `json:"message_reference,omitempty"`
	Referenced  *fakeMessage     `json:"referenced_message,omitempty"`
	Application string           `json:"application_id,omitempty"`
	odd         bool             // its components are of a kind that nobody knows
}

func (m fakeMessage) MarshalJSON() ([]byte, error) {
	type bare fakeMessage
	b, err := json.Marshal(bare(m))
	if err != nil || !m.odd {
		return b, err
	}
	var all map[string]any
	if err := json.Unmarshal(b, &all); err != nil {
		return nil, err
	}
	all["components"] = []any{map[string]any{"type": 99, "label": "of tomorrow", "custom_id": []int{1}}}
	all["poll"] = "what is this"
	return json.Marshal(all)
}

type fakeInteraction struct {
	id, token, user string
	said            bool
	original        *fakeMessage
}

type fakeAnswer struct {
	status int
	header map[string]string
	body   string
	lost   bool // the call is carried out, and its answer is cut off
}

// newFake starts a fake. now stamps its ids.
func newFake(t testing.TB, now func() time.Time) *fake {
	_, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	f := &fake{t: t, now: now, key: key, channels: map[string]*fakeChannel{}, nonces: map[string]*fakeMessage{}, inters: map[string]*fakeInteraction{},
		alone: map[string][]*fakeMessage{}, commands: map[string]json.RawMessage{}, sessions: map[string]*fakeSession{}, appFlags: 1 << 19}
	for _, c := range []fakeChannel{{ID: fakeOrders, Name: "orders"}, {ID: fakeProduction, Name: "production"}, {ID: fakeQuiet, Name: "kitchen"}} {
		c.Guild = fakeGuild
		f.channels[c.ID] = &c
	}
	f.channels[fakeDM] = &fakeChannel{ID: fakeDM, Type: kindDM}
	f.srv = httptest.NewServer(f)
	t.Cleanup(f.stop)
	return f
}

func (f *fake) stop() {
	f.mu.Lock()
	gates := f.gates
	f.gates = nil
	f.mu.Unlock()
	for _, g := range gates {
		g.drop()
	}
	f.srv.CloseClientConnections()
	f.srv.Close()
}

// publicKey is the application's key as the portal shows it.
func (f *fake) publicKey() string {
	return hex.EncodeToString(f.key.Public().(ed25519.PublicKey))
}

// RoundTrip sends what is meant for Discord to the fake.
func (f *fake) RoundTrip(r *http.Request) (*http.Response, error) {
	to, err := url.Parse(f.srv.URL)
	if err != nil {
		return nil, err
	}
	out := r.Clone(r.Context())
	out.Header.Set("X-Meant-For", r.URL.Host)
	out.URL.Scheme, out.URL.Host, out.Host = to.Scheme, to.Host, ""
	return http.DefaultTransport.RoundTrip(out)
}

// id gives a fresh snowflake, later than every one before.
func (f *fake) id() string {
	n := uint64(f.now().UnixMilli()-epoch) << 22
	if n <= f.last {
		n = f.last + 1
	}
	f.last = n
	return fmt.Sprint(n)
}

// person is a user as Discord writes one, and as a member.
func person(id string) (user, member map[string]any) {
	name, nick, roles := "rea", "Rea Ito (invented)", []string{"899"}
	if id == fakeLead {
		name, nick, roles = "lin", "Lin Ode (invented)", []string{"899", fakeLeadRole}
	}
	return map[string]any{"id": id, "username": name, "global_name": nil}, map[string]any{"nick": nick, "roles": roles, "mute": false}
}

// say has a person write a message and tells it to every session. It returns the message.
func (f *fake) say(who, channelID, text string, more ...func(*fakeMessage)) *fakeMessage {
	m := f.write(who, channelID, text, more...)
	f.dispatch("MESSAGE_CREATE", m)
	return m
}

// write has a person write a message, and tells nobody.
func (f *fake) write(who, channelID, text string, more ...func(*fakeMessage)) *fakeMessage {
	f.mu.Lock()
	defer f.mu.Unlock()
	u, mem := person(who)
	m := &fakeMessage{ID: f.id(), Channel: channelID, Author: u, Member: mem, Content: text, Attachments: []map[string]any{}, Mentions: []map[string]any{},
		Embeds: []embed{}, Components: []row{}}
	for _, change := range more {
		change(m)
	}
	f.add(m)
	return m
}

// add puts a message into its channel.
func (f *fake) add(m *fakeMessage) {
	c := f.channels[m.Channel]
	if c == nil {
		f.t.Errorf("a message for channel %s, which is not there", m.Channel)
		return
	}
	c.messages, c.Last, c.archived = append(c.messages, m), m.ID, false
}

// edit changes what a person wrote.
func (f *fake) edit(channelID, id, text string) {
	f.mu.Lock()
	m := f.find(channelID, id)
	at := f.now().Format(time.RFC3339Nano)
	m.Content, m.Edited = text, &at
	copied := *m
	f.mu.Unlock()
	f.dispatch("MESSAGE_UPDATE", &copied)
}

// remove takes a message back.
func (f *fake) remove(channelID, id string) {
	f.mu.Lock()
	f.cut(channelID, id)
	f.mu.Unlock()
	f.dispatch("MESSAGE_DELETE", map[string]string{"id": id, "channel_id": channelID, "guild_id": fakeGuild})
}

func (f *fake) cut(channelID, id string) bool {
	c := f.channels[channelID]
	if c == nil {
		return false
	}
	for i, m := range c.messages {
		if m.ID == id {
			c.messages = append(c.messages[:i:i], c.messages[i+1:]...)
			return true
		}
	}
	return false
}

func (f *fake) find(channelID, id string) *fakeMessage {
	if c := f.channels[channelID]; c != nil {
		for _, m := range c.messages {
			if m.ID == id {
				return m
			}
		}
	}
	return nil
}

// posts is what the bot said in a channel, oldest first.
func (f *fake) posts(channelID string) []*fakeMessage {
	f.mu.Lock()
	defer f.mu.Unlock()
	var out []*fakeMessage
	if c := f.channels[channelID]; c != nil {
		for _, m := range c.messages {
			if m.Author["id"] == fakeBot {
				copied := *m
				out = append(out, &copied)
			}
		}
	}
	return out
}

// count counts the calls that begin with a prefix, as "POST /channels/300/messages".
func (f *fake) count(prefix string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	n := 0
	for _, c := range f.calls {
		if strings.HasPrefix(c, prefix) {
			n++
		}
	}
	return n
}

// rendered is what a reader sees of a message: content, then embeds, without markup.
func rendered(m *fakeMessage) string {
	parts := []string{unmark(m.Content)}
	for _, e := range m.Embeds {
		parts = append(parts, unmark(e.Title), unmark(e.Description))
		for _, x := range e.Fields {
			parts = append(parts, unmark(x.Name), unmark(x.Value))
		}
	}
	return strings.TrimSpace(strings.Join(parts, "\n"))
}

// unmark takes markup away as Discord's renderer does: a backslash makes the next character itself, stars make bold.
func unmark(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] == '\\' && i+1 < len(s) && strings.IndexByte("\\`*_~|<>@[]():#-+.", s[i+1]) >= 0:
			i++
			b.WriteByte(s[i])
		case s[i] == '*':
		default:
			b.WriteByte(s[i])
		}
	}
	return b.String()
}
