package rules

var _ = rows("hi-vis",
	says("stop, with the sums", tee("polyester 100", "safety yellow", "black", for_(HiVis), garment("vest"), sized(300, 200), covering(50)), stops("hi-vis"), warns("hi-vis", "0.14", "0.50", "0.80", "775"), warns("hi-vis-area", "0.06 m²", "0.03 m²", "0.56 m²", "0.86 m²"), picks("")),
	says("a person picked all the same: the stop stays, and a test is due", tee("polyester 100", "safety yellow", "black", for_(HiVis)), stops("hi-vis"), picks(Plastisol), is(Plastisol, Test),
		summed("once a person has settled")).knowing(Record{Chosen: List[Chosen]{{Method: Plastisol}}}),
	quiet("plain goods", tee("polyester 100", "safety yellow", "black")),
)
