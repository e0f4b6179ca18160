package rules

var _ = rows("migration-blocked",
	says("white on navy polyester", tee("polyester 100", "navy", "white"), on(Plastisol, LowBleedWhite, GreyBlocker), adds(Plastisol, LowCure), risk(RiskMedium, RiskHigh)),
	says("white on red polyester: the worst", tee("polyester 100", "red", "white"), on(Plastisol, GreyBlocker), risk(RiskHigh)),
	says("white on navy 65/35", tee("polyester 65 cotton 35", "navy", "white"), on(Plastisol, LowBleedWhite, GreyBlocker), is(Plastisol, Test)),
	says("a little polyester: plain white, tested", tee("cotton 85 polyester 15", "navy", "white"), on(Plastisol, WhiteBase), risk(RiskLow)),
	quiet("black on red polyester does not show", tee("polyester 100", "red", "black"), on(Plastisol, NoBase), risk(RiskNone, RiskLow)),
	quiet("cotton", tee("cotton 100", "red", "white"), on(Plastisol, WhiteBase), risk(RiskNone)),
)
