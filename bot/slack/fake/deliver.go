package fake

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// ErrNotAcked says that a delivery was given up.
var ErrNotAcked = errors.New("not acknowledged")

// Delivery is something on its way to the app.
type Delivery struct {
	done     chan struct{}
	payload  json.RawMessage
	err      error
	Sent     time.Time
	Acked    time.Time
	Attempts int
}

// Wait waits until the delivery was acknowledged, and returns what came with the acknowledgement.
func (d *Delivery) Wait() (json.RawMessage, error) {
	<-d.done
	return d.payload, d.err
}

// Deliver by HTTP to a URL from now on; "" goes back to the socket.
func (s *Slack) Target(to string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.target = to
}

// Hold loses every delivery from now on, as when the app has been down for longer than Slack tries, until it is called with false.
func (s *Slack) Hold(on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.holding = on
}

// Event delivers an event in its outer wrapper.
func (s *Slack) Event(ev map[string]any) *Delivery {
	s.mu.Lock()
	id := s.id("Ev")
	at := s.o.Now().Unix()
	s.mu.Unlock()
	return s.deliver("events_api", map[string]any{"token": "unused", "team_id": Team, "api_app_id": AppID, "type": "event_callback", "event_id": id,
		"event_time": at, "event": ev})
}

// Raw delivers an events_api payload just as it is given.
func (s *Slack) Raw(payload json.RawMessage) *Delivery { return s.deliver("events_api", payload) }

// deliver sends a payload over the socket or by HTTP, up to four times. Slack redelivers events only; interactions are sent once.
func (s *Slack) deliver(kind string, payload any) *Delivery {
	d := &Delivery{done: make(chan struct{}), Sent: time.Now()}
	if !s.echoing(payload) {
		s.mu.Lock()
		s.lastKind, s.lastPayload = kind, payload
		s.mu.Unlock()
	}
	go func() {
		defer close(d.done)
		tries := 1
		if kind == "events_api" {
			tries = 4
		}
		for n := range tries {
			s.mu.Lock()
			target, lost := s.target, s.holding
			s.mu.Unlock()
			if lost {
				break
			}
			d.Attempts = n + 1
			var ok bool
			if target != "" {
				d.payload, ok = s.byHTTP(target, kind, payload, n)
			} else {
				d.payload, ok = s.bySocket(kind, payload, n)
			}
			if ok {
				d.Acked = time.Now()
				return
			}
		}
		d.err = ErrNotAcked
	}()
	return d
}

// echoing reports whether a delivery is of the app's own doing.
func (s *Slack) echoing(payload any) bool {
	p, _ := payload.(map[string]any)
	ev, _ := p["event"].(map[string]any)
	return ev["bot_id"] == BotID
}

// Sign is Slack's signature of a request: https://docs.slack.dev/authentication/verifying-requests-from-slack
func Sign(secret, stamp string, body []byte) string {
	h := hmac.New(sha256.New, []byte(secret))
	h.Write([]byte("v0:" + stamp + ":"))
	h.Write(body)
	return "v0=" + hex.EncodeToString(h.Sum(nil))
}

func (s *Slack) byHTTP(target, kind string, payload any, retry int) (json.RawMessage, bool) {
	var body []byte
	ctype := "application/x-www-form-urlencoded"
	switch p := payload.(type) {
	case url.Values:
		body = []byte(p.Encode())
	default:
		b, _ := json.Marshal(p)
		body = b
		if kind == "events_api" {
			ctype = "application/json"
		} else {
			body = []byte(url.Values{"payload": {string(b)}}.Encode())
		}
	}
	req, _ := http.NewRequest("POST", target, bytes.NewReader(body))
	stamp := strconv.FormatInt(s.o.Now().Unix(), 10)
	req.Header.Set("Content-Type", ctype)
	req.Header.Set("X-Slack-Request-Timestamp", stamp)
	req.Header.Set("X-Slack-Signature", Sign(s.o.SigningSecret, stamp, body))
	if retry > 0 {
		req.Header.Set("X-Slack-Retry-Num", strconv.Itoa(retry))
		req.Header.Set("X-Slack-Retry-Reason", "http_error")
	}
	c := http.Client{Timeout: s.o.AckWait, Transport: s.out}
	resp, err := c.Do(req)
	if err != nil {
		return nil, false
	}
	defer resp.Body.Close()
	b, _ := io.ReadAll(resp.Body)
	return b, resp.StatusCode/100 == 2
}

// socket is one Socket Mode connection.
type socket struct {
	mu   sync.Mutex
	conn *websocket.Conn
}

func (k *socket) write(v any) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.conn.SetWriteDeadline(time.Now().Add(5 * time.Second))
	return k.conn.WriteJSON(v)
}

func (s *Slack) connectionsOpen(args) (map[string]any, string) {
	return map[string]any{"url": "ws://" + s.ln.Addr().String() + "/socket/" + s.id("ticket-")}, ""
}

// socket serves one connection: hello, then envelopes, reading acknowledgements. The client's Origin is not this host, so any will do.
func (s *Slack) socket(w http.ResponseWriter, r *http.Request) {
	up := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	conn, err := up.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	k := &socket{conn: conn}
	k.write(map[string]any{"type": "hello", "num_connections": 1, "connection_info": map[string]any{"app_id": AppID},
		"debug_info": map[string]any{"host": "fake", "approximate_connection_time": 18060}})
	s.mu.Lock()
	s.sockets = append(s.sockets, k)
	s.change()
	s.mu.Unlock()
	for {
		var ack struct {
			ID      string          `json:"envelope_id"`
			Payload json.RawMessage `json:"payload"`
		}
		_, b, err := conn.ReadMessage()
		if err != nil {
			break
		}
		if len(b) >= 20480 || json.Unmarshal(b, &ack) != nil { // Slack drops such an acknowledgement without a word
			continue
		}
		s.mu.Lock()
		c := s.waiting[ack.ID]
		delete(s.waiting, ack.ID)
		s.mu.Unlock()
		if c != nil {
			if ack.Payload == nil {
				ack.Payload = json.RawMessage{}
			}
			c <- ack.Payload
		}
	}
	s.forget(k)
	conn.Close()
}

func (s *Slack) forget(k *socket) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i, x := range s.sockets {
		if x == k {
			s.sockets = append(s.sockets[:i], s.sockets[i+1:]...)
			s.change()
			return
		}
	}
}

// Sockets is how many connections are open.
func (s *Slack) Sockets() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.sockets)
}

// DropSockets cuts every connection without a word.
func (s *Slack) DropSockets() {
	s.mu.Lock()
	list := append([]*socket(nil), s.sockets...)
	s.mu.Unlock()
	for _, k := range list {
		s.forget(k)
		k.conn.NetConn().Close()
	}
}

// AskReconnect sends Slack's "disconnect" to every connection, as it does when a server is about to be replaced.
func (s *Slack) AskReconnect() {
	s.mu.Lock()
	list := append([]*socket(nil), s.sockets...)
	s.mu.Unlock()
	for _, k := range list {
		s.forget(k)
		k.write(map[string]any{"type": "disconnect", "reason": "refresh_requested", "debug_info": map[string]any{"host": "fake"}})
	}
}

// SendRaw writes bytes to every socket as they are.
func (s *Slack) SendRaw(b []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, k := range s.sockets {
		k.mu.Lock()
		k.conn.WriteMessage(websocket.TextMessage, b)
		k.mu.Unlock()
	}
}

func (s *Slack) bySocket(kind string, payload any, retry int) (json.RawMessage, bool) {
	s.mu.Lock()
	k := s.pick(retry)
	if k == nil { // wait a little for a connection, as Slack does
		changed := s.changed
		s.mu.Unlock()
		select {
		case <-changed:
		case <-time.After(s.o.AckWait):
		}
		s.mu.Lock()
		k = s.pick(retry)
	}
	if k == nil {
		s.mu.Unlock()
		return nil, false
	}
	id := fmt.Sprintf("env-%s-%d", s.id(""), retry)
	c := make(chan json.RawMessage, 1)
	s.waiting[id] = c
	s.mu.Unlock()
	if f, ok := payload.(url.Values); ok { // a slash command is an object here
		m := map[string]any{}
		for name := range f {
			m[name] = f.Get(name)
		}
		payload = m
	}
	env := map[string]any{"envelope_id": id, "type": kind, "payload": payload, "accepts_response_payload": kind != "events_api"}
	if retry > 0 {
		env["retry_attempt"], env["retry_reason"] = retry, "timeout"
	}
	if k.write(env) != nil {
		return nil, false
	}
	select {
	case p := <-c:
		return p, true
	case <-time.After(s.o.AckWait):
		return nil, false
	}
}

// pick chooses a connection; Slack may choose any. The lock is held.
func (s *Slack) pick(n int) *socket {
	if len(s.sockets) == 0 {
		return nil
	}
	return s.sockets[n%len(s.sockets)]
}
