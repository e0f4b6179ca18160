package rules

var _ = rows("food-goods",
	says("aprons", tee("polyester 65 cotton 35", "black", "white", for_(Food), garment("apron")), warns("food", "flake", "hygiene")),
	quiet("plain goods", tee("cotton 100", "navy", "white")),
)
