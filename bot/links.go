package bot

import (
	"context"
	"time"

	"strikeoff/bot/job"
)

// Links makes the addresses of pages that show jobs; a shop without pages has none. Whoever holds a link may look, and nothing more.
type Links interface {
	JobLink(id job.ID, until time.Time) string
	BoardLink(until time.Time) string
	MakeWall(ctx context.Context) (string, error) // for the wall screen, until RevokeWall; the one before it stops
	RevokeWall(ctx context.Context) error
}

// Link is an address of the desk's own, never a customer's, so a door may let it be followed.
type Link struct {
	Label string // "Job 12 on a page, until Fri 27 Nov 14:00"
	URL   string
}

// linkHolds is how long a link that is given in chat opens its page: a working day and the morning after.
const linkHolds = 24 * time.Hour

// link is a link to a page, nil where the shop has none.
func (t *turn) link(label string, address func(Links, time.Time) string) *Link {
	if t.d.Links == nil {
		return nil
	}
	until := t.now.Add(linkHolds)
	return &Link{Label: label + ", until " + hour(until, t.d.Zone), URL: address(t.d.Links, until)}
}
