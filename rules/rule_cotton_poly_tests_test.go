package rules

var _ = rows("cotton-polyester-tests",
	says("a dyed heather", tee("cotton 60 polyester 40", "navy", "white"), is(Plastisol, Test)),
	says("colour unsaid", tee("cotton 60 polyester 40", "", "white"), is(Plastisol, Test)),
	quiet("black on light grey", tee("cotton 90 polyester 10", "light grey", "black"), is(Plastisol, Yes)),
	quiet("cotton", tee("cotton 100", "navy", "white"), is(Plastisol, Yes)),
)
