package rules

import (
	"strings"

	"strikeoff/rules/source"
)

var testTaught = &rule{
	id: "test-print-taught", basis: source.CommonPractice,
	about: "A refused test print changes the next plan: a stronger base, another heat, an additive, or another method.",
	judge: func(b *bench) {
		for i, f := range b.rec.Failures {
			for _, t := range f.Tried {
				if t.Line == b.at[0] && t.Print == b.at[1] && t.Method != "" {
					b.learn(i, f, t)
				}
			}
		}
	},
}

// learn changes the setup, or takes the method down, by what a step showed.
func (b *bench) learn(at int, f Failure, t Try) {
	c := b.choice(t.Method)
	if c.Method == "" {
		return
	}
	what := "The last test print in " + t.Method.Plain()
	screen := t.Method == Plastisol
	step := f.Step
	if step == "" {
		step = stepFromNote(f.Note)
	}
	drop := func(why string) {
		b.limit(t.Method, Expert, what+" failed: "+why+".")
		b.move(t.Method, -45, "")
		if b.dropped == nil {
			b.dropped = map[Method]dropped{}
		}
		b.dropped[t.Method] = dropped{at, what + " failed: " + why + "."}
		b.changed("Another method is advised for the " + placeWord(b.print.Place) + ": " + t.Method.Plain() + " failed on " + stepWord(step) + ".")
	}
	switch step {
	case "migration", "opacity", "wash":
		next := stronger(t.Base)
		if step == "wash" && (!screen || b.migrates.plain == 0) {
			if screen {
				b.limit(t.Method, Test, what+" failed the wash: cure it fully.")
				if h := c.Setup.Heat; h != nil {
					b.heat(t.Method, h.TempC[1], h.TempC[1], h.Seconds[1], h.Seconds[1]+15, "The top of the window, and longer: the last one did not stand the wash.")
				}
				b.changed("A hotter, longer cure for the " + placeWord(b.print.Place) + ": the last print failed the wash test.")
				return
			}
			drop("it did not stand the wash")
			return
		}
		if screen && next != "" {
			b.base(t.Method, next, "The last test print on "+t.Base.Plain()+" failed on "+stepWord(step)+": "+next.Plain()+" now.")
			b.limit(t.Method, Test, "")
			if step != "opacity" && b.migrates.plain > 0 {
				b.add(t.Method, LowCure, "Low-cure ink, to keep the heat down.")
				b.heat(t.Method, 130, 138, 60, 90, "Low-cure ink: 130 to 138 °C (266 to 280 °F) through the film.")
			}
			b.changed("Changed for the " + placeWord(b.print.Place) + ": " + next.Plain() + " instead of " + t.Base.Plain() + ", because the last test failed on " + stepWord(step) + ".")
			return
		}
		drop("it failed on " + stepWord(step))
	case "cure", "rub":
		if h := c.Setup.Heat; h != nil {
			b.heat(t.Method, h.TempC[1], h.TempC[1], h.Seconds[1], h.Seconds[1]+15, "The top of the window, and longer: the last one was not cured.")
		}
		b.limit(t.Method, Test, what+" was not cured through: more heat or time.")
		b.changed("More cure for the " + placeWord(b.print.Place) + ": the last test failed on " + stepWord(step) + ".")
	case "stretch":
		b.add(t.Method, StretchAdditive, "The last test print cracked when stretched.")
		b.limit(t.Method, Test, "")
		b.changed("Stretch additive for the " + placeWord(b.print.Place) + ": the last test failed on stretch.")
	case "hand":
		b.add(t.Method, Softener, "The last test print was too heavy.")
		b.move(t.Method, -12, "")
		b.limit(t.Method, Test, "")
		b.changed("Softer ink and a finer mesh for the " + placeWord(b.print.Place) + ": the last test failed on the hand.")
	case "press-marks":
		if h := c.Setup.Heat; h != nil {
			b.heat(t.Method, h.TempC[0]-8, h.TempC[0], h.Seconds[0], h.Seconds[0], "Cooler and shorter: the last one marked the cloth.")
		}
		b.move(t.Method, -8, "")
		b.limit(t.Method, Test, "")
		b.changed("A cooler, shorter press for the " + placeWord(b.print.Place) + ": the last test left press marks.")
	case "placement", "registration", "first-piece":
		b.limit(t.Method, Test, what+" was out of place: the method stands.")
		b.changed("Same method for the " + placeWord(b.print.Place) + ", set up anew: the last test was out of place.")
	case "scratch", "adhesion", "finish":
		if screen && !has(c.Setup.Additives, Bonding) && step == "adhesion" {
			b.add(t.Method, Bonding, "The last test print came off: bonding agent.")
			b.limit(t.Method, Test, "")
			b.changed("Bonding agent for the " + placeWord(b.print.Place) + ": the last test failed on adhesion.")
			return
		}
		drop("it failed on " + stepWord(step))
	default:
		drop("it was refused")
	}
}

// stronger is the next base up, "" where there is none.
func stronger(b Base) Base {
	switch b {
	case NoBase, "":
		return WhiteBase
	case WhiteBase:
		return LowBleedWhite
	case LowBleedWhite:
		return GreyBlocker
	}
	return ""
}

// stepWord is a step's code as people say it.
func stepWord(code string) string {
	if code == "" {
		return "the whole"
	}
	return "the " + strings.ReplaceAll(code, "-", " ")
}

// stepFromNote reads which step a refusal of the whole was about, from what the lead wrote.
func stepFromNote(note string) string {
	note = strings.ToLower(note)
	for _, w := range []struct{ word, step string }{{"bleed", "migration"}, {"bled", "migration"}, {"migrat", "migration"}, {"pink", "migration"}, {"crack", "stretch"},
		{"peel", "adhesion"}, {"scorch", "press-marks"}, {"wash", "wash"}, {"stiff", "hand"}, {"heavy", "hand"}, {"show", "opacity"}, {"opaque", "opacity"}} {
		if strings.Contains(note, w.word) {
			return w.step
		}
	}
	return ""
}

// changed says what a failed test changed, as a caution and in the summary.
func (b *bench) changed(text string) {
	b.caution("changed", Care, text)
	b.sheet.changed = append(b.sheet.changed, text)
}
