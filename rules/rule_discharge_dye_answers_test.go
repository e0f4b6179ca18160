package rules

var _ = rows("discharge-dye-answers",
	says("every colour is tested", tee("cotton 100", "black", "white"), is(Discharge, Test)),
	says("turquoise resists", tee("cotton 100", "turquoise", "white"), is(Discharge, Expert), lowers(Discharge)),
	says("so do royal, kelly and purple", tee("cotton 100", "royal", "white"), is(Discharge, Expert)),
	says("kelly", tee("cotton 100", "kelly", "white"), is(Discharge, Expert)),
	says("purple", tee("cotton 100", "purple", "white"), is(Discharge, Expert)),
)
