package rules

var _ = rows("discharge-needs-cotton",
	says("polyester dye stays", tee("polyester 100", "navy", "white"), is(Discharge, No)),
	says("none on polyester and viscose", tee("polyester 65 viscose 35", "navy", "white"), is(Discharge, No)),
	says("none on nylon", tee("nylon 100", "navy", "white"), is(Discharge, No)),
	says("too little cotton", tee("polyester 65 cotton 35", "navy", "white"), is(Discharge, No)),
	says("muted on tri-blend", tee("polyester 50 cotton 25 viscose 25", "black", "white"), is(Discharge, Test)),
	says("muted on half and half", tee("cotton 50 polyester 50", "black", "white"), is(Discharge, Expert)),
	says("less bright on a heather", tee("cotton 60 polyester 40", "charcoal", "cream"), is(Discharge, Test)),
	quiet("cotton", tee("cotton 100", "black", "white"), is(Discharge, Test)),
)
