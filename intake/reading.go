package intake

import "strikeoff/rules"

// Options say how to read a message.
type Options struct {
	Received rules.Date // the day the message arrived: relative dates count from it
	DayFirst bool       // "12/11" is 12 November
}

// Reading is what was understood of a message.
type Reading struct {
	Order   rules.Order `json:"order"`
	IsOrder bool        `json:"is_order"` // the message asks for goods to be printed
	Marks   []Mark      `json:"marks"`    // where in the text each field was read
	Odd     []Oddity    `json:"odd"`      // what contradicts itself or cannot be
}

// Mark is the span of text behind one field.
type Mark struct {
	Field string  `json:"field"` // path in the order: "due", "lines[0].quantity", "lines[0].prints[1].inks"
	Start int     `json:"start"` // byte offsets in the text as given, Start < End
	End   int     `json:"end"`
	Sure  float64 `json:"sure"` // 0 to 1
}

// Oddity is something in a message that a person should look at. The reading says what it took; nothing is guessed in silence.
type Oddity struct {
	Code  string `json:"code"`  // "percent-total", "quantity", "past-date", "unknown-fibre", "colours-contradict", "binary", "too-long"…
	Field string `json:"field"` // path in the order, as in Mark
	Text  string `json:"text"`  // a plain sentence: what is odd, what was taken, what to type
}
