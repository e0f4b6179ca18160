package rules

var _ = rows("patterned-cloth",
	says("camouflage polyester", tee("polyester 100", "camo", "white"), on(Plastisol, GreyBlocker), is(Plastisol, Test), risk(RiskHigh), adds(Plastisol, LowCure), warns("patterned-cloth", "loose dye")),
	says("sublimated polyester", tee("polyester 100", "sublimated red", "white"), on(Plastisol, GreyBlocker), risk(RiskHigh)),
	says("camouflage cotton does not bleed", tee("cotton 100", "woodland camo", "white"), on(Plastisol, WhiteBase), risk(RiskNone), is(WaterBased, Expert)),
	quiet("red", tee("polyester 100", "red", "white")),
)
