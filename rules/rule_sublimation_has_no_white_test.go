package rules

var _ = rows("sublimation-has-no-white",
	says("white on light grey", tee("polyester 100", "light grey", "white"), is(Sublimation, No)),
	quiet("navy on light grey", tee("polyester 100", "light grey", "navy"), is(Sublimation, Yes, Test)),
)
