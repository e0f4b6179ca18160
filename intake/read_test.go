package intake

import "testing"

// TestReadOneLine reads a request that fits on one line.
func TestReadOneLine(t *testing.T) {
	r := Read("Tin Lantern Cycles - 48 black tees, 100% cotton, FF 2c white + PMS 123, 12x14, need by 1/23", Options{Received: "2026-01-05"})
	if !r.IsOrder || len(r.Order.Lines) != 1 {
		t.Fatalf("read %+v, want an order of one line", r)
	}
	l := r.Order.Lines[0]
	if r.Order.Customer != "Tin Lantern Cycles" || r.Order.Due != "2026-01-23" || l.Quantity.Value != 48 || l.Garment != "t-shirt" || l.Fabric != "cotton" {
		t.Errorf("read %+v", r.Order)
	}
	if len(l.Prints) != 1 || l.Prints[0].Place != "front" || len(l.Prints[0].Inks) != 2 || l.Prints[0].WidthMM.Value != 304.8 {
		t.Errorf("prints %+v", l.Prints)
	}
}
