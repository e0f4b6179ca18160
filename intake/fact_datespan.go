package intake

import "strikeoff/rules"

// spanDate reads at item i a stretch of days or weeks that is counted from a day which is named after it: "a week today", "two weeks from Friday",
// "a fortnight on Saturday". It is i where there is none, or where the day it is counted from is not said.
func (r *reader) spanDate(i int) int {
	n, j := 1, i
	switch it := r.at(i); {
	case it.kind == iNum && !it.frac && it.num < 60:
		n, j = int(it.num), i+1
	case it.word == wA && it.word != 0:
		j = i + 1
	}
	switch u := r.wordAt(j); {
	case u == "fortnight" || u == "fortnights":
		n *= 14
	case j == i:
		return i
	case u == "week" || u == "weeks" || u == "wks" || u == "wk":
		n *= 7
	case u == "days" || u == "day":
	default:
		return i
	}
	j++
	for k := 0; k < 2; k++ {
		if w := r.at(j).word; w != 0 && (w == wFrom || w == wOn || w == wThis) || r.wordAt(j) == "come" || r.wordAt(j) == "after" {
			j++
		}
	}
	switch it := r.at(j); {
	case it.is(cToday), it.word == wordNow && it.word != 0 && r.at(j-1).word == wFrom:
		return r.emitDate(i, j+1, rules.DateOf(r.today().AddDate(0, 0, n)), 1)
	case it.is(cTomorrow):
		return r.emitDate(i, j+1, rules.DateOf(r.today().AddDate(0, 0, n+1)), 1)
	case it.sense(sDay) != nil:
		d := it.sense(sDay).num
		return r.emitDate(i, j+1, rules.DateOf(r.today().AddDate(0, 0, n+(d-int(r.today().Weekday())+7)%7)), 1)
	}
	return i
}

// weeksOn is the days that a word after a day puts it off by, "Friday week", "tomorrow fortnight", and how many items say so.
func (r *reader) weeksOn(i int) (days, items int) {
	switch r.wordAt(i) {
	case "week":
		return 7, 1
	case "fortnight":
		return 14, 1
	}
	return 0, 0
}
