package rules

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// FuzzDecide: no order makes it panic, and every plan is sound.
func FuzzDecide(f *testing.F) {
	for _, set := range []string{"cases-plan.jsonl", "cases-blind.jsonl"} {
		for _, c := range readCases(f, set) {
			b, err := json.Marshal(c.Order)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(b, "2026-11-25")
		}
	}
	f.Add([]byte(`{"due":"9999-12-31","lines":[{"quantity":-5,"sizes":{"M":-9},"fibres":{"cotton":-10,"dust":1e308},"colours":["","\u0000","camo camo"],"prints":[{"width_mm":-1,"height_mm":1e300,"inks":["",""],"ink_count":-4,"coverage_percent":-7,"method":"stamp","effects":["smell"]}]}]}`), "0001-01-01")
	f.Add([]byte(`{"lines":[{"fibres":{"cotton":100},"colours":["white"],"prints":[{"ink_count":9999999999,"inks":["red"]}],"quantity":9223372036854775807}]}`), "")
	f.Fuzz(func(t *testing.T, b []byte, today string) {
		var o Order
		if json.Unmarshal(b, &o) != nil || len(o.Lines) > 50 {
			t.Skip()
		}
		rec := Record{Today: Date(today), Chosen: List[Chosen]{{Line: -1, Print: 9, Method: "x"}, {Method: "stamp"}},
			Failures: List[Failure]{{Step: "wash", Tried: []Try{{Method: Plastisol}, {Line: 99, Method: "x"}}}}}
		for _, p := range []Plan{Decide(o, Shop{}, rec), Decide(o, Shop{AQL: -1, HoursADay: -3, ClosedDays: List[string]{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}}, Record{})} {
			if wrong := unsound(o, p); wrong != "" {
				t.Error(wrong)
			}
			if _, err := json.Marshal(p); err != nil {
				t.Error(err)
			}
		}
	})
}

func TestDecideOnNothing(t *testing.T) {
	p := Decide(Order{}, Shop{}, Record{})
	if !p.Open() || !strings.Contains(p.Summary, "Nothing to plan yet") {
		t.Errorf("plan of nothing: %+v", p)
	}
	if b, err := json.Marshal(p); err != nil || strings.Contains(string(b), "null,\"cautions\"") {
		t.Errorf("%s, %v", b, err)
	}
}

// TestDecideIsPure: the same order gives the same plan, and is left as it was, also when it is planned by many at once.
func TestDecideIsPure(t *testing.T) {
	o := tee("polyester 50 cotton 25 viscose 25", "navy,maroon", "white,gold", with(tee("nylon 100", "black", "full")), wishing(SoftHand), for_(Children), due("2026-12-18"))
	rec := Record{Today: "2026-11-25"}
	before, want := asJSON(t, o), asJSON(t, Decide(o, Shop{}, rec))
	got := make(chan string)
	for range 8 {
		go func() {
			s := ""
			for range 20 {
				b, _ := json.MarshalIndent(Decide(o, Shop{}, rec), "", " ")
				if s != "" && s != string(b) {
					s = "two plans"
					break
				}
				s = string(b)
			}
			got <- s
		}()
	}
	for range 8 {
		if s := <-got; s != want {
			t.Error("another plan:\n" + firstDifference(want, s))
		}
	}
	if after := asJSON(t, o); after != before {
		t.Error("the order was changed")
	}
}

// The words of a plan are for people: no name of a field or value, no exclamation mark, temperatures in both units.
func TestPlainWords(t *testing.T) {
	codes := []string{"low-bleed-white", "grey-blocker", "water-based-blocker", "pretreat-white", "block-out", "low-cure-", "_", "!", "dtg", "dtf", "heat-transfer", "null"}
	n := 0
	for _, set := range []string{"cases-plan.jsonl", "cases-blind.jsonl"} {
		for _, c := range readCases(t, set) {
			p := Decide(c.Order, Shop{}, Record{Today: "2026-11-25"})
			texts := []string{p.Summary}
			for _, x := range p.Cautions {
				texts = append(texts, x.Text)
			}
			for _, x := range p.Questions {
				texts = append(texts, x.Text)
			}
			for _, x := range p.Assumptions {
				texts = append(texts, x.Text)
			}
			for _, x := range p.Checklist {
				texts = append(texts, x.Title, x.How, x.Pass)
			}
			for _, l := range p.Lines {
				for _, pr := range l.Prints {
					for _, m := range Methods {
						texts = append(texts, Why(pr, m)...)
					}
				}
			}
			for _, s := range texts {
				n++
				for _, code := range codes {
					if strings.Contains(s, code) {
						t.Errorf("%s: %q holds %q", c.ID, s, code)
					}
				}
				if strings.Contains(s, "°C") && !strings.Contains(s, "°F") {
					t.Errorf("%s: %q has no °F", c.ID, s)
				}
				if strings.TrimSpace(s) == "" {
					t.Errorf("%s: an empty text", c.ID)
				}
			}
		}
	}
	if n < 1000 {
		t.Errorf("%d texts looked at", n)
	}
}

func TestWhy(t *testing.T) {
	p := Decide(tee("polyester 100", "navy", "white"), Shop{}, Record{}).Lines[0].Prints[0]
	pick := strings.Join(Why(p, Plastisol), "\n")
	for _, w := range []string{"works, once a test print with a wash test is passed", "Speaks for it (+14)", "Set up: plastisol on a", "°C (", "common practice", "screens"} {
		if !strings.Contains(pick, w) {
			t.Errorf("why plastisol does not say %q:\n%s", w, pick)
		}
	}
	if out := strings.Join(Why(p, Sublimation), "\n"); !strings.Contains(out, "This rules it out") || !strings.Contains(out, "transparent") {
		t.Errorf("why not sublimation:\n%s", out)
	}
	if got := Why(p, "stamp"); got != nil {
		t.Errorf("why a method nobody weighs: %q", got)
	}
}

func BenchmarkDecide(b *testing.B) {
	for _, c := range []struct {
		name string
		o    Order
	}{
		{"one line", tee("cotton 100", "black", "white", sized(280, 300), covering(40))},
		{"hardest", tee("polyester 50 cotton 25 viscose 25", "navy", "white,gold", sized(280, 300), covering(40), finish(Puff), wishing(SoftHand), for_(Children), due("2026-12-18"))},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Decide(c.o, Shop{}, Record{Today: "2026-11-25"})
			}
		})
	}
	for _, n := range []int{10, 100, 1000} {
		o := Order{}
		for i := range n {
			o.Lines = append(o.Lines, tee(someCloths[1+i%(len(someCloths)-1)], someColours[1+i%12], "white", sized(280, 300), pieces(20+i)).Lines...)
		}
		b.Run(fmt.Sprintf("%d lines", n), func(b *testing.B) {
			for b.Loop() {
				Decide(o, Shop{}, Record{})
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "µs/line")
		})
	}
}
