package rules

var _ = rows("childrens-goods",
	says("children", tee("cotton 100", "white", "red", for_(Children)), warns("children", "lead 90 ppm", "100 ppm", "0.1 %"), picks(Plastisol)),
	quiet("grown-ups", tee("cotton 100", "white", "red")),
)
