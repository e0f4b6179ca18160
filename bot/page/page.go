package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"strikeoff/bot"
)

//go:embed html static
var files embed.FS

// Jobs is what pages read; every bot.Ledger is one. The two cursors keep the wall link's fingerprint.
type Jobs interface {
	Load(ctx context.Context, id bot.JobID) (bot.Job, error)
	Jobs(ctx context.Context, states []bot.State, below bot.JobID, n int) ([]bot.Job, error)
	History(ctx context.Context, id bot.JobID) ([]bot.Entry, error)
	Cursor(ctx context.Context, door, room string) (string, error)
	SetCursor(ctx context.Context, door, room, at string) error
}

// Picture is something to see of a job: artwork, a drawn card.
type Picture struct {
	Name string // in the address: letters, digits, dots and hyphens
	Alt  string // what it shows, in words
	Type string // image/png, image/jpeg or image/svg+xml
	Data []byte
}

// Config is what the pages are made of. Jobs, Card, Row, Now, Base and at least one key are required.
type Config struct {
	Jobs     Jobs
	Card     func(bot.Job) bot.Card // a job as people see it; bot.Desk.FullCardOf
	Row      func(bot.Job) bot.Row  // a job in a list; bot.Desk.RowOf
	Pictures func(ctx context.Context, j bot.Job) ([]Picture, error)
	Now      func() time.Time
	Zone     *time.Location // the shop's; nil is UTC
	Base     string         // "https://strikeoff.example": where people reach the pages
	Keys     [][]byte       // sign links, each 32 bytes or more; the first signs, all of them are believed
	Danger   int            // a job due within so many days and not cleared is in danger; 0 is 3
	Ticket   time.Duration  // how long the code on a printed ticket opens its job; 0 is 30 days
	Poll     time.Duration  // how often an open board looks for changes; 0 is 2 s
	Streams  int            // boards that are kept up to date at once; 0 is 64
	Log      *slog.Logger   // nil is silence
}

// Pages are the pages. Make them with New.
type Pages struct {
	c    Config
	look look
	feed *feed
}

// New checks the settings and makes the pages.
func New(c Config) (*Pages, error) {
	if c.Jobs == nil || c.Card == nil || c.Row == nil || c.Now == nil {
		return nil, errors.New("pages need a ledger, a card maker, a row maker and a clock")
	}
	c.Base = strings.TrimSuffix(c.Base, "/")
	if !strings.HasPrefix(c.Base, "https://") && !strings.HasPrefix(c.Base, "http://") {
		return nil, errors.New("pages need the address at which people reach them, with http:// or https://")
	}
	if len(c.Keys) == 0 {
		return nil, errors.New("pages need a key to sign links with")
	}
	for _, k := range c.Keys {
		if len(k) < 32 {
			return nil, fmt.Errorf("a key that signs links must be 32 bytes or more, this one is %d", len(k))
		}
	}
	if c.Zone == nil {
		c.Zone = time.UTC
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Danger <= 0 {
		c.Danger = 3
	}
	if c.Ticket <= 0 {
		c.Ticket = 30 * 24 * time.Hour
	}
	if c.Poll <= 0 {
		c.Poll = 2 * time.Second
	}
	if c.Streams <= 0 {
		c.Streams = 64
	}
	p := &Pages{c: c}
	var err error
	if p.look, err = newLook(); err != nil {
		return nil, err
	}
	p.feed = newFeed(c.Poll, c.Streams, func(ctx context.Context) (string, error) {
		b, err := p.readBoard(ctx)
		return b.Version, err
	})
	return p, nil
}

// Register puts /board, /jobs/… and their stylesheet and script on mux.
func (p *Pages) Register(mux *http.ServeMux) {
	mux.Handle("GET /board", p.guarded(p.board))
	mux.Handle("GET /board/changes", p.guarded(p.changes))
	mux.Handle("GET /jobs/{id}", p.guarded(p.job))
	mux.Handle("GET /jobs/{id}/ticket", p.guarded(p.ticket))
	mux.Handle("GET /jobs/{id}/pictures/{name}", p.guarded(p.picture))
	static, err := fs.Sub(files, "static")
	if err != nil {
		panic(err) // the folder is built in
	}
	serve := http.StripPrefix("/static/", http.FileServerFS(static))
	mux.HandleFunc("GET /static/{name}", func(w http.ResponseWriter, r *http.Request) {
		p.headers(w)
		if p.look.static[r.PathValue("name")] == "" { // the file server fails, instead of finding nothing, where a name is no UTF-8
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Cache-Control", "public, max-age=86400") // the address changes with the content
		serve.ServeHTTP(w, r)
	})
}

// policy lets a page load what is ours and nothing else. There is no code and no style in a page itself.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// headers sets what every answer carries.
func (p *Pages) headers(w http.ResponseWriter) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer") // an address may hold a link's key
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()")
	h.Set("Cache-Control", "no-store")
	if strings.HasPrefix(p.c.Base, "https://") {
		h.Set("Strict-Transport-Security", "max-age=31536000")
	}
}

// errNoSuch says that there is nothing at an address.
var errNoSuch = errors.New("there is nothing at this address")

// guarded shows a page to whoever may see it. Errors are shown as a page of their own, with what to do next.
func (p *Pages) guarded(show func(w http.ResponseWriter, r *http.Request, v visitor) error) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		p.headers(w)
		v, done, err := p.admit(w, r)
		if done {
			return
		}
		if err == nil {
			err = show(w, r, v)
		}
		if err == nil {
			return
		}
		status, head, text := http.StatusInternalServerError, "This page could not be made", "Something went wrong inside; it is in the log. Try again in a minute."
		switch {
		case errors.Is(err, errNoLink):
			status, head, text = http.StatusForbidden, "You need a link to see this", "Links to these pages are given in chat. Ask there for one and open it here."
		case errors.Is(err, errOverLink):
			status, head, text = http.StatusForbidden, "This link is over", "It ran out, was taken back, or is for another page. Ask for a new one in chat."
		case errors.Is(err, errNoSuch), errors.Is(err, bot.ErrNoJob):
			status, head, text = http.StatusNotFound, "There is nothing here", "No job has that number. Look at the board, or ask in chat: jobs"
		case errors.Is(err, bot.ErrDown), errors.Is(err, context.DeadlineExceeded):
			status, head, text = http.StatusServiceUnavailable, "The jobs cannot be read now", "The ledger cannot be reached. Nothing is lost; try again in a minute."
			w.Header().Set("Retry-After", "30")
		}
		if status >= 500 {
			p.c.Log.Error("page failed", "path", r.URL.Path, "error", err)
		}
		p.render(w, status, "trouble.html", trouble{frame: p.frame(head, v), Text: text})
	})
}

// trouble is what a page that cannot be shown is replaced by.
type trouble struct {
	frame
	Text string
}
