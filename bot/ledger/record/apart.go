package record

import "strikeoff/bot/job"

// JobApart writes a job down without its order and plan, which are by far the most of it: for a ledger that takes them from the entries of
// the history that set them instead of writing them again with every event.
func JobApart(j job.Job) ([]byte, error) { return writeJob(j, nil, nil) }

// ReadJobApart reads a job that was written down apart, with the records of the entries that set its plan and its order. Where order is
// empty, one entry set both. Where plan is empty too, the job's own record has them.
func ReadJobApart(b, plan, order []byte) (job.Job, error) {
	j, err := ReadJob(b)
	if err != nil || len(plan) == 0 {
		return j, err
	}
	p, err := ReadEntry(plan)
	if err != nil {
		return job.Job{}, err
	}
	o := p
	if len(order) > 0 {
		if o, err = ReadEntry(order); err != nil {
			return job.Job{}, err
		}
	}
	if p.Plan != nil {
		j.Plan = *p.Plan
	}
	if o.Order != nil {
		j.Order = *o.Order
	}
	return j, nil
}

// Sources are the places in the history of the last of these entries that set the job's order and its plan, as job.Step takes them; 0
// where none did.
func Sources(entries []job.Entry) (order, plan int) {
	for _, en := range entries {
		switch en.Kind {
		case job.Opened, job.Amended, job.Picked:
			if en.Order != nil {
				order = en.Seq
			}
		case job.RefusedIt:
		case job.StepRead:
			if en.Pass {
				continue
			}
		default:
			continue
		}
		if en.Plan != nil {
			plan = en.Seq
		}
	}
	return order, plan
}
