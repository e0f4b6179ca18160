package rules

var _ = rows("other-cellulose",
	says("linen", tee("linen 100", "natural", "navy"), is(Plastisol, Test), is(WaterBased, Test), risk(RiskNone)),
	says("hemp and cotton", tee("hemp 55 cotton 45", "natural", "olive"), is(WaterBased, Test)),
	says("bamboo viscose", tee("bamboo-viscose 95 elastane 5", "olive", "cream"), is(Plastisol, Test), adds(Plastisol, Softener)),
	quiet("cotton", tee("cotton 100", "natural", "navy"), is(WaterBased, Yes)),
	quiet("tri-blend has rules of its own", tee("polyester 50 cotton 25 viscose 25", "white", "black")),
)
