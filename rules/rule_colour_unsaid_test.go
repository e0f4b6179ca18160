package rules

var _ = rows("colour-unsaid",
	says("photo art on polyester", tee("polyester 100", "", "full"), picks(""), asks("colours"), is(DTG, No)),
	says("one white ink on cotton", tee("cotton 100", "", "white"), asks("colours"), is(WaterBased, Test)),
	says("a colour nobody knows", tee("cotton 100", "zorble", "white"), asks("colours")),
	quiet("black", tee("cotton 100", "black", "white")),
)
