package intake

import (
	"strings"
	"time"

	"strikeoff/rules"
)

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
	if v := r.ordinalWord(j + 1); n.kind == iNum && n.spelled && (n.num == 20 || n.num == 30) && v > 0 && v < 10 && valid(s.num, int(n.num)+v) { // april twenty fourth
		return r.emitDate(i, j+2, r.coming(s.num, int(n.num)+v), 2)
	}
	o := r.ordinal(j + 1)
	if n.kind == iNum && !n.frac && n.num >= 1 && n.num <= 31 && n.digits <= 2 && valid(s.num, int(n.num)) && (!r.measured(j+1) || r.punct(j+1, '"')) && !(r.punct(j+1, '%')) && (r.goods(j) < 2 || o > j+1 || r.latest(j+1)) && (!n.spelled || n.num > 3) {
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

// latest reports whether item i says of the day before it that it is the last that will do: "May 28 tops".
func (r *reader) latest(i int) bool { return r.at(i).is(cSuits) && r.clauseEnds(i+1) }

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
	if r.weeklyThing(i + 1) {
		return i
	}
	n := len(r.facts)
	from := i
	if r.at(i - 1).is(cNext) {
		from = i - 1
	}
	if e := r.weekdayTheDay(j, from, d); e > j {
		return e
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
	if w := r.wordAt(i + 1); strings.HasPrefix(w, "before") || strings.HasPrefix(w, "after") { // counted from a day that is not named
		return i
	}
	t := r.today().AddDate(0, 0, (d-int(r.today().Weekday())+7)%7)
	if days, n := r.weeksOn(i + 1); n > 0 { // "Friday week"
		return r.emitDate(i, i+1+n, rules.DateOf(t.AddDate(0, 0, days)), 1)
	}
	return r.emitDate(i, i+1, rules.DateOf(t), 0)
}

// weeklyThing reports whether item i goes on from a weekday to something that is held every week: "Wednesday night league", "Sunday market".
func (r *reader) weeklyThing(i int) bool {
	switch r.wordAt(i) {
	case "night", "morning", "evening", "afternoon":
		i++
	}
	for k := i; k < i+2; k++ {
		it := r.at(k)
		if it.kind > iPhrase || it.is(cDue) || it.is(cHand) || it.is(cSuits) {
			return false
		}
		if it.word != 0 && it.is(cVenue) || r.wordAt(k) == "class" || r.wordAt(k) == "classes" {
			return true
		}
		if it.sense(sUse) == nil || it.sense(sUse).val != "athletic" {
			return false
		}
	}
	return false
}

// weekdayTheDay reads "Friday the 16th" at the number, item j: the next month in which that day is that weekday. A day that names its month is
// left alone.
func (r *reader) weekdayTheDay(j, from, weekday int) int {
	n, e := r.at(j), j
	day := 0
	if o := r.ordinal(j + 1); n.kind == iNum && !n.frac && n.num >= 1 && n.num <= 31 && o > j+1 {
		day, e = int(n.num), o
	} else if n.kind == iNum && n.spelled && n.num == 20 && r.ordinalWord(j+1) != 0 && r.ordinalWord(j+1) < 10 { // twenty seventh
		day, e = 20+r.ordinalWord(j+1), j+2
	} else if v := r.ordinalWord(j); v != 0 {
		day, e = v, j+1
	}
	if day == 0 || r.at(e).word == wOf || r.at(e).word == wDe || r.at(e).sense(sMonth) != nil {
		return j
	}
	for m := range 14 {
		t := time.Date(r.year, time.Month(r.month+m), day, 0, 0, 0, 0, time.UTC)
		if t.Day() == day && int(t.Weekday()) == weekday && !t.Before(r.today()) {
			r.emitDate(j, e, rules.DateOf(t), 2)
			r.facts[len(r.facts)-1].i0 = int32(from)
			return e
		}
	}
	return j
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
