package colour

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// table reads a CSV of testdata that carries its source as lines of "#". It fails on no rows.
func table(t testing.TB, path string) [][]string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(b)))
	r.Comment = '#'
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 2 {
		t.Fatalf("%s holds no rows", path)
	}
	return rows[1:]
}

func f(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func near(got, want, tolerance float64) bool { return got-want <= tolerance && want-got <= tolerance }
