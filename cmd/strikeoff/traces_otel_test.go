//go:build otel

package main

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"

	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/sdk/trace/tracetest"
)

// A request, the message that it hands in and what the ledger is asked hang together in one trace, which continues the caller's own.
func TestSpansHangTogether(t *testing.T) {
	rec := tracetest.NewSpanRecorder()
	tr := tracingBy(sdktrace.NewTracerProvider(sdktrace.WithSpanProcessor(rec)))
	mux := http.NewServeMux()
	mux.HandleFunc("POST /v1/orders/{id}", func(w http.ResponseWriter, r *http.Request) {
		ctx, end := tr.around.Begin(r.Context(), "handle message", "till:1")
		_, endSave := tr.around.Begin(ctx, "ledger save", "")
		endSave(errors.New("planted"))
		end(nil)
		w.WriteHeader(http.StatusServiceUnavailable)
	})
	req := httptest.NewRequest("POST", "/v1/orders/77", nil)
	req.Header.Set("traceparent", "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01") // the example of the W3C's Trace Context
	tr.serve(mux).ServeHTTP(httptest.NewRecorder(), req)
	var names []string
	for _, s := range rec.Ended() {
		names = append(names, s.Name())
		if got := s.SpanContext().TraceID().String(); got != "4bf92f3577b34da6a3ce929d0e0e4736" {
			t.Errorf("%s is of trace %s", s.Name(), got)
		}
		if failed := s.Status().Code.String() == "Error"; failed != (s.Name() != "handle message") {
			t.Errorf("%s: failed %v", s.Name(), failed)
		}
	}
	if want := []string{"ledger save", "handle message", "POST /v1/orders/{id}"}; !slices.Equal(names, want) {
		t.Errorf("spans %q, want %q", names, want)
	}
}

// With the standard variables set, a collector is sent the spans; with a word in them that cannot be followed the program says which.
func TestTracesAreSent(t *testing.T) {
	var mu sync.Mutex
	var got strings.Builder
	collector := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, _ := io.ReadAll(r.Body)
		mu.Lock()
		defer mu.Unlock()
		got.WriteString(r.URL.Path + " " + string(body))
	}))
	defer collector.Close()
	env := map[string]string{"OTEL_EXPORTER_OTLP_ENDPOINT": collector.URL, "OTEL_SERVICE_NAME": "invented-desk"}
	for k, v := range env {
		t.Setenv(k, v)
	}
	getenv := func(k string) string { return env[k] }
	tr, err := startTraces(t.Context(), getenv, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	_, end := tr.around.Begin(t.Context(), "handle message", "till:1")
	end(nil)
	if err := tr.close(context.Background()); err != nil {
		t.Fatal(err)
	}
	mu.Lock()
	defer mu.Unlock()
	for _, want := range []string{"/v1/traces", "handle message", "till:1", "invented-desk"} {
		if !strings.Contains(got.String(), want) {
			t.Errorf("the collector was not sent %q: %q", want, got.String())
		}
	}
	for k, v := range map[string]string{"OTEL_TRACES_EXPORTER": "carrier-pigeon", "OTEL_EXPORTER_OTLP_PROTOCOL": "grpc"} {
		env[k] = v
		if _, err := startTraces(t.Context(), getenv, slog.New(slog.DiscardHandler)); err == nil || !strings.Contains(err.Error(), k) {
			t.Errorf("%s=%s: %v", k, v, err)
		}
		delete(env, k)
	}
}
