package main

import (
	"context"
	"net/http"

	"strikeoff/bot"
)

// tracing is how this program tells where time goes, by OpenTelemetry. The zero tracing tells nothing.
type tracing struct {
	around  bot.Around
	handler func(http.Handler) http.Handler
	stop    func(context.Context) error // sends what is left
}

// serve puts the trace of every request around a handler.
func (t tracing) serve(h http.Handler) http.Handler {
	if t.handler == nil {
		return h
	}
	return t.handler(h)
}

// close sends what is left of the traces.
func (t tracing) close(ctx context.Context) error {
	if t.stop == nil {
		return nil
	}
	return t.stop(ctx)
}

// tracesWanted reports whether the standard environment variables ask for traces: a collector is named or an exporter is, and neither the
// exporter is "none" nor the whole switched off.
func tracesWanted(getenv func(string) string) bool {
	if getenv("OTEL_SDK_DISABLED") == "true" || getenv("OTEL_TRACES_EXPORTER") == "none" {
		return false
	}
	return getenv("OTEL_TRACES_EXPORTER") != "" || getenv("OTEL_EXPORTER_OTLP_ENDPOINT") != "" || getenv("OTEL_EXPORTER_OTLP_TRACES_ENDPOINT") != ""
}
