package rules

var _ = rows("odd-order",
	says("percents that do not add up", tee("cotton 60 polyester 60", "white", "black"), warns("percents", "120"), asks("fibres")),
	says("too few percents", tee("cotton 90", "white", "black"), warns("percents", "90")),
	says("no pieces", tee("cotton 100", "white", "black", pieces(0)), warns("quantity"), asks("quantity")),
	says("ten million", tee("cotton 100", "white", "black", pieces(10_000_000)), warns("quantity")),
	says("sizes against quantity", tee("cotton 100", "white", "black", func(o *Order) { o.Lines[0].Sizes = Sizes{"M": 40} }), asks("sizes")),
	quiet("a sound order", tee("cotton 100", "white", "black")),
)
