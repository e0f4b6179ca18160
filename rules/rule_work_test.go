package rules

var _ = rows("work-it-takes",
	says("a long run takes long by film", tee("cotton 100", "white", "black", pieces(500)), lowers(DTF), picks(Plastisol)),
)
