package fibre

// Shares is the make-up of a cloth by kinds of fibre that print alike, each a share of 0 to 1. The zero Shares is an unknown cloth.
type Shares struct {
	Cotton     float64 // cotton
	Regenerate float64 // viscose, modal, lyocell, bamboo viscose: cellulose made anew
	Bast       float64 // linen, hemp: cellulose of stems
	Polyester  float64
	Nylon      float64
	Acrylic    float64
	Wool       float64
	Elastane   float64
}

// Cellulose is the share of all cellulose: what water-based ink, discharge and direct-to-garment ink hold on to.
func (s Shares) Cellulose() float64 { return s.Cotton + s.Regenerate + s.Bast }

// Known reports whether the cloth is known at all.
func (s Shares) Known() bool { return s != Shares{} }

// SharesOf is the make-up of a blend. The percents need not total 100. An unknown or empty blend gives the zero Shares.
func SharesOf(b Blend) Shares {
	total := 0.0
	for _, f := range All { // in a fixed order: sums of floats must not hang on the order of a map
		if b[f] > 0 {
			total += b[f]
		}
	}
	if total <= 0 {
		return Shares{}
	}
	at := func(f Fibre) float64 { return max(0, b[f]) / total }
	return Shares{
		Cotton: at(Cotton), Regenerate: at(Viscose) + at(Modal) + at(Lyocell) + at(BambooViscose), Bast: at(Linen) + at(Hemp),
		Polyester: at(Polyester), Nylon: at(Nylon), Acrylic: at(Acrylic), Wool: at(Wool), Elastane: at(Elastane),
	}
}

// Typical is the blend that the trade usually means by a class, where a message names the class and no percents (common practice; CVC
// from memory). It is nil for a class that says too little.
func Typical(c Class) Blend {
	switch c {
	case AllCotton:
		return Blend{Cotton: 100}
	case CVC:
		return Blend{Cotton: 60, Polyester: 40}
	case FiftyFifty:
		return Blend{Cotton: 50, Polyester: 50}
	case PolyCotton:
		return Blend{Polyester: 65, Cotton: 35}
	case TriBlend:
		return Blend{Polyester: 50, Cotton: 25, Viscose: 25}
	case PolyViscose:
		return Blend{Polyester: 65, Viscose: 35}
	case AllPolyester:
		return Blend{Polyester: 100}
	case AllNylon:
		return Blend{Nylon: 100}
	case AllAcrylic:
		return Blend{Acrylic: 100}
	case AllWool:
		return Blend{Wool: 100}
	case AllLinen:
		return Blend{Linen: 100}
	}
	return nil
}
