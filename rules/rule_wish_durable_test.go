package rules

var _ = rows("durable",
	says("hard wear", tee("cotton 100", "white", "black", wishing(Durable)), lifts(Plastisol), lowers(DTG)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
