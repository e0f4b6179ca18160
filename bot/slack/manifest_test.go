package slack

import (
	"os"
	"path/filepath"
	"testing"

	"go.yaml.in/yaml/v3"
)

// manifestPath is the app's manifest.
var manifestPath = filepath.Join("..", "..", "deploy", "slack", "manifest.yaml")

func readManifest(t testing.TB) map[string]any {
	t.Helper()
	b, err := os.ReadFile(manifestPath)
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := yaml.Unmarshal(b, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// at walks into nested maps.
func at(m map[string]any, path ...string) any {
	var v any = m
	for _, p := range path {
		mm, _ := v.(map[string]any)
		v = mm[p]
	}
	return v
}

func texts(v any) []string {
	var out []string
	list, _ := v.([]any)
	for _, e := range list {
		if s, ok := e.(string); ok {
			out = append(out, s)
		}
	}
	return out
}

// manifestScopes are the bot scopes that the manifest asks for: the fake grants these and no others.
func manifestScopes(t testing.TB) []string {
	t.Helper()
	s := texts(at(readManifest(t), "oauth_config", "scopes", "bot"))
	if len(s) == 0 {
		t.Fatal("the manifest asks for no bot scopes")
	}
	return s
}
