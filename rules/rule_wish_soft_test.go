package rules

var _ = rows("soft-hand",
	says("light cotton", tee("cotton 100", "white", "black", wishing(SoftHand)), lifts(WaterBased), lowers(DTF), picks(WaterBased)),
	says("dark cotton", tee("cotton 100", "black", "white", wishing(SoftHand)), lifts(Discharge), picks(Discharge)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
