package intake

import "strings"

// swatch is the reference in items i to j as it was said, in lower case and single spaces: "pms 186".
func (r *reader) swatch(i, j int) string {
	var b strings.Builder
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind == iPunct {
			continue
		}
		if k > i && !(it.glued && r.at(k-1).kind == iNum) {
			b.WriteByte(' ')
		}
		b.WriteString(strings.ToLower(r.text[it.start:it.end]))
	}
	return b.String()
}
