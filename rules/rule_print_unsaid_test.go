package rules

var _ = rows("print-unsaid",
	says("no place", tee("cotton 100", "navy", "white", place("")), asks("place"), assumes("place")),
	says("no size", tee("cotton 100", "navy", "white"), asks("width_mm")),
	says("no print at all", Order{Lines: List[Line]{{Garment: "t-shirt"}}}, asks("prints"), asks("fibres"), asks("colours")),
	quiet("place and size", tee("cotton 100", "navy", "white", sized(200, 200))),
)
