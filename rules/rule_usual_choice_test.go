package rules

var _ = rows("usual-choice",
	says("a plain job is screen printed", tee("cotton 100", "white", "black"), lifts(Plastisol), lowers(DTG), picks(Plastisol)),
)
