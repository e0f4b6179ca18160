package rules

import "strikeoff/rules/source"

var migrationBlocked = &rule{
	id: "migration-blocked", basis: source.DisperseDyes,
	about: "Where the garment's dye would move into the ink, a blocking base goes under it and the cure is kept low.",
	judge: func(b *bench) {
		m := b.migrates
		if !m.known || grade(m.plain) == RiskNone {
			return
		}
		name := "this colour"
		if b.worst.known {
			name = b.worst.name
		}
		base := b.blocker()
		switch base {
		case LowBleedWhite:
			b.base(Plastisol, base, "The dye of "+name+" would bleed into the ink: low-bleed white underneath.")
		case GreyBlocker:
			b.base(Plastisol, base, "The dye of "+name+" is among the worst to migrate: a grey blocking base underneath.")
		}
		b.limit(Plastisol, Test, "Dye migration shows only after one to three days: test before the run.")
		if b.cloth.Polyester >= 0.45 && grade(m.plain) != RiskLow {
			b.add(Plastisol, LowCure, "A low-cure ink keeps the heat, and so the bleeding, down.")
		}
		if b.cloth.Polyester >= 0.9 {
			b.move(Plastisol, -2, "")
		}
	},
}

// blocker is the weakest base under plastisol that keeps the predicted colour change low. Plain white is trusted only where the change is
// low without it and the cloth is less than half polyester: it is no barrier by intent.
func (b *bench) blocker() Base {
	plain := b.migrates.plain
	switch start := b.choice(Plastisol).Setup.Base; {
	case start == NoBase:
		return NoBase // dark ink on the bare cloth: what bleeds does not show
	case plain < lowEdge && b.cloth.Polyester < 0.45:
		return WhiteBase
	case plain*through(LowBleedWhite) < lowEdge:
		return LowBleedWhite
	}
	return GreyBlocker
}
