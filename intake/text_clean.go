package intake

import (
	"strings"
	"unicode/utf8"
)

// maxRead is how many bytes of a message are read. A request is a page at most; whatever is longer was pasted by mistake.
const maxRead = 128 << 10

// textLine is one line of the message as given, without its end.
type textLine struct {
	from, to int
	soft     bool // the line goes on in the next one
	older    int  // depth of quoting
}

// splitLines finds the lines of text.
func splitLines(dst []textLine, text string) []textLine {
	from := 0
	for from <= len(text) {
		n := strings.IndexByte(text[from:], '\n')
		to := len(text)
		if n >= 0 {
			to = from + n
		}
		l := textLine{from: from, to: to}
		for l.to > l.from && (text[l.to-1] == '\r' || text[l.to-1] == ' ' || text[l.to-1] == '\t') {
			l.to--
		}
		for l.from < l.to && (text[l.from] == ' ' || text[l.from] == '\t') {
			l.from++
		}
		for l.from < l.to && text[l.from] == '>' {
			l.older++
			l.from++
			for l.from < l.to && text[l.from] == ' ' {
				l.from++
			}
		}
		dst = append(dst, l)
		if n < 0 {
			break
		}
		from += n + 1
	}
	return dst
}

// clean puts the lines to be read in the order in which they were written: older mail that the request itself stands in first, then what was
// said above it. Older mail below a request, signatures and headings are left out. cut is where the newer part begins in the result, -1 for none.
func (r *reader) clean(lines []textLine) (kept []textLine, cut int) {
	text := r.text
	cut = -1
	// where older mail begins
	head, body, forward := -1, -1, false
	for i := range lines {
		l := &lines[i]
		if l.older > 0 && head < 0 {
			head, body = i, i
			break
		}
		if kind := olderMail(text, lines, i); kind > 0 {
			head, forward = i, kind == 2
			body = i + 1
			for body < len(lines) && (headerLine(text[lines[body].from:lines[body].to]) || lines[body].from == lines[body].to) {
				body++
			}
			if kind == 3 { // an attribution that runs over two lines
				body = max(body, i+2)
			}
			break
		}
	}
	if head >= 0 {
		above := lines[:head]
		below := lines[body:]
		if forward && !r.asksFor(above) || !forward && !r.asksFor(above) && r.asksFor(below) {
			below = r.unsigned(r.firstMail(below))
			above = r.unsigned(above)
			kept = append(kept, below...)
			cut = len(kept)
			kept = append(kept, above...)
			return r.wrap(kept, cut), cut
		}
		lines = above
	}
	return r.wrap(r.unsigned(lines), -1), -1
}

// firstMail is the newest of the mails quoted below: it ends where another begins.
func (r *reader) firstMail(lines []textLine) []textLine {
	if len(lines) == 0 {
		return lines
	}
	depth := lines[0].older
	for i := range lines {
		if i > 0 && (lines[i].older > depth || olderMail(r.text, lines, i) > 0) {
			return lines[:i]
		}
	}
	return lines
}

// asksFor reports whether lines name a garment and a number: they hold a request.
func (r *reader) asksFor(lines []textLine) bool {
	goods, num := false, false
	for i := range lines {
		toks := tokenize(nil, r.text, lines[i].from, lines[i].to)
		for t := range toks {
			if toks[t].kind == tNum {
				num = true
			}
			n, nd := match(toks, t)
			if n == 0 {
				continue
			}
			for _, s := range vocab.nodes[nd].senses {
				if s.kind == sGarment && !s.weak && toks[t].end-toks[t].start > 2 {
					goods = true
				}
				if s.kind == sNumber {
					num = true
				}
			}
		}
		if goods && num {
			return true
		}
	}
	return false
}

// olderMail tells whether older mail begins at line i: 1 a reply, 2 mail passed on, 3 a reply whose attribution takes two lines.
func olderMail(text string, lines []textLine, i int) int {
	s := text[lines[i].from:lines[i].to]
	if len(s) < 4 {
		return 0
	}
	low := strings.ToLower(s[:min(len(s), 120)])
	switch {
	case strings.HasPrefix(low, "---") && strings.Contains(low, "forward"), strings.HasPrefix(low, "begin forwarded"):
		return 2
	case strings.HasPrefix(low, "---") && (strings.Contains(low, "original") || strings.Contains(low, "reply")), strings.HasPrefix(low, "-----mensaje original"):
		return 1
	case (strings.HasPrefix(low, "on ") || strings.HasPrefix(low, "el ") || strings.HasPrefix(low, "am ") || strings.HasPrefix(low, "le ")) && attribution(s):
		return 1
	case strings.HasPrefix(low, "on ") && i+1 < len(lines) && attribution(text[lines[i+1].from:lines[i+1].to]) && strings.ContainsAny(low, "0123456789"):
		return 3
	case (strings.HasPrefix(low, "from:") || strings.HasPrefix(low, "de:")) && i+1 < len(lines) && headerLine(text[lines[i+1].from:lines[i+1].to]):
		return 1
	}
	return 0
}

// attribution reports whether a line closes "On Tuesday Dee wrote:".
func attribution(s string) bool {
	low := strings.ToLower(strings.TrimRight(s, " "))
	return strings.HasSuffix(low, "wrote:") || strings.HasSuffix(low, "escribió:") || strings.HasSuffix(low, "escribio:") || strings.HasSuffix(low, "schrieb:")
}

// headerLine reports whether a line is a heading of a mail.
func headerLine(s string) bool {
	k := strings.IndexByte(s, ':')
	if k < 2 || k > 12 { // "re" and "fw" come only below a "from"
		return false
	}
	switch strings.ToLower(strings.TrimRight(s[:k], " ")) {
	case "re", "fw", "fwd", "from", "sent", "date", "to", "cc", "bcc", "subject", "reply-to", "de", "enviado", "para", "asunto", "fecha":
		return true
	}
	return false
}

// closers begin the line that closes a letter.
var closers = []string{"thanks", "thank you", "thx", "ty", "cheers", "regards", "best", "kind regards", "warm regards", "warmly", "sincerely", "gratefully",
	"many thanks", "with best wishes", "best wishes", "with thanks", "yours", "cordially", "kisses", "ta", "much appreciated", "appreciate it", "all the best",
	"talk soon", "take care", "respectfully", "in gratitude", "with gratitude", "love", "xo", "xoxo", "saludos", "gracias", "muchas gracias", "un saludo", "atentamente", "cordialmente", "un abrazo",
	"lg", "mfg", "gruss", "grazie", "merci", "bien à vous", "cordialement", "danke", "peace", "later", "onward", "faithfully", "ciao", "have a good", "have a great", "sent from my", "enviado desde", "get outlook"}

// closes reports whether a line closes a letter, and whether something that is no name follows on it.
func closes(s string) bool {
	if len(s) > 80 {
		return false
	}
	low := strings.ToLower(s)
	for _, c := range closers {
		if !strings.HasPrefix(low, c) {
			continue
		}
		rest := low[len(c):]
		if rest == "" {
			return true
		}
		if r, _ := utf8.DecodeRuneInString(rest); r == ',' || r == '!' || r == '.' || r == '-' || r == ' ' && len(strings.Fields(rest)) <= 5 {
			return true
		}
	}
	return false
}

// unsigned leaves out signatures: what follows a line of two dashes, and names, numbers and addresses after words that close a letter.
func (r *reader) unsigned(lines []textLine) []textLine {
	text := r.text
	out := lines[:0:len(lines)]
	for i := 0; i < len(lines); i++ {
		l := lines[i]
		s := text[l.from:l.to]
		if s == "--" || s == "__" || s == "---" && i > len(lines)/2 && !r.asksFor(lines[i+1:]) {
			if !r.asksFor(lines[i+1:]) {
				return out
			}
		}
		if closes(s) && i > 0 && !r.asksFor(lines[i:i+1]) {
			end, n := i+1, 0
			for end < len(lines) && n < 8 {
				t := text[lines[end].from:lines[end].to]
				if t != "" {
					if postscript(t) {
						break
					}
					n++
				}
				end++
			}
			if n < 8 && !r.asksFor(lines[i+1:end]) && !r.dated2(lines[i+1:end]) {
				i = end - 1
				out = append(out, textLine{from: l.from, to: l.from})
				continue
			}
			if strings.HasPrefix(strings.ToLower(s), "sent from") {
				continue
			}
		}
		out = append(out, l)
	}
	return out
}

// dated2 reports whether lines after a closing hold words that change an order, so that they are no signature.
func (r *reader) dated2(lines []textLine) bool {
	for i := range lines {
		s := r.text[lines[i].from:lines[i].to]
		low := strings.ToLower(s[:min(len(s), 40)])
		for _, w := range []string{"actually", "also ", "oh ", "wait", "one more", "edit:", "update", "correction", "need", "due", "forgot"} {
			if strings.HasPrefix(low, w) {
				return true
			}
		}
	}
	return false
}

// postscript reports whether a line is written after the signature.
func postscript(s string) bool {
	low := strings.ToLower(s[:min(len(s), 6)])
	return strings.HasPrefix(low, "p.s") || strings.HasPrefix(low, "ps ") || strings.HasPrefix(low, "ps:") || strings.HasPrefix(low, "ps,") || strings.HasPrefix(low, "pps") || strings.HasPrefix(low, "p.p.s")
}

// wrap marks the lines that were broken by a mail program and go on in the next: no line is longer than mail is wide, and the next line's first
// word would not have fitted.
func (r *reader) wrap(lines []textLine, cut int) []textLine {
	width := 0
	for i := range lines {
		width = max(width, lines[i].to-lines[i].from)
	}
	full := 0
	for i := range lines {
		if lines[i].to-lines[i].from > width*4/5 {
			full++
		}
	}
	if width > 82 || width < 60 || full < 2 { // one long line alone was not broken by a program
		return lines
	}
	for i := 0; i+1 < len(lines); i++ {
		l, n := &lines[i], &lines[i+1]
		if i+1 == cut || l.to-l.from < 50 || n.to == n.from {
			continue
		}
		word := strings.IndexByte(r.text[n.from:n.to], ' ')
		if word < 0 {
			word = n.to - n.from
		}
		c, last := r.text[n.from], r.text[l.to-1]
		if c >= 'a' && c <= 'z' && (last >= 'a' && last <= 'z' || last == ',') && c != r.text[l.from] && l.to-l.from+1+word > width {
			l.soft = true
		}
	}
	return lines
}
