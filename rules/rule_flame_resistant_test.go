package rules

var _ = rows("flame-resistant",
	says("stop", tee("cotton 88 nylon 12", "navy", "white", for_(FlameResistant), sized(100, 100)), stops("flame-resistant"), warns("flame-resistant", "103 cm²", "258 cm²"), warns("flame-resistant-area", "100 cm²", "within"), picks("")),
	says("a large print is over", tee("cotton 100", "navy", "white", for_(FlameResistant), sized(200, 200)), warns("flame-resistant-area", "over")),
	quiet("plain goods", tee("cotton 100", "navy", "white")),
)
