package rules

var _ = rows("nylon-needs-bonding",
	says("a jacket", tee("nylon 100", "navy", "white", garment("jacket")), adds(Plastisol, Bonding), is(Plastisol, Test), is(HeatTransfer, Test), is(DTF, Test), warns("nylon", "bonding", "coating", "lining"), steps("adhesion", "wash")),
	quiet("cotton", tee("cotton 100", "navy", "white")),
)
