package rules

var _ = rows("water-based-on-soft-knits",
	says("light tri-blend", tee("polyester 50 cotton 25 viscose 25", "white", "black", covering(80)), lifts(WaterBased), picks(WaterBased)),
	quiet("cotton", tee("cotton 100", "white", "black")),
)
