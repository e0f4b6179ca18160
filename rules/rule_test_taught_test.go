package rules

// failed is a record of a refused test print of the first print.
func failed(step, note string, m Method, b Base) Record {
	return Record{Failures: List[Failure]{{Step: step, Note: note, Tried: []Try{{Method: m, Base: b}}}}}
}

var _ = rows("test-print-taught",
	says("bleeding on low-bleed white: grey next", tee("polyester 50 cotton 50", "navy", "white"), on(Plastisol, GreyBlocker), picks(Plastisol),
		warns("changed", "grey blocking base", "low-bleed"), summed("grey blocking base")).knowing(failed("migration", "", Plastisol, LowBleedWhite)),
	says("bleeding on white: low-bleed next", tee("cotton 60 polyester 40", "black", "white"), on(Plastisol, LowBleedWhite), upTo(Plastisol, 138)).knowing(failed("wash", "white went pink", Plastisol, WhiteBase)),
	says("bleeding through grey: another method", tee("polyester 100", "red", "white"), is(Plastisol, Expert), picks(DTF, HeatTransfer), warns("changed", "Another method")).knowing(failed("migration", "", Plastisol, GreyBlocker)),
	says("a failed scratch in direct print: another method", tee("cotton 60 polyester 40", "white", "full", pieces(10)), picks(DTF, HeatTransfer), warns("changed")).knowing(failed("scratch", "", DTG, Pretreat)),
	says("a failed wash on cotton: cure it through", tee("cotton 100", "black", "white"), picks(Plastisol), is(Plastisol, Test), warns("changed", "cure")).knowing(failed("wash", "", Plastisol, WhiteBase)),
	says("not cured", tee("cotton 100", "black", "white"), is(Plastisol, Test), warns("changed", "cure")).knowing(failed("cure", "", Plastisol, WhiteBase)),
	says("cracked when stretched", tee("cotton 100", "black", "white"), adds(Plastisol, StretchAdditive)).knowing(failed("stretch", "", Plastisol, WhiteBase)),
	says("too stiff", tee("cotton 100", "black", "white"), adds(Plastisol, Softener)).knowing(failed("hand", "", Plastisol, WhiteBase)),
	says("press marks", tee("cotton 100", "black", "white", asking(DTF)), upTo(DTF, 145)).knowing(failed("press-marks", "", DTF, NoBase)),
	says("peeled", tee("cotton 100", "black", "white"), adds(Plastisol, Bonding)).knowing(failed("adhesion", "", Plastisol, WhiteBase)),
	says("out of place: the method stands", tee("cotton 100", "black", "white"), picks(Plastisol), is(Plastisol, Test)).knowing(failed("registration", "", Plastisol, WhiteBase)),
	says("refused as a whole, for bleeding", tee("polyester 50 cotton 50", "navy", "white"), on(Plastisol, GreyBlocker)).knowing(failed("", "it bled overnight", Plastisol, LowBleedWhite)),
	says("refused as a whole", tee("cotton 100", "black", "white"), is(Plastisol, Expert), picks(DTF, HeatTransfer, DTG)).knowing(failed("", "no", Plastisol, WhiteBase)),
	says("a method that a person picked gives way to its failure", tee("cotton 60 polyester 40", "white", "full", pieces(10)), picks(DTF, HeatTransfer), warns("asked-refused", "failed", "Pick it again")).knowing(
		Record{Chosen: List[Chosen]{{Method: DTG}}, Failures: failed("scratch", "", DTG, Pretreat).Failures}),
	says("unless it was picked again in knowledge of it", tee("cotton 60 polyester 40", "white", "full", pieces(10)), picks(DTG), is(DTG, Expert)).knowing(
		Record{Chosen: List[Chosen]{{Method: DTG, After: 1}}, Failures: failed("scratch", "", DTG, Pretreat).Failures}),
	says("a method that the customer asked for gives way too", tee("cotton 60 polyester 40", "white", "full", pieces(10), asking(DTG)), picks(DTF, HeatTransfer), warns("asked-refused", "failed")).knowing(failed("scratch", "", DTG, Pretreat)),
	says("two failures, two steps up", tee("polyester 100", "navy", "white"), picks(DTF, HeatTransfer)).knowing(
		Record{Failures: append(failed("migration", "", Plastisol, LowBleedWhite).Failures, failed("migration", "", Plastisol, GreyBlocker).Failures...)}),
	quiet("another print's failure", tee("cotton 100", "black", "white"), picks(Plastisol)).knowing(Record{Failures: List[Failure]{{Step: "wash", Tried: []Try{{Line: 3, Method: Plastisol}}}}}),
	quiet("no failure", tee("cotton 100", "black", "white")),
)
