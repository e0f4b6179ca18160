package intake

import "strikeoff/rules"

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

// sortLinks lead from a garment to the sort of it that is meant; kindWords close the naming of a sort.
var (
	sortLinks = internAll("its", "it's", "they", "theyre", "they're", "are", "is", "the", "these", "those", "ie", "meaning", "so", "in", "all", "but", "that", "thats", "with", "a", "no", "sleeves", "w")
	kindWords = internAll("ones", "one", "kind", "style", "styles", "version", "versions", "sort", "type", "cut", "model", "variety")
)

// sortOf takes a garment in brackets or in a clause of its own for the sort of the one before it: "75 sleep shirts (its the long sleeve)", "tees, the
// long sleeve ones", "40 tees, long sleeve, black".
func (s *scope) sortOf(st sentence, f int, g rules.Garment) bool {
	r := s.r
	x := &r.facts[f]
	if f == st.f0 || s.npLine >= 0 || len(s.lines) == 0 || x.neg || x.dead {
		return false
	}
	p := &r.facts[f-1]
	if p.kind == fUse && f-1 > st.f0 { // "sleep shirts" say what they are for as well
		p = &r.facts[f-2]
	}
	k := s.newest()
	l := &s.lines[k]
	if p.kind != fGarment || p.dead || p.neg || l.sent != s.cl || string(l.Garment) != p.s || l.Garment == g {
		return false
	}
	mark, link := false, false
	for i := int(p.i1); i < int(x.i0); i++ {
		it := r.at(i)
		switch {
		case it.kind == iPunct && (it.ch == '(' || it.ch == ',' || it.ch == '-' || it.ch == ':'):
			mark = true
			link = link || it.ch == '('
		case sortLinks[r.lastWord(i)]:
			link = true
		case it.is(cPrintWord) && i == int(p.i1):
		default:
			return false
		}
	}
	j := int(x.i1)
	kind := kindWords[r.at(j).word] || r.oneAt(j)
	if !mark || !kind && r.at(j).kind < iPunct || !kind && !link && !(r.sleeved(j-1) && g == "long-sleeve" && l.Quantity.Known && !r.manySleeves(j-1)) {
		return false
	}
	l.Garment = g
	s.named = true
	return true
}

// manySleeves reports whether the name at item i is that of garments, and not of the sleeves of others: "long sleeves".
func (r *reader) manySleeves(i int) bool {
	it := r.at(i)
	return it.ntok > 1 && r.text[it.end-1]|0x20 == 's' && it.end-it.start > 3
}

// zipWords and hoodWords say of the garment before them what makes it another one.
var zipWords, hoodWords = internAll("zip", "zipped", "zipper", "zippers", "zips"), internAll("hood", "hoods", "hooded")

// completed makes the garment just named another one where the word at item i says so: "40 hoodies with zip", "sweatshirts, hooded".
func (r *reader) completed(i int) bool {
	if len(r.facts) == 0 || r.at(i).kind > iPhrase {
		return false
	}
	p := &r.facts[len(r.facts)-1]
	w := r.toks[r.at(i).tok].word
	if p.kind != fGarment || i-int(p.i1) > 4 || w == 0 || !(p.s == "hoodie" && zipWords[w] || p.s == "sweatshirt" && hoodWords[w]) {
		return false
	}
	for k := int(p.i1); k < i; k++ {
		if it := r.at(k); it.kind > iPunct || it.kind == iPunct && it.ch == '.' || it.kind < iPunct && !sortLinks[r.lastWord(k)] {
			return false
		}
	}
	if p.s = "hoodie"; zipWords[w] {
		p.s = "zip-hoodie"
	}
	return true
}
