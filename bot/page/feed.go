package page

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// feed tells open boards when the board has changed. One look at the ledger serves them all; with no board open it does not look.
type feed struct {
	poll    time.Duration
	most    int
	version func(context.Context) (string, error)

	mu      sync.Mutex
	open    map[chan string]bool
	last    string
	stop    context.CancelFunc // nil while nobody listens
	nudging chan struct{}
}

func newFeed(poll time.Duration, most int, version func(context.Context) (string, error)) *feed {
	return &feed{poll: poll, most: most, version: version, open: map[chan string]bool{}, nudging: make(chan struct{}, 1)}
}

// errFull says that as many boards as may be are open.
var errFull = errors.New("too many boards are open")

// listen opens a channel that always holds the newest version that was not read yet.
func (f *feed) listen() (<-chan string, func(), error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.open) >= f.most {
		return nil, nil, errFull
	}
	c := make(chan string, 1)
	if f.last != "" {
		c <- f.last
	}
	f.open[c] = true
	if f.stop == nil {
		ctx, cancel := context.WithCancel(context.Background())
		f.stop = cancel
		go f.watch(ctx)
	}
	return c, func() { f.leave(c) }, nil
}

func (f *feed) leave(c chan string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	delete(f.open, c)
	if len(f.open) == 0 && f.stop != nil {
		f.stop()
		f.stop, f.last = nil, ""
	}
}

// watch looks for changes until nobody listens.
func (f *feed) watch(ctx context.Context) {
	t := time.NewTicker(f.poll)
	defer t.Stop()
	for {
		// A ledger that does not answer changes nothing on the board; the next look may.
		if v, err := f.version(ctx); err == nil {
			f.tell(ctx, v)
		}
		select {
		case <-ctx.Done():
			return
		case <-t.C:
		case <-f.nudging:
		}
	}
}

func (f *feed) tell(ctx context.Context, v string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if v == f.last || ctx.Err() != nil {
		return
	}
	f.last = v
	for c := range f.open {
		select {
		case <-c: // an older one that was not read
		default:
		}
		c <- v
	}
}

// Nudge has open boards look for changes now: call it after a job was saved. It never blocks.
func (p *Pages) Nudge() {
	select {
	case p.feed.nudging <- struct{}{}:
	default:
	}
}

// changes is GET /board/changes: server-sent events (WHATWG HTML, section "Server-sent events"), one a change, its data the version.
func (p *Pages) changes(w http.ResponseWriter, r *http.Request, v visitor) error {
	if !v.All {
		return errOverLink
	}
	versions, leave, err := p.feed.listen()
	if err != nil {
		w.Header().Set("Retry-After", "60")
		http.Error(w, "Too many boards are open; this one still reloads.", http.StatusServiceUnavailable)
		return nil
	}
	defer leave()
	rc := http.NewResponseController(w)
	_ = rc.SetWriteDeadline(time.Time{}) // the stream stays open for as long as the screen does
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("X-Accel-Buffering", "no")
	_, _ = fmt.Fprint(w, "retry: 5000\n\n")
	if err := rc.Flush(); err != nil {
		return nil
	}
	alive := time.NewTicker(max(p.c.Poll, 50*time.Millisecond))
	defer alive.Stop()
	idle := 0
	for {
		select {
		case <-r.Context().Done():
			return nil
		case version := <-versions:
			idle = 0
			if _, err := fmt.Fprintf(w, "event: changed\ndata: %s\n\n", version); err != nil {
				return nil
			}
		case <-alive.C:
			// A link that ran out or was taken back meanwhile shows no more.
			if again, _, err := p.admit(w, r); !again.All && (errors.Is(err, errOverLink) || errors.Is(err, errNoLink)) {
				_, _ = fmt.Fprint(w, "event: over\ndata: over\n\n")
				_ = rc.Flush()
				return nil
			}
			if idle++; idle < 10 {
				continue
			}
			idle = 0
			if _, err := fmt.Fprint(w, ": here\n\n"); err != nil {
				return nil
			}
		}
		if err := rc.Flush(); err != nil {
			return nil
		}
	}
}
