package rules

var _ = rows("wool-gentle-heat",
	says("wool", tee("wool 100", "charcoal", "white"), adds(Plastisol, LowCure), is(Plastisol, Test), upTo(HeatTransfer, 150), warns("wool", "scorch"), risk(RiskNone)),
	quiet("cotton", tee("cotton 100", "charcoal", "white")),
)
