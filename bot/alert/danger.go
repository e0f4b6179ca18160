package alert

import (
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// usualDangerDays and usualFromHour are what a shop gets that sets nothing: common practice, a test print with an overnight wash wait and
// one repeat fits into three working days.
const (
	usualDangerDays = 3
	usualFromHour   = 8
)

// danger tells of a due date that comes near while the job is not cleared, and again on the day itself. Where the customer still owes an
// answer the thread is told, else production.
func (s Settings) danger(j job.Job, now time.Time) []Alert {
	days := s.DangerDays
	if days == 0 {
		days = usualDangerDays
	}
	if _, ok := j.Order.Due.Time(); !ok || days < 0 {
		return nil
	}
	to, next := Production, job.NextWords(j)
	if j.State == job.Asking {
		to = Thread
	}
	from := backWorkingDays(j.Order.Due, days)
	day, _ := j.Order.Due.Time()
	alerts := []Alert{{Key: fmt.Sprintf("danger:%d:%s:%s", j.ID, j.Order.Due, to), To: to, At: s.morning(from, now.Location()),
		Text: fmt.Sprintf("Job %d is due %s and is not cleared for the run. %s", j.ID, day.Format("Mon 2 Jan 2006"), next)}}
	late := Alert{Key: fmt.Sprintf("late:%d:%s:%s", j.ID, j.Order.Due, to), To: to, At: s.morning(j.Order.Due, now.Location()),
		Text: fmt.Sprintf("Job %d was due %s and is not cleared for the run. %s", j.ID, day.Format("Mon 2 Jan 2006"), next)}
	if rules.DateOf(now) == j.Order.Due {
		late.Text = fmt.Sprintf("Job %d is due today and is not cleared for the run. %s", j.ID, next)
	}
	if !late.At.After(now) {
		return []Alert{late} // the warning before it has nothing left to say
	}
	return append(alerts, late)
}

// morning is when a day's alerts go out.
func (s Settings) morning(d rules.Date, where *time.Location) time.Time {
	hour := s.FromHour
	if hour <= 0 || hour > 23 {
		hour = usualFromHour
	}
	day, _ := d.Time()
	return time.Date(day.Year(), day.Month(), day.Day(), hour, 0, 0, 0, where)
}

// backWorkingDays is the day n working days, Monday to Friday, before a day. Holidays are not known.
func backWorkingDays(d rules.Date, n int) rules.Date {
	n = min(n, 250)
	for n > 0 {
		d = d.AddDays(-1)
		day, ok := d.Time()
		if !ok {
			return d
		}
		if w := day.Weekday(); w != time.Saturday && w != time.Sunday {
			n--
		}
	}
	return d
}
