package rules

var _ = rows("breathable",
	says("must breathe", tee("polyester 100", "white", "full", wishing(Breathable)), lifts(Sublimation), lowers(DTF)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
