package rules

var _ = rows("film-heat",
	says("cotton", tee("cotton 100", "black", "white"), upTo(DTF, 160)),
	says("nylon", tee("nylon 100", "black", "white"), upTo(DTF, 150)),
	says("tri-blend", tee("polyester 50 cotton 25 viscose 25", "black", "white"), upTo(DTF, 145), is(DTF, Test)),
	says("unknown cloth", tee("", "black", "white"), upTo(DTF, 145)),
)
