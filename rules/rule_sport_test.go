package rules

var _ = rows("sport-goods",
	says("polyester kit", tee("polyester 100", "white", "navy", for_(Athletic)), lifts(Sublimation), adds(Plastisol, StretchAdditive)),
	quiet("cotton", tee("cotton 100", "white", "navy", for_(Athletic))),
)
