package intake

// sleeved are garments whose name can be said of another one's sleeves.
var sleeveWords = map[string]bool{"long-sleeve": true, "t-shirt": true}

// compound joins the name of a garment at items i to j to the one just before it, where both name one garment: "long sleeve polos", "tee dresses",
// "long sleeve pyjama tops". The last word says what it is, unless all it adds is that it is a top.
func (r *reader) compound(i, j int, g string, weak bool) bool {
	if len(r.facts) == 0 {
		return false
	}
	p := &r.facts[len(r.facts)-1]
	first := r.text[r.at(int(p.i0)).start:r.at(int(p.i1)-1).end]
	if p.kind != fGarment || int(p.i1) != i || p.weak || weak || first[len(first)-1]|0x20 == 's' && !(sleeveWords[p.s] && r.sleeved(int(p.i1)-1)) {
		return false
	}
	switch {
	case p.s == "long-sleeve" && (g == "t-shirt" || g == "other"), p.s == "zip-hoodie" && g == "hoodie":
	default:
		p.s = g
	}
	p.i1 = int32(j)
	for k := i; k < j; k++ {
		r.items[k].fact = true
	}
	return true
}

// sleeved reports whether the name of a garment at item i says no more than how long its sleeves are: "long sleeve", "l/s".
func (r *reader) sleeved(i int) bool {
	it := r.at(i)
	switch w := r.toks[it.tok+it.ntok-1].word; vocab.names[w] {
	case "sleeve", "sleeved", "sleeves", "slv", "longsleeve", "s", "ls":
		return w != 0
	}
	return false
}
