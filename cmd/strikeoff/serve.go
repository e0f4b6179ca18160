package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"syscall"
	"time"

	"strikeoff/bot"
)

type serveCmd struct {
	Listen string `help:"Address for health checks, webhooks and pages, as 127.0.0.1:8080 or :8080." env:"STRIKEOFF_LISTEN" default:"127.0.0.1:8080"`
}

// stopWithin is how long what is in hand may take to finish once the program is told to stop.
const stopWithin = 20 * time.Second

func (c serveCmd) Run(w world, set *settings) (err error) {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	log := set.logger(w.err)
	ledger, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	desk := set.desk(ledger, w.now, log)

	mux := http.NewServeMux()
	health(mux, desk)
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return fmt.Errorf("listen is %q, which cannot be listened on: %w", c.Listen, err)
	}
	server := &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
	log.Info("the desk is open", "listen", listener.Addr().String(), "ledger", set.hideLedger())
	failed := make(chan error, 2)
	go func() { failed <- server.Serve(listener) }()
	go func() { failed <- desk.Run(ctx) }()
	select {
	case <-ctx.Done():
	case err = <-failed:
		stop()
	}
	log.Info("the desk is closing")
	down, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWithin)
	defer cancel()
	if e := server.Shutdown(down); e != nil {
		err = errors.Join(err, e)
	}
	if errors.Is(err, http.ErrServerClosed) {
		err = nil
	}
	return err
}

// health answers whether the program lives, and whether it can work.
func health(mux *http.ServeMux, desk *bot.Desk) {
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) { fmt.Fprintln(w, "alive") })
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), 500*time.Millisecond)
		defer cancel()
		h, err := desk.Health(ctx)
		if err != nil {
			http.Error(w, "the ledger cannot be reached", http.StatusServiceUnavailable)
			return
		}
		fmt.Fprintf(w, "ready: %s\n", h.Kind)
		for _, warning := range h.Warnings {
			fmt.Fprintf(w, "warning: %s\n", warning)
		}
	})
}
