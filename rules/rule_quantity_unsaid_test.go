package rules

var _ = rows("quantity-unsaid",
	says("no number", tee("cotton 100", "white", "navy", uncounted), asks("quantity"), assumes("quantity")),
	quiet("a hundred", tee("cotton 100", "white", "navy")),
)
