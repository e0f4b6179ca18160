package rules

var _ = rows("transfer-heat",
	says("cotton about 160", tee("cotton 100", "black", "white"), upTo(HeatTransfer, 165)),
	says("tri-blend about 138", tee("polyester 50 cotton 25 viscose 25", "black", "white"), upTo(HeatTransfer, 145), is(HeatTransfer, Test)),
	says("polyester cool", tee("polyester 100", "black", "white"), upTo(HeatTransfer, 150)),
	says("nylon cooler", tee("nylon 100", "black", "white"), upTo(HeatTransfer, 140)),
	says("acrylic coolest", tee("acrylic 100", "black", "white"), upTo(HeatTransfer, 135)),
	says("unknown cloth cool", tee("", "black", "white"), upTo(HeatTransfer, 145)),
)
