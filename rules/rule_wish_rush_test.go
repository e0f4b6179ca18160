package rules

var _ = rows("rush",
	says("in a hurry, and a test is due", tee("polyester 100", "navy", "white", wishing(Rush)), warns("rush", "wash test")),
	says("in a hurry, and none is", tee("cotton 100", "white", "black", wishing(Rush)), lowers(Discharge)),
	quiet("no wish", tee("cotton 100", "white", "black")),
)
