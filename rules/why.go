package rules

// Why is the chain of rules that led to a method's verdict on a print, in plain words, a line each: first the verdict, then what let it in or
// kept it out, then how it would be set up. It is empty for a method that the plan does not weigh.
func Why(p PrintPlan, m Method) []string {
	for _, c := range p.Choices {
		if c.Method != m {
			continue
		}
		out := []string{upper(m.Plain()) + ": " + c.Verdict.Plain() + ". Score " + num(c.Score) + " of 100."}
		for _, r := range c.Why {
			line := r.Text
			switch {
			case r.Veto:
				line += " This rules it out."
			case r.Points >= 0.5:
				line += " Speaks for it (+" + num(round(r.Points, 0)) + ")."
			case r.Points <= -0.5:
				line += " Speaks against it (" + num(round(r.Points, 0)) + ")."
			}
			out = append(out, line+" ["+r.Basis+"]")
		}
		if c.Verdict != No {
			out = append(out, "Set up: "+c.Plain()+".")
			if e := c.Effort; e != nil && e.Overtaken != nil {
				out = append(out, "From about "+itoa(e.Overtaken.Quantity)+" pieces "+e.Overtaken.By.Plain()+" is less work.")
			}
		}
		return out
	}
	return nil
}

// Plain is a verdict as people say it.
func (v Verdict) Plain() string {
	switch v {
	case Yes:
		return "works; the usual first-piece check is enough"
	case Test:
		return "works, once a test print with a wash test is passed"
	case Expert:
		return "only in practised hands, with a wash and a scratch test"
	}
	return "does not work here"
}

// Plain is how a method is set up, in one line: "plastisol on a low-bleed white base, softener; 130 to 138 °C (266 to 280 °F), 60 to 90 s;
// 2 screens, mesh 43 to 68 per cm (109 to 173 per inch)".
func (c Choice) Plain() string {
	out := c.Method.Plain()
	if b := c.Setup.Base; b != NoBase && b != "" {
		if c.Method == Plastisol || c.Method == WaterBased || c.Method == Discharge {
			out += " on " + b.Plain()
		} else {
			out += " with " + b.Plain()
		}
	}
	for _, a := range c.Setup.Additives {
		out += ", " + a.Plain()
	}
	if c.Setup.Heat != nil {
		out += "; " + c.Setup.Heat.Plain()
	}
	if s := c.Setup.Screen; s != nil {
		out += "; " + plural(s.Screens, "screen") + ", mesh " + span(float64(s.MeshCM[0]), float64(s.MeshCM[1])) + " per cm (" +
			span(float64(s.MeshInch[0]), float64(s.MeshInch[1])) + " per inch)"
		if s.Flashes > 0 {
			out += ", " + plural(s.Flashes, "flash")
		}
	}
	return out
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	if word == "flash" {
		return itoa(n) + " flashes"
	}
	return itoa(n) + " " + word + "s"
}
