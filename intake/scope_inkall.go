package intake

import (
	"slices"

	"strikeoff/rules"
)

// inkAlone reports whether an ink stands in a clause of its own, named as ink, before the places of its sentence: "white ink, left chest and back".
func (s *scope) inkAlone(st sentence, f int) bool {
	x := &s.r.facts[f]
	i, j := int(x.i0), int(x.i1)
	return (i == st.i0 || s.r.at(i-1).kind == iPunct) && s.r.at(j).is(cInkWord) && (s.r.punct(j+1, ',') || s.r.punct(j+1, ':')) && s.laterPlace(st, f)
}

// inkForAll reports whether an ink closes its sentence in a clause of its own behind several prints that all lack one: "logo 9 cm left chest, logo
// 30 cm back, white."
func (s *scope) inkForAll(st sentence, f int) bool {
	x := &s.r.facts[f]
	i := int(x.i0) - 1
	for s.r.at(i).is(cColourWord) || s.r.at(i).kind == iPunct && (s.r.at(i).ch == '"' || s.r.at(i).ch == '\'') {
		i--
	}
	always := s.r.at(i).word == wIn && alwaysWords[s.r.lastWord(i-1)] // "always in white", "both in colour sand"
	if len(s.all) < 2 || !s.r.punct(int(x.i0)-1, ',') && !s.listed(f) && !always {
		return false
	}
	inks := 1
	for k := f + 1; k < st.f1; k++ {
		if s.r.facts[k].kind != fColour {
			return false
		}
		inks++
	}
	for i := int(x.i1); i < st.i1; i++ {
		if it := s.r.at(i); it.kind == iWord || it.is(cOn) {
			return false
		}
	}
	if s.listed(f) && s.colInk {
		a := s.at(s.all[0])
		for _, h := range s.all {
			if p := s.at(h); !slices.Equal(p.Inks, a.Inks) || len(p.Inks) >= p.InkCount.Or(len(p.Inks)+1) { // "front 1c white, back 2c white red"
				return false
			}
		}
		return len(a.Inks) > 0 && s.inkAll
	}
	for _, h := range s.all {
		if p := s.at(h); len(p.Inks) > 0 || p.FullColour || p.InkCount.Or(inks) != inks { // "each one color, rust"
			return false
		}
	}
	return true
}

// alwaysWords say that what follows holds of every print.
var alwaysWords = internAll("always", "everywhere", "throughout", "all", "both", "everything", "siempre")

// coloursAre reports whether the sentence begins by speaking of colours or inks at large: "colours are black and orange".
func (s *scope) coloursAre(st sentence, f int) bool {
	for i := st.i0; i < int(s.r.facts[f].i0) && i < st.i0+5; i++ {
		if it := s.r.at(i); it.is(cColourWord) || it.is(cInkWord) {
			return true
		}
	}
	return false
}

// unInked are the prints that no ink was named for.
func (s *scope) unInked() []ref {
	var out []ref
	for _, h := range s.everyPrint() {
		if p := s.at(h); len(p.Inks) == 0 && !p.FullColour {
			out = append(out, h)
		}
	}
	return out
}

// oldInk are the prints that have the ink which the colour in fact f replaces, where the sentence names it and no place.
func (s *scope) oldInk(st sentence, f int) []ref {
	if len(s.all) > 0 || s.laterPlace(st, f) {
		return nil
	}
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if k == f || y.kind != fColour || !y.dead && !y.neg {
			continue
		}
		var out []ref
		for q := range s.lines {
			if s.lines[q].drop || len(s.seg) > 0 && !slices.Contains(s.seg, q) {
				continue
			}
			for z := range s.lines[q].Prints {
				if slices.Contains(s.lines[q].Prints[z].Inks, y.s) {
					out = append(out, ref{q, z})
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

func (s *scope) replacedInk(st sentence, f int, p *rules.Print) int {
	for k := st.f0; k < st.f1; k++ {
		if y := &s.r.facts[k]; k != f && y.kind == fColour && (y.dead || y.neg) {
			return slices.Index(p.Inks, y.s)
		}
	}
	return -1
}
