package rules

var _ = rows("asked-method",
	says("what works is honoured", tee("cotton 100", "black", "white", pieces(1000), asking(DTF)), picks(DTF), warns("asked-difference", "lastisol")),
	says("what cannot work is refused", tee("cotton 100", "black", "white", asking(Sublimation)), picks(Plastisol), warns("asked-refused", "sublimation", "plastisol")),
	says("screen print, ink not said", tee("cotton 100", "black", "white", asking(Screen)), picks(Plastisol)),
	says("screen print where no screen ink works", tee("cotton 100", "black", "white", asking(Screen)), picks(DTF, HeatTransfer), warns("asked-refused", "screen")).in(Shop{Methods: List[Method]{DTF, HeatTransfer}}),
	says("a person's pick stands", tee("cotton 100", "black", "white"), picks(DTG)).knowing(Record{Chosen: List[Chosen]{{Method: DTG}}}),
	says("a person's pick that cannot work does not", tee("cotton 100", "black", "white"), picks(Plastisol), warns("asked-refused", "sublimation")).knowing(Record{Chosen: List[Chosen]{{Method: Sublimation}}}),
	says("a person's pick stands on an unknown cloth", tee("", "black", "white"), picks(Plastisol)).knowing(Record{Chosen: List[Chosen]{{Method: Plastisol}}}),
	quiet("nothing asked", tee("cotton 100", "black", "white")),
)
