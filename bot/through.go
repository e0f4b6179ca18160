package bot

import "strikeoff/bot/job"

// Through is the job after each of the new entries that took it from before to after, so that each entry can be told with the job as it
// was then.
func Through(before, after Job, news []Entry) []Job {
	out := make([]Job, len(news))
	j := before
	for i, e := range news {
		next, _, err := job.Step(j, e.Event, e.At)
		if err != nil || i == len(news)-1 {
			next = after // the last is what was saved; an entry that cannot be walked again is told with that as well
		}
		out[i], j = next, next
	}
	return out
}

// Replayed is a job as its history makes it.
func Replayed(history []Entry) (Job, error) { return job.Replay(history) }
