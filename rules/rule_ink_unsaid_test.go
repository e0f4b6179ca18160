package rules

var _ = rows("ink-unsaid",
	says("nothing said of the art", tee("cotton 100", "black", ""), asks("inks"), assumes("inks")),
	says("a number and no names", tee("cotton 100", "black", "", counting(2)), asks("inks")),
	says("a swatch reference", tee("cotton 100", "black", "pms 186"), assumes("inks")),
	says("unknown ink on mid cloth", tee("cotton 100", "royal", ""), is(WaterBased, Test, Expert)),
	quiet("photo art", tee("cotton 100", "black", "full")),
	quiet("white", tee("cotton 100", "black", "white")),
)
