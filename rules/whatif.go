package rules

// whatIf holds the pick back where a fact that was not said decides it: the print is judged again with the fact filled in both ways, and
// only a pick that is right, or nearly as good as the best, in each is given.
func (b *bench) whatIf() {
	var cases []func(*bench)
	if !b.groundKnown() {
		for _, name := range []string{"white", "navy"} {
			g := []ground{groundOf(name)}
			cases = append(cases, func(d *bench) { d.setGrounds(g) })
		}
	}
	if b.pieces == 0 {
		for _, n := range []int{12, 250} {
			cases = append(cases, func(d *bench) { d.pieces = n })
		}
	}
	for _, fill := range cases {
		s := &sheet{order: b.sheet.order, shop: b.sheet.shop, rec: b.sheet.rec, fired: make([]bool, len(b.sheet.fired)),
			checks: map[string]Check{}, seen: map[string]bool{}, draft: true}
		d := newBench(s, b.at[0], b.at[1])
		fill(d)
		d.judge()
		if c, best := d.choice(b.pick), d.choice(d.pick); d.pick != b.pick && (d.pick == "" || rank(c.Verdict) > rank(best.Verdict) || c.Score < best.Score-10) {
			b.held = true
			b.pick = ""
			return
		}
	}
}
