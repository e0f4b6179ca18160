package rules

var _ = rows("discharge-needs-dye",
	says("white has no dye", tee("cotton 100", "white", "black"), is(Discharge, No)),
	says("nor has light grey, much", tee("cotton 100", "light grey", "navy"), is(Discharge, No)),
	says("one white among the colours is enough", tee("cotton 100", "black,white", "red"), is(Discharge, No)),
	says("coral is on the edge", tee("cotton 100", "coral", "white"), is(Discharge, Test, Expert), lowers(Discharge)),
	quiet("black", tee("cotton 100", "black", "white")),
)
