package slack

import (
	"strings"
)

// unescape undoes Slack's escaping, the ampersand last: "&amp;lt;" is the text "&lt;".
// https://docs.slack.dev/messaging/formatting-message-text#escaping
var unescape = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace

// plain is a message's text as the person saw it: links, mentions and channels in words, escapes undone. name gives the name of a
// person or channel by id. It reports whether self, the app's own user id, was addressed; that mention is left out.
func plain(text, self string, name func(id string) string) (out string, called bool) {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(text, "<")
		b.WriteString(unescape(before))
		if !ok {
			break
		}
		inner, after, closed := strings.Cut(rest, ">")
		if !closed { // no markup after all
			b.WriteString("<" + unescape(rest))
			break
		}
		if id, _, _ := strings.Cut(strings.TrimPrefix(inner, "@"), "|"); strings.HasPrefix(inner, "@") && id == self && self != "" {
			called = true
			after = strings.TrimPrefix(after, " ")
		} else {
			b.WriteString(spoken(inner, name))
		}
		text = after
	}
	return strings.TrimSpace(b.String()), called
}

// spoken is what stands between angle brackets, in words.
func spoken(inner string, name func(string) string) string {
	target, label, labelled := strings.Cut(inner, "|")
	label = unescape(label)
	switch {
	case strings.HasPrefix(target, "@"):
		if label != "" {
			return "@" + strings.TrimPrefix(label, "@")
		}
		return "@" + name(target[1:])
	case strings.HasPrefix(target, "#"):
		if label != "" {
			return "#" + label
		}
		return "#" + name(target[1:])
	case strings.HasPrefix(target, "!"):
		if labelled && label != "" {
			return label
		}
		word, _, _ := strings.Cut(target[1:], "^")
		return "@" + word
	}
	target = unescape(target)
	bare := strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(target, "mailto:"), "https://"), "http://")
	if !labelled || label == "" || label == target || label == bare || label+"/" == bare {
		if strings.HasPrefix(target, "mailto:") {
			return bare
		}
		if label != "" {
			return label
		}
		return target
	}
	return label + " (" + target + ")"
}

// cut is text of at most n characters; where it is longer it ends in "…", at a word where one is near.
func cut(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	r = r[:n-1]
	for i := len(r) - 1; i > len(r)-20 && i > 0; i-- {
		if r[i] == ' ' || r[i] == '\n' {
			r = r[:i]
			break
		}
	}
	return string(r) + "…"
}

// pieces splits text into pieces of at most n characters, at a line or word where one is near.
func pieces(s string, n int) []string {
	var out []string
	r := []rune(s)
	for len(r) > n {
		at := n
		for i := n; i > n*3/4; i-- {
			if r[i] == ' ' || r[i] == '\n' {
				at = i
				break
			}
		}
		out = append(out, strings.TrimRight(string(r[:at]), " \n"))
		r = []rune(strings.TrimLeft(string(r[at:]), " \n"))
	}
	if len(r) > 0 {
		out = append(out, string(r))
	}
	return out
}
