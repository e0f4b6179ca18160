//go:build otel

package main

import (
	"cmp"
	"context"
	"fmt"
	"log/slog"
	"net/http"

	"go.opentelemetry.io/otel"
	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/codes"
	"go.opentelemetry.io/otel/exporters/otlp/otlptrace/otlptracehttp"
	"go.opentelemetry.io/otel/propagation"
	"go.opentelemetry.io/otel/sdk/resource"
	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/trace"

	"strikeoff/bot/webhook"
)

// startTraces sends traces by OTLP over HTTP where the standard environment variables ask for them (OpenTelemetry's "SDK configuration" and
// "OTLP exporter" pages name them: OTEL_TRACES_EXPORTER, OTEL_EXPORTER_OTLP_*, OTEL_SERVICE_NAME, OTEL_RESOURCE_ATTRIBUTES,
// OTEL_TRACES_SAMPLER, OTEL_BSP_*).
func startTraces(ctx context.Context, getenv func(string) string, log *slog.Logger) (tracing, error) {
	if !tracesWanted(getenv) {
		return tracing{}, nil
	}
	if kind := getenv("OTEL_TRACES_EXPORTER"); kind != "" && kind != "otlp" {
		return tracing{}, fmt.Errorf("OTEL_TRACES_EXPORTER is %q: this program sends traces by otlp, or with none not at all", kind)
	}
	if how := getenv("OTEL_EXPORTER_OTLP_PROTOCOL"); how != "" && how != "http/protobuf" {
		return tracing{}, fmt.Errorf("OTEL_EXPORTER_OTLP_PROTOCOL is %q: this program speaks http/protobuf", how)
	}
	out, err := otlptracehttp.New(ctx)
	if err != nil {
		return tracing{}, fmt.Errorf("traces cannot be sent as OTEL_EXPORTER_OTLP_… say: %w", err)
	}
	// Later ones win: the environment names the service where it wants to.
	about, err := resource.New(ctx, resource.WithAttributes(attribute.String("service.name", "strikeoff")), resource.WithTelemetrySDK(), resource.WithFromEnv())
	if err != nil {
		return tracing{}, fmt.Errorf("OTEL_RESOURCE_ATTRIBUTES cannot be read: %w", err)
	}
	otel.SetErrorHandler(otel.ErrorHandlerFunc(func(err error) { log.Warn("traces cannot be sent", "err", err) }))
	provider := sdktrace.NewTracerProvider(sdktrace.WithBatcher(out), sdktrace.WithResource(about))
	return tracingBy(provider), nil
}

// tracingBy makes the spans of a provider.
func tracingBy(provider *sdktrace.TracerProvider) tracing {
	tracer, remote := provider.Tracer("strikeoff"), propagation.TraceContext{}
	return tracing{
		stop: provider.Shutdown,
		around: func(ctx context.Context, what, key string) (context.Context, func(error)) {
			ctx, span := tracer.Start(ctx, what)
			if key != "" {
				span.SetAttributes(attribute.String("strikeoff.key", key))
			}
			return ctx, func(err error) {
				if err != nil {
					span.RecordError(err)
					span.SetStatus(codes.Error, "")
				}
				span.End()
			}
		},
		handler: func(h http.Handler) http.Handler {
			return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				ctx := remote.Extract(r.Context(), propagation.HeaderCarrier(r.Header))
				ctx, span := tracer.Start(ctx, r.Method, trace.WithSpanKind(trace.SpanKindServer))
				defer span.End()
				r = r.WithContext(ctx)
				seen := &webhook.StatusWriter{ResponseWriter: w}
				h.ServeHTTP(seen, r)
				if r.Pattern != "" { // the route, never the path: an id in a name makes every trace a kind of its own
					span.SetName(r.Pattern)
					span.SetAttributes(attribute.String("http.route", r.Pattern))
				}
				span.SetAttributes(attribute.String("http.request.method", r.Method), attribute.Int("http.response.status_code", cmp.Or(seen.Status, http.StatusOK)))
				if seen.Status >= 500 {
					span.SetStatus(codes.Error, "")
				}
			})
		},
	}
}
