package intake

// readable reports whether the message is text that can be read.
func (r *reader) readable() bool {
	if len(r.text) > maxRead {
		cut := maxRead
		for cut > 0 && r.text[cut]&0xC0 == 0x80 {
			cut--
		}
		r.text = r.text[:cut]
	}
	return true
}
