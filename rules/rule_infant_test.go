package rules

var _ = rows("infant-goods",
	says("newborns", tee("cotton 100", "white", "brown", for_(Infant), garment("bodysuit")), warns("infant", "16 ppm", "choking")),
	says("no loose parts", tee("cotton 100", "white", "brown", for_(Infant), finish(Glitter)), warns("infant-effect")),
	quiet("grown-ups", tee("cotton 100", "white", "red")),
)
