package discord

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"strikeoff/bot"
)

// handClock is a clock that moves only while somebody waits on it.
type handClock struct {
	mu    sync.Mutex
	at    time.Time
	waits []time.Duration
}

func (h *handClock) now() time.Time { h.mu.Lock(); defer h.mu.Unlock(); return h.at }

func (h *handClock) wait(ctx context.Context, d time.Duration) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if d > 0 {
		h.at = h.at.Add(d)
		h.waits = append(h.waits, d)
	}
	return ctx.Err()
}

// byHand gives a door's calls a clock that is moved by waiting.
func byHand(c *Chat) *handClock {
	h := &handClock{at: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	c.rest.now, c.rest.wait = h.now, h.wait
	return h
}

func say(text string) bot.Parcel {
	return bot.Parcel{Key: "k/" + text, Place: bot.Place{Door: Door, Room: fakeOrders}, Post: bot.Post{Text: text}}
}

// Ensure a 429 is waited out as long as Discord asks, in body or header, and the call then succeeds once.
func TestTooMany(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	h := byHand(chat)
	n := 0
	f.fault = func(r *http.Request) *fakeAnswer {
		if r.Method == http.MethodPost {
			switch n++; n {
			case 1:
				return &fakeAnswer{status: 429, body: `{"message":"You are being rate limited.","retry_after":1.5,"global":false}`}
			case 2:
				return &fakeAnswer{status: 429, header: map[string]string{"Retry-After": "2"}, body: "<html>"}
			}
		}
		return nil
	}
	if _, err := chat.Post(t.Context(), say("hello")); err != nil {
		t.Fatal(err)
	}
	if len(h.waits) != 2 || h.waits[0] != 1500*time.Millisecond || h.waits[1] != 2*time.Second || len(f.posts(fakeOrders)) != 1 {
		t.Errorf("waited %v and posted %d, want 1.5 s, 2 s and 1", h.waits, len(f.posts(fakeOrders)))
	}
}

// Ensure a bucket that is used up is not asked again before it is full, while another channel's is.
func TestBuckets(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	h := byHand(chat)
	left := map[string]int{}
	f.fault = func(r *http.Request) *fakeAnswer {
		if r.Method != http.MethodPost {
			return nil
		}
		id := strings.Split(r.URL.Path, "/")[4]
		if left[id]--; left[id] < 0 {
			left[id] = 1 // two a window
		}
		return &fakeAnswer{header: map[string]string{"X-RateLimit-Bucket": "posts", "X-RateLimit-Limit": "2", "X-RateLimit-Remaining": fmt.Sprint(left[id]),
			"X-RateLimit-Reset-After": "5.0"}}
	}
	for i := range 3 {
		if _, err := chat.Post(t.Context(), say(fmt.Sprint("line ", i))); err != nil {
			t.Fatal(err)
		}
	}
	if len(h.waits) != 1 || h.waits[0] != 5*time.Second {
		t.Errorf("three posts into a bucket of two waited %v, want once 5 s", h.waits)
	}
	other := say("elsewhere")
	other.Place.Room = fakeProduction
	if _, err := chat.Post(t.Context(), other); err != nil || len(h.waits) != 1 {
		t.Errorf("another channel waited too: %v, %v", h.waits, err)
	}
}

// Ensure a global 429 holds every call back, and the global rate is kept without one.
func TestGlobalLimit(t *testing.T) {
	f, _, chat, _, _ := stand(t, func(c *Config) { c.PerSecond = 0 })
	h := byHand(chat)
	var once atomic.Bool
	f.fault = func(r *http.Request) *fakeAnswer {
		if r.Method == http.MethodPost && once.CompareAndSwap(false, true) {
			return &fakeAnswer{status: 429, header: map[string]string{"X-RateLimit-Global": "true"}, body: `{"retry_after":7,"global":true}`}
		}
		return nil
	}
	if _, err := chat.Post(t.Context(), say("hello")); err != nil || len(h.waits) != 1 || h.waits[0] != 7*time.Second {
		t.Errorf("waited %v, %v; want 7 s", h.waits, err)
	}
	if until := chat.rest.limits.halted; !until.Equal(h.now()) {
		t.Errorf("other calls were held back until %v, want until %v", until, h.now())
	}
	begin := h.now()
	for i := range 100 {
		if _, err := chat.Post(t.Context(), say(fmt.Sprint("line ", i))); err != nil {
			t.Fatal(err)
		}
	}
	if took := h.now().Sub(begin); took < 1900*time.Millisecond || took > 2500*time.Millisecond {
		t.Errorf("100 calls took %v of the clock, want about 2.1 s: 45 a second after a burst of 5", took)
	}
	// No second holds more than 50.
	chat.rest.limits.halt(h.now().Add(3 * time.Second))
	ctx, cancel := context.WithTimeout(t.Context(), time.Second)
	defer cancel()
	_, err := chat.Post(ctx, say("too soon"))
	var w *waitError
	if !errors.As(err, &w) || w.wait <= time.Second {
		t.Errorf("a call that must wait longer than its context ends with %v, want at once, saying how long", err)
	}
}

// Ensure a post whose answer was lost is sent again and stands there once: the nonce makes it the same.
func TestLostAnswer(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	byHand(chat)
	n := 0
	f.fault = func(r *http.Request) *fakeAnswer {
		if r.Method == http.MethodPost {
			switch n++; n {
			case 1:
				return &fakeAnswer{lost: true}
			case 2:
				return &fakeAnswer{status: 502, body: "bad gateway"}
			}
		}
		return nil
	}
	first, err := chat.Post(t.Context(), say("hello"))
	if err != nil {
		t.Fatal(err)
	}
	second, err := chat.Post(t.Context(), say("hello")) // the desk tries again after a crash, by the same key
	if err != nil || second != first {
		t.Errorf("the second attempt made %s, %v; want %s again", second, err, first)
	}
	if got := len(f.posts(fakeOrders)); got != 1 {
		t.Errorf("%d posts, want 1", got)
	}
	third := say("hello")
	third.Key = "k/another"
	if _, err := chat.Post(t.Context(), third); err != nil || len(f.posts(fakeOrders)) != 2 {
		t.Errorf("the same words by another key were swallowed: %d posts, %v", len(f.posts(fakeOrders)), err)
	}
}

// Ensure no error names a token, whatever goes wrong.
func TestTokensScrubbed(t *testing.T) {
	f, _, chat, _, _ := stand(t, same)
	chat.rest.wait = func(context.Context, time.Duration) error { return nil }
	in, _ := f.interact(fakeRep, fakeOrders, interCommand, nil, nil)
	in.said = true
	p := say("for one")
	p.To, p.Reply = fakeRep, reply{App: fakeApp, ID: in.id, Token: in.token}.String()
	f.fault = func(*http.Request) *fakeAnswer { return &fakeAnswer{status: 500, body: "{}"} }
	_, broken := chat.Post(t.Context(), p)
	f.srv.CloseClientConnections()
	f.srv.Close()
	_, gone := chat.Post(t.Context(), p)
	_, goneToo := chat.Post(t.Context(), say("for all"))
	for _, err := range []error{broken, gone, goneToo} {
		if err == nil {
			t.Fatal("no error")
		}
		if s := fmt.Sprintf("%v %+v", err, err); strings.Contains(s, in.token) || strings.Contains(s, fakeToken) || strings.Contains(s, "secret-token") {
			t.Errorf("a token stands in an error: %s", s)
		}
	}
	for _, s := range []string{fmt.Sprint(chat.cfg), fmt.Sprintf("%+v", chat.cfg), fmt.Sprintf("%#v", chat.cfg), chat.cfg.LogValue().String()} {
		if s == "" || strings.Contains(s, fakeToken) {
			t.Errorf("the settings are printed as %s", s)
		}
	}
}

// Ensure what Discord will never take is given up, and what it may take later is not.
func TestPermanent(t *testing.T) {
	f, d, chat, _, _ := stand(t, same)
	byHand(chat)
	d.Doors = map[string]bot.Poster{Door: chat}
	p := say("hello")
	p.Place.Room = "999999"
	_, err := chat.Post(t.Context(), p)
	if err == nil || err.Error() == "" || !sameKind(err, bot.Permanent(errors.New("x"))) {
		t.Errorf("a room that is not there: %v, want permanent", err)
	}
	f.fault = func(*http.Request) *fakeAnswer {
		return &fakeAnswer{status: 403, body: `{"code":50013,"message":"Missing Permissions"}`}
	}
	if _, err := chat.Post(t.Context(), say("hello")); err == nil || sameKind(err, bot.Permanent(errors.New("x"))) {
		t.Errorf("a permission that is missing: %v, want an error that is tried again", err)
	}
}

// sameKind compares two errors' types.
func sameKind(a, b error) bool { return fmt.Sprintf("%T", a) == fmt.Sprintf("%T", b) }
