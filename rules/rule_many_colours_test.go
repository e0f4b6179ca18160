package rules

var _ = rows("few-pieces-many-colours",
	says("six colours on five shirts", tee("cotton 100", "navy", "white,gold,red,green,blue,orange", pieces(5)), lifts(DTG), lowers(Plastisol), picks(DTG, DTF)),
	says("one colour on three shirts", tee("cotton 100", "white", "black", pieces(3)), lowers(Plastisol), picks(DTG, DTF, HeatTransfer)),
	says("more colours than heads", tee("cotton 100", "white", "black,red,blue,green,gold,orange,purple,pink"), lowers(Plastisol)),
	says("a long photographic run", tee("cotton 100", "white", "full", pieces(600)), lifts(Plastisol), lowers(DTG), picks(Plastisol)),
	quiet("one colour on a hundred", tee("cotton 100", "white", "black")),
)
