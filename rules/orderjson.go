package rules

// AppendJSON writes the order behind b, as encoding/json does. The error is that of a number that JSON cannot write.
func (o Order) AppendJSON(b []byte) ([]byte, error) {
	return written(b, func(w *pen) {
		w.raw(`{"customer":`)
		w.word(string(o.Customer))
		w.raw(`,"due":`)
		w.word(string(o.Due))
		w.raw(`,"lines":`)
		penList(w, o.Lines, penLine)
		w.raw(`,"wishes":`)
		penWords(w, o.Wishes)
		w.raw(`,"uses":`)
		penWords(w, o.Uses)
		w.raw(`,"unread":`)
		penWords(w, o.Unread)
		w.raw("}")
	})
}

func penLine(w *pen, l Line) {
	w.raw(`{"quantity":`)
	penSaid(w, l.Quantity, (*pen).integer)
	w.raw(`,"sizes":`)
	if len(l.Sizes) == 0 {
		w.raw("{}")
	} else {
		w.value(l.Sizes)
	}
	w.raw(`,"garment":`)
	w.word(string(l.Garment))
	w.raw(`,"fibres":`)
	if l.Fibres == nil {
		w.raw("null")
	} else {
		w.value(l.Fibres)
	}
	w.raw(`,"fabric":`)
	w.word(string(l.Fabric))
	w.raw(`,"colours":`)
	penWords(w, l.Colours)
	w.raw(`,"heather":`)
	w.truth(l.Heather)
	w.raw(`,"prints":`)
	penList(w, l.Prints, penPrint)
	w.raw("}")
}

func penPrint(w *pen, p Print) {
	w.raw(`{"place":`)
	w.word(string(p.Place))
	w.raw(`,"width_mm":`)
	penSaid(w, p.WidthMM, (*pen).number)
	w.raw(`,"height_mm":`)
	penSaid(w, p.HeightMM, (*pen).number)
	w.raw(`,"inks":`)
	penWords(w, p.Inks)
	w.raw(`,"ink_count":`)
	penSaid(w, p.InkCount, (*pen).integer)
	w.raw(`,"full_colour":`)
	w.truth(p.FullColour)
	w.raw(`,"coverage_percent":`)
	penSaid(w, p.Coverage, (*pen).number)
	w.raw(`,"method":`)
	w.word(string(p.Method))
	w.raw(`,"effects":`)
	penWords(w, p.Effects)
	w.raw("}")
}
