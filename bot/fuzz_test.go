package bot

import (
	"strings"
	"testing"
	"time"
	"unicode"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// Whatever is typed, nothing panics; a quotation or a block of code is no command; and what a command is given holds nothing unseen.
func FuzzParse(f *testing.F) {
	for _, c := range Commands() {
		f.Add(c.Example)
	}
	for _, s := range []string{"pass 12 wash, rub: early", "job 12 pass wash", "> sign 12", "```sign 12```", "close\x00 12 \u202ereason", "pick 12 dtf 1.1", "why not dtg?",
		"jobs before 99999999999", "sign 12 plan 3", "pass 1 wash 95 0 0 / 94 1 1", "order:", "fail 1 " + strings.Repeat("wash ", 300)} {
		f.Add(s)
	}
	full := job.Job{ID: 12, State: job.OnTest, Opened: job.Stamp{At: time.Unix(1, 0)}, PrintRev: 1, PlanRev: 1,
		Order: rules.Order{Lines: rules.List[rules.Line]{{Prints: rules.List[rules.Print]{{Place: "front"}, {}}}, {}}},
		Plan:  rules.Plan{Checklist: rules.List[rules.Check]{{Code: "wash", Title: "Wash test", Scale: rules.ForStaining, Least: "4"}, {Code: "dye-hold"}, {}}}}
	f.Fuzz(func(t *testing.T, text string) {
		c, a, near := parse(text)
		if s := strings.TrimSpace(text); c != nil && strings.IndexAny(s, ">`\"'") == 0 {
			t.Fatalf("%q was taken for %s", text, c.verb)
		}
		if c == nil {
			return
		}
		if strings.ContainsFunc(a.rest, func(r rune) bool { return unicode.IsControl(r) && r != '\n' }) {
			t.Errorf("%q leaves %q", text, a.rest)
		}
		if near && c == verbOf(strings.Fields(text)[0]) {
			t.Errorf("%q is spelt right and called misspelt", text)
		}
		for _, j := range []job.Job{{}, {ID: 12}, full} {
			_ = c.meant(j, a)
			s := readSteps(j.Plan.Checklist, a.rest, 3)
			for _, code := range s.codes {
				check, ok := j.Plan.Step(code)
				if !ok {
					t.Errorf("%q names the step %q, which is none", text, code)
				}
				graded(check, s.note)
			}
			printsAt(j.Order, a.rest)
		}
		_, _, _ = jobsAsked(a.rest)
		_, _ = whyAsked(a.rest)
	})
}
