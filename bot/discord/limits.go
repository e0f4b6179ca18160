package discord

import (
	"context"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// limits keeps the bot within Discord's rate limits: one bucket a route and main resource as the answers' headers teach them, and the
// global limit over all. A bot that runs into them too often is locked out by address (10,000 refusals in ten minutes).
type limits struct {
	global *rate.Limiter

	mu      sync.Mutex
	halted  time.Time          // nothing goes out before
	names   map[string]string  // route → Discord's name of its bucket
	buckets map[string]*bucket // bucket's name and main resource
}

// bucket is what is known of one rate limit.
type bucket struct {
	limit, left int
	reset       time.Time
}

const bucketsKept = 4096 // above this, those that were reset are forgotten

// newLimits allows perSecond calls a second over all routes; 0 is Discord's own limit of 50, less a margin. The burst is small, so that no
// second holds more than the limit.
func newLimits(perSecond float64) *limits {
	if perSecond <= 0 {
		perSecond = 45
	}
	return &limits{global: rate.NewLimiter(rate.Limit(perSecond), max(1, int(perSecond/9))), names: map[string]string{}, buckets: map[string]*bucket{}}
}

// routeOf splits a path into the route and its main resource: limits are counted a channel, a guild, a webhook, not a message.
func routeOf(method, path string) (route, main string) {
	parts := strings.Split(strings.TrimPrefix(path, "/"), "/")
	for i, p := range parts {
		switch {
		case i == 1 && (parts[0] == "channels" || parts[0] == "guilds" || parts[0] == "webhooks"):
			main, parts[i] = p, ":main"
		case i == 2 && parts[0] == "webhooks":
			main, parts[i] = main+"/"+p, ":token"
		case p != "" && strings.Trim(p, "0123456789") == "":
			parts[i] = ":id"
		}
	}
	return method + " " + strings.Join(parts, "/"), main
}

// take waits until the call may go out.
func (l *limits) take(ctx context.Context, c call, now func() time.Time, wait func(context.Context, time.Duration) error) error {
	if !c.free {
		at := now()
		r := l.global.ReserveN(at, 1)
		if err := within(ctx, r.DelayFrom(at), wait); err != nil {
			r.CancelAt(at)
			return err
		}
	}
	for {
		d := l.reserve(c, now())
		if d <= 0 {
			return ctx.Err()
		}
		if err := within(ctx, d, wait); err != nil {
			return err
		}
	}
}

// within waits, unless ctx ends before the wait would: then it says so at once, so that whoever holds the post can come back later.
func within(ctx context.Context, d time.Duration, wait func(context.Context, time.Duration) error) error {
	if end, ok := ctx.Deadline(); ok && d > 0 && time.Until(end) < d {
		return &waitError{d}
	}
	return wait(ctx, d)
}

// reserve takes one call out of its bucket, or says how long until it can.
func (l *limits) reserve(c call, now time.Time) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	if d := l.halted.Sub(now); d > 0 && !c.free {
		return d
	}
	route, main := routeOf(c.method, c.path)
	name, known := l.names[route]
	if !known {
		return 0 // the first answer will teach it
	}
	b := l.buckets[name+" "+main]
	if b == nil {
		return 0
	}
	if !b.reset.After(now) { // a new window: full again, as far as anybody can know before the next answer
		b.left, b.reset = b.limit, now.Add(time.Second)
	}
	if b.left > 0 {
		b.left--
		return 0
	}
	return max(b.reset.Sub(now), time.Millisecond)
}

// learn takes what an answer's headers say about its bucket.
func (l *limits) learn(c call, h http.Header, now time.Time) {
	name := h.Get("X-RateLimit-Bucket")
	left, err := strconv.Atoi(h.Get("X-RateLimit-Remaining"))
	if name == "" || err != nil {
		return
	}
	limit, _ := strconv.Atoi(h.Get("X-RateLimit-Limit"))
	after, err := strconv.ParseFloat(h.Get("X-RateLimit-Reset-After"), 64)
	if err != nil {
		return
	}
	route, main := routeOf(c.method, c.path)
	reset := now.Add(seconds(after))
	l.mu.Lock()
	defer l.mu.Unlock()
	l.names[route] = name
	b := l.buckets[name+" "+main]
	if b == nil {
		if len(l.buckets) >= bucketsKept {
			for k, old := range l.buckets {
				if !old.reset.After(now) {
					delete(l.buckets, k)
				}
			}
		}
		b = &bucket{left: left}
		l.buckets[name+" "+main] = b
	}
	// Answers may overtake one another: within a window the smaller count is the later one.
	if !b.reset.After(now) || left < b.left {
		b.left = left
	}
	b.limit, b.reset = max(limit, 1), reset
}

// halt stops everything until the given time: Discord said that the global limit was hit.
func (l *limits) halt(until time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if until.After(l.halted) {
		l.halted = until
	}
}
