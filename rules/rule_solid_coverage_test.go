package rules

var _ = rows("large-solid",
	says("nearly solid", tee("cotton 100", "black", "white,yellow", covering(85), sized(300, 360)), lowers(Plastisol), lifts(Discharge)),
	quiet("a small solid", tee("cotton 100", "black", "white", covering(85), sized(90, 90))),
	quiet("open art", tee("cotton 100", "black", "white", covering(30))),
)
