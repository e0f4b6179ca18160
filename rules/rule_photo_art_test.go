package rules

var _ = rows("photographic-art",
	says("photo on cotton", tee("cotton 100", "white", "full"), lifts(DTG), lifts(DTF), lowers(Plastisol), is(Plastisol, Test), picks(DTG, DTF)),
	quiet("one ink", tee("cotton 100", "white", "black")),
)
