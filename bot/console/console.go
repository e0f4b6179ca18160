// Package console is the door for one terminal: the same talk as in a chat room, typed or piped. It translates and posts; it decides
// nothing.
package console

import (
	"context"
	"fmt"
	"io"
	"strings"
	"sync"

	"strikeoff/bot"
)

// Door is the name of this door in places and rosters.
const Door = "console"

// The rooms of a console: the one that is typed into and the one that production is told in. Both are shown on the same screen.
const (
	OrdersRoom     = "orders"
	ProductionRoom = "production"
)

// The people of a console. Who sits at the machine is trusted to say who they are: the ledger's file is theirs anyway.
const (
	RepID  = "rep"
	LeadID = "lead"
)

// Screen shows posts. It is the door's bot.Poster and is safe for concurrent use.
type Screen struct {
	Out   io.Writer
	Width int                                // columns; 0 means 80
	Bold  func(string) string                // how a first line stands out; nil leaves it plain
	Text  func(p bot.Post, width int) string // how a post reads as plain text
	Saw   func(p bot.Parcel)                 // told of every parcel that was shown; may be nil

	mu sync.Mutex
}

// Post shows a parcel. A change of an earlier post is shown only where people must see it anew: a screen cannot take lines back.
func (s *Screen) Post(_ context.Context, p bot.Parcel) (string, error) {
	if p.Ref != "" && !p.Post.Anew {
		return p.Ref, nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	width := s.Width
	if width <= 0 {
		width = 80
	}
	text := strings.TrimRight(bot.Text(p.Post, width), "\n")
	first, rest, _ := strings.Cut(text, "\n")
	if s.Bold != nil {
		first = s.Bold(first)
	}
	switch {
	case p.To != "":
		first = "Only you see this:\n" + first
	case p.Place.Room == ProductionRoom:
		first = "To the production room:\n" + first
	}
	if rest != "" {
		rest += "\n"
	}
	if _, err := fmt.Fprintf(s.Out, "%s\n%s\n", first, rest); err != nil {
		return "", fmt.Errorf("showing a post: %w", err)
	}
	if s.Saw != nil {
		s.Saw(p)
	}
	return p.Key, nil
}
