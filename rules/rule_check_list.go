package rules

import "strikeoff/rules/source"

var checkList = &rule{
	id: "test-print-checks", basis: source.CommonPractice,
	about: "The test print is checked for what can go wrong on this very job, and no more.",
	after: func(b *bench) {
		if b.pick == "" {
			return
		}
		c := b.choice(b.pick)
		b.check(placementCheck(b))
		if b.pick != Sublimation || b.cloth.Polyester < 0.9 {
			b.check(cureCheck)
			if c.Setup.Heat != nil {
				b.sheet.each("cure", c.Setup.Heat.Plain(), b.clothWord())
			}
		}
		if c.Verdict == Yes {
			b.check(firstPieceCheck)
			return
		}
		if b.worst.known && !b.worst.light() || c.Setup.Base != NoBase {
			b.check(opacityCheck)
		}
		if b.cloth.known && (b.cloth.stretchy() || b.cloth.soft()) || has(c.Setup.Additives, StretchAdditive) || b.wish(Stretch) {
			b.check(stretchCheck)
		}
		if b.wish(SoftHand) || b.cloth.soft() || b.coverage() > 0.7 && b.print.Coverage.Known {
			b.check(handCheck)
		}
		switch b.pick {
		case HeatTransfer, DTF, Sublimation:
			b.check(pressMarkCheck)
		}
		if b.pick == HeatTransfer || b.pick == DTF {
			b.check(adhesionCheck)
		}
		if (b.pick == DTG || b.pick == DTF || c.Verdict == Expert) && (!b.cloth.known || b.cloth.Polyester > 0.05 || b.cloth.Nylon > 0.05 || c.Verdict == Expert) {
			b.check(scratchCheck)
		}
		b.check(rubCheck)
		if b.migrates.known && grade(b.migrates.plain) != RiskNone || !b.cloth.known || b.cloth.Polyester > 0.3 && !b.groundKnown() {
			b.check(migrationCheck(b.shop))
		}
		b.check(washCheck)
		b.sheet.each("wash", b.washing(), b.clothWord())
	},
}
