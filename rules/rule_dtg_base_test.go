package rules

var _ = rows("dtg-base",
	says("black needs pretreatment and white", tee("cotton 100", "black", "full"), on(DTG, PretreatWhite)),
	says("an unknown colour is set up as dark", tee("cotton 100", "", "full"), on(DTG, PretreatWhite)),
	says("a light blend is pretreated", tee("cotton 60 polyester 40", "white", "full"), on(DTG, Pretreat)),
	quiet("white cotton needs none", tee("cotton 100", "white", "full"), on(DTG, NoBase)),
)
