package job

import (
	"time"

	"strikeoff/rules"
)

// longestWait bounds a check's waiting time, so that a mistaken figure cannot overflow.
const longestWait = 10 * 366 * 24 * time.Hour

// Ready is when a check of the present test print can be read: the print's time and the check's WaitHours. It is the zero time where
// there is no test print.
func Ready(j Job, c rules.Check) time.Time {
	if j.PrintRev == 0 {
		return time.Time{}
	}
	return readyAfter(j.Printed.At, c)
}

// readyAfter is when a check can be read on a print made at that time.
func readyAfter(printed time.Time, c rules.Check) time.Time { return printed.Add(waitOf(c)) }

// waitOf is a check's waiting time, from 0 to longestWait. A figure that is no number waits longest: that errs on the safe side, and the
// lead can still read early with a reason.
func waitOf(c rules.Check) time.Duration {
	switch h := c.WaitHours; {
	case h != h || h > longestWait.Hours():
		return longestWait
	case h <= 0:
		return 0
	default:
		return time.Duration(h * float64(time.Hour))
	}
}

// Missing lists the checks of the present plan that were not passed on the present test print, in working order.
func Missing(j Job) []rules.Check {
	var out []rules.Check
	for _, c := range j.Plan.Checklist {
		if r, read := j.Reads[c.Code]; !read || !r.Pass {
			out = append(out, c)
		}
	}
	return out
}

// codes lists what a lead types for each check.
func codes(checks []rules.Check) []string {
	out := make([]string, len(checks))
	for i, c := range checks {
		out[i] = c.Code
	}
	return out
}
