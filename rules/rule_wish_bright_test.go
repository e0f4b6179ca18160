package rules

var _ = rows("bright",
	says("bright", tee("polyester 100", "white", "full", wishing(Bright)), lifts(Sublimation), lifts(Plastisol), picks(Sublimation)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
