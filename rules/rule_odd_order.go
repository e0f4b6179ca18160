package rules

import (
	"math"

	"strikeoff/rules/source"
)

var oddOrder = &rule{
	id: "odd-order", basis: source.CommonPractice,
	about: "What cannot be right is said, never silently mended.",
	close: func(s *sheet, r *rule) {
		for i := range s.order.Lines {
			l := &s.order.Lines[i]
			total, names := 0.0, 0
			for _, f := range l.Fibres {
				total += f
				names++
			}
			if names > 0 && (math.Abs(total-100) > 1 || math.IsNaN(total)) {
				s.fired[r.at] = true
				s.caution(r, "percents", Care, "The fibre percents add up to "+num(round(total, 1))+", not 100: check the label.")
				s.ask(65, "fibres", "The fibre percents add up to "+num(round(total, 1))+": what does the label say?")
			}
			if l.Quantity.Known && (l.Quantity.Value <= 0 || l.Quantity.Value > 1_000_000) {
				s.fired[r.at] = true
				s.caution(r, "quantity", Care, "A quantity of "+itoa(l.Quantity.Value)+" is odd: check it.")
				s.ask(72, "quantity", "How many pieces are wanted? "+itoa(l.Quantity.Value)+" looks like a slip.")
			}
			if n := l.Sizes.Total(); n > 0 && l.Quantity.Known && n != l.Quantity.Value {
				s.fired[r.at] = true
				s.ask(55, "sizes", "The sizes add up to "+itoa(n)+", the quantity says "+itoa(l.Quantity.Value)+": which is right?")
			}
		}
	},
}
