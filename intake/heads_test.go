package intake

import (
	"bufio"
	"encoding/json"
	"os"
	"reflect"
	"slices"
	"testing"

	"strikeoff/rules"
)

// TestHeads: what an order says of itself as a whole, in the many ways people say it. Its lines are not looked at.
func TestHeads(t *testing.T) {
	f, err := os.Open("testdata/heads.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	type head struct {
		Customer     string
		Due          rules.Date
		Wishes, Uses []string
	}
	n, wrong := 0, 0
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		var c struct {
			labelled
			Head    head
			IsOrder bool `json:"is_order"`
		}
		if err := json.Unmarshal(sc.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		n++
		r, isOrder := c.read()
		got := head{Customer: squeeze(string(r.Order.Customer)), Due: r.Order.Due}
		for _, w := range r.Order.Wishes {
			got.Wishes = append(got.Wishes, string(w))
		}
		for _, u := range r.Order.Uses {
			got.Uses = append(got.Uses, string(u))
		}
		want := c.Head
		want.Customer = squeeze(want.Customer)
		for _, list := range [][]string{got.Wishes, got.Uses, want.Wishes, want.Uses} {
			slices.Sort(list)
		}
		if isOrder != c.IsOrder || !reflect.DeepEqual(got, want) {
			wrong++
			t.Logf("%s: order %v, %+v, want %v, %+v: %q", c.ID, isOrder, got, c.IsOrder, want, c.Text)
		}
	}
	if err := sc.Err(); err != nil {
		t.Fatal(err)
	}
	if n == 0 {
		t.Fatal("no message was tried")
	}
	if wrong*50 > n { // a change in another part may cost a few
		t.Errorf("%d of %d are wrong, want no more than one in fifty", wrong, n)
	}
}
