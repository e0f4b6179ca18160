package rules

var _ = rows("test-print-checks",
	says("no test, no wash", tee("cotton 100", "white", "black"), steps("first-piece", "cure", "placement"), func(_ string, _ *sheet, p Plan) string {
		if _, ok := p.Step("wash"); ok || p.TestPrint || p.WashTest {
			return "a plain job is told to wash test"
		}
		return ""
	}),
	says("white on maroon tri-blend", tee("polyester 50 cotton 25 viscose 25", "maroon", "white"), steps("cure", "opacity", "stretch", "hand", "rub", "migration", "wash")),
	says("film on dyed polyester", tee("polyester 100", "navy", "full"), steps("registration", "press-marks", "adhesion", "scratch", "migration", "wash")),
	says("direct print on a blend", tee("cotton 60 polyester 40", "white", "full", asking(DTG)), steps("scratch", "wash")),
	quiet("nothing picked", tee("", "white", "black")),
)
