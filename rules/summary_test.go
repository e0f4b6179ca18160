package rules

import (
	"strings"
	"testing"

	"strikeoff/rules/fibre"
)

// TestSummaryNamesLines: the one sentence names a line by the least that tells it from the others, and no place where all of its places share a way.
func TestSummaryNamesLines(t *testing.T) {
	line := func(g Garment, colour string, fabric Fabric, places ...Place) Line {
		l := Line{Quantity: Said(24), Garment: g, Colours: []string{colour}, Fabric: fabric}
		for _, p := range places {
			l.Prints = append(l.Prints, Print{Place: p, Inks: []string{"white"}, InkCount: Said(1), WidthMM: Said(200.0), HeightMM: Said(200.0)})
		}
		return l
	}
	asked := func(l Line, print int, m Method) Line {
		l.Prints[print].Method = m
		return l
	}
	for _, c := range []struct {
		name  string
		lines []Line
		says  []string
		not   []string
	}{
		{"one line says its places", []Line{line("hoodie", "navy", fibre.AllCotton, "back", "front")}, []string{"back and front"}, []string{"hoodie", "whole"}},
		{"all in one way", []Line{line("hoodie", "navy", fibre.AllCotton, "back"), line("tote", "black", fibre.AllCotton, "front")},
			[]string{"Print the whole order in plastisol"}, []string{"hoodie"}},
		{"told by the garment", []Line{line("hoodie", "navy", fibre.AllCotton, "back", "front"), asked(line("tote", "black", fibre.AllCotton, "front"), 0, DTF)},
			[]string{"the hoodies in plastisol", "totes as printed film transfer"}, []string{"navy", "back", "front"}},
		{"told by the colour", []Line{line("t-shirt", "navy", fibre.AllCotton, "back"), asked(line("t-shirt", "black", fibre.AllCotton, "back"), 0, DTF)},
			[]string{"navy t-shirts in plastisol", "black t-shirts as printed film transfer"}, []string{"cotton"}},
		{"told by the cloth", []Line{line("jersey", "navy", fibre.AllCotton, "back"), asked(line("jersey", "navy", fibre.AllNylon, "back"), 0, DTF)},
			[]string{"navy cotton jerseys in plastisol", "navy nylon jerseys as printed film transfer"}, nil},
		{"one place of a line apart", []Line{asked(line("hoodie", "navy", fibre.AllCotton, "back", "front"), 1, DTF), line("tote", "black", fibre.AllCotton, "front")},
			[]string{"back of the hoodies", "front of the hoodies as printed film transfer"}, nil},
	} {
		got := Decide(Order{Lines: c.lines}, Shop{}, Record{Today: "2026-11-25"}).Summary
		for _, w := range c.says {
			if !strings.Contains(got, w) {
				t.Errorf("%s: %q does not say %q", c.name, got, w)
			}
		}
		for _, w := range c.not {
			if strings.Contains(got, w) {
				t.Errorf("%s: %q says %q", c.name, got, w)
			}
		}
	}
}
