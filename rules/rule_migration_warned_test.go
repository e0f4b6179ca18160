package rules

var _ = rows("migration-warned",
	says("maroon tri-blend", tee("polyester 50 cotton 25 viscose 25", "maroon", "white"), warns("migration", "maroon", "24 to 72 hours")),
	says("colour unsaid", tee("polyester 100", "", "white"), warns("migration", "colour")),
	quiet("cotton", tee("cotton 100", "maroon", "white")),
)
