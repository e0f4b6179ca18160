package rules

import (
	"strings"

	"strikeoff/rules/fibre"
)

// Name is a customer's name as written; "" where none was said.
type Name string

// MarshalJSON writes an unsaid name as null.
func (n Name) MarshalJSON() ([]byte, error) { return orNull(string(n)) }

// Fibre, Blend and Fabric are named here too, so that who writes an order needs one package.
type (
	Fibre  = fibre.Fibre
	Blend  = fibre.Blend
	Fabric = fibre.Class
)

// Method is a way to print. "" is unsaid or undecided.
type Method string

// The seven methods that a plan weighs, and Screen, which an order may ask for without saying the ink.
const (
	Plastisol    Method = "plastisol"
	WaterBased   Method = "water-based"
	Discharge    Method = "discharge"
	Sublimation  Method = "sublimation"
	DTG          Method = "dtg"
	DTF          Method = "dtf"
	HeatTransfer Method = "heat-transfer"
	Screen       Method = "screen"
)

// Methods lists the seven methods that a plan weighs.
var Methods = []Method{Plastisol, WaterBased, Discharge, Sublimation, DTG, DTF, HeatTransfer}

// MarshalJSON writes no method as null.
func (m Method) MarshalJSON() ([]byte, error) { return orNull(string(m)) }

// Garment is what is printed on. "" is unsaid.
type Garment string

// Garments lists every garment an order can name.
var Garments = []Garment{"t-shirt", "long-sleeve", "tank", "polo", "jersey", "sweatshirt", "hoodie", "zip-hoodie", "jacket", "vest",
	"shorts", "sweatpants", "leggings", "dress", "bodysuit", "apron", "tote", "cap", "beanie", "bandana", "towel", "scrub-top",
	"workshirt", "other"}

// MarshalJSON writes no garment as null.
func (g Garment) MarshalJSON() ([]byte, error) { return orNull(string(g)) }

// oddMany are the garments whose plural is more than an s.
var oddMany = map[Garment]string{"jersey": "jerseys", "shorts": "shorts", "sweatpants": "sweatpants", "leggings": "leggings", "dress": "dresses",
	"long-sleeve": "long sleeves"}

// One names a garment in plain words: "t-shirt", "zip hoodie"; "piece" where it is unsaid.
func (g Garment) One() string {
	switch g {
	case "", "other":
		return "piece"
	case "t-shirt":
		return "t-shirt"
	}
	return strings.ReplaceAll(string(g), "-", " ")
}

// Many names several of a garment in plain words: "t-shirts", "zip hoodies"; "pieces" where the garment is unsaid.
func (g Garment) Many() string {
	if w, ok := oddMany[g]; ok {
		return w
	}
	return g.One() + "s"
}

// Place is where on the garment a print goes. "" is unsaid.
type Place string

// Places lists every place an order can name.
var Places = []Place{"front", "back", "left-chest", "right-chest", "left-sleeve", "right-sleeve", "nape", "inside-neck", "hood",
	"pocket", "left-leg", "right-leg", "side", "hem", "all-over"}

// MarshalJSON writes no place as null.
func (p Place) MarshalJSON() ([]byte, error) { return orNull(string(p)) }

// Size is a garment size: adult XS to 5XL, youth YXS to YXL, toddler 2T to 5T, infant 0-3M to 18-24M, or OS for one size.
type Size string

// SizeOrder lists every size, smallest run first.
var SizeOrder = []Size{"0-3M", "3-6M", "6-12M", "12-18M", "18-24M", "2T", "3T", "4T", "5T", "YXS", "YS", "YM", "YL", "YXL",
	"XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL", "OS"}

// Wish is a quality the customer wants.
type Wish string

// The wishes an order can carry.
const (
	SoftHand   Wish = "soft-hand"
	Vintage    Wish = "vintage"
	Bright     Wish = "bright"
	Durable    Wish = "durable"
	Stretch    Wish = "stretch"
	Breathable Wish = "breathable"
	LowCost    Wish = "low-cost"
	Rush       Wish = "rush"
	Eco        Wish = "eco"
)

// Use is what the garments are for, where it matters to the print.
type Use string

// The uses an order can carry. Children are 12 and under, infants under 3.
const (
	Athletic       Use = "athletic"
	Children       Use = "children"
	Infant         Use = "infant"
	Sleepwear      Use = "sleepwear"
	HiVis          Use = "hi-vis"
	FlameResistant Use = "flame-resistant"
	Medical        Use = "medical"
	Food           Use = "food"
	Swim           Use = "swim"
	Uniform        Use = "uniform"
	AnEvent        Use = "event"
	Retail         Use = "retail"
)

// Effect is a special finish of a print.
type Effect string

// The effects an order can ask for.
const (
	Puff        Effect = "puff"
	Foil        Effect = "foil"
	Metallic    Effect = "metallic"
	Glitter     Effect = "glitter"
	Glow        Effect = "glow"
	Reflective  Effect = "reflective"
	HighDensity Effect = "high-density"
	Gel         Effect = "gel"
	Flock       Effect = "flock"
	Shimmer     Effect = "shimmer"
)
