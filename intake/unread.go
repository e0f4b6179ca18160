package intake

// most is how many stretches of text are shown as not used, and mostBytes how long one may be.
const most, mostBytes = 24, 160

// unread are the stretches of text that carried words but were not used: clauses of two words or more with no fact in them.
func (r *reader) unread() []string {
	var out []string
	from, to, words, used := -1, -1, 0, false
	flush := func() {
		if !used && words >= 2 && from >= 0 && len(out) < most {
			s := r.text[from:to]
			if len(s) > mostBytes {
				cut := mostBytes
				for cut > 0 && s[cut]&0xC0 == 0x80 {
					cut--
				}
				s = s[:cut]
			}
			out = append(out, s)
		}
		from, words, used = -1, 0, false
	}
	for i := range r.items {
		it := &r.items[i]
		if it.kind == iBreak || it.kind == iPart || it.kind == iPunct && (it.ch == '.' || it.ch == ',' || it.ch == ';' || it.ch == '!' || it.ch == '?' || it.ch == '(' || it.ch == ')' || it.ch == ':' || it.ch == '|') && !it.glued2(r, i) {
			flush()
			continue
		}
		if it.fact {
			used = true
		}
		if it.kind == iPunct {
			continue
		}
		if from < 0 {
			from = int(it.start)
		}
		to = int(it.end)
		if it.kind == iWord && it.end-it.start > 2 || it.kind == iPhrase && !it.is(cGreet) && it.end-it.start > 3 {
			words++
		}
		if it.is(cGreet) && it.kind == iPhrase && words == 0 {
			used = true
		}
	}
	flush()
	return out
}

// glued2 reports whether a mark stands inside a word or number.
func (it *item) glued2(r *reader, i int) bool {
	n := r.at(i + 1)
	return it.glued && n.glued && n.kind != iBreak
}
