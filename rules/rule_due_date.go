package rules

import "strikeoff/rules/source"

var dueDate = &rule{
	id: "due-date", basis: source.Invented,
	about: "The test print's waits, the run and the shop's working days must fit before the due date.",
	close: func(s *sheet, r *rule) {
		sch, ok := s.schedule(s.testPrint())
		if !ok {
			return
		}
		s.fired[r.at] = true
		s.dates = sch
		if sch.CanBeMet {
			if sch.LastTest != "" {
				s.caution(r, "schedule", Info, "The test print must start by "+dayWord(sch.LastTest)+": it takes "+days(sch.TestDays)+" to read, and the run "+days(sch.RunDays)+" before "+dayWord(sch.Due)+".")
			} else {
				s.caution(r, "schedule", Info, "The run must start by "+dayWord(sch.RunStarts)+" to be ready for "+dayWord(sch.Due)+".")
			}
			return
		}
		text := "The date cannot be met: for " + dayWord(sch.Due)
		if sch.LastTest != "" {
			text += " the test print had to start by " + dayWord(sch.LastTest)
		} else {
			text += " the run had to start by " + dayWord(sch.RunStarts)
		}
		text += ". Ways out: a later date, a part of the order first"
		if sch.LastTest != "" {
			if m := s.untested(); m != "" {
				text += ", or " + m.Plain() + ", which needs no test print"
			} else {
				text += ", or a print that needs no test"
			}
		}
		s.caution(r, "date", Stop, text+". A person must agree it with the customer; do not skip the test.")
	},
}

// testPrint reports whether some pick needs a test print.
func (s *sheet) testPrint() bool {
	for _, b := range s.benches {
		if b.pick == "" || b.held {
			continue
		}
		if v := b.choice(b.pick).Verdict; v == Test || v == Expert {
			return true
		}
	}
	return false
}

// untested is a method that works on every print without a test, "" where there is none.
func (s *sheet) untested() Method {
	for _, m := range Methods {
		all := len(s.benches) > 0
		for _, b := range s.benches {
			all = all && b.choice(m).Verdict == Yes
		}
		if all {
			return m
		}
	}
	return ""
}

// dayWord writes a day as people do: "Fri 18 Dec 2026".
func dayWord(d Date) string {
	t, ok := d.Time()
	if !ok {
		return string(d)
	}
	return t.Format("Mon 2 Jan 2006")
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return itoa(n) + " days"
}
