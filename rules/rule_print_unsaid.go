package rules

import "strikeoff/rules/source"

var printUnsaid = &rule{
	id: "print-unsaid", basis: source.CommonPractice,
	about: "A line without a print, or a print without a place or size, is asked about.",
	after: func(b *bench) {
		if b.print.Place == "" {
			b.ask(45, "place", "Where does the print go: front, back, left chest, sleeve?")
			b.assume("place", "front", "The place was not said: planned as for a chest or front print.")
		}
		if _, ok := b.area(); !ok && !b.wide {
			b.ask(20, "width_mm", "How large is the "+placeWord(b.print.Place)+" print, width and height?")
		}
	},
	close: func(s *sheet, r *rule) {
		for i := range s.order.Lines {
			l := &s.order.Lines[i]
			if len(l.Prints) > 0 {
				continue
			}
			s.fired[r.at] = true
			s.ask(95, "prints", "What art or logo is to be printed on the "+garmentWord(l)+", and where?")
			c := clothOf(l)
			if !c.known {
				s.ask(100, "fibres", fabricQuestion(l))
			}
			if len(l.Colours) == 0 {
				s.ask(90, "colours", colourQuestion(l))
			}
		}
	},
}

func fabricQuestion(l *Line) string {
	return "What is the " + garmentWord(l) + " made of? The fabric label gives the percents of cotton, polyester and so on; it decides the method."
}

func colourQuestion(l *Line) string {
	return "What colour is the " + garmentWord(l) + "? Light and dark garments print differently."
}
