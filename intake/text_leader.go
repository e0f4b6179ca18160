package intake

// leaders reads a row of dots that leads from a label to its value as a colon: "Back ......... none". Three dots alone are a pause.
func (r *reader) leaders() {
	out := r.items[:0]
	for i := 0; i < len(r.items); i++ {
		j := i
		for j < len(r.items) && r.punct(j, '.') && (j == i) != r.items[j].glued {
			j++
		}
		out = append(out, r.items[i])
		if j-i >= 4 && j < len(r.items) && r.items[j].kind <= iPunct && len(out) > 1 && out[len(out)-2].kind <= iPhrase {
			out[len(out)-1].ch = ':'
			i = j - 1
		}
	}
	r.items = out
}
