package intake

// link reports whether an address on the network or a mail address begins at item i.
func (r *reader) link(i int) bool {
	it := r.at(i)
	if it.word == 0 || it.end-it.start > 5 {
		return r.punct(i+1, '@') && r.at(i+1).glued && r.at(i+2).glued
	}
	switch vocab.names[it.word] {
	case "http", "https", "www":
		return r.punct(i+1, ':') || r.punct(i+1, '.')
	}
	return false
}

// skipLink is the item after an address.
func (r *reader) skipLink(i int) int {
	i++
	for i < len(r.items) && r.items[i].glued && r.items[i].kind != iBreak {
		i++
	}
	return i
}
