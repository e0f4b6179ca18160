package rules

var _ = rows("medical-goods",
	says("scrubs", tee("polyester 65 cotton 35", "navy", "white", for_(Medical), garment("scrub-top")), warns("medical", "laundered hot", "60 °C"), asks("uses")),
	quiet("plain goods", tee("cotton 100", "navy", "white")),
)
