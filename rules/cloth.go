package rules

import (
	"strings"

	"strikeoff/rules/colour"
	"strikeoff/rules/fibre"
)

// cloth is what a line is made of, as the rules see it.
type cloth struct {
	fibre.Shares
	said    fibre.Shares // as labelled; the embedded shares leave elastane out of the reckoning
	known   bool         // the make-up is known, by percents or by class
	assumed bool         // only the class was named: the percents are the typical ones
	class   Fabric
	fleece  bool // brushed or looped sweat fabric
	pile    bool // terry
}

func clothOf(l *Line) cloth {
	c := cloth{class: l.Fabric, Shares: fibre.SharesOf(l.Fibres)}
	if c.Shares.Known() {
		if k := fibre.ClassOf(l.Fibres); k != "" {
			c.class = k
		}
	} else {
		c.Shares = fibre.SharesOf(fibre.Typical(l.Fabric))
		c.assumed = c.Shares.Known()
	}
	c.known, c.said = c.Shares.Known(), c.Shares
	if e := c.Elastane; e > 0 && e < 0.5 {
		// Elastane lies in the heart of the yarn: what is printed on is the rest.
		for _, f := range []*float64{&c.Cotton, &c.Regenerate, &c.Bast, &c.Polyester, &c.Nylon, &c.Acrylic, &c.Wool} {
			*f /= 1 - e
		}
	}
	switch l.Garment {
	case "sweatshirt", "hoodie", "zip-hoodie", "sweatpants":
		c.fleece = true
	case "towel":
		c.pile = true
	}
	return c
}

// heatShy reports whether the cloth bears less heat than a plain cotton cure, and up to what a press or dryer may go. Limits from memory.
func (c cloth) ceiling() float64 {
	switch {
	case !c.known:
		return 145
	case c.Acrylic > 0.15:
		return 140
	case c.Nylon > 0.15:
		return 145
	case c.Wool > 0.15:
		return 145
	case c.Polyester > 0.15 && c.Regenerate > 0.15: // tri-blend, poly-viscose
		return 142
	case c.Elastane >= 0.03:
		return 148
	case c.Polyester >= 0.6:
		return 150
	case c.Polyester >= 0.2:
		return 155
	}
	return 165
}

// stretchy reports whether the print must stretch with the cloth.
func (c cloth) stretchy() bool { return c.Elastane >= 0.02 }

// triBlend and polyViscose are soft, thin, drapy knits in which a heavy deposit is out of place.
func (c cloth) soft() bool { return c.known && c.Polyester > 0.15 && c.Regenerate > 0.1 }

// ground is the colour of the cloth under a print: of one line colour.
type ground struct {
	name       string
	colour     colour.Named
	known      bool // the word is known and one colour
	pattern    bool // camouflage, tie-dye and the like
	sublimated bool // the cloth itself was dyed by sublimation
	overdyed   bool // pigment-dyed, garment-dyed, overdyed
}

func groundOf(name string) ground {
	g := ground{name: name}
	g.pattern = strings.Contains(name, "camo") || strings.Contains(name, "tie dye") || strings.Contains(name, "tie-dye") || strings.Contains(name, "multi")
	g.sublimated = strings.Contains(name, "sublimat")
	g.overdyed = strings.Contains(name, "pigment") || strings.Contains(name, "overdye") || strings.Contains(name, "garment-dye") ||
		strings.Contains(name, "garment dye") || strings.Contains(name, "washed")
	g.colour, g.known = colour.Lookup(name)
	if !g.known && (g.pattern || g.sublimated || g.overdyed) {
		word := strings.NewReplacer("sublimated", "", "camouflage", "camo", "pigment-dyed", "", "pigment dyed", "", "pigment", "",
			"garment-dyed", "", "garment dyed", "", "overdyed", "", "print", "").Replace(name)
		g.colour, g.known = colour.Lookup(strings.TrimSpace(word))
	}
	if !g.known && g.pattern {
		g.colour, g.known = colour.Lookup("camo")
	}
	return g
}

// light reports whether the ground is pale enough to print on without a base: an L of 70 and up, the look of athletic grey, light blue,
// yellow. Common practice; the figure from memory.
func (g ground) light() bool { return g.known && g.colour.Lab.L >= 70 }

// undyed reports whether there is next to no dye in the ground to bleed or to discharge: white and near-white.
func (g ground) undyed() bool { return g.known && g.colour.Lab.L >= 88 && g.colour.Lab.Chroma() < 14 }

// ink is one printed colour.
type ink struct {
	name   string
	colour colour.Named
	known  bool
}

func inkOf(name string) ink {
	c, ok := colour.Lookup(name)
	return ink{name: name, colour: c, known: ok}
}

// showsOn reports whether a transparent ink can be seen on a ground: it must be darker, or the ground near white.
func (i ink) showsOn(g ground) bool {
	if !i.known || !g.known {
		return false
	}
	d := g.colour.Lab.L - i.colour.Lab.L
	return d >= 15 || g.colour.Lab.L >= 85 && colour.DeltaE(i.colour.Lab, g.colour.Lab) >= 8 || g.light() && d >= -4 && i.colour.Lab.Chroma() > 30
}
