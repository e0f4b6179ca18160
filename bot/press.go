package bot

import (
	"fmt"
	"math"
	"strings"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// FullCardOf is CardOf with what only whoever stands at the press wants to know: the screens, how each check is done, and how the finished run is
// inspected.
func FullCardOf(j job.Job, now time.Time, zone *time.Location) Card {
	c := CardOf(j, now, zone)
	c.Steps, c.Brief = steps(j, now, zone), false
	for i, l := range c.Lines {
		if i >= len(j.Plan.Lines) {
			break
		}
		for k := range l.Prints {
			if k >= len(j.Plan.Lines[i].Prints) {
				break
			}
			if picked, ok := j.Plan.Lines[i].Prints[k].Picked(); ok {
				l.Prints[k].Press = screens(picked.Setup.Screen)
			}
		}
	}
	for _, in := range j.Plan.Inspection {
		c.Inspect = append(c.Inspect, inspection(in, j.Order))
	}
	return c
}

// screens says how a screen print is put on press, "" for any other: "3 screens: base 43/cm (109/in), colours 43 to 68/cm (109 to 173/in);
// 1 flash; 4 heads; about 9 g of ink a piece".
func screens(s *rules.ScreenSetup) string {
	if s == nil {
		return ""
	}
	mesh := fmt.Sprintf("%s/cm (%s/in)", between(s.MeshCM), between(s.MeshInch))
	if s.BaseCM > 0 {
		mesh = fmt.Sprintf("base %d/cm (%.0f/in), colours %s", s.BaseCM, float64(s.BaseCM)*2.54, mesh)
	}
	out := mesh
	if s.Screens > 0 { // how many is not known before the colours are
		out = number(s.Screens, "screen", "screens") + ": " + mesh
	}
	if s.Passes > 1 {
		out += fmt.Sprintf("; %d strokes a colour", s.Passes)
	}
	if s.Flashes > 0 {
		out += "; " + number(s.Flashes, "flash", "flashes")
	}
	if s.Screens > 0 && s.Heads > 0 {
		out += "; " + number(s.Heads, "head", "heads")
	}
	if s.InkGrams > 0 {
		out += fmt.Sprintf("; about %.2g g of ink a piece", math.Max(s.InkGrams, 0.1))
	}
	return out
}

// inspection says how many of a finished run to look at: "72 t-shirts: look at 13 of them; up to 0 bad pass the run, 1 or more refuse it (AQL 1.5 %)".
func inspection(in rules.Inspection, o rules.Order) string {
	what := number(in.Lot, "piece", "pieces")
	if in.Line < len(o.Lines) {
		what = strings.Join([]string{garments(o.Lines[in.Line]), colours(o.Lines[in.Line])}, ", ")
	}
	look := fmt.Sprintf("look at %d of them", in.Sample)
	if in.Sample >= in.Lot {
		look = "look at every one"
	}
	pass := fmt.Sprintf("with up to %d bad the run passes, with %d it does not", in.Accept, in.Reject)
	if in.Accept == 0 {
		pass = "a single bad one refuses the run"
	}
	return fmt.Sprintf("%s: %s; %s (ISO 2859-1, AQL %g %%)", what, look, pass, in.AQL)
}

// between is a range of whole numbers.
func between(v [2]int) string {
	if v[0] == v[1] {
		return fmt.Sprint(v[0])
	}
	return fmt.Sprintf("%d to %d", v[0], v[1])
}

// number is a number with what it counts.
func number(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
