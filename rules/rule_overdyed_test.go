package rules

var _ = rows("overdyed-cloth",
	says("pigment-dyed", tee("cotton 100", "pigment-dyed navy", "white"), is(Discharge, Expert), is(DTG, Test)),
	quiet("plain navy", tee("cotton 100", "navy", "white"), is(Discharge, Test), is(DTG, Yes)),
)
