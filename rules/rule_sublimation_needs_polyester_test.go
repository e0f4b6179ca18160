package rules

var _ = rows("sublimation-needs-polyester",
	says("cotton takes no dye", tee("cotton 100", "white", "black"), is(Sublimation, No)),
	says("polyester takes it in full", tee("polyester 100", "white", "full"), is(Sublimation, Yes), picks(Sublimation)),
	says("two thirds: a little muted", tee("polyester 65 cotton 35", "white", "full"), is(Sublimation, Test), lowers(Sublimation)),
	says("half: vintage", tee("polyester 50 cotton 50", "white", "black"), is(Sublimation, Test), lowers(Sublimation)),
	says("two fifths: too little", tee("polyester 40 cotton 60", "white", "black"), is(Sublimation, No)),
	says("two fifths where faded is wished", tee("polyester 40 cotton 60", "white", "black", wishing(Vintage)), is(Sublimation, Expert)),
	says("nylon and acrylic melt", tee("polyester 70 acrylic 30", "white", "full"), is(Sublimation, No)),
	says("a fifth of elastane leaves the polyester printable", tee("polyester 80 elastane 20", "white", "full"), is(Sublimation, Test)),
	quiet("an unknown cloth is another rule's", tee("", "white", "full")),
)
