package intake

import (
	"bufio"
	"flag"
	"os"
	"slices"
	"strings"
	"testing"
)

// guardFrom is a list of everyday words, one a line, to look for words that words/guard.tsv lacks.
var guardFrom = flag.String("guard", "", "a list of everyday words, one a line: print those that the typo search takes for another word")

// reached are the words of a list that the typo search takes for another when nothing guards them. Words with capitals are names; those that the
// vocabulary knows are never searched for.
func reached(words []string) []string {
	x := vocab.typos
	x.guard = nil
	var out []string
	for _, w := range words {
		if strings.ToLower(w) != w || strings.ContainsFunc(w, func(r rune) bool { return r < 'a' || r > 'z' }) {
			continue
		}
		if _, known := vocab.words[w]; !known && x.find([]byte(w), true) != 0 {
			out = append(out, w)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestGuard makes words/guard.tsv: go test ./intake -run TestGuard -v -guard /usr/share/dict/american-english prints the everyday words that it lacks.
// Leave out what is nobody's everyday word but a likely slip of the pen, and coarse words; keep the list in order. Without a list, the test only
// sees that the search finds what needs guarding and that the list is in order.
func TestGuard(t *testing.T) {
	if got := reached([]string{"water", "backs", "frost", "Frost"}); !slices.Contains(got, "frost") || slices.Contains(got, "Frost") {
		t.Errorf("of water, backs, frost and Frost, %q are said to be within reach", got)
	}
	var have []string
	for w := range rows("guard") {
		have = append(have, w)
	}
	if len(have) == 0 || !slices.IsSorted(have) || len(slices.Compact(slices.Clone(have))) != len(have) {
		t.Errorf("the %d words of the guard list are not in order, or some stand twice", len(have))
	}
	if *guardFrom == "" {
		return
	}
	f, err := os.Open(*guardFrom)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var words []string
	for s := bufio.NewScanner(f); s.Scan(); {
		words = append(words, s.Text())
	}
	if len(words) == 0 {
		t.Fatal("the list holds no words")
	}
	for _, w := range reached(words) {
		if _, found := slices.BinarySearch(have, w); !found {
			t.Log(w)
		}
	}
}
