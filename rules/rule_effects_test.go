package rules

var _ = rows("effects-need-screens",
	says("puff", tee("cotton 100", "black", "white", finish(Puff)), is(DTG, No), is(DTF, No), is(Sublimation, No), is(Discharge, No), is(Plastisol, Test), picks(Plastisol), steps("finish")),
	says("flock is a transfer", tee("cotton 100", "black", "white", finish(Flock)), is(Plastisol, Expert), lifts(HeatTransfer), picks(HeatTransfer)),
	says("foil is screened adhesive or a transfer", tee("cotton 100", "black", "gold", finish(Foil)), is(Plastisol, Test), lifts(HeatTransfer), picks(Plastisol, HeatTransfer)),
	says("glitter is no water-based ink", tee("cotton 100", "white", "silver", finish(Glitter)), is(WaterBased, No)),
	says("a water-based metallic takes practice", tee("cotton 100", "white", "silver", finish(Metallic)), is(WaterBased, Expert)),
	quiet("no effect", tee("cotton 100", "black", "white")),
)
