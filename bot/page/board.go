package page

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"time"

	"strikeoff/bot"
	"strikeoff/rules"
)

// mostOpen is how many open jobs a board reads. A shop with more sees how many are left out.
const mostOpen = 300

// boardView is the board as it is drawn.
type boardView struct {
	Groups  []groupView
	Danger  []tileView // dates in danger, worst first, whatever the state
	Total   int
	More    bool // there are more open jobs than a board reads
	Version string
}

// groupView is the jobs of one state.
type groupView struct {
	State bot.State
	Jobs  []tileView
}

// tileView is one job on the board.
type tileView struct {
	bot.Row
	Date   string // "due in 2 days"; "" where no date was said
	Danger bool
	Days   int // days from today to the date; 0 without one
	Dated  bool
}

// readBoard reads the open jobs and groups them.
func (p *Pages) readBoard(ctx context.Context) (boardView, error) {
	var b boardView
	today := rules.DateOf(p.c.Now().In(p.c.Zone))
	groups := map[bot.State][]tileView{}
	for below := bot.JobID(0); ; {
		page, err := p.c.Jobs.Jobs(ctx, bot.OpenStates, below, 100)
		if err != nil {
			return b, err
		}
		for _, j := range page {
			t := p.tile(j, today)
			groups[j.State] = append(groups[j.State], t)
			if t.Danger {
				b.Danger = append(b.Danger, t)
			}
			below = j.ID
			b.Total++
		}
		if len(page) < 100 {
			break
		}
		if b.Total >= mostOpen {
			b.More = true
			break
		}
	}
	for _, s := range bot.OpenStates {
		slices.SortFunc(groups[s], bySoonest)
		b.Groups = append(b.Groups, groupView{State: s, Jobs: groups[s]})
	}
	slices.SortFunc(b.Danger, bySoonest)
	seen, err := json.Marshal(b)
	if err != nil {
		return b, err
	}
	sum := sha256.Sum256(seen)
	b.Version = hex.EncodeToString(sum[:8])
	return b, nil
}

// bySoonest orders jobs with a date before those without, the soonest first, then the oldest job first.
func bySoonest(a, b tileView) int {
	if a.Dated != b.Dated {
		if a.Dated {
			return -1
		}
		return 1
	}
	return cmp.Or(cmp.Compare(a.Days, b.Days), cmp.Compare(a.Job, b.Job))
}

// tile is one job as it stands today.
func (p *Pages) tile(j bot.Job, today rules.Date) tileView {
	t := tileView{Row: p.c.Row(j)}
	due, ok := j.Order.Due.Time()
	now, _ := today.Time()
	if !ok {
		return t
	}
	t.Dated, t.Days = true, int(due.Sub(now)/(24*time.Hour))
	t.Date = dueIn(t.Days)
	t.Danger = t.Days <= p.c.Danger && j.State != bot.Cleared
	return t
}

// dueIn says how far off a date is.
func dueIn(days int) string {
	switch {
	case days < -1:
		return fmt.Sprintf("%d days late", -days)
	case days == -1:
		return "1 day late"
	case days == 0:
		return "due today"
	case days == 1:
		return "due tomorrow"
	}
	return fmt.Sprintf("due in %d days", days)
}

// board is GET /board.
func (p *Pages) board(w http.ResponseWriter, r *http.Request, v visitor) error {
	if !v.All {
		return errOverLink
	}
	b, err := p.readBoard(r.Context())
	if err != nil {
		return err
	}
	p.render(w, http.StatusOK, "board.html", struct {
		frame
		boardView
	}{p.frame("Board", v), b})
	return nil
}
