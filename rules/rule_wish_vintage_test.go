package rules

var _ = rows("vintage-look",
	says("a blend", tee("cotton 50 polyester 50", "white", "red", wishing(Vintage)), lifts(Sublimation), lifts(WaterBased), lowers(DTF)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
