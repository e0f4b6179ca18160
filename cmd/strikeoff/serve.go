package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"strikeoff/bot/webhook"
)

type serveCmd struct {
	Listen          string   `help:"Address for health checks, webhooks and pages, as 127.0.0.1:8080 or :8080." env:"STRIKEOFF_LISTEN" default:"127.0.0.1:8080" group:"settings"`
	OrdersRooms     []string `help:"Rooms in which requests are read, as DOOR:ROOM with commas. Without any: every room that the bot is in." env:"STRIKEOFF_ORDERS_ROOMS" placeholder:"ROOM" group:"settings"`
	ProductionRooms []string `help:"Rooms that are told what must be tested and what can be read, as DOOR:ROOM with commas: one a door." env:"STRIKEOFF_PRODUCTION_ROOMS" placeholder:"ROOM" group:"settings"`
	BaseURL         string   `help:"What this server is called from outside, as https://desk.example: links begin with it." env:"STRIKEOFF_BASE_URL" placeholder:"URL" group:"settings"`
	DiscordServers  []string `help:"Ids of Discord servers in which commands are registered at once, for trying; without any they are registered everywhere." env:"STRIKEOFF_DISCORD_SERVERS" placeholder:"ID" group:"settings"`
	ArtworkFolder   string   `help:"Folder for the files that come with requests; without one they are left where they are, and the API refuses them." env:"STRIKEOFF_ARTWORK_FOLDER" placeholder:"DIR" group:"settings"`
	ArtworkMost     int64    `help:"How much artwork is kept, in megabytes." env:"STRIKEOFF_ARTWORK_MOST" default:"4096" group:"settings"`
}

func (serveCmd) Help() string {
	return `A door opens where its secrets are set, each in an environment variable or in the file that the same name with _FILE names:

  Slack    STRIKEOFF_SLACK_BOT_TOKEN, and STRIKEOFF_SLACK_APP_TOKEN (socket) or STRIKEOFF_SLACK_SIGNING_SECRET (HTTP)
  Discord  STRIKEOFF_DISCORD_TOKEN, and STRIKEOFF_DISCORD_PUBLIC_KEY for interactions over HTTP
  API      a sources: section in the settings file, news to programs a targets: section
  Pages    always; STRIKEOFF_PAGE_KEY (32 characters or more) signs their links, and without it links end with the program

Traces go to a collector where OTEL_EXPORTER_OTLP_ENDPOINT names one and the program was built with -tags otel.`
}

// Validate checks what Kong's own checks leave.
func (c serveCmd) Validate() error {
	for _, r := range append(append([]string(nil), c.OrdersRooms...), c.ProductionRooms...) {
		if _, err := roomOf(r); err != nil {
			return err
		}
	}
	if c.BaseURL != "" && !strings.HasPrefix(c.BaseURL, "https://") && !strings.HasPrefix(c.BaseURL, "http://") {
		return fmt.Errorf("base-url is %q: write it with https:// in front", c.BaseURL)
	}
	return nil
}

// stopWithin is how long what is in hand may take to finish once the program is told to stop.
const stopWithin = 20 * time.Second

func (c serveCmd) Run(w world, set *settings) (err error) {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	log := set.logger(w.err)
	store, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	traces, err := startTraces(ctx, os.Getenv, log)
	if err != nil {
		return err
	}
	defer func() {
		rest, giveUp := context.WithTimeout(context.Background(), stopWithin)
		defer giveUp()
		err = errors.Join(err, traces.close(rest))
	}()
	meters := webhook.NewMeters()
	ledger := webhook.MeterLedger(store, meters, traces.around)
	desk := set.desk(ledger, w.now, log)
	desk.Around = traces.around
	for _, r := range c.ProductionRooms {
		p, err := roomOf(r)
		if err != nil {
			return err
		}
		desk.Production[p.Door] = p
	}
	o := &open{desk: desk, mux: http.NewServeMux(), log: log, set: set, serve: c, w: w}
	if c.ArtworkFolder != "" {
		if o.art, err = openArtwork(c.ArtworkFolder, c.ArtworkMost<<20); err != nil {
			return fmt.Errorf("artwork-folder: %w", err)
		}
	}
	for _, door := range []func() error{o.slack, o.discord, func() error { return o.programs(ledger, meters) },
		func() error { return o.pages(ledger) }} {
		if err := door(); err != nil {
			return err
		}
	}
	watch, err := webhook.NewWatch(ledger, meters, w.now, log)
	if err != nil {
		return err
	}
	watch.Register(o.mux)
	o.drains = append(o.drains, watch.Drain)
	return o.until(ctx, stop, traces.serve(o.mux))
}

// until serves h and runs everything that is open until ctx ends or something fails, then lets what is in hand finish.
func (o *open) until(ctx context.Context, stop func(), h http.Handler) error {
	listener, err := net.Listen("tcp", o.serve.Listen)
	if err != nil {
		return fmt.Errorf("listen is %q, which cannot be listened on: %w", o.serve.Listen, err)
	}
	server := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, IdleTimeout: 2 * time.Minute,
		ErrorLog: slog.NewLogLogger(o.log.Handler(), slog.LevelWarn)}
	o.log.Info("the desk is open", "listen", listener.Addr().String(), "ledger", o.set.hideLedger(), "doors", strings.Join(o.names, " "))

	// The listener answers until everything else has stopped, so that a balancer can see that this program takes no more.
	work, cancel := context.WithCancel(ctx)
	defer cancel()
	runs := append([]func(context.Context) error{o.desk.Run}, o.runs...)
	ended := make(chan error, len(runs)+1)
	for _, run := range runs {
		go func() { ended <- run(work) }()
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(listener) }()

	left := len(runs)
	select {
	case <-ctx.Done():
	case err = <-served:
	case err = <-ended:
		left--
	}
	stop()
	o.log.Info("the desk is closing")
	for _, drain := range o.drains {
		drain()
	}
	cancel()
	limit := time.NewTimer(stopWithin)
	defer limit.Stop()
	for ; left > 0; left-- {
		select {
		case e := <-ended:
			err = errors.Join(err, e)
		case <-limit.C:
			return errors.Join(err, fmt.Errorf("something did not stop within %v; what it had in hand is done again at the next start", stopWithin))
		}
	}
	down, giveUp := context.WithTimeout(context.WithoutCancel(ctx), stopWithin)
	defer giveUp()
	err = errors.Join(err, server.Shutdown(down))
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// inZone is a clock that tells the time of a place.
func inZone(now func() time.Time, zone *time.Location) func() time.Time {
	return func() time.Time { return now().In(zone) }
}
