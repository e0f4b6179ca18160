package intake

import (
	"strconv"
	"strings"

	"strikeoff/rules"
)

// numericDate reads a date that begins with a number: "27 feb", "20 January", "12/18", "2027-01-15", "17.07.2026", "2 weeks from now".
func (r *reader) numericDate(i int) int {
	a := r.at(i)
	if j := r.shift(i, int(a.num)); j > i {
		return j
	}
	if j := r.spanDate(i); j > i {
		return j
	}
	if a.frac {
		return r.dotted(i)
	}
	if a.spelled && a.num > 31 {
		return i
	}
	v := int(a.num)
	// day and month in words
	j := r.ordinal(i + 1)
	ord := j > i+1
	for r.at(j).word == wOf || r.at(j).word == wDe || r.punct(j, '-') && r.at(j).glued || r.punct(j, '.') && r.at(j).glued && a.digits > 0 && r.at(j+1).sense(sMonth) != nil && r.monthAfterDot(j+1) {
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
	if u := r.at(i + 1); (u.is(cMonth) || u.is(cDays)) && a.num < 60 && (r.at(i+2).word == wFrom || r.at(i+2).word == wordTime) && (r.at(i+3).is(cToday) || r.at(i+3).word == wordNow || r.at(i+2).word == wordTime) {
		day := r.today().AddDate(0, 0, v)
		if u.is(cMonth) {
			day = r.today().AddDate(0, v, 0)
		}
		return r.emitDate(i, i+4, rules.DateOf(day), 1)
	}
	if r.at(i+1).is(cWeek) && a.num < 30 && (r.at(i+2).word == wFrom || r.at(i+2).word == wordOut || r.at(i+2).word == wordTime) {
		e := i + 3
		if r.at(e).is(cToday) || r.at(e).word == wordNow {
			e++
		}
		return r.emitDate(i, e, rules.DateOf(r.today().AddDate(0, 0, 7*v)), 1)
	}
	if p := r.at(i - 1); ord && v >= 1 && v <= 31 && (p.is(cDue) || p.is(cHand)) && p.word != wOn && p.word != wFor && r.clauseEnds(i+2) { // "by 11th"
		if m := r.nearMonth(i); m != 0 {
			return r.emitDate(i, i+2, r.coming(m, v), 1)
		}
		return r.emitDate(i, i+2, r.dayOfMonth(v), 1)
	}
	if r.at(i+1).is(cWeek) && a.num < 30 && r.wordAt(i+2) == "turnaround" {
		return r.emitDate(i, i+3, rules.DateOf(r.today().AddDate(0, 0, 7*v)), 1)
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
	if sep == '.' && !full && r.punct(i+3, '.') && r.at(i+3).glued && valid(w, v) && (r.dateCue(i) || r.clauseEnds(i+4)) { // "17.12."
		return r.emitDate(i, i+4, r.coming(w, v), 1)
	}
	if sep == '-' && r.at(i+3).word == wX && r.at(i+4).kind == iNum { // ages, and how many of each: "3-4 x 8"
		return i
	}
	if sep == '-' && !full && (r.dateCue(i) || r.punct(i-1, '/') && !r.at(i-1).glued && r.clauseEnds(i+3)) && !r.at(i+3).glued { // "/ soft hand / 8-14"
		sep = '/'
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
	if sep != '/' || r.punct(i+3, '/') && r.at(i+3).glued || r.punct(i+3, '%') || r.at(i+3).word == wC && r.at(i+3).glued || r.measured(i+3) {
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
	e := i + 3
	switch r.at(i + 2).word {
	case wordEarlier, wordSooner:
		days = -days
	case wordLater:
	default:
		sign := r.pushed(i)
		if sign == 0 || !r.clauseEnds(i+2) {
			return i
		}
		days *= sign
		e--
	}
	if n > 60 {
		return i
	}
	r.emit(i, e, fact{kind: fDate, n: days, tier: 1})
	return e
}

// pushed reports whether the stretch at item i is one by which something is put off, 1, or brought forward, -1: "can we push it a week".
func (r *reader) pushed(i int) int {
	for k := i - 1; k > i-5; k-- {
		switch r.wordAt(k) {
		case "push", "pushed", "delay", "delayed", "postpone", "postponed", "extend", "slip", "slipped", "back":
			return 1
		case "forward":
			return -1
		}
	}
	return 0
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
		case p.is(cWant) && k < i-1 && theGoods[r.wordAt(i-1)]: // "wants em 4/3"
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

// theGoods are words that stand for what was ordered.
var theGoods = map[string]bool{"it": true, "em": true, "them": true, "these": true, "those": true, "everything": true, "stuff": true}

// dateEnds reports whether the bare pair of numbers at item i can only be a day: it is too large for ink counts, and stands by itself.
func (r *reader) dateEnds(i int) bool {
	a, b := r.at(i), r.at(i+2)
	end := r.at(i + 3)
	alone := end.kind == iBreak || end.kind == iPart || end.kind == iPunct || end.kind == iPhrase && !end.is(cPrintWord) && !end.is(cInkWord) && (end.is(cOrderVerb) || end.is(cSuits) || end.is(cHand) || end.is(cDue) || r.wordAt(i+3) == "now") || end.kind == iWord
	begins := r.at(i-1).kind == iBreak || r.at(i-1).kind == iPunct || r.at(i-1).kind == iPart
	if a.num <= 8 && b.num <= 8 && !begins {
		return false
	}
	return alone || a.num > 12 || b.num > 12
}

// dotted reads "30.04.", which looks like a decimal number, at item i.
func (r *reader) dotted(i int) int {
	a := r.at(i)
	d, m, ok := strings.Cut(r.text[a.start:a.end], ".")
	if !ok || len(d) > 2 || len(m) > 2 || !r.punct(i+1, '.') || !r.at(i+1).glued || r.at(i+2).glued || !r.dateCue(i) {
		return i
	}
	day, errD := strconv.Atoi(d)
	month, errM := strconv.Atoi(m)
	if errD != nil || errM != nil || !valid(month, day) {
		return i
	}
	return r.emitDate(i, i+2, r.coming(month, day), 1)
}

// monthAfterDot reports whether the month at item i goes with the day before its dot: "3. Juni", "on 22. May.". A word that is also a month begins a
// sentence there unless nothing follows it.
func (r *reader) monthAfterDot(i int) bool {
	if n := r.at(i + 1); n.kind == iNum {
		return n.digits == 4 && n.num >= 2000 && n.num < 2100
	}
	return !r.at(i).sense(sMonth).weak || r.at(i).upper && r.clauseEnds(i+1)
}
