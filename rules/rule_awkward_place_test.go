package rules

var _ = rows("awkward-place",
	says("a pocket", tee("cotton 100", "white", "navy", place("pocket")), warns("seams", "pocket")),
	says("a neck label", tee("cotton 100", "white", "navy", place("inside-neck")), warns("neck-label", "skin")),
	says("a zip", tee("cotton 80 polyester 20", "navy", "white", garment("zip-hoodie")), warns("zip", "zip")),
	says("a lined jacket", tee("polyester 100", "black", "white", garment("jacket"), place("left-chest")), warns("jacket", "lining")),
	quiet("a front", tee("cotton 100", "white", "navy")),
)
