package slack

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"
	"net/http"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// The socket's own times. Slack sends pings; we send some too, so that a dead connection shows on either side.
const (
	quiet     = 60 * time.Second // a connection that was silent for so long is dead
	pingEvery = 20 * time.Second
	writeMost = 5 * time.Second
	ackMost   = 20000 // bytes; Slack drops an acknowledgement of 20,480 or more without a word
	frameMost = 4 << 20
	lanes     = 8 // deliveries handled at once; those of one channel one after the other
)

// errAsked says that Slack asked us to connect anew.
var errAsked = errors.New("slack asked for a new connection")

// listen keeps a socket open until ctx ends. It returns an error only where Slack refuses us before we ever were connected.
func (d *Door) listen(ctx context.Context, hello func()) error {
	wait, met := time.Second, false
	for {
		err := d.connection(ctx, func() { met, wait = true, time.Second; hello() })
		switch {
		case ctx.Err() != nil:
			return nil
		case errors.Is(err, errAsked):
			continue
		case !met && refusedWords[word(err)]:
			return err
		}
		d.log.Warn("the Slack socket ended; connecting anew", "in", wait, "err", d.scrub.err(err))
		if !pause(ctx, wait) {
			return nil
		}
		wait = min(2*wait, 30*time.Second)
	}
}

// refusedWords are the errors that mean the tokens are wrong.
var refusedWords = map[string]bool{"invalid_auth": true, "not_authed": true, "account_inactive": true, "token_revoked": true, "token_expired": true,
	"not_allowed_token_type": true, "missing_scope": true, "no_permission": true}

// pause waits, and reports whether ctx still goes on.
func pause(ctx context.Context, wait time.Duration) bool {
	t := time.NewTimer(wait)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// envelope is one delivery over the socket.
type envelope struct {
	id, kind string
	payload  json.RawMessage
}

// link is one connection with its write side.
type link struct {
	conn *websocket.Conn
	mu   sync.Mutex
}

func (l *link) write(v any) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.conn.SetWriteDeadline(time.Now().Add(writeMost))
	return l.conn.WriteJSON(v)
}

// connection opens one connection and serves it until it ends.
func (d *Door) connection(ctx context.Context, hello func()) error {
	_, url, err := d.api.StartSocketModeContext(ctx)
	if err != nil {
		return d.failed("apps.connections.open", "", err)
	}
	dialer := websocket.Dialer{HandshakeTimeout: 10 * time.Second, Proxy: http.ProxyFromEnvironment}
	conn, resp, err := dialer.DialContext(ctx, url, nil)
	if err != nil {
		if resp != nil {
			err = fmt.Errorf("%w (HTTP %d)", err, resp.StatusCode)
		}
		return d.scrub.err(err)
	}
	l := &link{conn: conn}
	conn.SetReadLimit(frameMost)
	var deadline sync.Mutex
	ending := false
	alive := func() {
		deadline.Lock()
		defer deadline.Unlock()
		if !ending { // else a frame that comes at the end would give the connection another minute
			conn.SetReadDeadline(time.Now().Add(quiet))
		}
	}
	alive()
	conn.SetPongHandler(func(string) error { alive(); return nil })
	conn.SetPingHandler(func(s string) error {
		alive()
		return conn.WriteControl(websocket.PongMessage, []byte(s), time.Now().Add(writeMost))
	})

	done := make(chan struct{})
	var others sync.WaitGroup
	others.Go(func() {
		t := time.NewTicker(pingEvery)
		defer t.Stop()
		for {
			select {
			case <-ctx.Done():
				deadline.Lock()
				ending = true
				conn.SetReadDeadline(time.Now())
				deadline.Unlock()
				return
			case <-done:
				return
			case <-t.C:
				conn.WriteControl(websocket.PingMessage, nil, time.Now().Add(writeMost))
			}
		}
	})
	var queues [lanes]chan envelope
	for i := range queues {
		queues[i] = make(chan envelope, 64)
		others.Go(func() {
			for e := range queues[i] {
				d.serve(l, e)
			}
		})
	}
	err = d.read(l, alive, hello, func(e envelope) { queues[laneOf(e)] <- e })
	for _, q := range queues { // what has come in is still kept and, where the connection stands, acknowledged
		close(q)
	}
	close(done)
	others.Wait()
	conn.Close()
	return err
}

// read reads frames until the connection ends or Slack asks for another.
func (d *Door) read(l *link, alive, hello func(), to func(envelope)) error {
	for {
		_, b, err := l.conn.ReadMessage()
		if err != nil {
			return err
		}
		alive()
		f, err := readFields(b)
		if err != nil {
			d.log.Warn("a frame from Slack could not be read and is passed over", "bytes", len(b))
			continue
		}
		switch f.str("type") {
		case "hello":
			d.log.Info("connected to Slack")
			hello()
		case "disconnect":
			d.log.Info("Slack ends the connection", "reason", f.str("reason"))
			if f.str("reason") == "link_disabled" {
				return errors.New("the app has Socket Mode switched off: switch it on, on the app's page \"Socket Mode\"")
			}
			return errAsked
		default:
			if id := f.str("envelope_id"); id != "" {
				to(envelope{id: id, kind: f.str("type"), payload: f["payload"]})
			}
		}
	}
}

// serve handles one delivery and acknowledges it if it was kept.
func (d *Door) serve(l *link, e envelope) {
	// Not the connection's context: what has come in is kept even where the connection, or the program, is about to end.
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	rep, err := d.take(ctx, e.kind, e.payload)
	if err != nil {
		d.log.Error("a delivery was not kept; Slack will send it again", "kind", e.kind, "err", d.scrub.err(err))
		return
	}
	ack := map[string]any{"envelope_id": e.id}
	if rep.body != nil {
		if b := mustEncode(rep.body); len(b) < ackMost {
			ack["payload"] = b
		}
	}
	d.later(rep.after)
	if err := l.write(ack); err != nil {
		d.log.Warn("an acknowledgement did not get through; Slack will send the event again", "err", d.scrub.err(err))
	}
}

// mustEncode is a reply body as JSON, null where it is none.
func mustEncode(v any) json.RawMessage {
	b, err := json.Marshal(v)
	if err != nil {
		return json.RawMessage("null")
	}
	return b
}

// laneOf puts deliveries of one channel, or of one person where there is no channel, in one lane, so that they are kept in their order.
func laneOf(e envelope) int {
	f, _ := readFields(e.payload)
	key := f.sub("event").str("channel")
	for _, k := range []string{f.sub("channel").str("id"), f.str("channel_id"), f.sub("user").str("id"), f.sub("event").str("user")} {
		if key == "" {
			key = k
		}
	}
	h := fnv.New32a()
	h.Write([]byte(key))
	return int(h.Sum32() % lanes)
}
