package intake

import "testing"

// TestRestate: an order said again in the program's own words reads as the same order.
func TestRestate(t *testing.T) {
	n := 0
	for _, file := range []string{"orders", "blind-a", "blind-b", "spanish", "amend"} {
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
