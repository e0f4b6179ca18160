package slack

import (
	"testing"
	"time"
)

// Ensure that a ts is a time and back, to the microsecond, and that order is by time and not by spelling.
func TestStamp(t *testing.T) {
	if got, want := stamp("1531420618.000100"), time.Unix(1531420618, 100_000).UTC(); !got.Equal(want) {
		t.Errorf("stamp = %v, want %v", got, want)
	}
	for _, ts := range []string{"1531420618.000100", "1531420618.999999", "1.000000"} {
		if got := tsOf(stamp(ts)); got != ts {
			t.Errorf("tsOf(stamp(%q)) = %q", ts, got)
		}
	}
	for _, bad := range []string{"", "x", "-5.1", "0.1", "9223372036854775808.1"} {
		if got := stamp(bad); !got.IsZero() {
			t.Errorf("stamp(%q) = %v, want no time", bad, got)
		}
	}
	for _, c := range []struct {
		a, b string
		want bool
	}{{"2.000001", "1.999999", true}, {"10.000000", "9.000000", true}, {"1.000002", "1.000001", true}, {"1.000001", "1.000001", false}, {"", "1.0", false}, {"1.0", "", true}} {
		if got := later(c.a, c.b); got != c.want {
			t.Errorf("later(%q, %q) = %v", c.a, c.b, got)
		}
	}
}
