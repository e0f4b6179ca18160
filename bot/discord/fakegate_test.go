package discord

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// fakeConn is one connection to the fake's gateway.
type fakeConn struct {
	f    *fake
	ws   *websocket.Conn
	path string
	wmu  sync.Mutex

	mu      sync.Mutex
	session *fakeSession
	mute    bool // no heartbeat is acknowledged, nothing is sent
	closed  int  // the code that the client closed with; 0 for none
	heard   []int
}

// fakeSession is what the gateway remembers of a client.
type fakeSession struct {
	id   string
	seq  int64
	log  []gateEvent
	conn *fakeConn
}

type gateEvent struct {
	Op   int             `json:"op"`
	Type string          `json:"t,omitempty"`
	Seq  int64           `json:"s,omitempty"`
	Data json.RawMessage `json:"d"`
}

// beat is the interval of heartbeats that the fake asks for, in milliseconds.
const beat = 200

// gate serves a connection: hello, then identify or resume, then whatever the test scripts.
func (f *fake) gate(w http.ResponseWriter, r *http.Request) {
	if strings.Contains(r.URL.RawQuery, "compress") {
		f.t.Errorf("the client asks for compression: %s", r.URL.RawQuery)
	}
	ws, err := (&websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}).Upgrade(w, r, nil)
	if err != nil {
		return
	}
	c := &fakeConn{f: f, ws: ws, path: r.URL.Path}
	ws.SetCloseHandler(func(code int, _ string) error { c.mu.Lock(); c.closed = code; c.mu.Unlock(); return nil })
	f.mu.Lock()
	f.gates = append(f.gates, c)
	f.connects++
	n, greets := f.connects, f.greets
	f.mu.Unlock()
	if greets != nil && greets(n, c) {
		return
	}
	c.send(gateEvent{Op: 10, Data: json.RawMessage(fmt.Sprintf(`{"heartbeat_interval":%d}`, beat))})
	c.read()
}

// read hears the client until the connection ends.
func (c *fakeConn) read() {
	defer c.end()
	for {
		_, b, err := c.ws.ReadMessage()
		if err != nil {
			return
		}
		var in gateEvent
		if err := json.Unmarshal(b, &in); err != nil {
			c.close(4002)
			return
		}
		c.mu.Lock()
		mute := c.mute
		c.heard = append(c.heard, in.Op)
		c.mu.Unlock()
		if mute {
			continue
		}
		switch in.Op {
		case 1:
			c.send(gateEvent{Op: 11})
		case 2:
			if !c.identify(in.Data) {
				return
			}
		case 6:
			c.resume(in.Data)
		}
	}
}

// end forgets the session where the client said goodbye, as Discord does at codes 1000 and 1001.
func (c *fakeConn) end() {
	c.ws.Close()
	c.f.mu.Lock()
	defer c.f.mu.Unlock()
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.session == nil {
		return
	}
	if c.session.conn == c {
		c.session.conn = nil
	}
	if c.closed == 1000 || c.closed == 1001 {
		delete(c.f.sessions, c.session.id)
	}
}

func (c *fakeConn) identify(data json.RawMessage) bool {
	var d struct {
		Token    string `json:"token"`
		Intents  int64  `json:"intents"`
		Compress bool   `json:"compress"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		c.close(4002)
		return false
	}
	const content = 1 << 15
	f := c.f
	f.mu.Lock()
	privileged := f.appFlags&(1<<18|1<<19) != 0
	f.mu.Unlock()
	switch {
	case d.Token != "Bot "+fakeToken:
		c.close(4004)
		return false
	case d.Intents&content != 0 && !privileged:
		c.close(4014)
		return false
	case d.Intents&^content != 37377&^content:
		f.t.Errorf("intents = %d, want 37377 with or without message content", d.Intents)
	case d.Compress:
		f.t.Error("the client asks for compression")
	}
	f.mu.Lock()
	s := &fakeSession{id: "s" + f.id(), conn: c}
	f.sessions[s.id] = s
	resume := f.resumeAt
	if resume == "" {
		resume = "/resume"
	}
	ready, _ := json.Marshal(map[string]any{"v": 9, "user": map[string]any{"id": fakeBot, "username": "strikeoff", "bot": true}, "session_id": s.id,
		"resume_gateway_url": "ws" + strings.TrimPrefix(f.srv.URL, "http") + resume, "guilds": []any{map[string]any{"id": fakeGuild, "unavailable": true}},
		"application": map[string]any{"id": fakeApp, "flags": f.appFlags}})
	var channels, threads []*fakeChannel
	for _, ch := range f.channels {
		switch {
		case ch.Type == kindPublicThread:
			threads = append(threads, ch)
		case ch.Guild != "":
			channels = append(channels, ch)
		}
	}
	guild, _ := json.Marshal(map[string]any{"id": fakeGuild, "name": "a print shop", "channels": channels, "threads": threads})
	c.mu.Lock()
	c.session = s
	c.mu.Unlock()
	for i, e := range []gateEvent{{Type: "READY", Data: ready}, {Type: "GUILD_CREATE", Data: guild}} {
		e.Seq = int64(i + 1)
		s.seq, s.log = e.Seq, append(s.log, e)
		c.send(e)
	}
	f.mu.Unlock()
	return true
}

func (c *fakeConn) resume(data json.RawMessage) {
	var d struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
		Seq     int64  `json:"seq"`
	}
	if json.Unmarshal(data, &d) != nil || d.Token != "Bot "+fakeToken {
		c.close(4004)
		return
	}
	f := c.f
	f.mu.Lock()
	defer f.mu.Unlock()
	s := f.sessions[d.Session]
	if s == nil {
		c.send(gateEvent{Op: 9, Data: json.RawMessage("false")})
		return
	}
	c.mu.Lock()
	c.session = s
	c.mu.Unlock()
	s.conn = c
	for _, e := range s.log {
		if e.Seq > d.Seq {
			c.send(e)
		}
	}
	s.seq++
	e := gateEvent{Type: "RESUMED", Seq: s.seq, Data: json.RawMessage("{}")}
	s.log = append(s.log, e)
	c.send(e)
}

func (c *fakeConn) send(e gateEvent) {
	if e.Data == nil {
		e.Data = json.RawMessage("null")
	}
	c.wmu.Lock()
	defer c.wmu.Unlock()
	c.ws.WriteJSON(e) // a client that went away is noticed by its next read
}

// close ends the connection with a code.
func (c *fakeConn) close(code int) {
	c.wmu.Lock()
	c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, "scripted"), time.Now().Add(time.Second))
	c.wmu.Unlock()
	c.ws.Close()
}

// drop cuts the connection without a word.
func (c *fakeConn) drop() { c.ws.NetConn().Close() }

// silence makes the gateway deaf and dumb, with the connection up.
func (c *fakeConn) silence() { c.mu.Lock(); c.mute = true; c.mu.Unlock() }

// dispatch tells every session an event. A session whose connection is away hears it when it resumes.
func (f *fake) dispatch(typ string, v any) {
	f.mu.Lock()
	defer f.mu.Unlock()
	data, err := json.Marshal(v)
	if err != nil {
		f.t.Errorf("encode %s: %v", typ, err)
		return
	}
	for _, s := range f.sessions {
		s.seq++
		e := gateEvent{Type: typ, Seq: s.seq, Data: data}
		s.log = append(s.log, e)
		if c := s.conn; c != nil {
			c.mu.Lock()
			mute := c.mute
			c.mu.Unlock()
			if !mute {
				c.send(e)
			}
		}
	}
}

// forget makes every session unknown, as after minutes of absence.
func (f *fake) forget() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.sessions = map[string]*fakeSession{}
}

// gateNow is the newest connection.
func (f *fake) gateNow() *fakeConn {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.gates) == 0 {
		return nil
	}
	return f.gates[len(f.gates)-1]
}

// connected counts the connections so far.
func (f *fake) connected() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.connects
}
