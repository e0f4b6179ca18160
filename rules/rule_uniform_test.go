package rules

var _ = rows("uniform-wash",
	says("uniforms", tee("cotton 100", "navy", "white", for_(Uniform)), lifts(Plastisol), warns("uniform", "laundry")),
	quiet("plain goods", tee("cotton 100", "navy", "white")),
)
