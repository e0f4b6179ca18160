package intake

import (
	"slices"
	"strings"
	"testing"
)

// TestRestate: an order said again in the program's own words reads as the same order.
func TestRestate(t *testing.T) {
	n := 0
	for _, file := range []string{"orders", "blind-a", "blind-b", "kept", "spanish", "amend"} {
		for _, c := range cases(t, file) {
			if len(c.Order.Lines) == 0 {
				continue
			}
			n++
			text := Restate(c.Order)
			got := Read(text, Options{Received: c.Received})
			if one := compare(c.Order, got.Order); one.missed+one.extra > 0 {
				t.Errorf("%s: said again as\n%s%v", c.ID, text, one.notes)
			}
		}
	}
	if n == 0 {
		t.Fatal("no order was tried")
	}
}

// TestRestateEdited: who copies the program's words and changes one gets the order with that change, and nothing is added by other meanings of the
// words; what no longer has the form is read like any message.
func TestRestateEdited(t *testing.T) {
	said := Restate(Read("24 scrub tops, navy, 65/35 poly cotton, LC white 3in wide, for Otter Lane Practice, due 1/15", Options{Received: "2026-11-25"}).Order)
	for _, c := range []struct{ from, to string }{{"24", "36"}, {"navy", "teal"}, {"left chest", "right chest"}, {"white", "cream"}} {
		got := Read(strings.Replace(said, c.from, c.to, 1), Options{Received: "2026-11-25"})
		again := Restate(got.Order)
		if want := strings.Replace(said, c.from, c.to, 1); again != want {
			t.Errorf("%q for %q: read as\n%swant\n%s", c.to, c.from, again, want)
		}
	}
	if got := Read(strings.Replace(said, "white", "blurple", 1), Options{Received: "2026-11-25"}); slices.Contains(got.Order.Lines[0].Prints[0].Inks, "blurple") {
		t.Error("a word that is no colour was taken for one because of the form around it")
	}
}
