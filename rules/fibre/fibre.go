// Package fibre holds what a fabric is made of: fibres, blends, and the classes of fabric the trade speaks of.
package fibre

import "encoding/json"

// Fibre is a textile fibre by its generic name (ISO 2076 names, with the trade's "bamboo-viscose").
type Fibre string

// The fibres that an order can name.
const (
	Cotton        Fibre = "cotton"
	Polyester     Fibre = "polyester"
	Viscose       Fibre = "viscose" // rayon
	Modal         Fibre = "modal"
	Lyocell       Fibre = "lyocell"
	Nylon         Fibre = "nylon" // polyamide
	Acrylic       Fibre = "acrylic"
	Wool          Fibre = "wool"
	Linen         Fibre = "linen" // flax
	Hemp          Fibre = "hemp"
	Elastane      Fibre = "elastane" // spandex
	BambooViscose Fibre = "bamboo-viscose"
)

// All lists every fibre that an order can name.
var All = []Fibre{Cotton, Polyester, Viscose, Modal, Lyocell, Nylon, Acrylic, Wool, Linen, Hemp, Elastane, BambooViscose}

// Blend is percent by weight of each fibre. nil is unknown.
type Blend map[Fibre]float64

// Total is the sum of the percents; 100 in a blend that was stated whole.
func (b Blend) Total() float64 {
	t := 0.0
	for _, p := range b {
		t += p
	}
	return t
}

// Class is a class of fabric. "" is unknown.
type Class string

// The classes of fabric, by their limits in the order contract.
const (
	AllCotton    Class = "cotton"       // cotton 95 % and up
	CVC          Class = "cvc"          // cotton above 50 %, below 95 %, the rest polyester
	FiftyFifty   Class = "50-50"        // cotton and polyester evenly
	PolyCotton   Class = "poly-cotton"  // polyester above 50 %, below 95 %, the rest cotton
	TriBlend     Class = "tri-blend"    // polyester, cotton, viscose
	PolyViscose  Class = "poly-viscose" // polyester with viscose
	AllPolyester Class = "polyester"    // polyester 95 % and up, or with elastane alone
	AllNylon     Class = "nylon"
	AllAcrylic   Class = "acrylic"
	AllWool      Class = "wool"
	AllLinen     Class = "linen"
	Other        Class = "other" // any other blend
)

// Classes lists every class of fabric that an order can name.
var Classes = []Class{AllCotton, CVC, FiftyFifty, PolyCotton, TriBlend, PolyViscose, AllPolyester, AllNylon, AllAcrylic, AllWool, AllLinen, Other}

// MarshalJSON writes an unknown class as null.
func (c Class) MarshalJSON() ([]byte, error) {
	if c == "" {
		return []byte("null"), nil
	}
	return json.Marshal(string(c))
}

// ClassOf is the class of a blend, "" where the blend is unknown. The percents need not total 100: shares are taken of what is there.
func ClassOf(b Blend) Class {
	total := b.Total()
	if total <= 0 {
		return ""
	}
	share := func(f Fibre) float64 { return 100 * b[f] / total }
	only := func(fs ...Fibre) bool {
		s := 0.0
		for _, f := range fs {
			s += share(f)
		}
		return s > 99.5
	}
	co, pes, vi := share(Cotton), share(Polyester), share(Viscose)
	switch {
	case co >= 95:
		return AllCotton
	case pes >= 95, pes > 0 && only(Polyester, Elastane):
		return AllPolyester
	case co > 0 && pes > 0 && vi > 0 && only(Cotton, Polyester, Viscose):
		return TriBlend
	case pes > 0 && vi > 0 && only(Polyester, Viscose):
		return PolyViscose
	case co > 0 && pes > 0 && only(Cotton, Polyester):
		switch {
		case co > 50:
			return CVC
		case pes > 50:
			return PolyCotton
		}
		return FiftyFifty
	}
	for f, c := range map[Fibre]Class{Nylon: AllNylon, Acrylic: AllAcrylic, Wool: AllWool, Linen: AllLinen} {
		if share(f) >= 95 {
			return c
		}
	}
	return Other
}
