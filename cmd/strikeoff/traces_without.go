//go:build !otel

package main

import (
	"context"
	"log/slog"
)

// startTraces says what is missing where traces are asked for: the client for them adds some megabytes and a dozen modules, which most shops
// do not need, so it is built in on demand.
func startTraces(_ context.Context, getenv func(string) string, log *slog.Logger) (tracing, error) {
	if tracesWanted(getenv) {
		log.Warn("OTEL_… variables ask for traces, and this program was built without them: build it with go build -tags otel ./cmd/strikeoff")
	}
	return tracing{}, nil
}
