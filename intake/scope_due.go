package intake

// date takes in a day and judges how clearly it is the day the goods are needed.
func (s *scope) date(st sentence, x *fact) {
	r := s.r
	if x.date == "" {
		if s.due != "" && !x.neg && !x.dead { // a week earlier
			s.due = s.due.AddDays(x.n)
		}
		return
	}
	if x.neg {
		if s.due != "" && x.date == s.due {
			s.due, s.dueSet, s.tier = "", false, 0
		}
		return
	}
	if x.dead || x.tier < 0 && !r.at(int(x.i0)-1).is(cDue) {
		return
	}
	if r.ofPapers(st, int(x.i0)) || r.awayTill(int(x.i0)) {
		return
	}
	if x.fix && s.dueSet && s.mendedDue(st, x) {
		x.fix = false
	}
	score := int(x.tier)
	cued := false
	if s.dueSet && r.saidThen(st, int(x.i0)) { // "she said 10/30, then 10/23"
		x.fix = true
	}
	if k, ok := r.isOnDay(int(x.i0)); ok {
		score -= 5
		if it := r.at(k); (it.kind == iWord || it.is(cEvent)) && r.wordAt(int(x.i0)-1) == "on" || it.is(cOccasion) && r.wordAt(k) != "meet" && r.wordAt(k) != "opening" { // "the walk is on Sunday"
			s.use(&fact{s: "event"})
		}
	}
	for i := int(x.i0) - 1; i > int(x.i0)-3; i-- { // "by the 27th, say the 25th", "closed until then, so the 11th"
		if w := r.wordAt(i); w == "say" || w == "digamos" || w == "so" && (i == int(x.i0)-1 || r.wordAt(i+1) == "please" || r.wordAt(i+1) == "its") {
			score += 6
		}
	}
	if r.wordAt(int(x.i0)-1) == "after" { // "I'll be in touch after the 12th"
		score -= 6
	}
	if (s.dueSet || st.part > 0) && r.movedTo(st, int(x.i0)) {
		x.fix = true
		score += 4
	}
	if r.wordAt(int(x.i1)) == "now" { // "orig said 4/23, 5/7 now"
		score += 5
		x.fix = s.dueSet
	}
	if s.dueSet && r.butSince(st, int(x.i0)) {
		score += 3
	}
	if p := r.at(int(x.i0) - 1); (p.is(cGarmentWord) || p.sense(sGarment) != nil) && r.clauseEnds(int(x.i1)) && p.end-p.start > 2 { // "proof 2/24, goods 3/10"
		score += 3
		cued = true
	}
	if r.wordAt(int(x.i0)-2) == "when" && r.punct(int(x.i0)-1, ':') {
		score += 4
		cued = true
	}
	for i := int(x.i0) - 1; i >= st.i0 && i > int(x.i0)-8; i-- {
		it := r.at(i)
		if it.kind == iPunct && (it.ch == ',' && i < int(x.i0)-1 || it.ch == '(') {
			break
		}
		if it.is(cFix) && it.kind == iPhrase && it.ntok > 1 && x.fix { // "since the 21st is a holiday make it the 22nd"
			score += 3
			cued = true
			break
		}
		if it.sense(sGarment) != nil && cued {
			break
		}
		if it.is(cHand) && !it.is(cEvent) {
			score += 7
			cued = true
		}
		if it.is(cDue) && !(it.word == wEl) || it.word == wFor && i >= int(x.i0)-2 {
			if !cued {
				score += 4
			}
			cued = true
		}
		if !cued && it.is(cWant) && it.is(cOrderVerb) && i >= int(x.i0)-4 {
			score += 3
			cued = true
		}
		if it.is(cShip) && !it.is(cHand) {
			score -= 6
		}
		if it.is(cEvent) || it.sense(sUse) != nil && it.sense(sUse).val == "event" && !cued {
			score -= 5
		}
		if it.is(cAway) && i < int(x.i0)-1 { // "I'm out till Monday"
			score -= 8
		}
		if it.is(cAgo) || it.is(cTalk) && !it.is(cHand) && !it.is(cDue) {
			score -= 6
		}
	}
	for i := int(x.i1); i < st.i1 && i < int(x.i1)+5; i++ {
		it := r.at(i)
		if it.kind == iPunct && it.ch == ',' || it.sense(sDay) != nil {
			break
		}
		if it.is(cUnfit) { // "Friday's no good"
			score -= 9
			break
		}
		if it.is(cSuits) || it.is(cHand) {
			score += 2
			if w := r.wordAt(int(x.i0) - 1); w == "but" || (w == "the" || w == "on") && r.wordAt(int(x.i0)-2) == "but" { // "they wanted the 10th, but the 15th is fine"
				score += 4
			}
			cued = true
		}
		if it.is(cEvent) && i == int(x.i1) {
			score -= 5
		}
	}
	if x.tier <= 0 && !cued && (!x.fix || s.amend) {
		p := r.at(int(x.i0) - 1)
		if p.is(cThis) {
			p = r.at(int(x.i0) - 2)
		}
		if !((p.kind == iPunct || p.kind == iBreak) && int(x.i1) >= st.i1) || x.tier < 0 {
			return
		}
		score--
	}
	if score < -2 && s.dueSet {
		return
	}
	if score < 0 && !x.fix && !cued {
		score -= 4
	}
	if score <= -8 {
		return
	}
	switch {
	case !s.dueSet, x.fix && score > -3, score > s.tier:
		if x.fix && s.dueSet {
			score = max(score, s.tier)
		}
		s.due, s.tier, s.dueSet = x.date, score, true
	}
}

// mendedDue reports whether the correction that holds for the day x was spent on another before it: "no make that 6/2, the bus leaves on the 3rd".
func (s *scope) mendedDue(st sentence, x *fact) bool {
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if y.kind != fDate || !y.fix || int(y.i1) > int(x.i0) {
			continue
		}
		for i := int(y.i1); i < int(x.i0); i++ {
			if it := s.r.at(i); it.is(cFix) || it.is(cNo) || it.word == wordSorry && it.word != 0 || it.is(cBut) {
				return false
			}
		}
		return true
	}
	return false
}

// saidThen reports whether the day at item i was said after another in its sentence: "she said 10/30 then came back in and said 10/23".
func (r *reader) saidThen(st sentence, i int) bool {
	then := false
	for k := i - 1; k >= st.i0; k-- {
		then = then || r.wordAt(k) == "then"
		if r.at(k).fact && then {
			for f := st.f0; f < st.f1; f++ {
				if x := &r.facts[f]; x.kind == fDate && int(x.i0) <= k && k < int(x.i1) {
					return true
				}
			}
		}
	}
	return false
}

// movedTo reports whether the day at item i is one that another day was moved to: "she pushed it to 5/12", "brought forward to Friday".
func (r *reader) movedTo(st sentence, i int) bool {
	k := i - 1
	switch r.wordAt(k) {
	case "to", "until", "till", "as":
	default:
		return false
	}
	for n := 0; n < 7 && k >= st.i0; n++ {
		k--
		switch r.wordAt(k) {
		case "pushed", "push", "moved", "move", "moving", "bumped", "bump", "shifted", "shift", "slid", "slide", "slipped", "put", "brought", "bring", "changed", "change", "delayed", "extended", "extend", "revised", "pulled", "pull":
			return true
		}
	}
	return false
}

// butSince reports whether a "but" stands between an earlier day of the sentence and the one at item i.
func (r *reader) butSince(st sentence, i int) bool {
	for f := st.f1 - 1; f >= st.f0; f-- {
		if x := &r.facts[f]; x.kind == fDate && int(x.i1) <= i {
			for k := int(x.i1); k < i; k++ {
				if r.wordAt(k) == "but" {
					return true
				}
			}
			return false
		}
	}
	return false
}
