package intake

import (
	"bufio"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"
)

// bases are the labelled messages into which sentences that carry no fact are put: notes, lists, letters, mails by people of several tongues.
var bases = map[string][]string{
	"orders":  {"a004", "a032", "a036", "a040", "a046", "a066", "b005", "b014", "b029", "b034", "b052", "b065"},
	"blind-m": {"m054"},
	"blind-o": {"o010", "o025", "o026", "o047"},
}

// TestDistractors puts each sentence before, behind and inside each base: the order must not change.
func TestDistractors(t *testing.T) {
	sentences := distractors(t, "distractors")
	n := 0
	for name, ids := range bases {
		for _, c := range cases(t, name) {
			if !slices.Contains(ids, c.ID) {
				continue
			}
			n++
			o := Options{Received: c.Received}
			plain := Read(c.Text, o)
			for _, s := range sentences {
				for k, text := range around(c.Text, s) {
					got := Read(text, o)
					if notes := compare(plain.Order, got.Order).notes; len(notes) > 0 || got.IsOrder != plain.IsOrder {
						t.Errorf("%q %s in %s: %s", s, [...]string{"before", "behind", "inside"}[k], c.ID, strings.Join(notes, "; "))
					}
				}
			}
		}
	}
	if n < 15 {
		t.Fatalf("only %d bases were found", n)
	}
}

// around is a text with a sentence before it, behind it and after its first sentence.
func around(text, s string) []string {
	out := []string{s + " " + text, text + "\n" + s}
	if i := strings.Index(text, "\n"); i > 0 && !strings.Contains(text[:i], ". ") {
		return append(out, text[:i]+"\n"+s+text[i:])
	}
	if i := strings.Index(text, ". "); i > 0 {
		out = append(out, text[:i+2]+s+text[i+1:])
	}
	return out
}

// distractors reads the sentences of a file that the reader must withstand; a file with none is a failure.
func distractors(tb testing.TB, name string) (out []string) {
	tb.Helper()
	f, err := os.Open("testdata/" + name + ".jsonl")
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	for sc := bufio.NewScanner(f); sc.Scan(); {
		var row struct {
			Sentence string `json:"sentence"`
			Open     bool   `json:"open"` // still changes an order somewhere
		}
		if err := json.Unmarshal(sc.Bytes(), &row); err != nil || row.Sentence == "" {
			tb.Fatalf("%s: %q: %v", name, sc.Text(), err)
		}
		if !row.Open {
			out = append(out, row.Sentence)
		}
	}
	if len(out) == 0 {
		tb.Fatalf("%s has no sentences", name)
	}
	return out
}

// TestChatterKeepsOrders holds sentences that speak of people and things and yet say what is wanted.
func TestChatterKeepsOrders(t *testing.T) {
	for _, c := range []struct{ sentence, fact string }{
		{"I'm thinking navy with white on the front.", "front"},
		{"I'm picturing it in gold, on the back.", "back"},
		{"Our van is on the back in white.", "back"},
		{"The truck is 9\" wide on the front, red.", "front"},
		{"The front is a red truck.", "front"},
		{"The moon is on the left chest, yellow, 3 inches wide.", "left-chest"},
		{"The house is on the left sleeve in white.", "left-sleeve"},
	} {
		r := Read("60 cotton tees for Alder Lane Cafe. "+c.sentence, Options{Received: "2026-03-04"})
		if len(r.Order.Lines) != 1 || len(r.Order.Lines[0].Prints) != 1 || string(r.Order.Lines[0].Prints[0].Place) != c.fact {
			t.Errorf("%q: %+v", c.sentence, r.Order.Lines)
		}
	}
}
