package rules

var _ = rows("sleepwear-burns",
	says("children's: a person first", tee("cotton 100", "white", "red", for_(Children, Sleepwear)), stops("sleepwear"), warns("sleepwear", "flammability", "17.8 cm", "25.4 cm"), picks("")),
	says("grown-ups': a caution", tee("cotton 100", "white", "red", for_(Sleepwear)), warns("sleepwear", "flammability"), picks(Plastisol)),
	quiet("day wear", tee("cotton 100", "white", "red")),
)
