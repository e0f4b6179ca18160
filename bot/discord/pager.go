package discord

import (
	"strings"
	"unicode/utf16"
)

// pager fills messages one after another, each within Discord's limits.
type pager struct {
	content string // above the first embed
	name    string // what a page after the first is called
	title   string
	colour  int
	lines   []string // the body, a line each
	fields  []embedField
}

// goesOn names what continues from above.
const goesOn = "(goes on)"

func (b *pager) body(lines ...string) { b.lines = append(b.lines, lines...) }

// field adds a section. One that is too long goes on in further fields, broken between lines.
func (b *pager) field(name string, lines []string) {
	if len(lines) == 0 {
		return
	}
	if name == "" {
		name = goesOn
	}
	name = clip(name, nameLimit)
	for _, v := range packLines(lines, valueLimit) {
		b.fields = append(b.fields, embedField{Name: name, Value: v})
		name = goesOn
	}
}

// packLines joins lines into blocks of at most limit units. A line that is longer than a block is broken.
func packLines(lines []string, limit int) []string {
	var out []string
	var cur string
	size := 0
	for _, l := range lines {
		for l != "" {
			part := l
			if over(part, limit) {
				part = cut(part, limit)
			}
			l = strings.TrimPrefix(l[len(part):], " ")
			n := units(part)
			if cur != "" && size+1+n > limit {
				out, cur, size = append(out, cur), "", 0
			}
			if cur != "" {
				cur, size = cur+"\n", size+1
			}
			cur, size = cur+part, size+n
		}
	}
	if strings.TrimSpace(cur) != "" {
		out = append(out, cur)
	}
	return out
}

// pages lays everything out. There is at least one page, and it holds something.
func (b *pager) pages() []outMessage {
	first := newMessage()
	first.Content = b.content
	pages := []outMessage{first}
	cur := embed{Title: b.title, Color: b.colour}
	used := false
	flush := func() {
		if used {
			pages[len(pages)-1].Embeds = append(pages[len(pages)-1].Embeds, cur)
		}
		used = false
	}
	next := func() {
		flush()
		pages = append(pages, newMessage())
		cur = embed{Color: b.colour}
		if b.name != "" {
			cur.Title = clip(b.name+" "+goesOn, titleLimit)
		}
	}
	blocks := packLines(b.lines, bodyLimit)
	for i, block := range blocks {
		if i > 0 {
			next()
		}
		cur.Description, used = block, true
	}
	for _, f := range b.fields {
		if used && (len(cur.Fields) >= fieldsLimit || cur.size()+f.size() > sumLimit) {
			next()
		}
		cur.Fields, used = append(cur.Fields, f), true
	}
	if b.title != "" {
		used = true
	}
	flush()
	if len(pages) == 1 && pages[0].Content == "" && len(pages[0].Embeds) == 0 {
		pages[0].Content = "…"
	}
	if len(pages) > pagesLimit {
		pages = pages[:pagesLimit]
		last := &pages[pagesLimit-1]
		last.Content = "This is too long to show whole here: look at the job by its number to see the rest."
	}
	return pages
}

// units is the length of s as Discord counts it: UTF-16 units, the stricter of the two ways that it might.
func units(s string) int {
	n := 0
	for _, r := range s {
		n += max(1, utf16.RuneLen(r))
	}
	return n
}

// over reports whether s is longer than limit, without reading a long text to its end.
func over(s string, limit int) bool {
	if len(s) <= limit {
		return false
	}
	n := 0
	for _, r := range s {
		if n += max(1, utf16.RuneLen(r)); n > limit {
			return true
		}
	}
	return false
}

// cut is the beginning of s, of at most limit units, broken at a space where there is one in its second half, and never within an escape.
func cut(s string, limit int) string {
	if !over(s, limit) {
		return s
	}
	n, end, space := 0, 0, 0
	for i, r := range s {
		n += max(1, utf16.RuneLen(r))
		if n > limit {
			break
		}
		if r == ' ' {
			space = i
		}
		end = i + len(string(r))
	}
	if space > end/2 {
		end = space
	}
	out := s[:end]
	// An odd number of strokes at the end is half an escape.
	if strokes := len(out) - len(strings.TrimRight(out, `\`)); strokes%2 == 1 {
		out = out[:len(out)-1]
	}
	if out == "" {
		return s[:end] // strokes alone: better a torn escape than no progress
	}
	return out
}

// clip shortens s to limit units, with a mark where something is missing.
func clip(s string, limit int) string {
	if !over(s, limit) {
		return s
	}
	return cut(s, limit-1) + "…"
}
