package intake

import (
	"bufio"
	"encoding/json"
	"os"
	"testing"
)

// TestNames: whom an order is for, in the many ways people say it. The rest of the order is not looked at.
func TestNames(t *testing.T) {
	f, err := os.Open("testdata/names.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n, wrong := 0, 0
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		var c struct{ ID, Text, Customer string }
		if err := json.Unmarshal(sc.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		n++
		if got := string(Read(c.Text, Options{Received: "2026-02-02"}).Order.Customer); squeeze(got) != squeeze(c.Customer) {
			wrong++
			t.Logf("%s is for %q, want %q: %q", c.ID, got, c.Customer, c.Text)
		}
	}
	if err := sc.Err(); err != nil {
		t.Fatal(err)
	}
	if n == 0 {
		t.Fatal("no name was tried")
	}
	if wrong*50 > n { // a change in another part may cost a few
		t.Errorf("%d of %d names are wrong, want no more than one in fifty", wrong, n)
	}
}
