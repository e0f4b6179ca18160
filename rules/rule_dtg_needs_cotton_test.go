package rules

var _ = rows("dtg-needs-cotton",
	says("cotton", tee("cotton 100", "white", "full", pieces(10)), is(DTG, Yes), lifts(DTG), picks(DTG)),
	says("a blend after trials", tee("cotton 60 polyester 40", "white", "full"), is(DTG, Test)),
	says("tri-blend for experts", tee("polyester 50 cotton 25 viscose 25", "white", "full"), is(DTG, Expert)),
	says("not on polyester", tee("polyester 100", "white", "full"), is(DTG, No)),
	says("not on nylon", tee("nylon 100", "white", "full"), is(DTG, No)),
	says("not on wool", tee("wool 100", "white", "full"), is(DTG, No)),
	says("linen is tested", tee("linen 100", "white", "full"), is(DTG, Test)),
	quiet("an unknown cloth is another rule's", tee("", "white", "full")),
)
