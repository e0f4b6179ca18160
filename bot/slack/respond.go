package slack

import (
	"context"
	"fmt"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// back is where a private or deferred answer goes: the door's reply token, taken apart. It names ids only. A response URL is a secret, so
// the token holds a number under which this process remembers it; another process, or this one after a restart, answers by other ways.
type back struct {
	view string // a modal that waits for the answer
	home bool   // the person's Home tab
	url  string // number of a response URL
	user string
}

// token is the reply token.
func (b back) token() string {
	home := ""
	if b.home {
		home = "home"
	}
	return strings.Join([]string{b.user, b.view, home, b.url}, "/")
}

// backFrom reads a reply token; a token that is none is the zero back.
func backFrom(token string) back {
	p := strings.Split(token, "/")
	if len(p) != 4 {
		return back{}
	}
	return back{user: p[0], view: p[1], home: p[2] == "home", url: p[3]}
}

// urlLife is how long Slack takes answers at a response URL.
const urlLife = 30 * time.Minute

// replyURLs remembers response URLs while they are of use.
type replyURLs struct {
	now  func() time.Time
	mu   sync.Mutex
	n    int
	urls map[string]replyURL
}

type replyURL struct {
	url  string
	till time.Time
}

// keep remembers a URL and gives its number, "" for none.
func (r *replyURLs) keep(u string) string {
	if u == "" {
		return ""
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	now := r.now()
	for k, v := range r.urls {
		if now.After(v.till) {
			delete(r.urls, k)
		}
	}
	if r.urls == nil {
		r.urls = map[string]replyURL{}
	}
	r.n++
	// The time keeps a number of an earlier process from meeting one of this.
	id := strconv.FormatInt(now.UnixMilli(), 36) + "-" + strconv.Itoa(r.n)
	r.urls[id] = replyURL{u, now.Add(urlLife)}
	return id
}

// get is the URL with that number, "" where it is not known here or too old.
func (r *replyURLs) get(id string) string {
	r.mu.Lock()
	defer r.mu.Unlock()
	v, ok := r.urls[id]
	if !ok || r.now().After(v.till) {
		return ""
	}
	return v.url
}

// trusted reports whether a response URL is Slack's own: what a request carries does not decide where we send.
func (d *Door) trusted(raw string) bool {
	u, err := url.Parse(raw)
	if err != nil {
		return false
	}
	if d.c.APIURL != "" {
		base, err := url.Parse(d.c.APIURL)
		return err == nil && u.Host == base.Host && u.Scheme == base.Scheme
	}
	return u.Scheme == "https" && (u.Host == "hooks.slack.com" || u.Host == "hooks.slack-gov.com")
}

// respond answers one person at a response URL.
func (d *Door) respond(ctx context.Context, u string, p bot.Post) error {
	if u == "" || !d.trusted(u) {
		return fmt.Errorf("no response URL")
	}
	fallback, parts := dress(p, d.c.Limits.Parts)
	for _, blocks := range parts {
		_, _, err := d.api.PostMessageContext(ctx, "", sdk.MsgOptionResponseURL(u, sdk.ResponseTypeEphemeral), sdk.MsgOptionText(fallback, true), sdk.MsgOptionBlocks(blocks...))
		if err != nil {
			return d.failed("response URL", "", err)
		}
	}
	return nil
}

// tell tells one person something at once, when the desk cannot: by the modal that waits, the response URL, or a direct message.
func (d *Door) tell(ctx context.Context, b back, at bot.Place, text string) {
	if _, err := d.private(ctx, bot.Parcel{Place: at, To: b.user, Reply: b.token(), Post: bot.Post{Text: text}}, b); err != nil {
		d.log.Error("a person could not be told that nothing was kept", "user", b.user, "err", d.scrub.err(err))
	}
}
