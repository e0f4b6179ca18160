package rules

var _ = rows("sublimation-has-no-white",
	says("white on light grey", tee("polyester 100", "light grey", "white"), is(Sublimation, No)),
	says("nothing but white on white", tee("polyester 100", "white", "white"), is(Sublimation, No)),
	quiet("white left bare among other colours", tee("polyester 100", "white", "white,red"), is(Sublimation, Yes)),
	quiet("navy on light grey", tee("polyester 100", "light grey", "navy"), is(Sublimation, Yes, Test)),
)
