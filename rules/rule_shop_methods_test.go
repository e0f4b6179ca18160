package rules

var _ = rows("shop-methods",
	says("a shop with two methods", tee("cotton 100", "white", "black"), is(Plastisol, No), picks(DTF, HeatTransfer)).in(Shop{Methods: List[Method]{DTF, HeatTransfer}}),
	quiet("a shop with all", tee("cotton 100", "white", "black")),
)
