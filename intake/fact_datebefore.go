package intake

import (
	"strings"
	"time"

	"strikeoff/rules"
)

// dayBefore reads at item i a day that is counted from another: "the day before", "two days before the 12th", "the Thursday after".
// The other day follows, or was named a little before.
func (r *reader) dayBefore(i int) int {
	j, days, weekday := i, 1, -1
	switch it := r.at(i); {
	case it.word == wThe || it.word == wA:
		j++
	case it.kind == iNum && !it.frac && it.num < 15:
		days = int(it.num)
		j++
	case it.sense(sDay) != nil:
	default:
		return i
	}
	if w := r.wordAt(j); j > i && (w == "full" || w == "whole" || w == "good" || w == "clear") {
		j++
	}
	switch u := r.at(j); {
	case r.wordAt(j) == "fortnight" && j > i:
		days *= 14
	case u.sense(sDay) != nil && (j == i || r.at(i).word == wThe):
		weekday = u.sense(sDay).num
	case j == i:
		return i
	case u.is(cWeek):
		days *= 7
	case !u.is(cDays):
		return i
	}
	j++
	w := r.wordAt(j)
	after := strings.HasPrefix(w, "after")
	if !after && !strings.HasPrefix(w, "before") {
		return i
	}
	j++
	count := func(from rules.Date) rules.Date {
		t, ok := from.Time()
		switch {
		case !ok:
			return ""
		case weekday < 0 && after:
			return from.AddDays(days)
		case weekday < 0:
			return from.AddDays(-days)
		case after:
			return from.AddDays((weekday-int(t.Weekday())+6)%7 + 1)
		}
		return from.AddDays(-((int(t.Weekday())-weekday+6)%7 + 1))
	}
	tier := int8(5)
	if after {
		tier = 2
	}
	if (w == "before" || w == "after") && !r.clauseEnds(j) {
		n := len(r.facts)
		if e := r.parseDate(j); e > j && len(r.facts) > n && r.facts[n].date != "" {
			from := r.facts[n].date
			r.facts = r.facts[:n]
			return r.emitDate(i, e, count(from), tier)
		}
		r.facts = r.facts[:n]
	}
	f := r.dayNamed(i)
	if f == nil || int(f.i1) == i || int(f.i1) == i-1 && r.punct(i-1, ',') && !r.clauseEnds(j) { // "May 3, the day before the wedding" is one day
		return i
	}
	if !r.clauseEnds(j) && weekday < 0 && (r.at(j).kind == iNum || r.at(j).sense(sGarment) != nil) {
		return i
	}
	return r.emitDate(i, j, count(f.date), tier)
}

// longBack is how many items back a day may be named that another is counted from.
const longBack = 40

// dayNamed is the day named last before item i, in its sentence or the one before; nil where there is none.
func (r *reader) dayNamed(i int) *fact {
	for f := len(r.facts) - 1; f >= 0; f-- {
		x := &r.facts[f]
		if int(x.i1) < i-longBack {
			return nil
		}
		if x.kind == fDate && x.date != "" {
			return x
		}
	}
	return nil
}

// nthWeekday reads at item i "the last Friday in April", "first Saturday of May".
func (r *reader) nthWeekday(i int) int {
	j := i
	if r.at(j).word == wThe {
		j++
	}
	if r.at(j+1).sense(sDay) == nil && r.at(j+2).sense(sDay) == nil {
		return i
	}
	n := r.ordinalWord(j)
	e := j + 1
	if o := r.ordinal(j + 1); o > j+1 && r.at(j).kind == iNum {
		n, e = int(r.at(j).num), o
	}
	last := r.wordAt(j) == "last"
	d := r.at(e).sense(sDay)
	if d == nil || !last && (n < 1 || n > 4) || r.at(e+1).word != wIn && r.at(e+1).word != wOf {
		return i
	}
	m := r.at(e + 2).sense(sMonth)
	if m == nil {
		return i
	}
	for y := r.year; y < r.year+2; y++ {
		first := time.Date(y, time.Month(m.num), 1, 0, 0, 0, 0, time.UTC)
		day := first.AddDate(0, 0, (d.num-int(first.Weekday())+7)%7+7*(n-1))
		if last {
			end := first.AddDate(0, 1, -1)
			day = end.AddDate(0, 0, -(int(end.Weekday())-d.num+7)%7)
		}
		if !day.Before(r.today()) {
			return r.emitDate(i, e+3, rules.DateOf(day), 2)
		}
	}
	return i
}
