package rules

var _ = rows("swim-goods",
	says("swimwear", tee("nylon 80 elastane 20", "black", "white", for_(Swim)), warns("swim", "chlorine")),
	quiet("plain goods", tee("cotton 100", "navy", "white")),
)
