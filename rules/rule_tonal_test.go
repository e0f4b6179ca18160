package rules

var _ = rows("ink-is-the-cloths-colour",
	says("black on black", tee("cotton 100", "black", "black"), warns("tonal", "hardly show"), asks("inks")),
	says("white on white", tee("cotton 100", "white", "white"), warns("tonal")),
	quiet("white on black", tee("cotton 100", "black", "white")),
	quiet("black gel on black is meant", tee("cotton 100", "black", "black", finish(Gel))),
)
