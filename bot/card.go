package bot

import (
	"encoding/json"
	"time"

	"strikeoff/bot/job"
)

// Post is something to say, in meaning and not in markup: every door dresses it in its own way. All strings are plain text. What came
// from a customer is in fields of its own and must be escaped by the door.
type Post struct {
	Text  string   // one or a few plain sentences; may stand alone or above the card. May quote what people typed: to be escaped like the rest
	Card  *Card    // a job's card
	Rows  []Row    // a list of jobs
	Help  []Usage  // the commands
	Link  *Link    // where a page shows more; nil for nowhere
	Quick []Action // buttons that fit the text where there is no card
	Anew  bool     // people must see it: a door that cannot change an earlier post makes a new one
	Loud  bool     // an alert
	News  *News    // what a program is told; where it is set, the rest is empty, and only a door for programs sends it
}

// News is one change of a job as a program is told of it.
type News struct {
	Type string          // "job.opened", "job.step-read", …: "job." and the kind of event
	Job  job.ID          // the job
	Seq  int             // the event's number in the job's history: a program that saw 3 and then 5 missed one
	At   time.Time       // when it happened
	Data json.RawMessage // what it says, as JSON
}

// Card is a job as people see it. Headline first, then why, cautions, checklist, questions.
type Card struct {
	Job       job.ID
	State     job.State
	PlanRev   int
	Headline  string   // what to do, in one sentence
	Customer  string   // as written; "" when unsaid
	Due       string   // "Fri 18 Dec 2026"; "" when unsaid
	Lines     []Line   // one an order line
	Cautions  []Note   // stops first
	Steps     []Step   // the test print's checklist with what was recorded
	Brief     bool     // how some steps are done was left out: the command job tells
	Untested  bool     // there is no test print: the steps are the usual check of the first pieces
	Questions []Ask    // what to ask the customer, most deciding first
	Assumed   []string // what was taken as usual
	Odd       []string // what is odd in the message
	Unread    []string // the customer's words that were not used
	Inspect   []string // how the finished run is inspected, one a line; only FullCardOf says
	SignedBy  string   // who signed it off and when; "" when nobody
	Refusal   string   // who refused it and why; "" when nobody
	Actions   []Action // what can be done now, most likely first
}

// Line is one order line on a card.
type Line struct {
	What      string // "72 t-shirts, black, cotton 100 %; S 10, M 30, L 32"
	Migration string // "dye migration: high with plain ink, low with the setup below"; "" when there is none
	Prints    []Print
}

// Print is one place on a line.
type Print struct {
	Where  string   // "front, 280 x 300 mm, white, 1 ink"
	Do     string   // "plastisol on a low-bleed white base, softener; cure 138 °C (280 °F) …"; or what is missing
	Press  string   // "3 screens: base 43/cm (109/in), …"; "" where there are none; only FullCardOf says
	Method string   // the pick; "" when none
	Why    []string // at most three
	Others []Other  // the alternatives, best first
}

// Other is a method that was not picked.
type Other struct {
	Method  string
	Verdict string
	Why     string // the reason that weighs most
}

// Note is a caution.
type Note struct {
	Severity string // "info", "caution", "stop"
	Text     string
}

// Step is one check of the test print.
type Step struct {
	Code  string
	Title string
	How   string
	Pass  string
	Mark  string // "" unread, "passed", "failed", "waiting"
	Note  string // what was recorded, or until when it waits
}

// Ask is one question for the customer, with answers that can be given at a tap.
type Ask struct {
	Field string
	Text  string
	Quick []string
}

// Action is something a person can do from the card: the words of a command, and what must be filled in first.
type Action struct {
	Label   string // "Pass the wash test"
	Command string // "pass 12 wash"; free text is appended where Needs is set
	Needs   string // what to ask for: "reason", "note"; "" for nothing
	Lead    bool   // only a lead may
	Group   string // actions of one group belong together: "step", "answer", "job", "pick"
}

// Row is one job in a list.
type Row struct {
	Job      job.ID
	State    job.State
	Customer string
	What     string // "72 black t-shirts, front"
	Due      string
	Waits    string // what it waits for, and for whom
}

// Usage is one command as help shows it.
type Usage struct {
	Form    string // "pass N STEP [note]"
	Does    string
	Example string // a line that works when typed
	Lead    bool
}
