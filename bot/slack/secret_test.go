package slack

import (
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/url"
	"strings"
	"testing"
	"time"
)

// Ensure that no text that may be logged or shown holds a secret.
func TestScrub(t *testing.T) {
	s := newScrubber("xoxb-1-abc", "xapp-1-def", "the-signing-secret")
	for _, c := range []struct{ in, want string }{
		{"token xoxb-1-abc refused", "token [hidden] refused"},
		{"xoxp-999-zzz", "[hidden]"},
		{"xoxe.xoxb-1-other", "[hidden]"},
		{"key the-signing-secret.", "key [hidden]."},
		{`Post "https://hooks.slack.com/actions/T1/2/abcdef": EOF`, `Post "https://hooks.slack.com/[hidden]": EOF`},
		{"dial wss://wss-primary.slack.com/link/?ticket=abc&app_id=1: timeout", "dial wss://wss-primary.slack.com/[hidden] timeout"},
		{"https://user:pw@example.com/x", "https://example.com/[hidden]"},
		{"nothing to hide", "nothing to hide"},
	} {
		if got := s.text(c.in); got != c.want {
			t.Errorf("text(%q) = %q, want %q", c.in, got, c.want)
		}
	}
	in := &url.Error{Op: "Post", URL: "https://hooks.slack.com/commands/T1/2/abcdef", Err: io.EOF}
	err := s.err(fmt.Errorf("slack: %w", in))
	if strings.Contains(err.Error(), "abcdef") || !errors.Is(err, io.EOF) {
		t.Errorf("scrubbed error %q, is EOF: %v", err, errors.Is(err, io.EOF))
	}
}

// Ensure that a configuration can be printed and logged in every usual way without its secrets.
func TestConfigHidesSecrets(t *testing.T) {
	c := Config{BotToken: "xoxb-hide-1", AppToken: "xapp-hide-2", SigningSecret: "hide-3", Now: time.Now, Orders: []string{orders}}
	var b strings.Builder
	slog.New(slog.NewTextHandler(&b, nil)).Info("config", "c", c)
	slog.New(slog.NewJSONHandler(&b, nil)).Info("config", "c", c)
	fmt.Fprintf(&b, "%v %+v %#v %s", c, c, c, c)
	if strings.Contains(b.String(), "hide") {
		t.Errorf("a secret can be read in %s", b.String())
	}
	for _, bad := range []Config{
		{BotToken: "hide-me", AppToken: "xapp-1", Now: time.Now},
		{BotToken: "xoxb-hide", AppToken: "hide-me", Now: time.Now},
		{BotToken: "xoxb-hide", Now: time.Now},
		{BotToken: "xoxb-hide", AppToken: "xapp-hide"},
		{BotToken: "xoxb-hide", AppToken: "xapp-hide", Now: time.Now, APIURL: "http://127.0.0.1/api"},
		{BotToken: "xoxb-hide", AppToken: "xapp-hide", Now: time.Now, Orders: []string{"#orders"}},
	} {
		_, err := New(nil, bad)
		if err == nil || strings.Contains(err.Error(), "hide") {
			t.Errorf("New(%v) = %v, want a refusal without secrets", bad, err)
		}
	}
}
