package rules

var _ = rows("water-based-needs-contrast",
	says("white on black cotton", tee("cotton 100", "black", "white"), is(WaterBased, Expert, No), on(WaterBased, WaterBasedBlocker)),
	says("the soft answer on dark viscose blends", tee("polyester 65 viscose 35", "navy", "white"), is(WaterBased, Test), on(WaterBased, WaterBasedBlocker)),
	quiet("black on royal cotton is darker than the cloth", tee("cotton 100", "royal", "black"), is(WaterBased, Yes), on(WaterBased, NoBase)),
	quiet("yellow on white cotton shows", tee("cotton 100", "white", "yellow"), is(WaterBased, Yes)),
)
