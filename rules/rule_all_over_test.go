package rules

var _ = rows("all-over",
	says("light polyester is dyed", tee("polyester 100", "white", "full", place("all-over")), lifts(Sublimation), picks(Sublimation), is(DTG, No), is(DTF, No), is(HeatTransfer, No)),
	says("white cotton takes an oversize screen", tee("cotton 100", "white", "navy", place("all-over")), picks(WaterBased), is(Plastisol, Expert), warns("all-over", "seams")),
	says("black cotton is discharged", tee("cotton 100", "black", "white", place("all-over")), picks(Discharge)),
	quiet("a front", tee("cotton 100", "white", "navy")),
)
