package rules

var _ = rows("sublimation-needs-light-cloth",
	says("nothing shows on black", tee("polyester 100", "black", "full"), is(Sublimation, No)),
	says("nor on red", tee("polyester 100", "red", "black"), is(Sublimation, No)),
	says("light grey dulls it", tee("polyester 100", "light grey", "navy"), lowers(Sublimation), is(Sublimation, Yes, Test)),
	quiet("white is what it wants", tee("polyester 100", "white", "full")),
)
