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
		return r.emitDate(i, i+1, rules.DateOf(r.today().AddDate(0, 0, 1)), 0)
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
			switch u := r.at(i + 2); {
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
			if r.at(i+3).word == wOf && r.at(i+4).sense(sMonth) != nil || r.at(i+3).sense(sMonth) != nil {
				return i
			}
			return r.emitDate(i, i+3, r.dayOfMonth(int(n.num)), 1)
		}
		if v := r.ordinalWord(i + 1); v > 3 && (r.at(i-1).is(cDue) || r.at(i-1).is(cHand) || r.at(i-1).word == wOn) && r.at(i+2).word != wOf && r.at(i+2).sense(sMonth) == nil {
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

// ordinal is the item after an ordinal ending at item i.
func (r *reader) ordinal(i int) int {
	o := r.at(i)
	if o.glued && (o.word == wSt || o.word == wNd || o.word == wRd || o.word == wTh) {
		return i + 1
	}
	return i
}

// yearAt reads a year at item i, after a comma or "de" if need be; y is 0 where there is none.
func (r *reader) yearAt(i int) (y, end int) {
	j := i
	if r.punct(j, ',') || r.at(j).word == wDe || r.at(j).word == wordDel {
		j++
	}
	if n := r.at(j); n.kind == iNum && n.digits == 4 && n.num >= 2000 && n.num < 2100 && r.goods(j) < 2 {
		return int(n.num), j + 1
	}
	return 0, i
}

// monthDate reads "feb 27", "October 7, 2026", "may"; s is the month at item i.
func (r *reader) monthDate(i int, s *sense) int {
	j := i + 1
	if r.punct(j, '.') && r.at(j).glued && r.at(j+1).kind == iNum {
		j++
	}
	if r.at(j).word == wThe {
		j++
	}
	n := r.at(j)
	o := r.ordinal(j + 1)
	if n.kind == iNum && !n.frac && n.num >= 1 && n.num <= 31 && n.digits <= 2 && valid(s.num, int(n.num)) && (!r.measured(j+1) || r.punct(j+1, '"')) && !(r.punct(j+1, '%')) && (r.goods(j) < 2 || o > j+1) && (!n.spelled || n.num > 3) {
		j = o
		if q := j + 1; n.spelled && (r.at(j).word == wTh && !r.at(j).glued) {
			j = q
		}
		if y, e := r.yearAt(j); y != 0 {
			return r.emitDate(i, e, exact(y, s.num, int(n.num)), 2)
		}
		return r.emitDate(i, j, r.coming(s.num, int(n.num)), 2)
	}
	if v := r.ordinalWord(j); v != 0 && valid(s.num, v) {
		return r.emitDate(i, j+1, r.coming(s.num, v), 2)
	}
	if s.weak && !r.monthCue(i) { // "may", "march" are other words too
		return i
	}
	if y, e := r.yearAt(i + 1); y != 0 {
		return r.emitDate(i, e, rules.DateOf(time.Date(y, time.Month(s.num)+1, 0, 0, 0, 0, 0, time.UTC)), 0)
	}
	return r.emitDate(i, i+1, r.lastDay(s.num), 0)
}

// monthCue reports whether a word that is also a month is one at item i.
func (r *reader) monthCue(i int) bool {
	p := r.at(i - 1)
	return p.is(cDue) && p.word != wOn || p.word == wIn || p.is(cEnd) || p.is(cMid)
}

// ordinalWord is the day that a spelled ordinal names, 0 for none.
func (r *reader) ordinalWord(i int) int {
	it := r.at(i)
	if it.end == it.start {
		return 0
	}
	return ordinalWords[foldWord(r.text[it.start:it.end])]
}

// ordinalDate reads "sixth of March", "the third".
func (r *reader) ordinalDate(i, v int) int {
	j := i + 1
	if r.at(j).word == wOf || r.at(j).word == wDe {
		j++
	}
	if s := r.at(j).sense(sMonth); s != nil && valid(s.num, v) {
		return r.emitDate(i, j+1, r.coming(s.num, v), 2)
	}
	return i
}

var ordinalWords = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
	"eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17, "eighteenth": 18,
	"nineteenth": 19, "twentieth": 20, "thirtieth": 30, "primero": 1}

// weekdayDate reads "Friday", "Friday the 13th of August", "next friday", "Saturday October 10"; d is the weekday at item i.
func (r *reader) weekdayDate(i, d int) int {
	j := i + 1
	if r.punct(j, ',') || r.punct(j, '.') && r.at(j).glued {
		j++
	}
	if r.at(j).word == wThe || r.at(j).word == wEl || r.at(j).word == wDe {
		j++
	}
	n := len(r.facts)
	from := i
	if r.at(i - 1).is(cNext) {
		from = i - 1
	}
	if r.at(j).sense(sMonth) != nil || r.at(j).kind == iNum && r.goods(j) < 2 {
		if e := r.dayAfter(j, from); e > j {
			return e
		}
	}
	r.facts = r.facts[:n]
	if r.at(i-1).is(cNext) && r.at(i-1).kind == iPhrase && !r.at(i-1).is(cThis) {
		return r.emitDate(from, i+1, rules.DateOf(r.weekday(d, 1)), 1)
	}
	for k := i + 1; k < i+3; k++ { // "viernes de la próxima semana", "friday next week"
		if r.at(k).is(cNextWeek) || r.at(k).is(cNext) && vocab.names[r.at(k).word] == "siguiente" {
			return r.emitDate(i, k+1, rules.DateOf(r.weekday(d, 1)), 1)
		}
		if r.at(k).is(cNext) && r.at(k).kind == iPhrase && r.at(k+1).is(cWeek) {
			return r.emitDate(i, k+2, rules.DateOf(r.weekday(d, 1)), 1)
		}
	}
	t := r.today().AddDate(0, 0, (d-int(r.today().Weekday())+7)%7)
	return r.emitDate(i, i+1, rules.DateOf(t), 0)
}

// dayAfter reads the day and month after a weekday at item j; the date is noted from item from on.
func (r *reader) dayAfter(j, from int) int {
	var e int
	if s := r.at(j).sense(sMonth); s != nil {
		e = r.monthDate(j, s)
	} else {
		e = r.numericDate(j)
		if e == j { // "Friday the 13th"
			n := r.at(j)
			if o := r.ordinal(j + 1); n.kind == iNum && n.num <= 31 && o > j+1 {
				e = r.emitDate(j, o, r.dayOfMonth(int(n.num)), 1)
			}
		}
	}
	if e > j && len(r.facts) > 0 && r.facts[len(r.facts)-1].kind == fDate {
		r.facts[len(r.facts)-1].i0 = int32(from)
		r.facts[len(r.facts)-1].tier = max(r.facts[len(r.facts)-1].tier, 2)
		return e
	}
	return j
}

// numericDate reads a date that begins with a number: "27 feb", "20 January", "12/18", "2027-01-15", "17.07.2026", "2 weeks from now".
func (r *reader) numericDate(i int) int {
	a := r.at(i)
	if j := r.shift(i, int(a.num)); j > i {
		return j
	}
	if a.frac || a.spelled && a.num > 31 {
		return i
	}
	v := int(a.num)
	// day and month in words
	j := r.ordinal(i + 1)
	ord := j > i+1
	for r.at(j).word == wOf || r.at(j).word == wDe || r.punct(j, '-') && r.at(j).glued {
		j++
	}
	if s := r.at(j).sense(sMonth); s != nil && v >= 1 && v <= 31 && valid(s.num, v) && (!s.weak || ord || r.at(j).upper || r.at(j).word == 0 || a.digits > 0 && r.monthish(j)) {
		e := j + 1
		if r.punct(e, '.') && r.at(e).glued && r.at(e+1).kind == iNum && r.at(e+1).digits == 4 || r.punct(e, '-') && r.at(e).glued {
			e++
		}
		if y, z := r.yearAt(e); y != 0 {
			return r.emitDate(i, z, exact(y, s.num, v), 2)
		}
		return r.emitDate(i, j+1, r.coming(s.num, v), 2)
	}
	if r.at(i+1).is(cWeek) && a.num < 30 && (r.at(i+2).word == wFrom || r.at(i+2).word == wordOut || r.at(i+2).word == wordTime) {
		e := i + 3
		if r.at(e).is(cToday) || r.at(e).word == wordNow {
			e++
		}
		return r.emitDate(i, e, rules.DateOf(r.today().AddDate(0, 0, 7*v)), 1)
	}
	// digits with marks
	if a.digits == 0 || !r.at(i+1).glued || r.at(i+1).kind != iPunct {
		return i
	}
	sep := r.at(i + 1).ch
	b := r.at(i + 2)
	if sep != '/' && sep != '-' && sep != '.' || b.kind != iNum || !b.glued || b.frac || b.digits > 2 {
		return i
	}
	w := int(b.num)
	third := r.at(i + 4)
	full := r.punct(i+3, sep) && r.at(i+3).glued && third.kind == iNum && third.glued && !third.frac
	if a.digits == 4 && full && valid(w, int(third.num)) { // 2027-01-15
		return r.emitDate(i, i+5, exact(v, w, int(third.num)), 2)
	}
	if a.digits > 2 || sep != '/' && !full {
		return i
	}
	m, d := v, w
	if r.opt.DayFirst || sep == '.' || m > 12 {
		m, d = w, v
	}
	if !valid(m, d) {
		m, d = d, m
	}
	if !valid(m, d) {
		return i
	}
	if full && (r.punct(i+5, '/') || r.punct(i+5, '-')) && r.at(i+5).glued { // 12/12/12/12
		return i
	}
	if full && (third.digits == 4 || third.digits == 2) {
		y := int(third.num)
		if y < 100 {
			y += 2000
		}
		if y < 2000 || y > 2100 {
			return i
		}
		return r.emitDate(i, i+5, exact(y, m, d), 2)
	}
	if sep != '/' || r.punct(i+3, '/') || r.punct(i+3, '%') || r.at(i+3).word == wC && r.at(i+3).glued || r.measured(i+3) {
		return i
	}
	if v+w == 100 || r.at(i+3).is(cColourWord) || r.at(i+3).sense(sFibre) != nil || r.at(i+3).sense(sFabric) != nil {
		return i
	}
	if !r.dateCue(i) && !r.dateEnds(i) {
		return i
	}
	return r.emitDate(i, i+3, r.coming(m, d), 1)
}

// shift reads "a week earlier", "3 days later": a change of the day that stands, in n weeks or days.
func (r *reader) shift(i, n int) int {
	days := 0
	switch u := r.at(i + 1); {
	case u.is(cWeek):
		days = 7 * n
	case u.is(cDays):
		days = n
	default:
		return i
	}
	switch r.at(i + 2).word {
	case 0:
		return i
	case wordEarlier, wordSooner:
		days = -days
	case wordLater:
	default:
		return i
	}
	if n > 60 {
		return i
	}
	r.emit(i, i+3, fact{kind: fDate, n: days, tier: 1})
	return i + 3
}

// monthish reports whether "march" or "may" at item j, after a number, is the month.
func (r *reader) monthish(j int) bool {
	n := r.at(j + 1)
	return n.kind == iBreak || n.kind == iPunct || n.kind == iPart || n.kind == iNum && n.digits == 4
}

// dateCue reports whether words before item i say that a day follows.
func (r *reader) dateCue(i int) bool {
	for k := i - 1; k >= 0 && k > i-6; k-- {
		p := r.at(k)
		switch {
		case p.word == wFor, p.word == wOn && k == i-1:
			return true
		case p.is(cDue), p.is(cHand), p.is(cEvent), p.is(cShip), p.sense(sDay) != nil, p.is(cMovedFrom) && p.word != wOf, p.is(cFix):
			return true
		case p.kind == iBreak || p.kind == iPart || p.kind == iPunct && (p.ch == '.' || p.ch == ','):
			return false
		case p.kind == iNum || p.sense(sGarment) != nil || p.sense(sPlace) != nil || p.sense(sColour) != nil:
			return false
		}
	}
	return false
}

// dateEnds reports whether the bare pair of numbers at item i can only be a day: it is too large for ink counts, and stands by itself.
func (r *reader) dateEnds(i int) bool {
	a, b := r.at(i), r.at(i+2)
	end := r.at(i + 3)
	alone := end.kind == iBreak || end.kind == iPart || end.kind == iPunct || end.kind == iPhrase && !end.is(cPrintWord) && !end.is(cInkWord) && (end.is(cOrderVerb) || end.is(cHand) || end.is(cDue)) || end.kind == iWord
	begins := r.at(i-1).kind == iBreak || r.at(i-1).kind == iPunct || r.at(i-1).kind == iPart
	if a.num <= 8 && b.num <= 8 && !begins {
		return false
	}
	return alone || a.num > 12 || b.num > 12
}

// emitDate notes a date; an impossible one ("" ) is left alone.
func (r *reader) emitDate(i, j int, d rules.Date, tier int8) int {
	if d == "" {
		return i
	}
	r.emit(i, j, fact{kind: fDate, date: d, tier: tier})
	return j
}
