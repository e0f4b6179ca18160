package rules

// Schedule is the way back from the due date.
type Schedule struct {
	Due       Date    `json:"due"`
	LastTest  Date    `json:"last_test"`  // the last day on which the test print can start
	RunStarts Date    `json:"run_starts"` // the last day on which the run can start
	RunDays   float64 `json:"run_days"`   // working days that the run takes
	TestDays  int     `json:"test_days"`  // calendar days from test print to a full reading
	CanBeMet  bool    `json:"can_be_met"`
}
