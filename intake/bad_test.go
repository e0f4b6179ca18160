package intake

import (
	"strings"
	"testing"
)

// TestBadInput: nothing that is pasted breaks the reader, and what is odd is said in words, with what was taken and what to type.
func TestBadInput(t *testing.T) {
	o := Options{Received: "2026-11-25"}
	for _, c := range []struct {
		name, text string
		code       string // the oddity that must be told; "" for none
		order      bool
	}{
		{"empty", "", "empty", false},
		{"blank", " \n\t\r\n ", "empty", false},
		{"binary", "\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR\x00\x00\x01\x00\xff\xfe\xfd", "binary", false},
		{"a few NULs in a request", "40 black\x00 tees, front 1c white", "binary", true},
		{"bad UTF-8 in a request", "40 black tees, front 1c white \xff", "binary", true},
		{"emoji only", "😀🎉👕👕", "no-words", false},
		{"right to left", "אני צריך חולצות שחורות", "no-words", false},
		{"right-to-left marks in a request", "\u202e40 black tees\u202c, front 1c white", "", true},
		{"talk in Latin letters", "servus beinand", "", false},
		{"no pieces", "0 black tees, front 1c white", "quantity", true},
		{"ten million pieces", "10000000 black tees, front 1c white", "quantity", true},
		{"percents of 90", "40 black tees, 60% cotton 30% polyester, front 1c white", "percent-total", true},
		{"percents of 120", "40 black tees, 80% cotton 40% polyester, front 1c white", "percent-total", true},
		{"two colours that contradict", "40 black tees, front 1c white. Colour: navy", "colours-contradict", true},
		{"a day that is over", "40 black tees, front 1c white, due 3/1/2024", "past-date", true},
		{"a fibre nobody knows", "40 black tees, 60% kevlar 40% cotton, front 1c white", "unknown-fibre", true},
		{"a fibre orders have no word for", "40 black tees, 70% cotton 30% silk, front 1c white", "unknown-fibre", true},
		{"sizes that do not add up", "40 black tees, S 10 M 20, front 1c white", "sizes-total", true},
		{"more inks than said", "40 black tees, front 1 color white, red, blue", "ink-count", true},
		{"a print as large as a door", "40 black tees, front 280x350, 1c white", "print-size", true},
		{"coverage beyond all", "40 black tees, front 1c white, coverage 140%", "coverage", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(c.text, o)
			sound(t, c.text, r)
			if r.IsOrder != c.order {
				t.Errorf("order %v, want %v", r.IsOrder, c.order)
			}
			found := c.code == "" && len(r.Odd) == 0
			for _, odd := range r.Odd {
				if odd.Code == c.code {
					found = true
					if !strings.HasSuffix(odd.Text, ".") || strings.Contains(odd.Text, "!") {
						t.Errorf("not a plain sentence: %q", odd.Text)
					}
				}
			}
			if !found {
				t.Errorf("told %+v, want %q", r.Odd, c.code)
			}
			was := Read("40 black tees, front 1c white", o)
			now, _ := Amend(was, c.text, o)
			if len(now.Order.Lines) == 0 || now.Order.Lines[0].Garment != "t-shirt" {
				t.Errorf("as an amendment it lost what was kept: %+v", now.Order)
			}
		})
	}
}

// TestMegabyte: a message of a megabyte is read as far as the limit, and that is said.
func TestMegabyte(t *testing.T) {
	text := "40 black tees, cotton, front 1c white\n" + strings.Repeat("lorem ipsum dolor ", 1<<16)
	r := Read(text, Options{Received: "2026-11-25"})
	sound(t, text, r)
	if !r.IsOrder || len(r.Odd) == 0 || r.Odd[0].Code != "too-long" {
		t.Errorf("order %v, odd %+v", r.IsOrder, r.Odd)
	}
}

// TestSilence: an amendment that says nothing of the order changes nothing.
func TestSilence(t *testing.T) {
	o := Options{Received: "2026-11-25"}
	was := Read("Tin Lantern Cycles - 48 black tees, 100% cotton, FF 2c white + PMS 123, 12x14, need by 1/23", o)
	for _, text := range append([]string{"", "ok thanks", "looks good", "did you get the file?", "😀", "please call me on 555-0134", "who is on press today?"}, smallTalk...) {
		if now, changed := Amend(was, text, o); changed {
			t.Errorf("%q changed the order to %+v", text, now.Order)
		}
	}
}
