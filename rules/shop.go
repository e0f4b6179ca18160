package rules

// Shop is one print shop's own settings. Its zero value is a usable shop: every figure that is zero means the usual one.
type Shop struct {
	Methods List[Method] `json:"methods"` // what the shop can print; empty: all seven
}

// Record is what is already known of this very job beyond the order: what people chose and what test prints taught. Its zero value
// is a job nobody has touched.
type Record struct {
	Today    Date          `json:"today"` // the day the plan is made; "" where schedules are not wanted
	Chosen   List[Chosen]  `json:"chosen"`
	Failures List[Failure] `json:"failures"`
}

// Chosen is a person's pick for one print.
type Chosen struct {
	Line   int    `json:"line"`  // index in Order.Lines
	Print  int    `json:"print"` // index in Line.Prints
	Method Method `json:"method"`
}

// Failure is a check that a test print did not pass, or a refusal of the whole, so that the next plan can say what to change.
type Failure struct {
	Step   string `json:"step"`   // code of the check; "" for a refusal of the whole
	Note   string `json:"note"`   // what the lead saw
	Setups string `json:"setups"` // the setup that failed, in words
	Tried  []Try  `json:"tried"`  // what was on press
}

// Try is what one print was tested with.
type Try struct {
	Line   int    `json:"line"`
	Print  int    `json:"print"`
	Method Method `json:"method"`
	Base   Base   `json:"base"`
}
