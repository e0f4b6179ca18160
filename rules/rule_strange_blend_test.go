package rules

var _ = rows("unusual-blend",
	says("polyester and nylon", tee("polyester 50 nylon 50", "white", "black"), is(Plastisol, Test), is(DTF, Test)),
	quiet("cotton and elastane are known ground", tee("cotton 92 elastane 8", "white", "black"), is(Plastisol, Yes)),
	quiet("cotton", tee("cotton 100", "white", "black")),
)
