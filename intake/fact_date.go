package intake

import (
	"time"

	"strikeoff/rules"
)

// setDay keeps the day the message arrived.
func (r *reader) setDay() {
	if t, ok := r.opt.Received.Time(); ok {
		r.year, r.month, r.day, r.dated = t.Year(), int(t.Month()), t.Day(), true
		return
	}
	r.year, r.month, r.day, r.dated = 0, 0, 0, false
}

func (r *reader) today() time.Time {
	return time.Date(r.year, time.Month(r.month), r.day, 0, 0, 0, 0, time.UTC)
}

// valid reports whether the numbers are a calendar day.
func valid(m, d int) bool {
	days := [...]int{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	return m >= 1 && m <= 12 && d >= 1 && d <= days[m-1]
}

// coming is the next such day on or after the day the message arrived.
func (r *reader) coming(m, d int) rules.Date {
	for y := r.year; y < r.year+9; y++ { // 29 February may be eight years away
		t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
		if t.Day() == d && !t.Before(r.today()) {
			return rules.DateOf(t)
		}
	}
	return ""
}

// exact is that day of that year, "" where there is none.
func exact(y, m, d int) rules.Date {
	if y < 100 {
		y += 2000
	}
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	if t.Day() != d || int(t.Month()) != m {
		return ""
	}
	return rules.DateOf(t)
}

// parseDate reads a date at item i. Only a date that can be told from other numbers counts; what it is for is judged later.
func (r *reader) parseDate(i int) int {
	if !r.dated {
		return i
	}
	it := r.at(i)
	if j := r.dayBefore(i); j > i {
		return j
	}
	if j := r.nthWeekday(i); j > i {
		return j
	}
	switch it.kind {
	case iNum:
		return r.numericDate(i)
	case iPhrase, iWord:
	default:
		return i
	}
	switch {
	case it.is(cDayAfterTomorrow):
		return r.emitDate(i, i+1, rules.DateOf(r.today().AddDate(0, 0, 2)), 1)
	case it.is(cToday):
		return r.emitDate(i, i+1, rules.DateOf(r.today()), -1)
	case it.is(cTomorrow) && vocab.names[it.word] != "mañana":
		days, n := r.weeksOn(i + 1)
		return r.emitDate(i, i+1+n, rules.DateOf(r.today().AddDate(0, 0, 1+days)), 0)
	case it.is(cEndYear):
		return r.emitDate(i, i+1, exact(r.year, 12, 31), 1)
	case it.is(cEndNextMonth):
		return r.emitDate(i, i+1, rules.DateOf(time.Date(r.year, time.Month(r.month)+2, 0, 0, 0, 0, 0, time.UTC)), 1)
	case it.is(cEndMonth):
		return r.emitDate(i, i+1, rules.DateOf(time.Date(r.year, time.Month(r.month)+1, 0, 0, 0, 0, 0, time.UTC)), 1)
	case it.is(cEndNextWeek):
		return r.emitDate(i, i+1, rules.DateOf(r.weekday(5, 1)), 1)
	case it.is(cEndWeek):
		return r.emitDate(i, i+1, rules.DateOf(r.weekday(5, 0)), 1)
	}
	if s := it.sense(sDay); s != nil {
		return r.weekdayDate(i, s.num)
	}
	if s := it.sense(sMonth); s != nil {
		return r.monthDate(i, s)
	}
	if it.is(cNext) && r.at(i+1).sense(sDay) != nil {
		j := r.weekdayDate(i+1, r.at(i+1).sense(sDay).num)
		return j
	}
	if it.is(cEnd) || it.is(cMid) || it.is(cEarly) {
		j := i + 1
		if r.at(j).word == wThe || r.at(j).word == wOf || r.at(j).word == wDe {
			j++
		}
		if s := r.at(j).sense(sMonth); s != nil {
			d := 15
			switch {
			case it.is(cEnd):
				return r.emitDate(i, j+1, r.lastDay(s.num), 1)
			case it.is(cEarly):
				d = 7
			}
			return r.emitDate(i, j+1, r.coming(s.num, d), 1)
		}
		if it.is(cEnd) && r.at(j).is(cMonth) && (r.at(j).word == 0 || vocab.names[r.at(j).word] == "month" || vocab.names[r.at(j).word] == "mes") {
			return r.emitDate(i, j+1, rules.DateOf(time.Date(r.year, time.Month(r.month)+1, 0, 0, 0, 0, 0, time.UTC)), 1)
		}
		if it.is(cEnd) && r.at(j).is(cWeek) && (r.at(j).word == 0 || vocab.names[r.at(j).word] == "week" || vocab.names[r.at(j).word] == "semana") {
			return r.emitDate(i, j+1, rules.DateOf(r.weekday(5, 0)), 1)
		}
		if it.is(cEnd) && r.at(j).word != 0 && r.at(j).is(cNext) && r.at(j+1).is(cMonth) {
			return r.emitDate(i, j+2, rules.DateOf(time.Date(r.year, time.Month(r.month)+2, 0, 0, 0, 0, 0, time.UTC)), 1)
		}
		if it.is(cEnd) && r.at(j).is(cNext) && r.at(j+1).is(cWeek) || it.is(cEnd) && r.at(j).is(cNextWeek) {
			e := j + 1
			if r.at(j + 1).is(cWeek) {
				e++
			}
			return r.emitDate(i, e, rules.DateOf(r.weekday(5, 1)), 1)
		}
	}
	if it.word == wIn || it.is(cInch) || it.word == wordWithin || it.word == wordEn {
		if n := r.at(i + 1); n.kind == iNum && !n.frac && n.num < 60 || n.word == wA {
			v := int(n.num)
			if n.word == wA {
				v = 1
			}
			if j := r.spanDate(i + 1); j > i+1 {
				return j
			}
			switch u := r.at(i + 2); {
			case r.wordAt(i+2) == "fortnight":
				return r.emitDate(i, i+3, rules.DateOf(r.today().AddDate(0, 0, 14)), 1)
			case u.is(cWeek):
				return r.emitDate(i, i+3, rules.DateOf(r.today().AddDate(0, 0, 7*v)), 1)
			case u.is(cDays):
				return r.emitDate(i, i+3, rules.DateOf(r.today().AddDate(0, 0, v)), 1)
			case u.is(cMonth) && n.kind != iNum || u.is(cMonth) && v < 12 && r.at(i-1).sense(sSize) == nil:
				return r.emitDate(i, i+3, rules.DateOf(r.today().AddDate(0, v, 0)), 1)
			}
		}
	}
	if it.word == wThe || it.word == wEl || it.word == wordDia { // the 26th
		n, o := r.at(i+1), r.at(i+2)
		if n.kind == iNum && !n.frac && n.num >= 1 && n.num <= 31 && r.nearMonth(i) != 0 && (o.word == wSt || o.word == wNd || o.word == wRd || o.word == wTh) && o.glued && r.at(i+3).word != wOf && r.at(i+3).sense(sMonth) == nil {
			return r.emitDate(i, i+3, r.coming(r.nearMonth(i), int(n.num)), 1)
		}
		if n.kind == iNum && !n.frac && n.num >= 1 && n.num <= 31 && (o.word == wSt || o.word == wNd || o.word == wRd || o.word == wTh) && o.glued {
			if m := r.at(i + 5).sense(sMonth); m != nil && r.punct(i+3, ',') && r.at(i+4).word == wOf && valid(m.num, int(n.num)) { // "by the 12th, of March"
				return r.emitDate(i, i+6, r.coming(m.num, int(n.num)), 2)
			}
			if r.at(i+3).word == wOf && r.at(i+4).sense(sMonth) != nil || r.at(i+3).sense(sMonth) != nil || notDays[r.wordAt(i+3)] {
				return i
			}
			return r.emitDate(i, i+3, r.dayOfMonth(int(n.num)), 1)
		}
		if v := r.ordinalWord(i + 1); v > 3 && (r.at(i-1).is(cDue) || r.at(i-1).is(cHand) || r.at(i-1).word == wOn || r.wordAt(i-1) == "say") && r.at(i+2).word != wOf && r.at(i+2).sense(sMonth) == nil {
			if m := r.nearMonth(i); m != 0 {
				return r.emitDate(i, i+2, r.coming(m, v), 1)
			}
			return r.emitDate(i, i+2, r.dayOfMonth(v), 1)
		}
	}
	return i
}

// nearMonth is the month of a day named before item i in its sentence, 0 for none: "tour starts March 20, need by the 15th".
func (r *reader) nearMonth(i int) int {
	if n := len(r.facts); n > 0 && r.facts[n-1].kind == fDate && r.facts[n-1].tier >= 2 {
		for k := int(r.facts[n-1].i1); k < i; k++ {
			if it := r.at(k); it.kind >= iBreak || it.kind == iPunct && (it.ch == '.' || it.ch == '?' || it.ch == '!') && !it.glued {
				return 0
			}
		}
		t, _ := r.facts[n-1].date.Time()
		return int(t.Month())
	}
	for k := i - 1; k > i-10 && k >= 0; k-- { // "May 3rd week, say by the 14th"
		it := r.at(k)
		if it.kind >= iBreak || it.kind == iPunct && it.ch == '.' {
			return 0
		}
		if s := it.sense(sMonth); s != nil && (!s.weak || it.upper) {
			return s.num
		}
	}
	return 0
}

// dayOfMonth is the next day of that number on or after the day the message arrived.
func (r *reader) dayOfMonth(d int) rules.Date {
	if due, ok := r.stands.Time(); ok { // a later message speaks of a day near the one that stands
		var best time.Time
		for m := -1; m <= 1; m++ {
			t := time.Date(due.Year(), due.Month()+time.Month(m), d, 0, 0, 0, 0, time.UTC)
			if t.Day() == d && !t.Before(r.today()) && (best.IsZero() || t.Sub(due).Abs() < best.Sub(due).Abs()) {
				best = t
			}
		}
		if !best.IsZero() {
			return rules.DateOf(best)
		}
	}
	for m := r.month; m < r.month+3; m++ {
		t := time.Date(r.year, time.Month(m), d, 0, 0, 0, 0, time.UTC)
		if t.Day() == d && !t.Before(r.today()) {
			return rules.DateOf(t)
		}
	}
	return ""
}

// weekday is that day of the week (0 Sunday, weeks begin on Monday), weeks weeks from this one.
func (r *reader) weekday(d, weeks int) time.Time {
	t := r.today()
	return t.AddDate(0, 0, (d+6)%7-(int(t.Weekday())+6)%7+7*weeks)
}

// lastDay is the last day of the next month of that number that is not over.
func (r *reader) lastDay(m int) rules.Date {
	y := r.year
	if m < r.month {
		y++
	}
	return rules.DateOf(time.Date(y, time.Month(m)+1, 0, 0, 0, 0, 0, time.UTC))
}

// emitDate notes a date; an impossible one ("" ) is left alone.
func (r *reader) emitDate(i, j int, d rules.Date, tier int8) int {
	if d == "" {
		return i
	}
	if tier >= 2 {
		r.sameDay(i, d)
	}
	r.emit(i, j, fact{kind: fDate, date: d, tier: tier})
	return j
}

// sameDay lets the date d, at item i, say which day a day of the week just before it is: "by Palm Sunday, that's 21 March".
func (r *reader) sameDay(i int, d rules.Date) {
	n := len(r.facts)
	if n == 0 || r.facts[n-1].kind != fDate || r.facts[n-1].tier >= 2 {
		return
	}
	that := false
	for k := int(r.facts[n-1].i1); k < i; k++ {
		switch it := r.at(k); {
		case it.kind == iPunct && (it.ch == ',' || it.ch == '(' || it.ch == '=' || it.ch == '-' || it.ch == ':'), it.word == wThe, it.word == wIs, it.word == wOn:
		case it.kind <= iPhrase && it.ntok <= 2 && thatIs[r.wordAt(k)]:
			that = true
		default:
			return
		}
	}
	if that || r.punct(i-1, '(') {
		r.facts[n-1].date = d
	}
}

// thatIs are words that say a day again by its date.
var thatIs = map[string]bool{"that": true, "thats": true, "which": true, "whichs": true, "ie": true, "meaning": true, "s": true, "aka": true}

// notDays follow an ordinal that counts something else: "the 3rd graders", "the 5th floor".
var notDays = map[string]bool{"grade": true, "grader": true, "graders": true, "floor": true, "year": true, "years": true, "annual": true, "time": true, "edition": true,
	"anniversary": true, "jubilee": true, "street": true, "st": true, "ave": true, "avenue": true, "place": true, "form": true, "class": true, "batch": true, "round": true, "color": true,
	"colour": true, "line": true, "item": true, "one": true, "print": true, "order": true, "birthday": true, "generation": true, "period": true, "team": true}
