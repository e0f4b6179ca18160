package bot

import (
	"fmt"
	"regexp"

	"strikeoff/rules"
)

// notedGrade is a grade of a grey scale that a note begins with: "4", "4-5", "grade 3.5 by eye". A bare figure before a word is none: it
// counts something ("3 cycles").
var notedGrade = regexp.MustCompile(`(?is)^(?:grade\s+([1-5])(-[2-5]|/[2-5]|\.5|½)?(?:\W|$)|([1-5])(-[2-5]|/[2-5]|\.5|½)?\s*(?:$|[,;.]))`)

// graded says what the readings or the grade in a note come to, where the check is graded: in words, and whether that passes. It reports
// false where the note holds neither; then a lead's own word stands.
func graded(c rules.Check, note string) (words string, pass, ok bool) {
	if c.Least == "" {
		return "", false, false
	}
	if g, pass, ok := c.Judge(note); ok {
		return fmt.Sprintf("the readings come to %s grade %s", c.Scale, g.Grade), pass, true
	}
	m := notedGrade.FindStringSubmatch(note)
	if m == nil {
		return "", false, false
	}
	g := rules.GreyGrade(m[1] + m[3])
	if m[2]+m[4] != "" { // half a grade better
		g += "-" + rules.GreyGrade(g[0]+1)
	}
	return fmt.Sprintf("that is %s grade %s", c.Scale, g), g.AtLeast(c.Least), true
}

// tooLow is what to say where a step is told as passed and its readings say otherwise.
func (t *turn) tooLow(c rules.Check, words, note string) error {
	return half(fmt.Sprintf("%s of job %d was not recorded as passed: it needs %s grade %s or better, and %s. If it failed, type: fail %d %s %s",
		capital(c.Code), t.job.ID, c.Scale, c.Least, words, t.job.ID, c.Code, short(note, 60)))
}
