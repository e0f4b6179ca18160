// Package fake is a small, strict Slack on loopback for tests: the HTTP API, a Socket Mode socket, and the sender of signed requests. It
// checks tokens, scopes, required fields and the limits of blocks, answers with Slack's documented error words, and can be told to fail.
// It knows only what this house uses. Everybody in it is invented.
//
// It shares no type with the client under test, so that a mistake in one is not repeated in the other. Limits and error words are those
// of Slack's public reference for each method and block; where that gives no number, the place says so.
package fake

import (
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// Options say what app the fake workspace has installed.
type Options struct {
	BotToken      string   // "xoxb-…"
	AppToken      string   // "xapp-…"
	SigningSecret string   // signs HTTP deliveries
	Scopes        []string // what the bot token may do
	Now           func() time.Time
	AckWait       time.Duration // how long a delivery waits for its acknowledgement before it is sent again; 3 s where zero
}

// The app's own identities in the fake workspace.
const (
	Team    = "T0TEST"
	BotUser = "U0BOT"
	BotID   = "B0BOT"
	AppID   = "A0APP"
)

// Slack is one fake workspace. Its methods are safe for concurrent use.
type Slack struct {
	o    Options
	ln   net.Listener
	http *http.Server
	out  *http.Transport // deliveries by HTTP

	mu          sync.Mutex
	last        time.Time // of the newest ts given
	channels    map[string]*channel
	users       map[string]user
	groups      map[string][]string
	views       map[string]*View
	homes       map[string]*View
	files       map[string]*file
	triggers    map[string]trigger
	responses   map[string]*response
	ephemerals  []Ephemeral
	faults      map[string][]Fault
	calls       []Call
	serial      int
	target      string // where HTTP deliveries go; "" for the socket
	sockets     []*socket
	waiting     map[string]chan json.RawMessage
	slow        time.Duration // see SlowTriggers
	lastKind    string        // of the newest delivery
	lastPayload any
	holding     bool // deliveries are lost, as when the app is down
	onPost      func(Message)
	changed     chan struct{}
}

// Call is one call of an API method.
type Call struct {
	Method string
	Args   map[string]any
	At     time.Time
}

// Fault is something that goes wrong with one call of a method.
type Fault struct {
	Error      string        // answered as {"ok":false,"error":…}
	Status     int           // an HTTP status without a usable body
	RetryAfter int           // seconds; answered with 429
	CutBefore  bool          // the connection is cut and nothing is done
	CutAfter   bool          // the call takes effect and the connection is cut before the answer
	Slow       time.Duration // the answer takes so long
}

type user struct{ id, name, display string }

type channel struct {
	id, name string
	member   bool
	im       string // the other person of a direct conversation
	messages []*Message
}

// Message is one message in a channel, as it stands.
type Message struct {
	Channel  string           `json:"-"`
	TS       string           `json:"ts"`
	ThreadTS string           `json:"thread_ts,omitempty"`
	User     string           `json:"user,omitempty"`
	BotID    string           `json:"bot_id,omitempty"`
	AppID    string           `json:"app_id,omitempty"`
	Subtype  string           `json:"subtype,omitempty"`
	Text     string           `json:"text"`
	Blocks   []map[string]any `json:"blocks,omitempty"`
	Metadata map[string]any   `json:"metadata,omitempty"`
	Edited   map[string]any   `json:"edited,omitempty"`
	Files    []map[string]any `json:"files,omitempty"`
	Updates  int              `json:"-"` // how often chat.update changed it
}

// Ephemeral is a message that one person sees.
type Ephemeral struct {
	Channel, User, ThreadTS, Text string
	Blocks                        []map[string]any
	ByURL                         bool // came through a response URL
}

type trigger struct {
	at   time.Time
	used bool
}

type response struct {
	channel, user string
	at            time.Time
	uses          int
}

// New starts a fake workspace on a free loopback port.
func New(o Options) (*Slack, error) {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.AckWait == 0 {
		o.AckWait = 3 * time.Second
	}
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("fake Slack: %w", err)
	}
	s := &Slack{
		o: o, ln: ln, out: &http.Transport{MaxIdleConnsPerHost: 64},
		channels: map[string]*channel{}, users: map[string]user{}, groups: map[string][]string{}, views: map[string]*View{},
		homes: map[string]*View{}, files: map[string]*file{}, triggers: map[string]trigger{}, responses: map[string]*response{},
		faults: map[string][]Fault{}, waiting: map[string]chan json.RawMessage{}, changed: make(chan struct{}),
	}
	mux := http.NewServeMux()
	mux.HandleFunc("POST /api/{method}", s.api)
	mux.HandleFunc("GET /api/{method}", s.api)
	mux.HandleFunc("GET /socket/{ticket}", s.socket)
	mux.HandleFunc("POST /upload/{file}", s.upload)
	mux.HandleFunc("GET /files/{file}", s.download)
	mux.HandleFunc("POST /respond/{id}", s.respond)
	s.http = &http.Server{Handler: mux, ReadHeaderTimeout: 10 * time.Second}
	go s.http.Serve(ln)
	return s, nil
}

// Close stops the workspace and cuts every connection.
func (s *Slack) Close() {
	s.DropSockets()
	s.http.Close()
	s.out.CloseIdleConnections()
}

// APIURL is the base of the API, ending in a slash.
func (s *Slack) APIURL() string { return s.base() + "/api/" }

func (s *Slack) base() string { return "http://" + s.ln.Addr().String() }

// AddUser adds a person.
func (s *Slack) AddUser(id, name string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.users[id] = user{id: id, name: strings.ToLower(strings.ReplaceAll(name, " ", ".")), display: name}
}

// AddGroup adds a user group with its people.
func (s *Slack) AddGroup(id string, people ...string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.groups[id] = people
}

// AddChannel adds a channel; member says whether the app is in it.
func (s *Slack) AddChannel(id, name string, member bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.channels[id] = &channel{id: id, name: name, member: member}
}

// Fail queues faults for the next calls of a method, one each.
func (s *Slack) Fail(method string, f ...Fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults[method] = append(s.faults[method], f...)
}

// SlowTriggers makes every trigger id given from now on so old already when it is given, as when a delivery took its time.
func (s *Slack) SlowTriggers(old time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.slow = old
}

// OnPost has every new post of the app told to f, which must be quick.
func (s *Slack) OnPost(f func(Message)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.onPost = f
}

// Calls are the calls of a method so far, or of every method where it is "".
func (s *Slack) Calls(method string) []Call {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Call
	for _, c := range s.calls {
		if method == "" || c.Method == method {
			out = append(out, c)
		}
	}
	return out
}

// Thread lists the messages of a thread with its root, oldest first; with thread "" those of the channel outside threads, roots included.
func (s *Slack) Thread(channel, thread string) []Message {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Message
	c := s.channels[channel]
	if c == nil {
		return nil
	}
	for _, m := range c.messages {
		if thread == "" && m.ThreadTS == "" || thread != "" && (m.ThreadTS == thread || m.TS == thread) {
			out = append(out, *m)
		}
	}
	return out
}

// Ephemerals are the private messages that a person has seen, oldest first; everybody's where user is "".
func (s *Slack) Ephemerals(user string) []Ephemeral {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Ephemeral
	for _, e := range s.ephemerals {
		if user == "" || e.User == user {
			out = append(out, e)
		}
	}
	return out
}

// DM is the id of the direct conversation with a person, "" where none was opened.
func (s *Slack) DM(user string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	for id, c := range s.channels {
		if c.im == user {
			return id
		}
	}
	return ""
}

// Changed is closed at the next change of anything people can see.
func (s *Slack) Changed() <-chan struct{} {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.changed
}

// change wakes those who wait on Changed. The lock is held.
func (s *Slack) change() {
	close(s.changed)
	s.changed = make(chan struct{})
}

// ts gives a message id: seconds and microseconds, later than every one before. The lock is held.
func (s *Slack) ts() string {
	now := s.o.Now().Truncate(time.Microsecond)
	if !now.After(s.last) {
		now = s.last.Add(time.Microsecond)
	}
	s.last = now
	return fmt.Sprintf("%d.%06d", now.Unix(), now.Nanosecond()/1000)
}

// id gives a number never given before. The lock is held.
func (s *Slack) id(prefix string) string {
	s.serial++
	return fmt.Sprintf("%s%06d", prefix, s.serial)
}

// find is a message by its channel and ts, nil where there is none. The lock is held.
func (s *Slack) find(channel, ts string) *Message {
	c := s.channels[channel]
	if c == nil {
		return nil
	}
	i := slices.IndexFunc(c.messages, func(m *Message) bool { return m.TS == ts })
	if i < 0 {
		return nil
	}
	return c.messages[i]
}
