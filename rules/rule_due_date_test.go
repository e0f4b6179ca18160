package rules

import "fmt"

var _ = rows("due-date",
	says("room enough", tee("polyester 100", "navy", "white", due("2026-12-18")), warns("schedule", "Fri 18 Dec 2026"), func(_ string, _ *sheet, p Plan) string {
		// Fri 18 Dec in hand, a run of one day: it starts on Thu 17. The test takes 3 days to wait and one to read: back to Sun 13, so Fri 11.
		if s := p.Schedule; s == nil || s.RunStarts != "2026-12-17" || s.LastTest != "2026-12-11" || s.TestDays != 4 || s.RunDays != 1 || !s.CanBeMet {
			return fmt.Sprintf("schedule %+v", s)
		}
		return ""
	}).knowing(Record{Today: "2026-11-25"}),
	says("too late for a test", tee("polyester 100", "navy", "white", due("2026-11-27")), stops("date"), warns("date", "cannot be met", "later date")).knowing(Record{Today: "2026-11-25"}),
	says("a holiday moves it", tee("cotton 100", "white", "black", due("2026-12-18")), func(_ string, _ *sheet, p Plan) string {
		if s := p.Schedule; s == nil || s.RunStarts != "2026-12-16" || s.LastTest != "" {
			return fmt.Sprintf("schedule %+v", s)
		}
		return ""
	}).knowing(Record{Today: "2026-11-25"}).in(Shop{Holidays: List[Date]{"2026-12-17"}}),
	says("a way that needs no test is named", tee("cotton 100", "black", "white", asking(Discharge), due("2026-11-27")), stops("date"), warns("date", "which needs no test print")).knowing(Record{Today: "2026-11-25"}),
	says("the past", tee("cotton 100", "white", "black", due("2026-11-01")), stops("date")).knowing(Record{Today: "2026-11-25"}),
	quiet("today unknown", tee("cotton 100", "white", "black", due("2026-11-01"))),
	quiet("no due date", tee("cotton 100", "white", "black")).knowing(Record{Today: "2026-11-25"}),
)
