package rules

var _ = rows("discharge-chemistry",
	says("discharge picked", tee("cotton 100", "black", "white", wishing(SoftHand)), warns("discharge-fumes", "formaldehyde", "Ventilate", "0.75 ppm", "2 ppm"), warns("discharge-wash", "Wash")),
	quiet("plastisol picked", tee("cotton 100", "black", "white")),
)
