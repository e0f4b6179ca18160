package rules

var _ = rows("stretch-cloth",
	says("cotton with elastane", tee("cotton 92 elastane 8", "black", "white"), adds(Plastisol, StretchAdditive), is(HeatTransfer, Test)),
	says("a little", tee("cotton 97 elastane 3", "black", "white"), adds(Plastisol, StretchAdditive)),
	quiet("cotton", tee("cotton 100", "black", "white")),
)
