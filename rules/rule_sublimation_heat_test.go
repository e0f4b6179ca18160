package rules

var _ = rows("sublimation-heat",
	says("polyester", tee("polyester 100", "white", "full"), upTo(Sublimation, 204)),
	says("with elastane lower", tee("polyester 90 elastane 10", "white", "full"), upTo(Sublimation, 200)),
	quiet("cotton has none", tee("cotton 100", "white", "full")),
)
