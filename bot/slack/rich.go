package slack

import (
	"strings"
	"unicode/utf8"

	sdk "github.com/slack-go/slack"
)

// Rich text is how words are shown: in it nothing is markup, so that what a customer wrote stays what it is.

// bit is a stretch of text in one style.
type bit struct {
	text  string
	style sdk.RichTextSectionTextStyle
}

func span(s string) bit   { return bit{text: s} }
func bold(s string) bit   { return bit{s, sdk.RichTextSectionTextStyle{Bold: true}} }
func italic(s string) bit { return bit{s, sdk.RichTextSectionTextStyle{Italic: true}} }
func code(s string) bit   { return bit{s, sdk.RichTextSectionTextStyle{Code: true}} }

// row is a paragraph, or one item of a list.
type row []bit

// line is a paragraph of bits; empty ones are left out, for Slack refuses them.
func line(bits ...bit) row {
	var r row
	for _, b := range bits {
		if b.text = clean(b.text); b.text != "" {
			r = append(r, b)
		}
	}
	return r
}

// clean is text that Slack takes: valid, without NUL and other control signs than line breaks and tabs.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || r < ' ' && r != '\n' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, s)
}

func (r row) length() int {
	n := 0
	for _, b := range r {
		n += utf8.RuneCountInString(b.text)
	}
	return n
}

func (r row) section() *sdk.RichTextSection {
	var es []sdk.RichTextSectionElement
	for _, b := range r {
		var st *sdk.RichTextSectionTextStyle
		if b.style != (sdk.RichTextSectionTextStyle{}) {
			s := b.style
			st = &s
		}
		es = append(es, sdk.NewRichTextSectionTextElement(b.text, st))
	}
	return sdk.NewRichTextSection(es...)
}

// textMost is the most text that one block is given, in characters: Slack takes 3000 in a text.
const textMost = 2800

// split breaks a row that is too long for one block.
func (r row) split() []row {
	if r.length() <= textMost {
		return []row{r}
	}
	var out []row
	var cur row
	n := 0
	for _, b := range r {
		for _, p := range pieces(b.text, textMost) {
			l := utf8.RuneCountInString(p)
			if n > 0 && n+l > textMost {
				out, cur, n = append(out, cur), nil, 0
			}
			cur, n = append(cur, bit{p, b.style}), n+l
		}
	}
	if len(cur) > 0 {
		out = append(out, cur)
	}
	return out
}

// rich is one block of paragraphs, in one section with line breaks: whether sections that follow each other stand on lines of their own is
// not said anywhere.
func rich(rows ...row) *sdk.RichTextBlock {
	var all row
	for _, r := range rows {
		if len(all) > 0 && len(r) > 0 {
			all = append(all, span("\n"))
		}
		all = append(all, r...)
	}
	if len(all) == 0 {
		return sdk.NewRichTextBlock("")
	}
	return sdk.NewRichTextBlock("", all.section())
}

// paragraphs are rows as blocks within the limits, none where there is nothing to say.
func paragraphs(rows ...row) []sdk.Block {
	var out []sdk.Block
	var cur []row
	n := 0
	flush := func() {
		if len(cur) > 0 {
			out, cur, n = append(out, rich(cur...)), nil, 0
		}
	}
	for _, r := range rows {
		for _, p := range r.split() {
			if len(p) == 0 {
				continue
			}
			if n > 0 && n+p.length() > textMost {
				flush()
			}
			cur, n = append(cur, p), n+p.length()+1
		}
	}
	flush()
	return out
}

// bullets are rows as lists within the limits, under a heading.
func bullets(heading string, rows ...row) []sdk.Block {
	var out []sdk.Block
	var cur []sdk.RichTextElement
	n := 0
	flush := func() {
		if len(cur) == 0 {
			return
		}
		var es []sdk.RichTextElement
		if heading != "" && len(out) == 0 {
			es = append(es, line(bold(heading)).section())
		}
		out, cur, n = append(out, sdk.NewRichTextBlock("", append(es, sdk.NewRichTextList(sdk.RTEListBullet, 0, cur...))...)), nil, 0
	}
	for _, r := range rows {
		for _, p := range r.split() {
			if len(p) == 0 {
				continue
			}
			if len(cur) >= 30 || n > 0 && n+p.length() > textMost-utf8.RuneCountInString(heading) {
				flush()
			}
			cur, n = append(cur, p.section()), n+p.length()
		}
	}
	flush()
	return out
}

// quoted is a person's words as a quotation.
func quoted(heading, words string) []sdk.Block {
	var out []sdk.Block
	for i, p := range pieces(clean(words), textMost) {
		if strings.TrimSpace(p) == "" {
			continue
		}
		var es []sdk.RichTextElement
		if heading != "" && i == 0 {
			es = append(es, line(bold(heading)).section())
		}
		q := &sdk.RichTextQuote{Type: sdk.RTEQuote, Elements: line(span(p)).section().Elements}
		out = append(out, sdk.NewRichTextBlock("", append(es, q)...))
	}
	return out
}
