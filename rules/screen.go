package rules

// ScreenSetup is how a screen print is put on press.
type ScreenSetup struct {
	MeshCM   [2]int  `json:"mesh_per_cm"`      // threads per cm, coarse to fine, for the colours
	MeshInch [2]int  `json:"mesh_per_inch"`    // the same per inch
	BaseCM   int     `json:"base_mesh_per_cm"` // for the base; 0 where there is none
	Screens  int     `json:"screens"`          // base included
	Passes   int     `json:"passes"`           // strokes for every colour
	Flashes  int     `json:"flashes"`          // dryings between colours
	Heads    int     `json:"heads"`            // press heads taken, flashes included
	InkGrams float64 `json:"ink_grams"`        // wet ink for one piece, all layers; 0 where the size is unknown. Error: a factor of 1.5
}

// mesh is the usual thread count per cm for a kind of ink, coarse to fine. From memory of common garment meshes.
func (b *bench) mesh(m Method) (lo, hi int) {
	switch {
	case b.effect(Glitter):
		return 10, 15
	case b.heavyEffect() != "":
		return 34, 43
	case b.effect(Metallic), b.effect(Shimmer), b.effect(Glow), b.effect(Reflective), b.effect(Flock), b.effect(Foil):
		return 34, 48
	case b.print.FullColour:
		return 90, 120
	case m == WaterBased, m == Discharge:
		return 54, 77
	case b.cloth.soft():
		return 61, 90
	}
	return 43, 68
}

// wetMicron is the wet deposit of one stroke through a plain-weave mesh of n threads per cm, in micrometres (which are cm3 per m2).
// The two middle branches follow the table's law, 0.285 and 0.35 of the fabric's thickness, with thickness drawn from the same table's
// common thread pairs; error about a quarter.
func wetMicron(n int) float64 {
	switch {
	case n <= 15:
		return 160
	case n <= 34:
		return 79
	case n <= 43:
		return 35
	case n <= 54:
		return 28
	case n <= 61:
		return 28
	case n <= 68:
		return 24
	case n <= 77:
		return 22
	case n <= 90:
		return 21
	case n <= 110:
		return 18
	}
	return 15
}

// inkDensity is grams of wet ink per cm3. From memory: a filled plastisol is near 1.25, a white one more; water-based near 1.1.
func inkDensity(m Method) float64 {
	if m == Plastisol {
		return 1.25
	}
	return 1.1
}

// screenSetup works out how a screen print is put on press.
func (b *bench) screenSetup(m Method) ScreenSetup {
	lo, hi := b.mesh(m)
	s := ScreenSetup{MeshCM: [2]int{lo, hi}, MeshInch: [2]int{perInch(lo), perInch(hi)}, Passes: 1}
	colours := max(1, b.inkN)
	if b.print.FullColour {
		colours = 4
	}
	colours = min(colours, 99)
	s.Screens = colours
	base := b.choice(m).Setup.Base
	single := base == WhiteBase && len(b.inks) == 1 && b.inks[0].known && b.inks[0].colour.Lab.L > 88 && colours == 1
	switch {
	case base == NoBase:
	case single:
		s.Passes, s.Flashes, s.BaseCM = 2, 1, lo // white is its own base: print, flash, print
	default:
		s.Screens++
		s.Flashes, s.BaseCM = 1, max(43, min(lo, 61))
		if b.print.FullColour {
			s.Screens++ // a highlight white
		}
	}
	s.Heads = s.Screens + s.Flashes
	if a, ok := b.area(); ok {
		layers := wetMicron((lo+hi)/2) * float64(s.Passes)
		if s.BaseCM > 0 && !single {
			layers += wetMicron(s.BaseCM)
		}
		s.InkGrams = round(layers*a*b.coverage()*inkDensity(m), 2)
	}
	return s
}

func perInch(n int) int { return int(float64(n)*2.54 + 0.5) }
