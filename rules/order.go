package rules

import (
	"encoding/json"

	"strikeoff/rules/fibre"
)

// Order is what a customer asks for, as far as it was said. What was not said is null, empty or false; it is never guessed.
type Order struct {
	Customer Name         `json:"customer"` // whom the order is for, as written
	Due      Date         `json:"due"`      // the day the goods are needed in hand
	Lines    List[Line]   `json:"lines"`    // one a fabric-and-colour
	Wishes   List[Wish]   `json:"wishes"`   // a set, in the order first said
	Uses     List[Use]    `json:"uses"`     // a set, in the order first said
	Unread   List[string] `json:"unread"`   // stretches of text that carried words but were not used
}

// Line is a number of one garment in one fabric, in one colour or in several that were not split.
type Line struct {
	Quantity Maybe[int]   `json:"quantity"` // pieces; where only a size run is given, its sum
	Sizes    Sizes        `json:"sizes"`
	Garment  Garment      `json:"garment"`
	Fibres   fibre.Blend  `json:"fibres"` // percent by weight; nil where the text gives none
	Fabric   fibre.Class  `json:"fabric"`
	Colours  List[string] `json:"colours"` // lower case, spelt out, without the word for heather
	Heather  bool         `json:"heather"`
	Prints   List[Print]  `json:"prints"`
}

// Print is one place on the garment and what goes there.
type Print struct {
	Place      Place          `json:"place"`
	WidthMM    Maybe[float64] `json:"width_mm"`
	HeightMM   Maybe[float64] `json:"height_mm"`
	Inks       List[string]   `json:"inks"` // named print colours, in the order written
	InkCount   Maybe[int]     `json:"ink_count"`
	FullColour bool           `json:"full_colour"`
	Coverage   Maybe[float64] `json:"coverage_percent"` // share of the print area that carries ink, 0 to 100
	Method     Method         `json:"method"`           // what the customer asks for
	Effects    List[Effect]   `json:"effects"`
}

// Sizes is pieces by size. It is {} in JSON when it is empty.
type Sizes map[Size]int

// MarshalJSON writes no sizes as {}.
func (s Sizes) MarshalJSON() ([]byte, error) {
	if len(s) == 0 {
		return []byte("{}"), nil
	}
	return json.Marshal(map[Size]int(s))
}

// Total is the pieces in the run.
func (s Sizes) Total() int {
	n := 0
	for _, q := range s {
		n += q
	}
	return n
}

// Clone is a copy that shares nothing with the order it was made from.
func (o Order) Clone() Order {
	b, err := json.Marshal(o)
	if err != nil {
		return o // an Order holds only plain values: it always marshals
	}
	var c Order
	if json.Unmarshal(b, &c) != nil {
		return o
	}
	return c
}
