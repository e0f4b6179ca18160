package rules

var _ = rows("acrylic-gentle-heat",
	says("a beanie", tee("acrylic 100", "black", "white", garment("beanie")), adds(Plastisol, LowCure), is(Plastisol, Expert), is(HeatTransfer, Test), upTo(HeatTransfer, 150), warns("acrylic", "heat-sensitive")),
	says("half acrylic", tee("acrylic 50 cotton 50", "black", "white"), is(Plastisol, Test)),
	quiet("cotton", tee("cotton 100", "black", "white")),
)
