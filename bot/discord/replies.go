package discord

import (
	"strings"
	"sync"
	"time"
)

// replyLife is how long an interaction can be answered, less a margin for the way; Discord's own limit is 15 minutes.
const replyLife = 14*time.Minute + 30*time.Second

// reply is what an inbound's Reply token holds: the interaction that it came by.
type reply struct {
	Waits bool   // "thinking" is shown until the first answer
	App   string // the application's id
	ID    string // the interaction's id
	Token string // a secret, good for 15 minutes
}

func (r reply) String() string {
	kind := "p"
	if r.Waits {
		kind = "w"
	}
	return strings.Join([]string{kind, r.App, r.ID, r.Token}, ":")
}

// parseReply reads a token back; false is one of some other door or none.
func parseReply(s string) (reply, bool) {
	p := strings.SplitN(s, ":", 4)
	if len(p) != 4 || p[0] != "w" && p[0] != "p" || p[1] == "" || p[2] == "" || p[3] == "" {
		return reply{}, false
	}
	return reply{Waits: p[0] == "w", App: p[1], ID: p[2], Token: p[3]}, true
}

// alive reports whether the interaction can still be answered.
func (r reply) alive(now time.Time) bool { return now.Sub(snowTime(r.ID)) < replyLife }

func (r reply) path(rest string) string { return "/webhooks/" + r.App + "/" + r.Token + rest }

// replies remembers which interactions still show "thinking". What another copy of the program did is not in here; then Discord is asked.
type replies struct {
	mu   sync.Mutex
	open map[string]replyState
}

type replyState struct {
	at      time.Time
	waiting bool
}

func (r *replies) set(id string, waiting bool, now time.Time) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for k, s := range r.open {
		if now.Sub(s.at) > replyLife {
			delete(r.open, k)
		}
	}
	r.open[id] = replyState{now, waiting}
}

func (r *replies) get(id string) (waiting, known bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	s, ok := r.open[id]
	return s.waiting, ok
}
