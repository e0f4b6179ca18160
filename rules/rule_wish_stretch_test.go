package rules

var _ = rows("stretch-wished",
	says("wished", tee("cotton 100", "white", "black", wishing(Stretch)), adds(Plastisol, StretchAdditive)),
	says("leggings", tee("polyester 85 elastane 15", "black", "white", garment("leggings")), adds(Plastisol, StretchAdditive)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
