package rules

var _ = rows("heavy-effect-thin-cloth",
	says("puff on tri-blend", tee("polyester 50 cotton 25 viscose 25", "navy", "white", finish(Puff)), is(Plastisol, Expert), is(HeatTransfer, Test), warns("heavy-deposit", "puff", "migration")),
	quiet("puff on a cotton hoodie", tee("cotton 100", "navy", "white", finish(Puff), garment("hoodie"))),
	quiet("foil is no heavy deposit", tee("polyester 100", "navy", "gold", finish(Foil))),
)
