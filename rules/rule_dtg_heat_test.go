package rules

var _ = rows("dtg-heat",
	says("cotton", tee("cotton 100", "white", "full"), upTo(DTG, 165)),
	says("blends cooler", tee("cotton 60 polyester 40", "white", "full"), upTo(DTG, 150)),
	quiet("polyester has none", tee("polyester 100", "white", "full")),
)
