package bot

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"strikeoff/bot/job"
	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// Lines are wrapped where words allow, what goes on stands under its first word, and nothing is lost.
func TestTextWraps(t *testing.T) {
	long := strings.Repeat("w", 50)
	c := Card{Job: 7, State: OnTest, Headline: "Read the test print now: wash and rub, both of them, before the run is begun at the big press.",
		Customer: "Ñandú & Söhne <invented>", Due: "Fri 18 Dec 2026",
		Lines: []Line{{What: "72 t-shirts, navy, tri-blend", Migration: "dye migration: high with plain ink, low with this setup",
			Prints: []Print{{Where: "front", Do: "plastisol on a low-bleed white base", Method: "plastisol", Why: []string{"one reason that is long enough to be wrapped twice"},
				Others: []Other{{"dtf", "test", "w"}, {"dtg", "no", "w"}, {"discharge", "expert", "w"}}},
				{Where: "back", Do: "plastisol on a low-bleed white base", Method: "plastisol", Why: []string{"one reason that is long enough to be wrapped twice"}}}}},
		Cautions: []Note{{"stop", "Flame-resistant goods: printing may void what protects."}, {"caution", "c"}, {"info", "n"}},
		Steps: []Step{{Code: "wash", Title: "Wash test", How: "Wash it five times.", Pass: "No cracks."}, {Code: "rub", Title: "Rub", Mark: "passed", Note: "Lin"},
			{Code: "hold", Title: "Hold", Mark: "waiting", Note: "waits until Fri 27 Nov 14:00"}},
		Questions: []Ask{{Text: "Which white?"}}, Assumed: []string{"a"}, Odd: []string{"o"}, Unread: []string{"PS:\n call " + long},
		Refusal: "wash, by Lin: cracks", Actions: []Action{{Command: "pass 7 wash", Lead: true, Group: "step"}, {Command: "sign 7 plan 3", Lead: true, Group: "job"}}}
	whole := strings.Join(strings.Fields(Text(Post{Text: "A line.", Card: &c}, 0)), " ")
	for _, width := range []int{0, 20, 40, 80, 200} {
		got := Text(Post{Text: "A line.", Card: &c}, width)
		for line := range strings.SplitSeq(got, "\n") {
			if n := utf8.RuneCountInString(line); width > 0 && n > width && !strings.Contains(line, long) && width > 30 {
				t.Errorf("at %d a line has %d characters: %q", width, n, line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Errorf("at %d a line ends in spaces: %q", width, line)
			}
		}
		if flat := strings.Join(strings.Fields(got), " "); flat != whole {
			t.Errorf("at %d the words are not those of the text that is not wrapped:\n%s", width, got)
		}
	}
	for _, want := range []string{"A line.", "Job 7: Read", "For Ñandú & Söhne <invented>, due Fri 18 Dec 2026.", "Refused: wash, by Lin: cracks", "Back: the same way.",
		"Or: DTF (test first), discharge (practised hands only)", "STOP: Flame", "[ ] wash: Wash test. Wash it five times. Pass: No cracks.", "[passed] rub: Rub (Lin)",
		"[waits] hold: Hold (waits until", "1. Which white?", `"PS: call ` + long, "Next: pass 7 wash (lead) | sign 7 (lead)"} {
		if !strings.Contains(whole, want) {
			t.Errorf("the text lacks %q:\n%s", want, Text(Post{Card: &c}, 100))
		}
	}
	c.Inspect, c.Brief = []string{"72 t-shirts: look at 13 of them"}, true
	c.Lines[0].Prints[0].Press = "3 screens: 43/cm"
	s := Text(Post{Card: &c}, 0)
	for _, want := range []string{"How each is done: job 7", "3 screens: 43/cm.", "Inspect the finished run:\n  - 72 t-shirts: look at 13"} {
		if !strings.Contains(s, want) {
			t.Errorf("a card lacks %q:\n%s", want, s)
		}
	}
	if Text(Post{}, 80) != "" {
		t.Error("an empty post says something")
	}
}

// What changed is told in the customer's terms.
func TestChanges(t *testing.T) {
	base := func() rules.Order {
		return rules.Order{Customer: "Larkspur", Due: "2026-12-18", Lines: rules.List[rules.Line]{{Quantity: rules.Said(48), Garment: "t-shirt",
			Colours: rules.List[string]{"black"}, Fabric: fibre.AllCotton, Sizes: rules.Sizes{"S": 18, "M": 30}, Prints: rules.List[rules.Print]{{Place: "front"}}}}}
	}
	for _, c := range []struct {
		name   string
		change func(*rules.Order)
		want   string
	}{
		{"nothing", func(*rules.Order) {}, ""},
		{"number", func(o *rules.Order) { o.Lines[0].Quantity = rules.Said(60) }, "60 instead of 48"},
		{"number taken back", func(o *rules.Order) { o.Lines[0].Quantity = rules.Maybe[int]{} }, "no longer 48"},
		{"colour", func(o *rules.Order) { o.Lines[0].Colours = rules.List[string]{"navy"} }, "navy instead of black"},
		{"heather", func(o *rules.Order) { o.Lines[0].Heather = true }, "heather black instead of black"},
		{"fabric", func(o *rules.Order) { o.Lines[0].Fabric = fibre.TriBlend }, "tri-blend instead of cotton"},
		{"percents", func(o *rules.Order) { o.Lines[0].Fibres = rules.Blend{"cotton": 60, "polyester": 40} }, "cotton 60 %, polyester 40 % instead of cotton"},
		{"garment", func(o *rules.Order) { o.Lines[0].Garment = "hoodie" }, "hoodie instead of t-shirt"},
		{"sizes", func(o *rules.Order) { o.Lines[0].Sizes = rules.Sizes{"S": 20, "M": 28} }, "sizes S 20, M 28 instead of S 18, M 30"},
		{"size of the print", func(o *rules.Order) { o.Lines[0].Prints[0].WidthMM = rules.Said(279.4) }, "front, 279 mm (11 in) wide instead of front"},
		{"new print", func(o *rules.Order) { o.Lines[0].Prints = append(o.Lines[0].Prints, rules.Print{Place: "back"}) }, "new print: back"},
		{"print dropped", func(o *rules.Order) { o.Lines[0].Prints = nil }, "no print any more: front"},
		{"method", func(o *rules.Order) { o.Lines[0].Prints[0].Method = rules.DTF }, "by dtf"},
		{"date", func(o *rules.Order) { o.Due = "2026-12-11" }, "due Fri 11 Dec 2026 instead of Fri 18 Dec 2026"},
		{"no date", func(o *rules.Order) { o.Due = "" }, "no longer due Fri 18 Dec 2026"},
		{"customer", func(o *rules.Order) { o.Customer = "Marsh Lane" }, "for Marsh Lane instead of Larkspur"},
		{"wish", func(o *rules.Order) { o.Wishes = rules.List[rules.Wish]{rules.SoftHand} }, "soft hand"},
		{"line more", func(o *rules.Order) {
			o.Lines = append(o.Lines, rules.Line{Quantity: rules.Said(24), Garment: "hoodie"})
		},
			"new: 24 hoodies, colour unsaid, fabric unsaid"},
		{"line less", func(o *rules.Order) { o.Lines = nil }, "dropped: 48 t-shirts, black, cotton; S 18, M 30"},
		{"two at once", func(o *rules.Order) {
			o.Lines[0].Quantity = rules.Said(60)
			o.Lines[0].Colours = rules.List[string]{"navy", "red"}
		},
			"60 instead of 48; navy and red instead of black"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := base()
			c.change(&o)
			if got := strings.Join(changes(base(), o), "; "); got != c.want {
				t.Errorf("changes say %q, want %q", got, c.want)
			}
			if sameOrder(base(), o) != (c.want == "") {
				t.Errorf("sameOrder is %v", c.want != "")
			}
		})
	}
}

// Temperatures are told in both scales. The pairs are by the definition of the scales, F = 9/5 C + 32 (NIST SP 811, B.6), rounded to a degree.
func TestHeatInBothScales(t *testing.T) {
	for _, c := range []struct {
		heat rules.Heat
		want string
	}{
		{rules.Heat{TempC: [2]float64{160, 160}, Seconds: [2]float64{60, 60}}, "160 °C (320 °F) for 60 s"},
		{rules.Heat{TempC: [2]float64{132, 138}, Seconds: [2]float64{60, 75}}, "132 to 138 °C (270 to 280 °F) for 60 to 75 s"},
		{rules.Heat{TempC: [2]float64{193, 204}, Seconds: [2]float64{45, 60}}, "193 to 204 °C (379 to 399 °F) for 45 to 60 s"},
	} {
		if got := heat(c.heat); got != c.want {
			t.Errorf("heat(%v) = %q, want %q", c.heat, got, c.want)
		}
	}
}

// A job is always shown, whatever is missing from it or does not fit together.
func TestCardOfAnything(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	odd := job.Job{ID: 3, Order: rules.Order{Lines: rules.List[rules.Line]{{Prints: rules.List[rules.Print]{{}, {}}}, {}}},
		Plan: rules.Plan{Lines: rules.List[rules.LinePlan]{{Prints: rules.List[rules.PrintPlan]{{Pick: "dtf"}}}, {}, {Prints: rules.List[rules.PrintPlan]{{}}}},
			Questions: rules.List[rules.Question]{{Field: "lines[9].fabric"}, {Field: "lines["}, {}}, Checklist: rules.List[rules.Check]{{}}}}
	for _, j := range []job.Job{{}, {ID: 1}, odd} {
		for _, state := range append([]job.State{"", "never heard of"}, job.States...) {
			j.State = state
			c := CardOf(j, now, time.UTC)
			if c.Headline == "" {
				t.Errorf("job %d, %q, has no headline", j.ID, state)
			}
			_ = Text(Post{Card: &c, Rows: []Row{RowOf(j, now, time.UTC)}}, 40)
		}
	}
}

// What no one can see is not passed on: it could hide a word or turn one round.
func TestPlain(t *testing.T) {
	for in, want := range map[string]string{"a\x00b": "ab", "x\u202egnp": "xgnp", "a\tb\n": "a b", "one\ntwo": "one\ntwo", "\ufeffñ🎽": "ñ🎽", "\u2066a\u2069": "a", "": ""} {
		if got := plain(in); got != want {
			t.Errorf("plain(%q) = %q, want %q", in, got, want)
		}
	}
}
