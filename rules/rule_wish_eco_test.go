package rules

var _ = rows("eco",
	says("minds the chemistry", tee("cotton 100", "natural", "green", wishing(Eco)), lifts(WaterBased), lowers(Discharge), picks(WaterBased)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
