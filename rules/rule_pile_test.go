package rules

var _ = rows("pile-surface",
	says("a towel", tee("cotton 100", "white", "navy", garment("towel")), is(Plastisol, Test), is(DTG, Expert)),
	quiet("a t-shirt", tee("cotton 100", "white", "navy")),
)
