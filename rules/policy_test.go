package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"strikeoff/rules/source"
)

// rowsOf holds every rule's own cases, filled by the rule's test file.
var rowsOf = map[string][]row{}

// row is one order and what must come of it.
type row struct {
	name  string
	order Order
	shop  Shop
	rec   Record
	want  []want
	quiet bool // the rule must not speak
}

// want looks at a plan and says what is wrong with it, "" where nothing is.
type want func(rule string, s *sheet, p Plan) string

// rows gives a rule its cases. It is called from package variables, so that a rule's test file is one table.
func rows(id string, rs ...row) struct{} {
	rowsOf[id] = append(rowsOf[id], rs...)
	return struct{}{}
}

// says is a case in which the rule must speak, quiet one in which it must not.
func says(name string, o Order, ws ...want) row { return row{name: name, order: o, want: ws} }
func quiet(name string, o Order, ws ...want) row {
	return row{name: name, order: o, want: ws, quiet: true}
}

func (r row) in(s Shop) row        { r.shop = s; return r }
func (r row) knowing(k Record) row { r.rec = k; return r }

// TestPolicy walks the slice: every rule has an id of its own, says what it holds, names a known source, and has cases of its own in which
// it speaks; and runs those cases. It was seen to fail on a rule without source and on one without a case.
func TestPolicy(t *testing.T) {
	if len(policy) < 40 {
		t.Fatalf("only %d rules: the walk would pass for want of anything to walk", len(policy))
	}
	seen := map[string]bool{}
	for i, r := range policy {
		t.Run(r.id, func(t *testing.T) {
			if r.id == "" || seen[r.id] || strings.ContainsAny(r.id, " _") {
				t.Errorf("rule %d: the id %q is empty, used twice, or no plain hyphened words", i, r.id)
			}
			seen[r.id] = true
			if r.about == "" || !strings.HasSuffix(r.about, ".") {
				t.Errorf("it does not say what it holds: %q", r.about)
			}
			if !slices.Contains(source.All, r.basis) {
				t.Errorf("its basis %q is no known source", r.basis)
			}
			if r.judge == nil && r.after == nil && r.close == nil {
				t.Error("it does nothing")
			}
			spoke := 0
			for _, c := range rowsOf[r.id] {
				s := work(&c.order, &c.shop, &c.rec)
				p := s.plan()
				if s.fired[r.at] == c.quiet {
					t.Errorf("%s: the rule spoke: %v", c.name, s.fired[r.at])
				}
				if s.fired[r.at] {
					spoke++
				}
				for _, w := range c.want {
					if wrong := w(r.id, s, p); wrong != "" {
						t.Errorf("%s: %s", c.name, wrong)
					}
				}
			}
			if spoke == 0 {
				t.Error("no case of its own reaches it")
			}
		})
	}
	for id := range rowsOf {
		if !seen[id] {
			t.Errorf("there are cases for %q, and no such rule", id)
		}
	}
}

// tee is an order for 100 t-shirts with one print on the front, in cloth "cotton 50 polyester 50" or "" for unknown; colours and inks are
// parted by commas, an ink "full" is photographic art.
func tee(cloth, colours, inks string, more ...func(*Order)) Order {
	l := Line{Quantity: Said(100), Garment: "t-shirt", Prints: List[Print]{{Place: "front"}}}
	f := strings.Fields(cloth)
	for i := 0; i+1 < len(f); i += 2 {
		if l.Fibres == nil {
			l.Fibres = Blend{}
		}
		v, err := strconv.ParseFloat(f[i+1], 64)
		if err != nil {
			panic(err)
		}
		l.Fibres[Fibre(f[i])] = v
	}
	if colours != "" {
		l.Colours = strings.Split(colours, ",")
	}
	switch pr := &l.Prints[0]; inks {
	case "":
	case "full":
		pr.FullColour = true
	default:
		pr.Inks = strings.Split(inks, ",")
		pr.InkCount = Said(len(pr.Inks))
	}
	o := Order{Lines: List[Line]{l}}
	for _, m := range more {
		m(&o)
	}
	return o
}

// The ways to bend an order.
func pieces(n int) func(*Order)       { return func(o *Order) { o.Lines[0].Quantity = Said(n) } }
func uncounted(o *Order)              { o.Lines[0].Quantity = Maybe[int]{} }
func garment(g Garment) func(*Order)  { return func(o *Order) { o.Lines[0].Garment = g } }
func class(f Fabric) func(*Order)     { return func(o *Order) { o.Lines[0].Fabric = f } }
func place(p Place) func(*Order)      { return func(o *Order) { o.Lines[0].Prints[0].Place = p } }
func asking(m Method) func(*Order)    { return func(o *Order) { o.Lines[0].Prints[0].Method = m } }
func finish(e ...Effect) func(*Order) { return func(o *Order) { o.Lines[0].Prints[0].Effects = e } }
func wishing(w ...Wish) func(*Order)  { return func(o *Order) { o.Wishes = w } }
func for_(u ...Use) func(*Order)      { return func(o *Order) { o.Uses = u } }
func covering(pc float64) func(*Order) {
	return func(o *Order) { o.Lines[0].Prints[0].Coverage = Said(pc) }
}
func due(d Date) func(*Order) { return func(o *Order) { o.Due = d } }
func counting(inks int) func(*Order) {
	return func(o *Order) { o.Lines[0].Prints[0].InkCount = Said(inks) }
}
func sized(w, h float64) func(*Order) {
	return func(o *Order) { o.Lines[0].Prints[0].WidthMM, o.Lines[0].Prints[0].HeightMM = Said(w), Said(h) }
}
func with(other Order) func(*Order) {
	return func(o *Order) { o.Lines = append(o.Lines, other.Lines...) }
}

func choiceOf(p Plan, m Method) Choice {
	for _, c := range p.Lines[0].Prints[0].Choices {
		if c.Method == m {
			return c
		}
	}
	return Choice{}
}

// The things to look for; all look at the first print.
func is(m Method, vs ...Verdict) want {
	return func(_ string, _ *sheet, p Plan) string {
		if v := choiceOf(p, m).Verdict; !slices.Contains(vs, v) {
			return fmt.Sprintf("%s is %q, want %q", m, v, vs)
		}
		return ""
	}
}

func on(m Method, bs ...Base) want {
	return func(_ string, _ *sheet, p Plan) string {
		if b := choiceOf(p, m).Setup.Base; !slices.Contains(bs, b) {
			return fmt.Sprintf("%s stands on %q, want %q", m, b, bs)
		}
		return ""
	}
}

func adds(m Method, a Additive) want {
	return func(_ string, _ *sheet, p Plan) string {
		if got := choiceOf(p, m).Setup.Additives; !has(got, a) {
			return fmt.Sprintf("%s has %v, want %q among them", m, got, a)
		}
		return ""
	}
}

func upTo(m Method, most float64) want {
	return func(_ string, _ *sheet, p Plan) string {
		if h := choiceOf(p, m).Setup.Heat; h == nil || h.TempC[1] > most || h.TempC[0] > h.TempC[1] || h.Seconds[0] > h.Seconds[1] {
			return fmt.Sprintf("%s heat is %v, want a window up to %v °C", m, h, most)
		}
		return ""
	}
}

// lifts and lowers look at what this very rule did to a score.
func lifts(m Method) want  { return moves(m, 1) }
func lowers(m Method) want { return moves(m, -1) }

func moves(m Method, sign float64) want {
	return func(rule string, _ *sheet, p Plan) string {
		for _, w := range choiceOf(p, m).Why {
			if w.Rule == rule && w.Points*sign > 0 {
				return ""
			}
		}
		return fmt.Sprintf("the rule does not move %s as wanted", m)
	}
}

func picks(ms ...Method) want {
	return func(_ string, _ *sheet, p Plan) string {
		if got := p.Lines[0].Prints[0].Pick; !slices.Contains(ms, got) {
			return fmt.Sprintf("the pick is %q, want %q", got, ms)
		}
		return ""
	}
}

// warns looks for a caution by code that holds all the words.
func warns(code string, words ...string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, c := range p.Cautions {
			if c.Code == code && !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(c.Text, w) }) {
				return ""
			}
		}
		return fmt.Sprintf("no caution %q with %q in %v", code, words, p.Cautions)
	}
}

func stops(code string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, c := range p.Cautions {
			if c.Code == code && c.Severity == Stop {
				return ""
			}
		}
		return fmt.Sprintf("no stop %q in %v", code, p.Cautions)
	}
}

func asks(field string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, q := range p.Questions {
			if q.Field == field {
				return ""
			}
		}
		return fmt.Sprintf("no question on %q in %v", field, p.Questions)
	}
}

func assumes(field string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, a := range p.Assumptions {
			if a.Field == field {
				return ""
			}
		}
		return fmt.Sprintf("nothing assumed of %q in %v", field, p.Assumptions)
	}
}

func steps(codes ...string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, code := range codes {
			if _, ok := p.Step(code); !ok {
				return fmt.Sprintf("no step %q in the checklist", code)
			}
		}
		return ""
	}
}

func risk(rs ...Risk) want {
	return func(_ string, _ *sheet, p Plan) string {
		if got := p.Migration[0].Risk; !slices.Contains(rs, got) {
			return fmt.Sprintf("migration is %q (%.1f), want %q", got, p.Migration[0].Change, rs)
		}
		return ""
	}
}

func summed(words ...string) want {
	return func(_ string, _ *sheet, p Plan) string {
		for _, w := range words {
			if !strings.Contains(p.Summary, w) {
				return fmt.Sprintf("the summary %q does not say %q", p.Summary, w)
			}
		}
		return ""
	}
}
