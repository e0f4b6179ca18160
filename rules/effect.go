package rules

// The effects that a rule can have. Each says its reason where the reason is about a method.

// choice is the choice of a method on this bench.
func (b *bench) choice(m Method) *Choice {
	for i := range b.choices { // settle sorts them: look by name
		if b.choices[i].Method == m {
			return &b.choices[i]
		}
	}
	return &Choice{Verdict: No}
}

func (b *bench) because(m Method, text string) *Choice {
	c := b.choice(m)
	b.fire()
	if text != "" {
		c.Why = append(c.Why, Reason{Rule: b.now.id, Text: text, Basis: b.now.basis})
		b.heft[slot(m)] = append(b.heft[slot(m)], 0)
	}
	return c
}

// slot is a method's place in Methods.
func slot(m Method) int {
	for i, k := range Methods {
		if k == m {
			return i
		}
	}
	return 0
}

// weigh gives the last reason of a method more weight among its reasons.
func (b *bench) weigh(m Method, by float64) {
	if h := b.heft[slot(m)]; len(h) > 0 {
		h[len(h)-1] += by
	}
}

func (b *bench) fire() { b.sheet.fired[b.now.at] = true }

// veto takes a method out.
func (b *bench) veto(m Method, text string) {
	c := b.because(m, text)
	c.Verdict = No
	if n := len(c.Why); n > 0 && text != "" {
		c.Why[n-1].Veto = true
		b.weigh(m, 1000)
	}
}

// limit lets a method be no better than v.
func (b *bench) limit(m Method, v Verdict, text string) {
	c := b.because(m, text)
	if rank(v) > rank(c.Verdict) {
		c.Verdict = v
		if text != "" {
			b.weigh(m, 30*float64(rank(v)))
		}
	}
}

// move changes a method's score by points.
// Without a text of its own it goes with the reason that the same rule gave just before.
func (b *bench) move(m Method, points float64, text string) {
	c := b.because(m, text)
	c.Score += points
	if n := len(c.Why); n > 0 && c.Why[n-1].Rule == b.now.id {
		c.Why[n-1].Points += points
	}
}

// base sets what goes under the colours.
func (b *bench) base(m Method, base Base, text string) {
	b.because(m, text).Setup.Base = base
	switch {
	case text == "" || base == NoBase:
	case base == WhiteBase || base == Pretreat:
		b.weigh(m, 10)
	default:
		b.weigh(m, 45)
	}
}

// add puts an additive into the ink, once.
func (b *bench) add(m Method, a Additive, text string) {
	c := b.because(m, text)
	if !has(c.Setup.Additives, a) {
		c.Setup.Additives = append(c.Setup.Additives, a)
	}
}

// heat sets the heat window, degrees Celsius and seconds.
func (b *bench) heat(m Method, lo, hi, short, long float64, text string) {
	b.because(m, text).Setup.Heat = &Heat{TempC: [2]float64{lo, hi}, Seconds: [2]float64{short, long}}
}

// caution says something to mind, once an order.
func (b *bench) caution(code string, s Severity, text string) {
	b.fire()
	b.sheet.caution(b.now, code, s, text)
}

// stop says that a person must settle something before this print is made, and leaves the print without a pick. Where a person of the shop
// picked all the same the stop stays on the plan and the print is tested: a lead who signs it off sees both.
func (b *bench) stop(code, text string) {
	b.caution(code, Stop, text)
	if b.person {
		b.limit(b.pick, Test, "Picked by a person in spite of a stop: settle what it says before this is signed off.")
		return
	}
	b.held = true
}

// ask puts a question to the customer; the higher weight is asked first.
func (b *bench) ask(weight int, field, text string) {
	b.fire()
	b.sheet.ask(weight, field, text)
}

// assume says what was taken as usual.
func (b *bench) assume(field, value, text string) {
	b.fire()
	b.sheet.assume(Assumption{Field: field, Value: value, Text: text})
}

// check puts a step on the test print's list; where two rules ask for the same step the longer wait stands.
func (b *bench) check(c Check) {
	b.fire()
	b.sheet.check(c)
}

func (s *sheet) caution(r *rule, code string, sev Severity, text string) {
	if s.once("c", code, text) {
		s.cautions = append(s.cautions, placed[Caution]{Caution{Code: code, Severity: sev, Text: text, Basis: r.basis}, r.at})
	}
}

func (s *sheet) ask(weight int, field, text string) {
	if s.once("q", field, text) {
		s.questions = append(s.questions, weighed[Question]{Question{Field: field, Text: text, Quick: quick(field)}, weight})
	}
}

// quick is the likeliest answers to a question.
func quick(field string) List[string] {
	switch field {
	case "fibres":
		return List[string]{"100% cotton", "50/50 cotton polyester", "tri-blend", "100% polyester"}
	case "colours":
		return List[string]{"white", "black", "navy", "heather grey"}
	case "place":
		return List[string]{"front", "back", "left chest"}
	case "inks":
		return List[string]{"white", "black", "full colour"}
	}
	return nil
}

func (s *sheet) assume(a Assumption) {
	if s.once("a", a.Field, a.Text) {
		s.assumptions = append(s.assumptions, a)
	}
}

func (s *sheet) check(c Check) {
	if old, ok := s.checks[c.Code]; ok && old.WaitHours > c.WaitHours {
		return
	} else if ok && old.WaitHours == c.WaitHours && old.How >= c.How {
		return // whichever line comes first, the same step stands
	}
	s.checks[c.Code] = c
}

// once reports whether this is said for the first time.
func (s *sheet) once(parts ...string) bool {
	key := ""
	for _, p := range parts {
		key += p + "\x00"
	}
	if s.seen[key] {
		return false
	}
	s.seen[key] = true
	return true
}

// rank orders verdicts from best, 0, to worst.
func rank(v Verdict) int {
	switch v {
	case Yes:
		return 0
	case Test:
		return 1
	case Expert:
		return 2
	}
	return 3
}
