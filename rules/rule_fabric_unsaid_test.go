package rules

var _ = rows("fabric-unsaid",
	says("unknown cloth", tee("", "white", "full", asking(Sublimation)), picks(""), asks("fibres"), is(Sublimation, Expert), is(Plastisol, Test), summed("No method yet")),
	says("a dark garment of unknown cloth is set up against bleeding", tee("", "black", "white"), on(Plastisol, LowBleedWhite), picks("")),
	says("a class without percents", tee("", "navy", "white", class("tri-blend")), assumes("fibres"), picks(Plastisol)),
	quiet("cotton", tee("cotton 100", "white", "full")),
)
