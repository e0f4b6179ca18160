package bot

import "strikeoff/bot/job"

var signCommand = command{
	verb:  "sign",
	usage: Usage{Form: "sign N", Does: "signs off the test print, or clears a job with nothing to test", Example: "sign 12", Lead: true},
	onJob: true, bare: true, changes: true,
	meant: alone,
	do:    sign,
}

// sign clears the job for the run. It holds for the plan that the lead saw.
func sign(t *turn, a args) error {
	if !endsQuietly(a.rest) {
		return half("Nothing was signed. To sign the job off, type just: " + t.words("sign"))
	}
	if s := t.job.SignOff; s != nil && t.job.State == job.Cleared {
		return half(t.line("was signed off already, by %s, %s. To take it back, type: %s REASON", s.By.Name, hour(s.At, t.d.Zone), t.words("refuse")))
	}
	kind := job.SignedOff
	if t.job.State == job.Planned {
		kind = job.ClearedIt
		if a.plan != 0 && a.plan != t.job.PlanRev {
			return half(t.line("has another plan than that card showed, so nothing was signed. Look at it with: %s", t.words("job")))
		}
	}
	if err := t.happen(job.Event{Kind: kind, PlanRev: t.planSeen(a)}); err != nil {
		return err
	}
	t.tell(t.line("is cleared for the run, signed by %s.", t.by.Name))
	return nil
}
