package rules

var _ = rows("soft-knit-thin-deposit",
	says("softened and stretchy", tee("polyester 50 cotton 25 viscose 25", "white", "black"), adds(Plastisol, Softener), adds(Plastisol, StretchAdditive)),
	says("no large solid of plastisol", tee("polyester 50 cotton 25 viscose 25", "light grey", "navy", covering(85)), lowers(Plastisol), picks(WaterBased)),
	says("poly-viscose too", tee("polyester 65 viscose 35", "navy", "white"), adds(Plastisol, Softener), is(Plastisol, Test)),
	quiet("cotton", tee("cotton 100", "white", "black")),
)
