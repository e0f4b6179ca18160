package rules

var _ = rows("water-based-holds-on-cellulose",
	says("polyester does not hold it", tee("polyester 100", "white", "navy"), is(WaterBased, No)),
	says("nylon does not hold it", tee("nylon 100", "white", "navy"), is(WaterBased, No)),
	says("wool repels it", tee("wool 100", "white", "navy"), is(WaterBased, Expert)),
	says("little cotton, little hold", tee("polyester 65 cotton 35", "white", "navy"), is(WaterBased, Test), lowers(WaterBased)),
	says("cotton with some polyester", tee("cotton 60 polyester 40", "white", "navy"), is(WaterBased, Yes), lowers(WaterBased)),
	quiet("cotton", tee("cotton 100", "white", "navy"), is(WaterBased, Yes)),
)
