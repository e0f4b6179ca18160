package rules

var _ = rows("cure-heat",
	says("cotton", tee("cotton 100", "black", "white"), upTo(Plastisol, 165), upTo(WaterBased, 165), upTo(Discharge, 165)),
	says("low-cure on dyed polyester", tee("polyester 100", "navy", "white"), upTo(Plastisol, 138)),
	says("nylon", tee("nylon 100", "navy", "white"), upTo(Plastisol, 155)),
	says("tri-blend", tee("polyester 50 cotton 25 viscose 25", "navy", "white"), upTo(Plastisol, 145)),
)
