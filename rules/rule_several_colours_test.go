package rules

var _ = rows("several-garment-colours",
	says("black and white", tee("polyester 100", "black,white", "full"), warns("light-and-dark"), assumes("colours"), is(Sublimation, No)),
	says("two darks", tee("cotton 100", "black,navy", "white"), assumes("colours")),
	quiet("one", tee("cotton 100", "black", "white")),
)
