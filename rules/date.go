package rules

import "time"

// Date is a calendar day written YYYY-MM-DD; "" where none was said. Days have no time zone here: a due date is the shop's own day.
type Date string

// DateOf is the calendar day of t in t's own location.
func DateOf(t time.Time) Date { return Date(t.Format(time.DateOnly)) }

// Time is midnight UTC of the day. It reports false where the date is unsaid or no calendar day.
func (d Date) Time() (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, string(d))
	return t, err == nil
}

// AddDays is the day n days later; an unsaid date stays unsaid.
func (d Date) AddDays(n int) Date {
	t, ok := d.Time()
	if !ok {
		return d
	}
	return DateOf(t.AddDate(0, 0, n))
}

// MarshalJSON writes an unsaid date as null.
func (d Date) MarshalJSON() ([]byte, error) { return orNull(string(d)) }
