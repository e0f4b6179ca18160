package intake

// leaders reads a row of dots that leads from a label to its value as a colon: "Back ......... none". Three dots alone are a pause.
func (r *reader) leaders() {
	for i := 0; i < len(r.items); i++ {
		if !r.punct(i, '.') || r.items[i].glued {
			continue
		}
		j := i + 1
		for r.punct(j, '.') && r.items[j].glued {
			j++
		}
		if j-i >= 4 && r.at(j).kind <= iPunct && r.at(i-1).kind <= iPhrase {
			r.items[i].ch = ':'
			for k := i + 1; k < j; k++ {
				r.mute(k)
			}
		}
		i = j - 1
	}
}
