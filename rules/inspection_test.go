package rules

import "testing"

// TestInspect holds the plan to every row of the printed tables of ISO 2859-1 for level II and AQL 1.0 to 4.0, at both ends of each lot
// range (testdata/iso2859.csv).
func TestInspect(t *testing.T) {
	rows := table(t, "iso2859.csv")
	if len(rows) != 60 {
		t.Fatalf("%d rows, want 60", len(rows))
	}
	for _, r := range rows {
		lots := []int{int(figure(t, r[0]))}
		if r[1] != "" {
			lots = append(lots, int(figure(t, r[1])))
		}
		n, ac, re := int(figure(t, r[5])), int(figure(t, r[6])), int(figure(t, r[7]))
		for _, lot := range lots {
			got := Inspect(lot, figure(t, r[3]))
			if got.Letter != r[2] || got.Sample != min(n, lot) || got.Accept != ac || got.Reject != re {
				t.Errorf("lot %d at AQL %s: %+v, want letter %s, sample %d, %d/%d", lot, r[3], got, r[2], n, ac, re)
			}
		}
	}
	for _, lot := range []int{0, -5} {
		if got := Inspect(lot, 2.5); got != (Inspection{}) {
			t.Errorf("a lot of %d has a plan: %+v", lot, got)
		}
	}
	if got := Inspect(1, 2.5); got.Sample != 1 {
		t.Errorf("one piece is looked at whole: %+v", got)
	}
}
