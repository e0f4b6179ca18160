package rules

import "strikeoff/rules/source"

var oddSize = &rule{
	id: "odd-size", basis: source.CommonPractice,
	about: "A print larger than its place holds is a slip, or crosses seams: ask.",
	after: func(b *bench) {
		w, h := b.print.WidthMM, b.print.HeightMM
		most := widest(b.print.Place)
		if most == 0 || (!w.Known || w.Value <= most) && (!h.Known || h.Value <= 1.6*most) && (!w.Known || w.Value > 0) && (!h.Known || h.Value > 0) {
			return
		}
		b.caution("odd-size", Care, "The "+placeWord(b.print.Place)+" print is said to be "+b.sizeWord()+": that is odd for the place. Check it before screens are made.")
		b.ask(58, "width_mm", "Is the "+placeWord(b.print.Place)+" print really "+b.sizeWord()+"?")
	},
}

// widest is how wide a print a place usually holds on an adult garment, mm. From memory of common platens; a print may be 1.6 times as high.
func widest(p Place) float64 {
	switch p {
	case "front", "back":
		return 420
	case "left-chest", "right-chest":
		return 160
	case "left-sleeve", "right-sleeve", "pocket", "nape":
		return 200
	case "inside-neck":
		return 120
	case "hood", "left-leg", "right-leg", "side", "hem":
		return 450
	}
	return 0
}

// sizeWord writes what is known of a print's size in both units.
func (b *bench) sizeWord() string {
	one := func(mm float64) string { return num(round(mm, 0)) + " mm (" + num(round(mm/25.4, 1)) + " in)" }
	w, h := b.print.WidthMM, b.print.HeightMM
	switch {
	case w.Known && h.Known:
		return one(w.Value) + " by " + one(h.Value)
	case w.Known:
		return one(w.Value) + " wide"
	}
	return one(h.Value) + " high"
}
