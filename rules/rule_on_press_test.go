package rules

import "fmt"

var _ = rows("on-press",
	says("white on black is printed twice through one screen", tee("cotton 100", "black", "white", sized(280, 300), covering(40)), func(_ string, _ *sheet, p Plan) string {
		s := choiceOf(p, Plastisol).Setup.Screen
		if s == nil || s.Screens != 1 || s.Passes != 2 || s.Flashes != 1 || s.InkGrams < 1 || s.InkGrams > 8 {
			return fmt.Sprintf("screen set-up %+v", s)
		}
		return ""
	}),
	says("two colours on a base", tee("cotton 100", "navy", "white,gold"), func(_ string, _ *sheet, p Plan) string {
		if s := choiceOf(p, Plastisol).Setup.Screen; s == nil || s.Screens != 3 || s.Heads != 4 {
			return fmt.Sprintf("screen set-up %+v", s)
		}
		return ""
	}),
	says("more than the press has", tee("cotton 100", "black", "white,red,blue,green,gold,orange", asking(Plastisol)), warns("press-heads", "8 press heads")),
	quiet("nothing is screen printed", tee("polyester 100", "white", "full")).in(Shop{Methods: List[Method]{Sublimation}}),
)
