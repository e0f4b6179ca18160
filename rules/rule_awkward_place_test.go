package rules

var _ = rows("awkward-place",
	says("a pocket", tee("cotton 100", "white", "navy", place("pocket")), warns("seams", "pocket")),
	says("a neck label", tee("cotton 100", "white", "navy", place("inside-neck")), warns("neck-label", "skin")),
	quiet("a front", tee("cotton 100", "white", "navy")),
)
