package rules

import (
	"math"
	"strings"
	"time"
)

// Schedule is the way back from the due date. Getting the goods in and sending them out are not in it.
type Schedule struct {
	Due       Date `json:"due"`
	RunStarts Date `json:"run_starts"` // the last day on which the run can start
	LastTest  Date `json:"last_test"`  // the last day on which the test print can start; "" where none is needed
	RunDays   int  `json:"run_days"`   // working days that the run takes
	TestDays  int  `json:"test_days"`  // calendar days from test print to a full reading
	CanBeMet  bool `json:"can_be_met"`
}

// works reports whether the shop works on a day.
func (s *Shop) works(d time.Time) bool {
	closed := s.ClosedDays
	if len(closed) == 0 || len(closed) >= 7 {
		closed = List[string]{"sat", "sun"} // a shop that never works has a slip in its settings
	}
	for _, c := range closed {
		if len(c) >= 3 && strings.EqualFold(c[:3], d.Weekday().String()[:3]) {
			return false
		}
	}
	return !has(s.Holidays, DateOf(d))
}

// back is the n-th working day before d. It gives up after ten years of closed days.
func (s *Shop) back(d time.Time, n int) time.Time {
	for i := 0; n > 0 && i < 3660; i++ {
		d = d.AddDate(0, 0, -1)
		if s.works(d) {
			n--
		}
	}
	return d
}

// longestRun is a bound on working days: past it no date is met.
const longestRun = 500

// schedule reckons back from the due date. It reports false where due date or today is unknown, or nothing is picked.
func (s *sheet) schedule(test bool) (*Schedule, bool) {
	due, ok := s.order.Due.Time()
	today, now := s.rec.Today.Time()
	if !ok || !now {
		return nil, false
	}
	mins, picked := 0.0, false
	for _, b := range s.benches {
		c := b.choice(b.pick)
		if b.pick == "" || b.held || c.Effort == nil {
			continue
		}
		picked = true
		n := b.pieces
		if n <= 0 {
			n = 48
		}
		mins += c.Effort.SetupMinutes + c.Effort.SecondsEach*float64(n)/60
	}
	if !picked {
		return nil, false
	}
	out := &Schedule{Due: s.order.Due}
	out.RunDays = int(min(longestRun, max(1, math.Ceil(mins/60/s.shop.hoursADay()))))
	start := s.shop.back(due, out.RunDays) // the goods are ready the working day before they are due
	out.RunStarts = DateOf(start)
	last := start
	if test {
		wait := 0.0
		for _, c := range s.checks {
			wait = max(wait, c.WaitHours)
		}
		out.TestDays = int(math.Ceil(min(wait, 24*365)/24)) + 1 // a day to read and sign
		last = start.AddDate(0, 0, -out.TestDays)
		if !s.shop.works(last) {
			last = s.shop.back(last, 1)
		}
		out.LastTest = DateOf(last)
	}
	out.CanBeMet = !today.After(last) && out.RunDays < longestRun
	return out, true
}
