package rules

var _ = rows("shaped-garment",
	says("a cap goes on a shaped press", tee("cotton 100", "black", "white", garment("cap"), pieces(24)), lifts(HeatTransfer), lowers(DTG), is(DTG, Expert)),
	says("a beanie stretches", tee("cotton 100", "black", "white", garment("beanie")), adds(Plastisol, StretchAdditive)),
	quiet("a t-shirt", tee("cotton 100", "black", "white")),
)
