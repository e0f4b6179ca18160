package rules

// Plan is the answer to an order: a method for every print, with reasons, cautions, the test print's steps and what to ask.
type Plan struct {
	Lines       List[LinePlan]   `json:"lines"`
	Migration   List[Migration]  `json:"migration"` // one a line
	Cautions    List[Caution]    `json:"cautions"`
	Summary     string           `json:"summary"` // the answer in one sentence
	Checklist   List[Check]      `json:"checklist"`
	WashTest    bool             `json:"wash_test"`  // a wash test must be signed off before the run
	TestPrint   bool             `json:"test_print"` // some pick is not a plain yes: a passed test print clears the run, nothing else
	Questions   List[Question]   `json:"questions"`
	Assumptions List[Assumption] `json:"assumptions"`
	Inspection  List[Inspection] `json:"inspection"` // of the finished run, one a line whose quantity is known
	Schedule    *Schedule        `json:"schedule"`   // nil where the due date or today is not known
}

// LinePlan answers one line of the order.
type LinePlan struct {
	Prints List[PrintPlan] `json:"prints"`
}

// PrintPlan answers one print.
type PrintPlan struct {
	Pick    Method       `json:"pick"` // null where a deciding fact is missing or a person must decide first
	Choices List[Choice] `json:"choices"`
}

// Choice is one method's verdict for one print.
type Choice struct {
	Method  Method       `json:"method"`
	Verdict Verdict      `json:"verdict"`
	Score   float64      `json:"score"` // 0 to 100, rank within the print
	Why     List[Reason] `json:"why"`
	Setup   Setup        `json:"setup"`
	Expect  Expect       `json:"expect"`
	Effort  *Effort      `json:"effort"` // nil where it was not weighed
}

// Verdict is how far a method can be trusted for a print.
type Verdict string

// The verdicts, from best to worst.
const (
	Yes    Verdict = "yes"    // proceed with the shop's usual first-piece check
	Test   Verdict = "test"   // only a passed test print, wash test included, clears it for the run
	Expert Verdict = "expert" // can be done by a practised operator; wash and scratch test are a must
	No     Verdict = "no"     // does not work; a reason says why
)

// Reason is one rule that moved a verdict or a score.
type Reason struct {
	Rule   string  `json:"rule"`
	Text   string  `json:"text"`
	Basis  string  `json:"basis"`            // a published source, or "common practice"
	Points float64 `json:"points,omitempty"` // what it moved the score by
	Veto   bool    `json:"veto,omitempty"`   // it took the method out
}

// Setup is how a method is set up for a print. A line in several colours is set up for the hardest one.
type Setup struct {
	Base      Base           `json:"base"`
	Additives List[Additive] `json:"additives"`
	Heat      *Heat          `json:"heat"`   // nil where no one window holds
	Screen    *ScreenSetup   `json:"screen"` // nil for what is not screen printed
}

// Base is what goes under the colours.
type Base string

// The bases.
const (
	NoBase            Base = "none"
	WhiteBase         Base = "white"
	LowBleedWhite     Base = "low-bleed-white"
	GreyBlocker       Base = "grey-blocker"
	WaterBasedBlocker Base = "water-based-blocker"
	Pretreat          Base = "pretreat"
	PretreatWhite     Base = "pretreat-white"
	BlockOut          Base = "block-out" // a transfer's own barrier layer
)

// Additive is mixed into the ink.
type Additive string

// The additives.
const (
	StretchAdditive Additive = "stretch"
	Softener        Additive = "softener"
	LowCure         Additive = "low-cure"
	Bonding         Additive = "bonding"
)

// Heat is the cure, press or fixation window at the garment: a starting point that the ink's own data sheet overrides.
type Heat struct {
	TempC   [2]float64 `json:"temp_c"`  // degrees Celsius, low to high
	Seconds [2]float64 `json:"seconds"` // low to high
}

// Expect is what the print is foreseen to look like. Vividness is a first reckoning from the shares of fibre, the dye of the ground and the light
// that it gives back: trust the order of two figures, not their distance.
type Expect struct {
	Vividness float64 `json:"vividness"` // 0 to 1 against the same ink on its ideal fabric
}

// Migration is the risk that the garment's dye moves into the ink, for one line.
type Migration struct {
	Risk        Risk    `json:"risk"`         // with plain ink at the pick's heat
	After       Risk    `json:"after"`        // with the setup that is advised
	Change      float64 `json:"change"`       // the figure behind Risk: the ink's colour change foreseen, in CIEDE2000 units
	AfterChange float64 `json:"after_change"` // the figure behind After
}

// Risk is a grade of risk.
type Risk string

// The risks.
const (
	RiskNone    Risk = "none"
	RiskLow     Risk = "low"
	RiskMedium  Risk = "medium"
	RiskHigh    Risk = "high"
	RiskUnknown Risk = "unknown"
)

// Caution is what a person must know before printing.
type Caution struct {
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Text     string   `json:"text"`
	Basis    string   `json:"basis"`
}

// Severity is how much a caution weighs.
type Severity string

// The severities. A stop means that a person must decide before anything is printed.
const (
	Info Severity = "info"
	Care Severity = "caution"
	Stop Severity = "stop"
)

// Check is one step of the test print, in working order.
type Check struct {
	Code      string    `json:"code"` // short, one word or hyphenated: what a lead types
	Title     string    `json:"title"`
	How       string    `json:"how"`
	Pass      string    `json:"pass"`
	WaitHours float64   `json:"wait_hours"`      // hours after printing before the step can be read
	Scale     Scale     `json:"scale,omitempty"` // the grey scale it is graded on; "" where it is judged by eye
	Least     GreyGrade `json:"least,omitempty"` // the least grade that passes; "" where it is judged by eye
}

// Question is one thing to ask the customer, the most deciding first.
type Question struct {
	Field string       `json:"field"`
	Text  string       `json:"text"`
	Quick List[string] `json:"quick"` // the likeliest answers, to be given at a tap
}

// Assumption is what was taken as usual because the message did not say.
type Assumption struct {
	Field string `json:"field"`
	Value string `json:"value"`
	Text  string `json:"text"`
}

// Picked is the choice that was picked for a print, and whether there is one.
func (p PrintPlan) Picked() (Choice, bool) {
	for _, c := range p.Choices {
		if c.Method == p.Pick && p.Pick != "" {
			return c, true
		}
	}
	return Choice{}, false
}

// Open reports whether some print has no pick yet, or the plan has no print at all: the job is waiting for an answer.
func (p Plan) Open() bool {
	prints := 0
	for _, l := range p.Lines {
		for _, pr := range l.Prints {
			prints++
			if pr.Pick == "" {
				return true
			}
		}
	}
	return prints == 0
}

// Step is the check with that code, and whether there is one.
func (p Plan) Step(code string) (Check, bool) {
	for _, c := range p.Checklist {
		if c.Code == code {
			return c, true
		}
	}
	return Check{}, false
}
