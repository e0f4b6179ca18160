package rules

// Shop is one print shop's own settings. Its zero value is a usable shop: every figure that is zero means the usual one.
type Shop struct {
	Methods    List[Method]    `json:"methods"`           // what the shop can print; empty: all seven
	PressHeads int             `json:"press_heads"`       // print heads of its screen press; 0: 6 (invented)
	Rates      map[Method]Rate `json:"rates"`             // how long work takes; a method left out takes the usual
	HoursADay  float64         `json:"hours_a_day"`       // press hours of a working day; 0: 7 (invented)
	ClosedDays List[string]    `json:"closed_days"`       // weekdays it does not work, "sat"; empty: Saturday and Sunday
	Holidays   List[Date]      `json:"holidays"`          // days it does not work besides
	AQL        float64         `json:"aql"`               // acceptable quality limit of the run's inspection, percent: 1, 1.5, 2.5 or 4; 0: 2.5
	Washes     int             `json:"washes"`            // home washes of a wash test; 0: 5 (common practice)
	WashTempC  float64         `json:"wash_temp_c"`       // at this temperature; 0: 40 °C (common practice)
	HoldHours  float64         `json:"hold_hours"`        // how long a test print lies before bleeding is read; 0: 72 (common practice, 24 to 72)
	Activation float64         `json:"activation_kj_mol"` // of dye diffusion in polyester, kJ/mol; 0: 120 (from memory, 100 to 170)
}

// Rate is how long a method takes. A figure that is zero means the usual one; the usual ones are invented, for a small shop.
type Rate struct {
	SetupMinutes     float64 `json:"setup_minutes"`      // once a print
	MinutesPerColour float64 `json:"minutes_per_colour"` // for every screen
	SecondsEach      float64 `json:"seconds_each"`       // for every piece
}

func (s *Shop) heads() int { return int(usual(float64(s.PressHeads), 6)) }

func (s *Shop) washes() int { return int(usual(float64(s.Washes), 5)) }

func (s *Shop) washTempC() float64 { return usual(s.WashTempC, 40) }

func (s *Shop) holdHours() float64 { return usual(s.HoldHours, 72) }

func (s *Shop) hoursADay() float64 { return usual(s.HoursADay, 7) }

func (s *Shop) aql() float64 { return usual(s.AQL, 2.5) }

func (s *Shop) activation() float64 { return usual(s.Activation, usualActivation) }

// usual is v, or other where v was left at zero or makes no sense.
func usual(v, other float64) float64 {
	if v > 0 {
		return v
	}
	return other
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
	After  int    `json:"after"` // test prints that had failed when it was picked: a pick made in knowledge of a failure outweighs it
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
