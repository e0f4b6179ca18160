package bot

import "fmt"

// line says what happened to the job, in one line that can be read alone.
func (t *turn) line(format string, a ...any) string {
	return fmt.Sprintf("Job %d ", t.job.ID) + fmt.Sprintf(format, a...)
}

// words is a command on the job, as it is typed.
func (t *turn) words(verb string) string { return fmt.Sprintf("%s %d", verb, t.job.ID) }

// nowWords says what to do now, where a change made that something else.
func (t *turn) nowWords(before Job) string {
	was, is := headline(before, t.now, t.d.Zone), headline(t.job, t.now, t.d.Zone)
	if was == is {
		return ""
	}
	return "\nNow: " + is
}
