package slack

import (
	"regexp"
	"strings"
)

// scrubber takes secrets out of texts that may be logged or shown: our own, anything that looks like a Slack token, and the URLs that are
// secrets in themselves (response URLs, webhooks, socket tickets, file links).
type scrubber struct{ known []string }

var (
	tokenLike  = regexp.MustCompile(`\bx(?:ox[a-z]|app|wfp)[.-][0-9A-Za-z._-]+`)
	secretURLs = regexp.MustCompile(`\b(?:https?|wss?)://[^\s"<>]+`)
)

const hidden = "[hidden]"

func newScrubber(secrets ...string) scrubber {
	var s scrubber
	for _, k := range secrets {
		if k != "" {
			s.known = append(s.known, k)
		}
	}
	return s
}

// text is s without secrets. Of a URL only scheme and host are left.
func (c scrubber) text(s string) string {
	s = secretURLs.ReplaceAllStringFunc(s, func(u string) string {
		scheme, rest, _ := strings.Cut(u, "://")
		host, _, _ := strings.Cut(rest, "/")
		host, _, _ = strings.Cut(host, "?")
		if _, after, ok := strings.Cut(host, "@"); ok {
			host = after
		}
		return scheme + "://" + host + "/" + hidden
	})
	for _, k := range c.known {
		s = strings.ReplaceAll(s, k, hidden)
	}
	return tokenLike.ReplaceAllString(s, hidden)
}

// err is an error whose text holds no secret. What it wraps can still be told apart with errors.Is and errors.As.
func (c scrubber) err(err error) error {
	if err == nil {
		return nil
	}
	return scrubbed{c.text(err.Error()), err}
}

type scrubbed struct {
	text string
	err  error
}

func (s scrubbed) Error() string { return s.text }
func (s scrubbed) Unwrap() error { return s.err }
