package rules

var _ = rows("mixed-order",
	says("one method serves both", tee("cotton 100", "black", "white", with(tee("nylon 100", "black", "white"))), warns("mixed-fabrics", "serves all", "Nylon", "bonding agent")),
	says("two methods, one that could do both", tee("cotton 100", "white", "full", pieces(10), with(tee("polyester 100", "white", "full", pieces(10)))), warns("mixed-fabrics", "differ", "can do all of them")),
	quiet("one fabric", tee("cotton 100", "black", "white", with(tee("cotton 100", "white", "black")))),
	quiet("one line", tee("cotton 100", "black", "white")),
)
