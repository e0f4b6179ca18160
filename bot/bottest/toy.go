package bottest

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strikeoff/intake"
	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// The toy shop stands in for intake and rules, so that a conversation is the same whatever they learn. It reads "72 tees, tri-blend,
// navy, white front print, for Larkspur Rowing" and plans it with one rule: cotton is a yes, an unknown fabric is a question, and
// anything else is tested.

var (
	toyGoods  = regexp.MustCompile(`(?i)\b(\d+)\s+(?:\S+\s+){0,3}?(tee|tees|hoodies|jerseys)\b`)
	toyNumber = regexp.MustCompile(`(?i)\bmake it (\d+)\b`)
	toyFor    = regexp.MustCompile(`(?i)\bfor ([A-Z]\w+(?: [A-Z]\w+)*)`)
	toyDue    = regexp.MustCompile(`\b(\d{4}-\d\d-\d\d)\b`)
	toyFabric = []struct {
		word  string
		class rules.Fabric
	}{{"tri-blend", fibre.TriBlend}, {"polyester", fibre.AllPolyester}, {"cotton", fibre.AllCotton}}
	toyColours  = []string{"navy", "black", "red"}
	toyGarments = map[string]rules.Garment{"tee": "t-shirt", "tees": "t-shirt", "hoodies": "hoodie", "jerseys": "jersey"}
)

// Read is the toy shop's reading.
func Read(text string, o intake.Options) intake.Reading {
	m := toyGoods.FindStringSubmatch(text)
	if m == nil {
		return intake.Reading{}
	}
	n, _ := strconv.Atoi(m[1])
	line := rules.Line{Quantity: rules.Said(n), Garment: toyGarments[strings.ToLower(m[2])], Prints: rules.List[rules.Print]{{Place: "front",
		Inks: rules.List[string]{"white"}, InkCount: rules.Said(1)}}}
	r := intake.Reading{IsOrder: true, Order: rules.Order{Lines: rules.List[rules.Line]{line}}}
	if m := toyFor.FindStringSubmatch(text); m != nil {
		r.Order.Customer = rules.Name(m[1])
	}
	if m := toyDue.FindString(text); m != "" {
		r.Order.Due = rules.Date(m)
	}
	toyWords(&r.Order, text)
	if i := strings.Index(text, "PS:"); i >= 0 {
		r.Order.Unread = rules.List[string]{text[i:]}
	}
	if strings.Contains(text, "120 % cotton") {
		r.Odd = append(r.Odd, intake.Oddity{Code: "percent-total", Field: "lines[0].fibres",
			Text: "The fibres total 120 %. They were left out; say the blend again, for example \"60 % cotton, 40 % polyester\"."})
	}
	return r
}

// Amend is the toy shop's reading of a later message.
func Amend(r intake.Reading, text string, o intake.Options) (intake.Reading, bool) {
	if len(r.Order.Lines) == 0 {
		return r, false
	}
	was := r.Order.Clone()
	r.Order = r.Order.Clone()
	if m := toyNumber.FindStringSubmatch(text); m != nil {
		n, _ := strconv.Atoi(m[1])
		r.Order.Lines[0].Quantity = rules.Said(n)
	}
	toyWords(&r.Order, text)
	return r, fmt.Sprint(was) != fmt.Sprint(r.Order)
}

// toyWords reads fabric and colours.
func toyWords(o *rules.Order, text string) {
	text = strings.ToLower(text)
	l := &o.Lines[0]
	if strings.Contains(text, "flame-resistant") {
		o.Uses = rules.List[rules.Use]{rules.FlameResistant}
	}
	for _, f := range toyFabric {
		if strings.Contains(text, f.word) {
			l.Fabric = f.class
			break
		}
	}
	var cs rules.List[string]
	for _, c := range toyColours {
		if regexp.MustCompile(`\b` + c + `\b`).MatchString(text) {
			cs = append(cs, c)
		}
	}
	if cs != nil {
		l.Colours = cs
	}
}

// Decide is the toy shop's one rule.
func Decide(o rules.Order, shop rules.Shop, rec rules.Record) rules.Plan {
	p := rules.Plan{}
	for i, l := range o.Lines {
		lp, mig := rules.LinePlan{}, rules.Migration{Risk: rules.RiskNone, After: rules.RiskNone}
		for j := range l.Prints {
			lp.Prints = append(lp.Prints, toyPrint(l, i, j, rec))
			switch l.Fabric {
			case "":
				p.Questions = append(p.Questions, rules.Question{Field: fmt.Sprintf("lines[%d].fabric", i), Text: "What are the garments made of?"})
				mig = rules.Migration{Risk: rules.RiskUnknown, After: rules.RiskUnknown}
			case fibre.AllCotton:
			default:
				p.WashTest, p.TestPrint = true, true
				mig = rules.Migration{Risk: rules.RiskHigh, After: rules.RiskLow}
			}
		}
		p.Lines, p.Migration = append(p.Lines, lp), append(p.Migration, mig)
	}
	switch {
	case p.Open():
		p.Summary = "Ask what the garments are made of before anything is printed."
	case p.TestPrint:
		p.Summary = "Make a test print with plastisol on a low-bleed white base, and wash it."
		p.Checklist = rules.List[rules.Check]{
			{Code: "cure", Title: "Cure check", How: "Stretch the print to twice its length.", Pass: "No cracks."},
			{Code: "wash", Title: "Wash test", How: "Wash five times at 40 °C (104 °F).", Pass: "No cracks, no pink in the white.", WaitHours: 24,
				Scale: rules.ForStaining, Least: "4"},
		}
		p.Cautions = rules.List[rules.Caution]{{Code: "dye-migration", Severity: rules.Care, Text: "The garment's dye may move into the white.", Basis: "common practice"}}
	default:
		p.Summary = "Print with plastisol; no test print is needed."
	}
	if slices.Contains(o.Uses, rules.FlameResistant) {
		p.Summary = "Stop: a person must settle the safety of this job before it is printed."
		p.Cautions = append(p.Cautions, rules.Caution{Code: "flame", Severity: rules.Stop, Text: "A print may void what protects the wearer.", Basis: "common practice"})
		if len(rec.Chosen) == 0 {
			for i := range p.Lines {
				for j := range p.Lines[i].Prints {
					p.Lines[i].Prints[j].Pick = ""
				}
			}
		}
	}
	if n := len(rec.Failures); n > 0 {
		p.Summary = fmt.Sprintf("Change the base to a grey blocker and test again: the %s test failed.", rec.Failures[n-1].Step)
	}
	return p
}

// toyPrint picks for one print.
func toyPrint(l rules.Line, i, j int, rec rules.Record) rules.PrintPlan {
	if l.Fabric == "" {
		return rules.PrintPlan{}
	}
	c := rules.Choice{Method: rules.Plastisol, Verdict: rules.Yes, Score: 90, Setup: rules.Setup{Base: rules.WhiteBase,
		Heat: &rules.Heat{TempC: [2]float64{155, 165}, Seconds: [2]float64{60, 90}}},
		Why: rules.List[rules.Reason]{{Rule: "toy", Text: "Plastisol holds on cotton.", Basis: "common practice"}}}
	if l.Fabric != fibre.AllCotton {
		c.Verdict, c.Setup.Base = rules.Test, rules.LowBleedWhite
		c.Why[0].Text = "Polyester's dye moves at cure heat, so a low-bleed base and a low cure are used."
		c.Setup.Heat = &rules.Heat{TempC: [2]float64{132, 138}, Seconds: [2]float64{60, 75}}
	}
	if len(rec.Failures) > 0 {
		c.Setup.Base = rules.GreyBlocker
	}
	other := rules.Choice{Method: rules.DTF, Verdict: c.Verdict, Score: 60, Why: rules.List[rules.Reason]{{Rule: "toy", Text: "A transfer feels thicker.", Basis: "common practice"}}}
	no := rules.Choice{Method: rules.Sublimation, Verdict: rules.No, Score: 0, Why: rules.List[rules.Reason]{{Rule: "toy", Text: "Sublimation shows no white.", Basis: "common practice"}}}
	p := rules.PrintPlan{Pick: rules.Plastisol, Choices: rules.List[rules.Choice]{c, other, no}}
	for _, ch := range rec.Chosen {
		if ch.Line == i && ch.Print == j && slices.ContainsFunc(p.Choices, func(c rules.Choice) bool { return c.Method == ch.Method }) {
			p.Pick = ch.Method
		}
	}
	return p
}
