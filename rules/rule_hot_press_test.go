package rules

var _ = rows("hot-press",
	says("sublimation", tee("polyester 100", "white", "full"), warns("hot-press", "110 °C", "230 °F")),
	quiet("screens", tee("cotton 100", "black", "white")),
)
