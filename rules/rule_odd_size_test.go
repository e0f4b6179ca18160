package rules

var _ = rows("odd-size",
	says("a chest print as wide as a back", tee("cotton 100", "white", "navy", place("left-chest"), sized(300, 300)), warns("odd-size", "300 mm (11.8 in)"), asks("width_mm")),
	says("no width at all", tee("cotton 100", "white", "navy", sized(0, 300)), warns("odd-size")),
	quiet("a full front", tee("cotton 100", "white", "navy", sized(380, 500))),
	quiet("all-over has no bound", tee("cotton 100", "white", "navy", place("all-over"), sized(900, 900))),
	quiet("size unsaid", tee("cotton 100", "white", "navy")),
)
