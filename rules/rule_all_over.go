package rules

import "strikeoff/rules/source"

var allOver = &rule{
	id: "all-over", basis: source.CommonPractice,
	about: "All-over is sublimation on light polyester, else an oversize screen.",
	judge: func(b *bench) {
		if !b.wide {
			return
		}
		b.veto(DTG, "A print head does not reach over a whole garment.")
		b.veto(DTF, "A film over the whole garment is stiff and does not breathe.")
		b.veto(HeatTransfer, "A transfer over the whole garment is stiff and does not breathe.")
		b.move(Sublimation, 20, "The one method made for all-over on light polyester.")
		b.limit(Plastisol, Expert, "A sheet of plastisol over seams, on an oversize screen: heavy and hard to do well.")
		b.move(Plastisol, -14, "")
		b.limit(WaterBased, Test, "An oversize screen over seams: prove it on one piece first.")
		b.move(WaterBased, 12, "An oversize screen in water-based ink keeps the garment soft.")
		b.limit(Discharge, Test, "An oversize screen over seams: prove it on one piece first.")
		b.move(Discharge, 14, "On dark cotton discharge keeps an all-over print soft.")
	},
	after: func(b *bench) {
		if b.wide {
			b.caution("all-over", Care, "All-over on made-up garments leaves white gaps at seams, collar and folds. Agree that with the customer, or print cut panels.")
		}
	},
}
