package rules

var _ = rows("fleece-surface",
	says("a hoodie", tee("cotton 80 polyester 20", "red", "white", garment("hoodie")), is(DTG, Test), lowers(WaterBased), warns("fleece", "pockets", "zips")),
	quiet("a t-shirt", tee("cotton 80 polyester 20", "red", "white")),
)
