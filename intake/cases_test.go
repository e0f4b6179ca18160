package intake

import (
	"bufio"
	"encoding/json"
	"os"
	"testing"

	"strikeoff/rules"
)

// labelled is one message with the order that stands in it.
type labelled struct {
	ID       string      `json:"id"`
	Received rules.Date  `json:"received"`
	Text     string      `json:"text"`
	Then     []string    `json:"then"`
	Order    rules.Order `json:"order"`
}

// cases reads a file of labelled messages; an empty one is a failure.
func cases(tb testing.TB, name string) []labelled {
	tb.Helper()
	f, err := os.Open("testdata/" + name + ".jsonl")
	if err != nil {
		tb.Fatal(err)
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
			tb.Fatalf("%s: %v", name, err)
		}
		out = append(out, c)
	}
	if err := sc.Err(); err != nil {
		tb.Fatal(err)
	}
	if len(out) == 0 {
		tb.Fatalf("%s has no cases", name)
	}
	return out
}

// read answers a case as `strikeoff read --lines` does.
func (c labelled) read() (Reading, bool) {
	o := Options{Received: c.Received}
	r := Read(c.Text, o)
	first := r.IsOrder
	for _, t := range c.Then {
		r, _ = Amend(r, t, o)
	}
	return r, first
}

// TestCases scores the labelled messages. The floors are what was reached, less a little: a change that reads worse shows.
func TestCases(t *testing.T) {
	for _, file := range []struct {
		name  string
		f1    float64
		exact float64
		kinds int // messages that are taken for the wrong kind, at most
	}{
		{"drills-prints", 0.99, 0.97, 0},
		{"drills-refused", 0.99, 0.97, 0},
		{"drills-told", 0.99, 0.97, 0},
		{"drills-mixed", 0.99, 0.97, 0},
		{"drills-more", 0.99, 0.97, 0},
		{"orders", 0.985, 0.95, 0},
		{"blind-a", 0.98, 0.92, 0},
		{"blind-b", 0.985, 0.95, 0},
		{"spanish", 0.98, 0.92, 0},
		{"amend", 0.98, 0.92, 0},
		{"kept", 0.985, 0.95, 0},
		{"drills-goods", 0.99, 0.97, 0},
		{"blind-c", 0.985, 0.94, 0},
		{"blind-d", 0.98, 0.88, 0},
		{"blind-e", 0.985, 0.95, 1},
		{"blind-f", 0.985, 0.92, 0},
		{"blind-g", 0.985, 0.88, 0},
		{"blind-h", 0.985, 0.93, 0},
		{"blind-i", 0.98, 0.88, 1},
		{"blind-j", 0.985, 0.95, 0},
		{"blind-k", 0.98, 0.90, 0},
		{"blind-l", 0.985, 0.88, 1},
		{"blind-m", 0.98, 0.93, 0},
		{"blind-n", 0.98, 0.88, 0},
		{"blind-o", 0.99, 0.95, 0},
		{"blind-p", 0.97, 0.86, 1},
		{"blind-r", 0.99, 0.92, 0},
	} {
		t.Run(file.name, func(t *testing.T) {
			all := &tally{}
			list := cases(t, file.name)
			right, wrongKind := 0, 0
			for _, c := range list {
				got, isOrder := c.read()
				one := compare(c.Order, got.Order)
				all.hit, all.extra, all.missed = all.hit+one.hit, all.extra+one.extra, all.missed+one.missed
				if one.extra+one.missed == 0 {
					right++
				} else {
					t.Logf("%s %q", c.ID, c.Text)
					for _, n := range one.notes {
						t.Log("    ", n)
					}
				}
				if isOrder != (len(c.Order.Lines) > 0) {
					wrongKind++
					t.Logf("%s: order %v, want %v: %q", c.ID, isOrder, !isOrder, c.Text)
				}
			}
			if wrongKind > file.kinds {
				t.Errorf("%d messages were taken for the wrong kind, want %d at most", wrongKind, file.kinds)
			}
			share := float64(right) / float64(len(list))
			t.Logf("%d messages: F1 %.3f, every fact right in %d (%.3f), taken for the wrong kind %d", len(list), all.f1(), right, share, wrongKind)
			if all.f1() < file.f1 || share < file.exact {
				t.Errorf("F1 %.3f and share %.3f, want %.3f and %.3f at least", all.f1(), share, file.f1, file.exact)
			}
		})
	}
}

// TestNonOrders: talk gets no order, and none is made of it.
func TestNonOrders(t *testing.T) {
	wrong := 0
	for _, c := range cases(t, "nonorders") {
		r, isOrder := c.read()
		if isOrder || len(r.Order.Lines) > 0 || r.Order.Customer != "" || r.Order.Due != "" {
			wrong++
			t.Logf("%s taken for an order: %q", c.ID, c.Text)
		}
	}
	if wrong > 0 {
		t.Errorf("%d messages of talk were taken for orders, want none", wrong)
	}
}

// TestScoreSeesFaults plants faults in a right answer: each must cost.
func TestScoreSeesFaults(t *testing.T) {
	c := cases(t, "orders")[0]
	if one := compare(c.Order, c.Order); one.extra+one.missed != 0 || one.hit == 0 {
		t.Fatalf("the label against itself: %+v", one)
	}
	for name, spoil := range map[string]func(o *rules.Order){
		"due":      func(o *rules.Order) { o.Due = "" },
		"quantity": func(o *rules.Order) { o.Lines[0].Quantity.Value++ },
		"ink":      func(o *rules.Order) { o.Lines[0].Prints[0].Inks = nil },
		"line":     func(o *rules.Order) { o.Lines = append(o.Lines, rules.Line{Garment: "cap"}) },
		"wish":     func(o *rules.Order) { o.Wishes = append(o.Wishes, "bright") },
	} {
		o := c.Order.Clone()
		spoil(&o)
		if one := compare(c.Order, o); one.extra+one.missed == 0 {
			t.Errorf("a wrong %s was not seen", name)
		}
	}
}
