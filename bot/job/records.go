package job

import (
	"encoding/json"
	"errors"
	"time"

	"strikeoff/rules"
)

// Person is who wrote a message, as a door knows them. Which role they have is the shop's to say, not the door's.
type Person struct {
	ID     string   `json:"id"`     // the platform's id
	Name   string   `json:"name"`   // to show
	Groups []string `json:"groups"` // the platform's groups or roles that the person is in
	Bot    bool     `json:"bot"`    // a program: it may paste an order, but it gives no commands and its talk is no answer
}

// File is something attached to a message. The door keeps the bytes reachable by its own means.
type File struct {
	ID    string `json:"id"` // the platform's id
	Name  string `json:"name"`
	Type  string `json:"type"` // media type as declared
	Bytes int64  `json:"bytes"`
}

// Sort is what kind of thing came in.
type Sort string

// The sorts of inbound.
const (
	Message  Sort = "message"  // something written in a room or thread
	Command  Sort = "command"  // a button, slash command or modal, already in the words of a command: always answered
	Shortcut Sort = "shortcut" // somebody asked for this very message to be read as an order: always answered
	Edited   Sort = "edited"   // a message was changed; Of names it, Text is what it says now
	Deleted  Sort = "deleted"  // a message was taken back; Of names it
)

// Inbound is a message as a door hands it in. Its Key makes a redelivery do nothing.
type Inbound struct {
	Key    string       `json:"key"` // made from the platform's own ids, the same at every delivery
	Sort   Sort         `json:"sort"`
	Of     string       `json:"of,omitempty"` // Key of the message that this edits, deletes, or asks to have read
	Place  Place        `json:"place"`
	Anchor string       `json:"anchor"` // what a reply threads under: the thread's root, or this message's own id outside a thread
	By     Person       `json:"by"`
	Text   string       `json:"text"` // without the mention that called the bot
	Files  []File       `json:"files,omitempty"`
	Order  *rules.Order `json:"order,omitempty"` // the order by the order contract, where a program handed it in as data: it stands, and Text is not read for it
	Called bool         `json:"called"`          // the bot was addressed by name: silence would be rude
	Reply  string       `json:"reply"`           // a door's own token for a private or deferred answer; opaque
	Said   time.Time    `json:"said"`            // when it was said
	Kept   time.Time    `json:"kept"`            // when it was kept
	Tries  int          `json:"tries"`           // how often handling was begun
}

// Outbound is something that must go out: saved with the change that caused it, sent after, at least once.
type Outbound struct {
	Key     string          `json:"key"`     // made from what caused it: saving the same key again does nothing
	Job     ID              `json:"job"`     // 0 where it belongs to none
	Place   Place           `json:"place"`   // where to
	To      string          `json:"to"`      // the one person who may see it; "" for everybody
	Reply   string          `json:"reply"`   // the inbound's Reply, for a private or deferred answer
	Slot    string          `json:"slot"`    // what it replaces: one post a slot is kept up to date; "" for a post of its own
	Payload json.RawMessage `json:"payload"` // what to say; the ledger does not look inside
	At      time.Time       `json:"at"`      // not before
	Tries   int             `json:"tries"`   // attempts so far, this one counted; also the fence: an acknowledgement must carry it
	Ref     string          `json:"ref"`     // the platform's id of the post that the slot holds; "" when none was made
}

// Change is everything that one step does to the ledger, kept whole or not at all.
type Change struct {
	Done    string     // key of the inbound that this answers; "" for a change of the desk's own (an alert)
	Job     *Job       // the job as it becomes; nil where no job changes. A new job has Expect 0
	Expect  int        // the revision that the stored job must have
	Entries []Entry    // the new entries of its history
	Out     []Outbound // what must go out
	Next    time.Time  // when to look at the job's alerts again; zero for never. Only read where Job is set
}

// The errors that a ledger returns, to be told apart with errors.Is.
var (
	ErrNoJob    = errors.New("no such job")
	ErrStale    = errors.New("the job has changed since it was read")
	ErrDone     = errors.New("the message has been handled already")
	ErrDown     = errors.New("the ledger cannot be reached")
	ErrTooNew   = errors.New("the ledger was written by a newer strikeoff")
	ErrCorrupt  = errors.New("the ledger is damaged")
	ErrNotMine  = errors.New("somebody else has taken this item")
	ErrNotFound = errors.New("nothing there")
)
