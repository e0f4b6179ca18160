package rules

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// labelled is an order with what a production lead would accept (testdata/README.md).
type labelled struct {
	ID     string
	Note   string
	Order  Order
	Pairs  [][3]string
	Expect struct {
		Prints []struct {
			Line, Print int
			Pick        []*Method
			Verdicts    map[Method][]Verdict
			BaseIf      map[Method][]Base     `json:"base_if"`
			AdditivesIf map[Method][]Additive `json:"additives_if"`
			HeatMax     map[Method]float64    `json:"heat_max_c"`
		}
		Migration []List[Risk]
		WashTest  []bool   `json:"wash_test"`
		Caution   []string `json:"caution_regex"`
		Question  []string `json:"question_regex"`
		Checklist []string `json:"checklist_regex"`
	}
}

func readCases(t testing.TB, name string) []labelled {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []labelled
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		if len(sc.Bytes()) == 0 {
			continue
		}
		var c labelled
		if err := json.Unmarshal(sc.Bytes(), &c); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out = append(out, c)
	}
	if len(out) == 0 {
		t.Fatalf("%s holds no cases", name)
	}
	return out
}

// misses says what in a plan the lead would not accept, and how many checks were made.
func (c labelled) misses(p Plan) (wrong []string, checks int) {
	check := func(ok bool, format string, a ...any) {
		checks++
		if !ok {
			wrong = append(wrong, fmt.Sprintf(format, a...))
		}
	}
	for _, e := range c.Expect.Prints {
		pr := p.Lines[e.Line].Prints[e.Print]
		if e.Pick != nil {
			ok := slices.ContainsFunc(e.Pick, func(m *Method) bool { return m == nil && pr.Pick == "" || m != nil && *m == pr.Pick })
			check(ok, "line %d print %d: picked %q", e.Line, e.Print, pr.Pick)
		}
		for _, ch := range pr.Choices {
			if ok := e.Verdicts[ch.Method]; ok != nil {
				check(slices.Contains(ok, ch.Verdict), "%s: %s, not in %v", ch.Method, ch.Verdict, ok)
			}
			if ch.Method != pr.Pick {
				continue
			}
			if ok := e.BaseIf[ch.Method]; ok != nil {
				check(slices.Contains(ok, ch.Setup.Base), "%s on %s, not in %v", ch.Method, ch.Setup.Base, ok)
			}
			if ok := e.AdditivesIf[ch.Method]; ok != nil {
				check(slices.ContainsFunc(ok, func(a Additive) bool { return has(ch.Setup.Additives, a) }), "%s with %v, none of %v", ch.Method, ch.Setup.Additives, ok)
			}
			if top, ok := e.HeatMax[ch.Method]; ok {
				check(ch.Setup.Heat != nil && ch.Setup.Heat.TempC[1] <= top, "%s heat %v above %v", ch.Method, ch.Setup.Heat, top)
			}
		}
	}
	for i, ok := range c.Expect.Migration {
		check(has(ok, p.Migration[i].Risk), "line %d migration %s (%.1f), not in %v", i, p.Migration[i].Risk, p.Migration[i].Change, ok)
	}
	if c.Expect.WashTest != nil {
		check(slices.Contains(c.Expect.WashTest, p.WashTest), "wash test %v", p.WashTest)
	}
	var cautions, questions, steps strings.Builder
	for _, x := range p.Cautions {
		fmt.Fprintln(&cautions, x.Code, x.Severity, x.Text, x.Basis)
	}
	for _, l := range p.Lines {
		for _, pr := range l.Prints {
			for _, ch := range pr.Choices {
				for _, w := range ch.Why {
					fmt.Fprintln(&cautions, w.Rule, w.Text)
				}
			}
		}
	}
	for _, x := range p.Questions {
		fmt.Fprintln(&questions, x.Field, x.Text)
	}
	for _, x := range p.Checklist {
		fmt.Fprintln(&steps, x.Code, x.Title, x.How, x.Pass, x.WaitHours)
	}
	for _, g := range []struct {
		name string
		rx   []string
		in   string
	}{{"caution", c.Expect.Caution, cautions.String()}, {"question", c.Expect.Question, questions.String()}, {"checklist", c.Expect.Checklist, steps.String()}} {
		for _, rx := range g.rx {
			check(regexp.MustCompile("(?i)"+rx).MatchString(g.in), "no %s says /%s/", g.name, rx)
		}
	}
	return wrong, checks
}

// TestLabelledCases holds the plans to what leads accept. The bars are a little under what was reached, so that a change that costs a case
// is seen; they were seen to fail when the rule about transparent dye was taken out.
func TestLabelledCases(t *testing.T) {
	for _, set := range []struct {
		file         string
		least, whole float64
	}{{"cases-plan.jsonl", 0.99, 0.96}, {"cases-blind.jsonl", 0.99, 0.96}} {
		t.Run(set.file, func(t *testing.T) {
			plans := map[string]Plan{}
			cases, clean, checks, wrong := 0, 0, 0, 0
			var relations []labelled
			for _, c := range readCases(t, set.file) {
				if c.ID == "relations" {
					relations = append(relations, c)
					continue
				}
				p := Decide(c.Order, Shop{}, Record{})
				plans[c.ID] = p
				w, n := c.misses(p)
				cases, checks, wrong = cases+1, checks+n, wrong+len(w)
				if len(w) == 0 {
					clean++
				} else {
					t.Logf("%s: %s\n\t%s", c.ID, c.Note, strings.Join(w, "\n\t"))
				}
			}
			for _, r := range relations {
				for _, pair := range r.Pairs {
					checks++
					low, high := vividOf(plans[pair[0]], Method(pair[2])), vividOf(plans[pair[1]], Method(pair[2]))
					if low >= high {
						wrong++
						t.Logf("%s: vividness of %s is %v, of %s %v", pair[2], pair[0], low, pair[1], high)
					}
				}
			}
			share, whole := 1-float64(wrong)/float64(checks), float64(clean)/float64(cases)
			t.Logf("%d cases: %.3f of %d checks, %.3f whole", cases, share, checks, whole)
			if share < set.least || whole < set.whole {
				t.Errorf("checks %.3f (least %.2f), whole cases %.3f (least %.2f)", share, set.least, whole, set.whole)
			}
		})
	}
}

func vividOf(p Plan, m Method) float64 {
	for _, c := range p.Lines[0].Prints[0].Choices {
		if c.Method == m {
			return c.Expect.Vividness
		}
	}
	return -1
}
