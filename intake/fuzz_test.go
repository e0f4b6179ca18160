package intake

import (
	"strings"
	"testing"
	"unicode/utf8"

	"strikeoff/rules"
)

// seeds are texts that fuzzing begins with: the labelled messages, and bad input.
func seeds(f *testing.F) {
	for _, name := range []string{"orders", "blind-a", "spanish", "nonorders"} {
		for _, c := range cases(f, name) {
			f.Add(c.Text)
		}
	}
	for _, s := range []string{"", "\x00\x00", "\xff\xfe", "😀😀😀", "مرحبا 48 قميص", "שלום", "0 tees", "10000000 tees navy", "60% cotton 30% polyester tees", "120% cotton", "1filipiA", "0% polyester tee",
		"black tees white tees 12", "1/2/3/4/5", "S M L XL\n1 2 3", "x x x x", "((((((", "||||", "no no no not", "60 unisex (S 20, M 40 in navy tees", "as item 1 as item 2", "30 tees\n2) 30 tees\n3) 40", strings.Repeat("12 red ", 200)} {
		f.Add(s)
	}
}

// sound checks what must hold of every reading of a text.
func sound(t *testing.T, text string, r Reading) {
	t.Helper()
	last := 0
	for _, m := range r.Marks {
		if m.Start < last || m.End <= m.Start || m.End > len(text) {
			t.Fatalf("mark %+v lies outside the text or out of order (text of %d bytes, last start %d)", m, len(text), last)
		}
		last = m.Start
		if m.Sure <= 0 || m.Sure > 1 {
			t.Fatalf("mark %+v is sure beyond 0 to 1", m)
		}
	}
	odd := map[string]bool{}
	for _, o := range r.Odd {
		if o.Text == "" || o.Code == "" {
			t.Fatalf("an oddity without words: %+v", o)
		}
		odd[o.Code+o.Field] = true
	}
	for k, l := range r.Order.Lines {
		if l.Fibres != nil {
			if n := l.Fibres.Total(); (n < 99.5 || n > 100.5) && !odd["percent-total"+linePath(k, 3)] {
				t.Fatalf("fibres total %v and nobody is told", n)
			}
		}
		if l.Quantity.Known && l.Quantity.Value <= 0 {
			t.Fatalf("a quantity of %d", l.Quantity.Value)
		}
		for s, n := range l.Sizes {
			if n <= 0 {
				t.Fatalf("%d pieces of size %s", n, s)
			}
		}
	}
	for _, u := range r.Order.Unread {
		if !strings.Contains(text, u) {
			t.Fatalf("unread %q is not in the text", u)
		}
		if utf8.ValidString(text) && !utf8.ValidString(u) {
			t.Fatalf("unread %q is cut inside a letter", u)
		}
	}
	if !r.IsOrder && len(r.Order.Lines) > 0 {
		t.Fatal("talk with an order in it")
	}
	Explain(text, r)
}

// FuzzRead: reading never panics, and what it says holds.
func FuzzRead(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		sound(t, text, Read(text, Options{Received: "2026-11-25"}))
		Read(text, Options{DayFirst: true})
	})
}

// FuzzAmend: so does amending an order that stands.
func FuzzAmend(f *testing.F) {
	for _, c := range cases(f, "amend") {
		for _, then := range c.Then {
			f.Add(c.Text, then)
		}
	}
	f.Fuzz(func(t *testing.T, text, then string) {
		o := Options{Received: "2026-11-25"}
		r, changed := Amend(Read(text, o), then, o)
		if changed {
			for _, m := range r.Marks {
				if m.Start < 0 || m.End > len(then) || m.End <= m.Start {
					t.Fatalf("mark %+v lies outside the amendment", m)
				}
			}
		}
		if _, again := Amend(r, "", o); again {
			t.Fatal("an empty message changed the order")
		}
	})
}

// FuzzRestate: an order that was read, said again in the program's own words, reads as the same order.
func FuzzRestate(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		o := Options{Received: "2026-11-25"}
		r := Read(text, o)
		if !r.IsOrder || !sayable(r.Order) {
			t.Skip()
		}
		again := Restate(r.Order)
		got := Read(again, o)
		if one := compare(r.Order, got.Order); one.missed+one.extra > 0 {
			t.Fatalf("read %q, said again as\n%s%v", text, again, one.notes)
		}
	})
}

// sayable reports whether an order can be said in lines of text: a name that is cut out of a text with marks that move a line in it cannot, and a
// maker's own name of a colour, which only a table or a heading tells for one, does not read back.
func sayable(o rules.Order) bool {
	for _, l := range o.Lines {
		if !knownColours(l.Colours) {
			return false
		}
		for _, p := range l.Prints {
			if !knownColours(p.Inks) {
				return false
			}
		}
	}
	return strings.Join(strings.Fields(string(o.Customer)), " ") == string(o.Customer)
}

// FuzzSmallTalk: a line of small talk before or after a request changes no fact in it.
func FuzzSmallTalk(f *testing.F) {
	for i := range 75 {
		for k := range smallTalk {
			f.Add(i, k, k%2 == 0)
		}
	}
	var list []labelled
	for _, name := range []string{"orders", "blind-a", "blind-b", "kept", "spanish"} {
		list = append(list, cases(f, name)...)
	}
	f.Fuzz(func(t *testing.T, i, k int, before bool) {
		c := list[((i%len(list))+len(list))%len(list)]
		talk := smallTalk[((k%len(smallTalk))+len(smallTalk))%len(smallTalk)]
		o := Options{Received: c.Received}
		text := c.Text + "\n\n" + talk
		if before {
			text = talk + "\n\n" + c.Text
		}
		if one := compare(Read(c.Text, o).Order, Read(text, o).Order); one.missed+one.extra > 0 {
			t.Fatalf("%q changed %s: %v", talk, c.ID, one.notes)
		}
	})
}

// smallTalk says nothing of goods.
var smallTalk = []string{"Hope you had a good weekend.", "Thanks for all your help!", "It is raining here again.", "Say hello to everyone at the shop.",
	"Sorry about the long message.", "Call me if anything is unclear.", "How is the new puppy?", "We really enjoyed working with you.", "Lunch was great, by the way.",
	"The traffic was awful this morning.", "My phone is playing up.", "Let me know what you think.", "Talk soon.", "No worries at all.", "That is everything from us.",
	"Muchas gracias por todo.", "Have a lovely day.", "I hope this finds you well.", "Can't wait to see them.", "Congratulations on the new place."}
