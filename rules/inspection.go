package rules

// Inspection is how many pieces of a finished run to look at, and how many may be bad.
type Inspection struct {
	Line   int    `json:"line"`   // index in Order.Lines
	Lot    int    `json:"lot"`    // pieces in the run
	Letter string `json:"letter"` // sample size code letter, general level II
	Sample int    `json:"sample"` // pieces to look at; the whole lot where the plan asks for as many
	Accept int    `json:"accept"` // pass the run with up to this many bad pieces
	Reject int    `json:"reject"` // refuse it from this many on
}
