package rules

// weighMigration puts figures to the line's migration once the pick is known: with plain ink at the pick's usual heat, and with what is
// advised.
func (b *bench) weighMigration() {
	m := &b.migrates
	if !m.known || m.plain == 0 {
		return
	}
	method, at := b.pick, Heat{TempC: [2]float64{refTempC, refTempC}, Seconds: [2]float64{refSeconds, refSeconds}}
	c := b.choice(method)
	switch method {
	case DTF, HeatTransfer, DTG:
		// The usual press for a film, first and second press together.
		at = Heat{TempC: [2]float64{155, 155}, Seconds: [2]float64{20, 20}}
	}
	act := b.shop.activation()
	m.advised = m.plain
	if h := c.Setup.Heat; method != "" && h != nil && method != Sublimation {
		hot := min(h.TempC[1], at.TempC[1])
		m.advised = m.plain * root(Dose(hot, min(h.Seconds[1], at.Seconds[1]), act)) * through(c.Setup.Base)
	}
	m.plain *= root(Dose(at.TempC[1], at.Seconds[1], act))
	m.advised = min(m.advised, m.plain)
}

// riskNow is the line's migration as the contract says it.
func (b *bench) riskNow() Migration {
	m := b.migrates
	if !m.known {
		return Migration{Risk: RiskUnknown, After: RiskUnknown}
	}
	after := grade(m.advised)
	if b.pick == "" || b.held {
		m.advised, after = m.plain, grade(m.plain)
	}
	risk := grade(m.plain)
	if after == RiskNone && (risk == RiskMedium || risk == RiskHigh) {
		after = RiskLow // a base and a cooler cure cut migration and do not cancel it: only the test print can say none
	}
	return Migration{Risk: risk, After: after, Change: round(m.plain, 1), AfterChange: round(m.advised, 1)}
}

// worseOf joins the prints of one line: the worse stands. Unknown gives way to what is known.
func worseOf(x, y Migration) Migration {
	if x.Risk == RiskUnknown {
		return y
	}
	if y.Risk == RiskUnknown {
		return x
	}
	if y.Change > x.Change {
		x.Risk, x.Change = y.Risk, y.Change
	}
	if y.AfterChange > x.AfterChange {
		x.After, x.AfterChange = y.After, y.AfterChange
	}
	return x
}
