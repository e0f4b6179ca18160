package rules

var _ = rows("plastisol-cover",
	says("white on black", tee("cotton 100", "black", "white"), on(Plastisol, WhiteBase)),
	says("black on white", tee("cotton 100", "white", "black"), on(Plastisol, NoBase)),
	says("red on charcoal", tee("cotton 100", "charcoal", "red"), on(Plastisol, WhiteBase)),
	says("black on red covers", tee("cotton 100", "red", "black"), on(Plastisol, NoBase)),
	says("white on pink needs a little help", tee("cotton 100", "pink", "white"), on(Plastisol, WhiteBase)),
	says("photo art on black", tee("cotton 100", "black", "full"), on(Plastisol, WhiteBase)),
	quiet("a colour nobody knows is left as it is", tee("cotton 100", "zorble", "white")),
)
