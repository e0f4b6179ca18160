package discord

import (
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	dg "github.com/bwmarrin/discordgo"

	"strikeoff/bot"
)

// Door is the name of this door in places and rosters.
const Door = "discord"

// Config is what the door needs to know. Token, Desk and Now are required.
type Config struct {
	Token       string            // the bot's token; never logged
	AppID       string            // the application's id; "" asks Discord
	PublicKey   string            // the application's public key in hex, for the HTTP endpoint; "" where interactions come over the gateway
	GuildIDs    []string          // the servers in which commands are registered; none registers them everywhere
	OrdersRooms []string          // ids of the channels that are read; none reads every channel that the bot can see
	PerSecond   float64           // calls a second to Discord over all; 0 is the usual limit of 50, less a margin
	Transport   http.RoundTripper // nil is the usual one
	Desk        *bot.Desk
	Files       bot.FileSink // takes the files that come with messages; nil leaves them at Discord
	Log         *slog.Logger // nil is silence
	Now         func() time.Time
}

// LogValue keeps the token out of logs.
func (c Config) LogValue() slog.Value {
	return slog.GroupValue(slog.String("app", c.AppID), slog.Bool("http", c.PublicKey != ""), slog.Any("servers", c.GuildIDs), slog.Any("orders", c.OrdersRooms))
}

// String keeps the token out of printed texts.
func (c Config) String() string { return "discord door: " + c.LogValue().String() }

// GoString keeps the token out of %#v.
func (c Config) GoString() string { return c.String() }

// Chat is the door. Its methods are safe for concurrent use; it is a bot.Poster and a bot.FileDoor.
type Chat struct {
	cfg  Config
	log  *slog.Logger
	key  ed25519.PublicKey
	rest *rest

	rooms   rooms
	lanes   *lanes
	cursors *cursors
	replies replies

	appID  atomic.Value // string
	self   atomic.Value // string: the bot's own user id
	up     atomic.Bool
	ready  chan struct{}            // the history must be read
	guilds atomic.Pointer[[]string] // the servers that the session began with

	// For tests.
	idle    time.Duration                                    // 0 is the gateway's own
	restart time.Duration                                    // the shortest wait before connecting again; 0 is the gateway's own
	tried   func(key string, fresh bool, err error)          // told of every attempt to keep
	caught  func()                                           // told of every catch-up that ended well
	pause   func(ctx context.Context, d time.Duration) error // between attempts to keep
}

// New sets the door up. It connects nothing; Run does.
func New(cfg Config) (*Chat, error) {
	switch {
	case strings.TrimSpace(cfg.Token) == "":
		return nil, errors.New("discord: no bot token: copy it from the developer portal (your application, Bot)")
	case cfg.Desk == nil || cfg.Now == nil:
		return nil, errors.New("discord: a desk and a clock are needed")
	}
	for _, id := range slices.Concat(cfg.GuildIDs, cfg.OrdersRooms) {
		if id == "" || strings.Trim(id, "0123456789") != "" {
			return nil, fmt.Errorf("discord: %q is no id of a server or channel: those are digits. Switch on Developer Mode in your own settings (Advanced), then right-click and Copy ID", id)
		}
	}
	cfg.Token = strings.TrimPrefix(strings.TrimSpace(cfg.Token), "Bot ")
	c := &Chat{cfg: cfg, log: cfg.Log, ready: make(chan struct{}, 1)}
	if c.log == nil {
		c.log = slog.New(slog.DiscardHandler)
	}
	if cfg.PublicKey != "" {
		key, err := hex.DecodeString(cfg.PublicKey)
		if err != nil || len(key) != ed25519.PublicKeySize {
			return nil, fmt.Errorf("discord: the public key must be %d hex digits, as the developer portal shows it (your application, General Information)", 2*ed25519.PublicKeySize)
		}
		c.key = key
	}
	c.rest = &rest{base: apiBase, token: cfg.Token, client: &http.Client{Timeout: 30 * time.Second, Transport: c.transport(),
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}, now: time.Now, wait: sleep, limits: newLimits(cfg.PerSecond)}
	c.appID.Store(cfg.AppID)
	c.self.Store("")
	c.rooms.known = map[string]channel{}
	c.lanes = newLanes()
	c.cursors = newCursors()
	c.replies.open = map[string]replyState{}
	c.pause = sleep
	return c, nil
}

func (c *Chat) transport() http.RoundTripper {
	if c.cfg.Transport != nil {
		return c.cfg.Transport
	}
	return http.DefaultTransport
}

// Up reports whether the gateway is connected.
func (c *Chat) Up() bool { return c.up.Load() }

// Run connects and works until ctx ends (nil), or until Discord refuses for good: then the error is a *FinalError whose text says what to do.
func (c *Chat) Run(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	reads, err := c.introduce(ctx)
	if err != nil {
		if ctx.Err() != nil {
			return nil
		}
		return err
	}
	intents := dg.IntentsGuilds | dg.IntentsGuildMessages | dg.IntentsDirectMessages
	if reads {
		intents |= dg.IntentMessageContent
	} else {
		c.log.Error(intentSentence)
	}
	g, err := newGateway(c.cfg.Token, intents, c.transport(), c.log, func(typ string, raw []byte) { c.event(ctx, typ, raw) })
	if err != nil {
		return err
	}
	if c.idle > 0 {
		g.idle = c.idle
	}
	if c.restart > 0 {
		g.first = c.restart
	}
	var work sync.WaitGroup
	work.Go(func() { c.lanes.run(ctx) })
	work.Go(func() { c.catchUps(ctx) })
	work.Go(func() { c.flushes(ctx) })
	work.Go(func() { c.register(ctx) })
	err = g.run(ctx, &c.up)
	stop()
	work.Wait()
	// What was kept is noted, so that the next start reads less.
	end, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer cancel()
	c.flush(end)
	return err
}

// introduce learns who the bot is and whether it may read messages. It tries until it is answered or refused for good.
func (c *Chat) introduce(ctx context.Context) (reads bool, err error) {
	const (
		mayRead        = 1 << 18
		mayReadLimited = 1 << 19
	)
	wait := time.Second
	for {
		var app struct {
			ID    string       `json:"id"`
			Flags loose[int64] `json:"flags"`
			Key   string       `json:"verify_key"`
		}
		var me user
		if err = c.rest.do(ctx, call{method: http.MethodGet, path: "/applications/@me", again: true}, &app); err == nil {
			err = c.rest.do(ctx, call{method: http.MethodGet, path: "/users/@me", again: true}, &me)
		}
		if err == nil {
			c.appID.Store(app.ID)
			c.self.Store(me.ID)
			c.log.Info("the bot is known to Discord; it is invited to a server at this address", "name", me.Username, "invite", Invite(app.ID))
			if c.key != nil && app.Key != "" && app.Key != hex.EncodeToString(c.key) {
				c.log.Warn("the public key in the settings is not this application's: every interaction over HTTP will be refused")
			}
			return app.Flags.V&(mayRead|mayReadLimited) != 0, nil
		}
		var e *apiError
		if errors.As(err, &e) && e.Status == http.StatusUnauthorized {
			return false, &FinalError{Code: e.Status, Say: finals[4004]}
		}
		c.log.Warn("Discord could not be reached", "err", err, "wait", wait)
		if sleep(ctx, wait) != nil {
			return false, ctx.Err()
		}
		wait = min(2*wait, time.Minute)
	}
}

// id is the bot's own user id; "" before it is known.
func (c *Chat) id() string { return c.self.Load().(string) }

// listens reports whether what is said in a place is for the desk.
func (c *Chat) listens(at bot.Place, ch channel, called bool) bool {
	if called || ch.isDirect() || len(c.cfg.OrdersRooms) == 0 {
		return true
	}
	return slices.Contains(c.cfg.OrdersRooms, at.Room) || ch.isThread() && ch.Owner.V != "" && ch.Owner.V == c.id()
}
