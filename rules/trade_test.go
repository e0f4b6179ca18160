package rules

import "testing"

// TestTradeFacts holds the plan to what the trade knows about fabric and method. Basis of every row: common practice, as production leads
// and ink suppliers teach it; no published standard stands behind them.
func TestTradeFacts(t *testing.T) {
	const (
		cotton, heather = "cotton 100", "cotton 52 polyester 48"
		tri, polyVis    = "polyester 50 cotton 25 viscose 25", "polyester 65 viscose 35"
		poly, half      = "polyester 100", "cotton 50 polyester 50"
	)
	for _, c := range []struct {
		fact string
		o    Order
		want []want
	}{
		{"cotton takes every method but sublimation: light", tee(cotton, "white", "black"), []want{is(Plastisol, Yes), is(WaterBased, Yes), is(DTG, Yes), is(DTF, Yes), is(HeatTransfer, Yes), is(Sublimation, No)}},
		{"cotton takes every method but sublimation: dark", tee(cotton, "black", "white"), []want{is(Plastisol, Yes), is(Discharge, Test), is(DTG, Yes), is(DTF, Yes), is(HeatTransfer, Yes), is(Sublimation, No)}},
		{"cotton does not bleed, whatever the colour", tee(cotton, "maroon", "white"), []want{risk(RiskNone)}},
		{"a plain white serves on cotton", tee(cotton, "maroon", "white"), []want{on(Plastisol, WhiteBase)}},
		{"water-based: light garments", tee(cotton, "natural", "navy"), []want{is(WaterBased, Yes), on(WaterBased, NoBase)}},
		{"water-based: or an ink darker than the garment", tee(cotton, "red", "black"), []want{is(WaterBased, Yes), on(WaterBased, NoBase)}},
		{"a light water-based ink does not show on dark cotton", tee(cotton, "navy", "white"), []want{is(WaterBased, No, Expert)}},
		{"discharge: dark cotton", tee(cotton, "navy", "white"), []want{is(Discharge, Test)}},
		{"discharge is pointless on light goods", tee(cotton, "natural", "navy"), []want{is(Discharge, No)}},
		{"each garment colour is discharge tested before a bulk run", tee(cotton, "charcoal", "white", asking(Discharge)), []want{picks(Discharge), is(Discharge, Test), steps("wash")}},
		{"direct print on darks: pretreatment and a white base", tee(cotton, "black", "full"), []want{on(DTG, PretreatWhite)}},
		{"direct print on lights: no base", tee(cotton, "white", "full"), []want{on(DTG, NoBase)}},
		{"heat transfer on cotton about 160 °C, 15 s", tee(cotton, "black", "white"), []want{window(HeatTransfer, 160, 15)}},

		{"heathers: some bleed, some do not, so test", tee(heather, "navy", "white"), []want{is(Plastisol, Test), steps()}},
		{"heathers: discharge strips only the cotton", tee(heather, "charcoal", "cream"), []want{is(Discharge, Test, Expert)}},
		{"heathers: direct print after trials, wash and scratch tests", tee(heather, "white", "full", asking(DTG)), []want{is(DTG, Test), steps("wash", "scratch")}},

		{"tri-blend: the worst colours need a blocker", tee(tri, "maroon", "white"), []want{on(Plastisol, LowBleedWhite, GreyBlocker)}},
		{"tri-blend: stretch additive or softener", tee(tri, "navy", "white"), []want{adds(Plastisol, Softener)}},
		{"tri-blend: no heavy deposit", tee(tri, "white", "navy", covering(90)), []want{picks(WaterBased)}},
		{"tri-blend: water-based much as on cotton", tee(tri, "white", "navy"), []want{is(WaterBased, Yes)}},
		{"tri-blend: discharge muted", tee(tri, "black", "white"), []want{is(Discharge, Test, Expert)}},
		{"tri-blend: direct print for experts", tee(tri, "white", "full"), []want{is(DTG, Expert)}},
		{"tri-blend: heat transfer about 138 °C, 8 to 10 s", tee(tri, "black", "white"), []want{window(HeatTransfer, 138, 9)}},
		{"tri-blend: sublimation gives a faded look on light goods", tee(tri, "white", "red"), []want{is(Sublimation, Test)}},

		{"poly-viscose: softener or stretch, blocker on darker colours", tee(polyVis, "navy", "white"), []want{adds(Plastisol, Softener), on(Plastisol, LowBleedWhite, GreyBlocker)}},
		{"poly-viscose: water-based very good, the more the art covers", tee(polyVis, "white", "navy", covering(80)), []want{picks(WaterBased)}},
		{"poly-viscose: no discharge", tee(polyVis, "black", "white"), []want{is(Discharge, No)}},
		{"poly-viscose: the soft answer on darks is a water-based blocker", tee(polyVis, "black", "white", wishing(SoftHand), covering(60)), []want{picks(WaterBased), on(WaterBased, WaterBasedBlocker)}},
		{"poly-viscose: direct print for experts", tee(polyVis, "white", "full"), []want{is(DTG, Expert)}},
		{"poly-viscose: transfers cool and short", tee(polyVis, "black", "white"), []want{window(HeatTransfer, 138, 9)}},

		{"polyester: plastisol low-bleed or on a blocker", tee(poly, "navy", "white"), []want{on(Plastisol, LowBleedWhite, GreyBlocker)}},
		{"polyester: water-based poor", tee(poly, "white", "navy"), []want{is(WaterBased, No, Expert)}},
		{"polyester: no discharge", tee(poly, "black", "white"), []want{is(Discharge, No)}},
		{"polyester: direct print not recommended", tee(poly, "white", "full"), []want{is(DTG, No, Expert)}},
		{"polyester: a transfer that resists migration", tee(poly, "red", "white"), []want{on(HeatTransfer, BlockOut)}},
		{"polyester: sublimation brightest", tee(poly, "white", "full"), []want{is(Sublimation, Yes), picks(Sublimation)}},
		{"sublimation is for light goods only", tee(poly, "black", "full"), []want{is(Sublimation, No)}},

		{"nylon: bonding agent, low heat", tee("nylon 100", "black", "white"), []want{adds(Plastisol, Bonding), upTo(Plastisol, 140)}},
		{"acrylic is heat-sensitive", tee("acrylic 100", "black", "white"), []want{adds(Plastisol, LowCure), upTo(HeatTransfer, 140)}},
		{"elastane: stretch additive, low heat", tee("polyester 85 elastane 15", "black", "white"), []want{adds(Plastisol, StretchAdditive), upTo(HeatTransfer, 150)}},
		{"camouflage bleeds worst", tee(poly, "camo", "white"), []want{risk(RiskHigh), on(Plastisol, GreyBlocker)}},
		{"effects need screens or transfers", tee(cotton, "black", "gold", finish(Foil)), []want{picks(Plastisol, HeatTransfer), is(DTG, No), is(Sublimation, No)}},
		{"few pieces in many colours favour digital print", tee(cotton, "black", "full", pieces(6)), []want{picks(DTG, DTF)}},
		{"many pieces in few colours favour screens", tee(cotton, "black", "white", pieces(1000)), []want{picks(Plastisol)}},
		{"all-over is sublimation on light polyester", tee(poly, "white", "navy", place("all-over")), []want{picks(Sublimation)}},
		{"all-over else is an oversize screen", tee(cotton, "white", "navy", place("all-over")), []want{picks(WaterBased, Plastisol)}},
	} {
		s := work(&c.o, &Shop{}, &Record{})
		p := s.plan()
		for _, w := range c.want {
			if wrong := w("", s, p); wrong != "" {
				t.Errorf("%s: %s", c.fact, wrong)
			}
		}
	}
}

// window looks for a heat window that holds the usual figure.
func window(m Method, tempC, seconds float64) want {
	return func(_ string, _ *sheet, p Plan) string {
		h := choiceOf(p, m).Setup.Heat
		if h == nil || tempC < h.TempC[0] || tempC > h.TempC[1] || seconds < h.Seconds[0] || seconds > h.Seconds[1] {
			return string(m) + ": the heat window does not hold the usual figure"
		}
		return ""
	}
}

// Sublimation follows the polyester share: full, slightly muted, vintage, nothing. And what is muted elsewhere.
func TestVividnessFollowsTheTrade(t *testing.T) {
	v := func(m Method, o Order) float64 { return choiceOf(Decide(o, Shop{}, Record{}), m).Expect.Vividness }
	for _, c := range []struct {
		name string
		m    Method
		rise []Order
	}{
		{"sublimation by polyester share", Sublimation, []Order{tee("cotton 100", "white", "red"), tee("cotton 60 polyester 40", "white", "red"),
			tee("polyester 50 cotton 50", "white", "red"), tee("polyester 65 cotton 35", "white", "red"), tee("polyester 100", "white", "red")}},
		{"poly-viscose is nearly as bright as polyester", Sublimation, []Order{tee("polyester 65 cotton 35", "white", "red"), tee("polyester 65 viscose 35", "white", "red"), tee("polyester 100", "white", "red")}},
		{"sublimation by ground", Sublimation, []Order{tee("polyester 100", "black", "red"), tee("polyester 100", "grey", "red"), tee("polyester 100", "light grey", "red"), tee("polyester 100", "white", "red")}},
		{"discharge by cotton share", Discharge, []Order{tee("polyester 65 viscose 35", "black", "white"), tee("polyester 50 cotton 25 viscose 25", "black", "white"),
			tee("cotton 50 polyester 50", "black", "white"), tee("cotton 60 polyester 40", "black", "white"), tee("cotton 100", "black", "white")}},
		{"discharge by dye", Discharge, []Order{tee("cotton 100", "turquoise", "white"), tee("cotton 100", "royal", "white"), tee("cotton 100", "red", "white"), tee("cotton 100", "black", "white")}},
		{"water-based by fibre", WaterBased, []Order{tee("polyester 100", "white", "navy"), tee("polyester 65 cotton 35", "white", "navy"), tee("cotton 60 polyester 40", "white", "navy"), tee("cotton 100", "white", "navy")}},
		{"water-based by ground", WaterBased, []Order{tee("cotton 100", "red", "black"), tee("cotton 100", "grey", "black"), tee("cotton 100", "light grey", "black"), tee("cotton 100", "white", "black")}},
		{"water-based on a blocker", WaterBased, []Order{tee("cotton 100", "black", "white"), tee("cotton 100", "white", "black")}},
		{"direct print by fibre", DTG, []Order{tee("polyester 100", "white", "full"), tee("polyester 50 cotton 25 viscose 25", "white", "full"), tee("cotton 60 polyester 40", "white", "full"), tee("cotton 100", "white", "full")}},
		{"direct print by ground", DTG, []Order{tee("cotton 100", "black", "full"), tee("cotton 100", "white", "full")}},
	} {
		last := -1.0
		for i, o := range c.rise {
			x := v(c.m, o)
			if x <= last {
				t.Errorf("%s: step %d is %v after %v", c.name, i, x, last)
			}
			last = x
		}
	}
}
