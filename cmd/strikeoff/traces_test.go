package main

import "testing"

func TestTracesWanted(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want bool
	}{
		{nil, false},
		{map[string]string{"OTEL_SERVICE_NAME": "desk"}, false},
		{map[string]string{"OTEL_EXPORTER_OTLP_ENDPOINT": "http://collector:4318"}, true},
		{map[string]string{"OTEL_EXPORTER_OTLP_TRACES_ENDPOINT": "http://collector:4318/v1/traces"}, true},
		{map[string]string{"OTEL_TRACES_EXPORTER": "otlp"}, true},
		{map[string]string{"OTEL_TRACES_EXPORTER": "none", "OTEL_EXPORTER_OTLP_ENDPOINT": "http://collector:4318"}, false},
		{map[string]string{"OTEL_SDK_DISABLED": "true", "OTEL_TRACES_EXPORTER": "otlp"}, false},
	} {
		if got := tracesWanted(func(k string) string { return c.env[k] }); got != c.want {
			t.Errorf("%v: wanted %v, want %v", c.env, got, c.want)
		}
	}
}
