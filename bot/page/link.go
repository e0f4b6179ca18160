package page

import (
	"context"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot"
)

// visitor is what somebody with a link may see.
type visitor struct {
	All  bool      // the board and every job
	Job  bot.JobID // else this job alone
	Wall bool      // by the wall link
}

// may reports whether a visitor may see a job.
func (v visitor) may(id bot.JobID) bool { return v.All || v.Job == id && id != 0 }

var (
	errNoLink   = errors.New("no link was shown")
	errOverLink = errors.New("the link is over, or for something else")
)

// The parameter and the cookie in which a link's key travels.
const (
	keyParam  = "key"
	keyCookie = "strikeoff_key"
)

// JobLink is an address that shows one job and its ticket until the given time.
func (p *Pages) JobLink(id bot.JobID, until time.Time) string {
	return fmt.Sprintf("%s/jobs/%d?%s=%s", p.c.Base, id, keyParam, p.sign(fmt.Sprintf("j%d", id), until))
}

// BoardLink is an address that shows the board and every job until the given time.
func (p *Pages) BoardLink(until time.Time) string {
	return fmt.Sprintf("%s/board?%s=%s", p.c.Base, keyParam, p.sign("b", until))
}

// sign makes a link's key: what it is for, until when, and a proof that we said so.
func (p *Pages) sign(what string, until time.Time) string {
	text := what + "." + strconv.FormatInt(until.Unix(), 10)
	return text + "." + base64.RawURLEncoding.EncodeToString(proof(p.c.Keys[0], text))
}

// proof is the first 16 bytes of an HMAC-SHA256: 128 bits that nobody guesses, and a code that stays small on paper.
func proof(key []byte, text string) []byte {
	h := hmac.New(sha256.New, key)
	h.Write([]byte("strikeoff page link\n" + text))
	return h.Sum(nil)[:16]
}

// read says what a key opens and until when.
func (p *Pages) read(ctx context.Context, key string, now time.Time) (v visitor, until time.Time, err error) {
	if strings.HasPrefix(key, "w.") {
		return p.readWall(ctx, key, now)
	}
	last := strings.LastIndexByte(key, '.')
	if last < 0 || len(key) > 100 {
		return v, until, errOverLink
	}
	got, err := base64.RawURLEncoding.DecodeString(key[last+1:])
	if err != nil {
		return v, until, errOverLink
	}
	ok := 0
	for _, k := range p.c.Keys {
		ok |= subtle.ConstantTimeCompare(got, proof(k, key[:last]))
	}
	what, secs, _ := strings.Cut(key[:last], ".")
	at, err := strconv.ParseInt(secs, 10, 64)
	until = time.Unix(at, 0)
	if ok != 1 || err != nil || !now.Before(until) {
		return v, until, errOverLink
	}
	if what == "b" {
		return visitor{All: true}, until, nil
	}
	n, err := strconv.ParseInt(strings.TrimPrefix(what, "j"), 10, 64)
	if err != nil || n <= 0 {
		return v, until, errOverLink
	}
	return visitor{Job: bot.JobID(n)}, until, nil
}

// Where the ledger remembers the wall link: a fingerprint, so that a copy of the ledger opens nothing.
const (
	wallDoor = "page"
	wallRoom = "wall"
)

// MakeWall makes the link for the wall screen. It holds until RevokeWall; the wall link before it is over.
func (p *Pages) MakeWall(ctx context.Context) (string, error) {
	b := make([]byte, 24)
	_, _ = rand.Read(b) // never fails: crypto/rand ends the program instead
	key := "w." + base64.RawURLEncoding.EncodeToString(b)
	if err := p.c.Jobs.SetCursor(ctx, wallDoor, wallRoom, fingerprint(key)); err != nil {
		return "", fmt.Errorf("keep the wall link: %w", err)
	}
	return p.c.Base + "/board?" + keyParam + "=" + key, nil
}

// RevokeWall takes the wall link back. Screens that show the board by it stop within one poll.
func (p *Pages) RevokeWall(ctx context.Context) error {
	if err := p.c.Jobs.SetCursor(ctx, wallDoor, wallRoom, "none"); err != nil {
		return fmt.Errorf("take the wall link back: %w", err)
	}
	return nil
}

func (p *Pages) readWall(ctx context.Context, key string, now time.Time) (visitor, time.Time, error) {
	want, err := p.c.Jobs.Cursor(ctx, wallDoor, wallRoom)
	if err != nil {
		return visitor{}, now, err
	}
	if subtle.ConstantTimeCompare([]byte(want), []byte(fingerprint(key))) != 1 {
		return visitor{}, now, errOverLink
	}
	return visitor{All: true, Wall: true}, now.AddDate(1, 0, 0), nil
}

func fingerprint(key string) string {
	sum := sha256.Sum256([]byte(key))
	return hex.EncodeToString(sum[:])
}

// admit finds out who looks. A key in the address moves into a cookie and out of the address, so that it stands neither on the wall nor in
// the browser's history; done reports that the visitor was sent on so.
func (p *Pages) admit(w http.ResponseWriter, r *http.Request) (v visitor, done bool, err error) {
	now := p.c.Now()
	if key := r.URL.Query().Get(keyParam); key != "" {
		v, until, err := p.read(r.Context(), key, now)
		if err != nil {
			return visitor{}, false, err
		}
		path := "/"
		if !v.All {
			path = fmt.Sprintf("/jobs/%d", v.Job)
		}
		http.SetCookie(w, &http.Cookie{Name: keyCookie, Value: key, Path: path, MaxAge: max(1, int(until.Sub(now)/time.Second)), HttpOnly: true,
			Secure: strings.HasPrefix(p.c.Base, "https://"), SameSite: http.SameSiteLaxMode})
		http.Redirect(w, r, r.URL.EscapedPath(), http.StatusSeeOther)
		return v, true, nil
	}
	err = errNoLink
	for _, c := range r.CookiesNamed(keyCookie) { // one for a job and one for the board may both come
		got, _, e := p.read(r.Context(), c.Value, now)
		switch {
		case e != nil && !errors.Is(e, errOverLink):
			return visitor{}, false, e
		case e != nil:
			if errors.Is(err, errNoLink) {
				err = e
			}
		case got.All:
			return got, false, nil
		default:
			v, err = got, nil
		}
	}
	return v, false, err
}
