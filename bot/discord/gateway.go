package discord

import (
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	dg "github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// gateway holds the connection over which Discord tells what happens. The library frames it (hello, heartbeat, identify, resume); what it
// does badly is done here: it would reconnect for ever after a refusal that is final, forget the address at which a session can be
// resumed, end a session that it meant to keep, and wait without end on a gateway that says nothing.
type gateway struct {
	session *dg.Session
	idle    time.Duration // silence after which the connection is taken for dead; Discord answers a heartbeat at least every 45 s
	tls     *tls.Config   // what the connection's TLS is made from; nil is the usual
	first   time.Duration // the shortest wait before a new attempt
	most    time.Duration // the longest
	log     *slog.Logger
	event   func(typ string, raw []byte) // called in order, from the reading loop: it must not block

	opened bool
	down   chan struct{}
	turn   atomic.Bool // the next dial fails on purpose

	mu     sync.Mutex
	conn   net.Conn
	resume string // where the session can be resumed; "" when there is none
}

// FinalError is a refusal that no repetition will change. Its text says what to do.
type FinalError struct {
	Code int // Discord's close code or HTTP status
	Say  string
}

func (e *FinalError) Error() string { return "discord: " + e.Say }

// finals are the close codes after which connecting again is of no use, from Discord's list of gateway close event codes.
var finals = map[int]string{
	4004: "Discord does not accept the bot's token. Copy it anew from the developer portal (your application, Bot, Reset Token) and start again.",
	4010: "Discord does not accept the shard that the bot asked for. Start it without shards.",
	4011: "The bot is in too many servers for one connection. Take it out of those that do not use it.",
	4012: "Discord does not speak this version of its gateway any more. A newer strikeoff is needed.",
	4013: "Discord does not know an intent that the bot asked for. A newer strikeoff is needed.",
	4014: intentSentence,
}

const intentSentence = "Discord does not let the bot read messages. Switch on Message Content Intent in the developer portal " +
	"(your application, Bot, Privileged Gateway Intents) and start again. Until then only mentions, direct messages, commands and Read as order work."

var errTurn = errors.New("turned away to look the address up anew")

func newGateway(token string, intents dg.Intent, base http.RoundTripper, log *slog.Logger, event func(string, []byte)) (*gateway, error) {
	s, err := dg.New("Bot " + token)
	if err != nil {
		return nil, fmt.Errorf("discord: set up the gateway: %w", err)
	}
	g := &gateway{session: s, idle: 100 * time.Second, first: time.Second, most: 2 * time.Minute, log: log, event: event, down: make(chan struct{}, 1)}
	s.SyncEvents = true // in order, and from the reading loop
	s.StateEnabled = false
	s.ShouldReconnectOnError = false
	s.ShouldReconnectVoiceOnSessionError = false
	s.LogLevel = -1 // its errors come back to us as well, and its own lines name addresses
	s.Compress = false
	s.Identify.Compress = false
	s.Identify.Intents = intents
	s.Identify.Properties.Browser = "strikeoff"
	s.Identify.Properties.Device = "strikeoff"
	s.Client = &http.Client{Timeout: 15 * time.Second, Transport: addressBook{g, base}}
	s.Dialer = &websocket.Dialer{Proxy: http.ProxyFromEnvironment, HandshakeTimeout: 20 * time.Second, NetDialContext: g.dial, NetDialTLSContext: g.dialTLS}
	s.AddHandler(func(_ *dg.Session, e *dg.Event) { g.take(e.Type, e.RawData) })
	s.AddHandler(func(*dg.Session, *dg.Disconnect) {
		select {
		case g.down <- struct{}{}:
		default:
		}
	})
	return g, nil
}

// take hears an event: the address for resuming is ours to remember, the rest is the door's.
func (g *gateway) take(typ string, raw []byte) {
	if typ == "READY" {
		var r struct {
			Resume string `json:"resume_gateway_url"`
		}
		if json.Unmarshal(raw, &r) == nil {
			g.mu.Lock()
			g.resume = r.Resume
			g.mu.Unlock()
		}
	}
	g.event(typ, raw)
}

// run keeps the connection up until ctx ends (nil) or Discord refuses for good (a *FinalError).
func (g *gateway) run(ctx context.Context, up *atomic.Bool) error {
	defer up.Store(false)
	stop := context.AfterFunc(ctx, g.cut)
	defer stop()
	wait := g.first
	for {
		err := g.open(ctx)
		switch {
		case ctx.Err() != nil:
			return nil // cut has broken the connection; the library tidies up after itself
		case err == nil:
			wait = g.first
			up.Store(true)
			select {
			case <-ctx.Done():
				return nil
			case <-g.down:
				up.Store(false)
				g.log.Info("the gateway went away; connecting again")
			}
		default:
			if final := finalOf(err); final != nil {
				return final
			}
			g.log.Warn("the gateway could not be reached", "err", scrubGateway(err), "wait", wait)
		}
		// Never at once: the library may still be closing the old connection, and many bots come back together.
		if sleep(ctx, wait/2+rand.N(wait)) != nil {
			return nil
		}
		if err != nil {
			wait = min(2*wait, g.most)
		}
	}
}

// open makes one attempt to connect, resuming where the library still holds a session.
func (g *gateway) open(ctx context.Context) error {
	select {
	case <-g.down:
	default:
	}
	if g.opened {
		// The library keeps the first address for good, unless a dial to it fails. Let one fail, so that it asks again and hears
		// where the session is to be resumed.
		g.turn.Store(true)
		if err := g.session.Open(); err != nil && !errors.Is(err, errTurn) && !errors.Is(err, dg.ErrWSAlreadyOpen) {
			g.log.Debug("the gateway's address was not dropped", "err", err)
		}
		g.turn.Store(false)
	}
	g.opened = true
	if ctx.Err() != nil {
		return ctx.Err()
	}
	err := g.session.Open()
	if err != nil {
		g.mu.Lock()
		g.resume = "" // that address may be what is wrong
		g.mu.Unlock()
	}
	return err
}

// finalOf is the final refusal in err, nil where there is none.
func finalOf(err error) *FinalError {
	var closed *websocket.CloseError
	if errors.As(err, &closed) {
		if say, ok := finals[closed.Code]; ok {
			return &FinalError{Code: closed.Code, Say: say}
		}
	}
	var lib *dg.RESTError
	if errors.As(err, &lib) && lib.Response != nil && lib.Response.StatusCode == http.StatusUnauthorized || errors.Is(err, dg.ErrUnauthorized) {
		return &FinalError{Code: http.StatusUnauthorized, Say: finals[4004]}
	}
	return nil
}

// scrubGateway is an error of the gateway without the library's dump of the call.
func scrubGateway(err error) string {
	s := err.Error()
	if i := strings.IndexByte(s, '\n'); i >= 0 {
		s = s[:i]
	}
	return s
}

// dial connects, and watches the connection.
func (g *gateway) dial(ctx context.Context, network, address string) (net.Conn, error) {
	c, err := g.reach(ctx, network, address)
	if err != nil {
		return nil, err
	}
	return &watched{Conn: c, idle: g.idle}, nil
}

// dialTLS does the same with TLS below the watch, so that the watch sees the frames.
func (g *gateway) dialTLS(ctx context.Context, network, address string) (net.Conn, error) {
	c, err := g.reach(ctx, network, address)
	if err != nil {
		return nil, err
	}
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		c.Close()
		return nil, err
	}
	cfg := &tls.Config{MinVersion: tls.VersionTLS12}
	if g.tls != nil {
		cfg = g.tls.Clone()
	}
	cfg.ServerName, cfg.NextProtos = host, []string{"http/1.1"} // a websocket begins with HTTP/1.1
	t := tls.Client(c, cfg)
	if err := t.HandshakeContext(ctx); err != nil {
		c.Close()
		return nil, err
	}
	return &watched{Conn: t, idle: g.idle}, nil
}

func (g *gateway) reach(ctx context.Context, network, address string) (net.Conn, error) {
	if g.turn.Load() {
		return nil, errTurn
	}
	c, err := (&net.Dialer{Timeout: 15 * time.Second}).DialContext(ctx, network, address)
	if err != nil {
		return nil, err
	}
	g.mu.Lock()
	g.conn = c
	g.mu.Unlock()
	return c, nil
}

// cut breaks the connection under the library, so that whatever waits on it returns.
func (g *gateway) cut() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.conn != nil {
		g.conn.Close()
	}
}

// watched is a connection that breaks itself after too long a silence, and instead of saying goodbye. The library ends every connection
// with a close frame of code 1000, and by that Discord forgets the session that is to be resumed.
type watched struct {
	net.Conn
	idle time.Duration
}

func (w *watched) Read(p []byte) (int, error) {
	if err := w.Conn.SetReadDeadline(time.Now().Add(w.idle)); err != nil {
		return 0, err
	}
	n, err := w.Conn.Read(p)
	if err != nil {
		w.Conn.Close()
	}
	return n, err
}

// closeFrame is the first byte of a close frame (RFC 6455 section 5.2: the last fragment, opcode 8). The websocket library writes each
// frame with one call.
const closeFrame = 0x88

func (w *watched) Write(p []byte) (int, error) {
	if len(p) > 0 && p[0] == closeFrame {
		w.Conn.Close()
		return len(p), nil
	}
	return w.Conn.Write(p)
}

// SetReadDeadline is left to the watch.
func (w *watched) SetReadDeadline(time.Time) error { return nil }

// SetDeadline sets the deadline for writing alone.
func (w *watched) SetDeadline(t time.Time) error { return w.Conn.SetWriteDeadline(t) }

// addressBook answers the library's question for the gateway's address from memory while a session can be resumed elsewhere.
type addressBook struct {
	g    *gateway
	base http.RoundTripper
}

func (a addressBook) RoundTrip(req *http.Request) (*http.Response, error) {
	a.g.mu.Lock()
	resume := a.g.resume
	a.g.mu.Unlock()
	if req.Method != http.MethodGet || !strings.HasSuffix(req.URL.Path, "/gateway") || resume == "" {
		return a.base.RoundTrip(req)
	}
	body, err := json.Marshal(map[string]string{"url": resume})
	if err != nil {
		return nil, err
	}
	return &http.Response{StatusCode: http.StatusOK, Status: "200 OK", Proto: "HTTP/1.1", ProtoMajor: 1, ProtoMinor: 1, Request: req,
		Header: http.Header{"Content-Type": {"application/json"}}, Body: io.NopCloser(strings.NewReader(string(body)))}, nil
}
