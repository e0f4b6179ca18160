package fake

import (
	"strings"
	"testing"
)

func plainText(n int) map[string]any {
	return map[string]any{"type": "plain_text", "text": strings.Repeat("x", n)}
}

func button(id string, label, value int) map[string]any {
	return map[string]any{"type": "button", "action_id": id, "text": plainText(label), "value": strings.Repeat("v", value)}
}

func rich(n int) map[string]any {
	return map[string]any{"type": "rich_text", "elements": []any{map[string]any{"type": "rich_text_section", "elements": []any{map[string]any{"type": "text", "text": strings.Repeat("x", n)}}}}}
}

func times(n int, b map[string]any) []map[string]any {
	var out []map[string]any
	for range n {
		out = append(out, b)
	}
	return out
}

func anys(n int, e func(i int) map[string]any) []any {
	var out []any
	for i := range n {
		out = append(out, e(i))
	}
	return out
}

// Ensure that the fake takes what stands at each limit and refuses what is one over: a fake that takes everything proves nothing. The limits are
// those of the reference of each block at https://docs.slack.dev/reference/block-kit/blocks.
func TestLimitsOfBlocks(t *testing.T) {
	ids := func(i int) map[string]any { return button(strings.Repeat("a", i+1), 1, 1) }
	for _, c := range []struct {
		name string
		at   func(over int) []map[string]any
		want string
	}{
		{"blocks", func(o int) []map[string]any { return times(50+o, map[string]any{"type": "divider"}) }, "51 blocks"},
		{"section", func(o int) []map[string]any {
			return []map[string]any{{"type": "section", "text": plainText(3000 + o)}}
		}, "3001"},
		{"header", func(o int) []map[string]any { return []map[string]any{{"type": "header", "text": plainText(150 + o)}} }, "151"},
		{"fields", func(o int) []map[string]any {
			return []map[string]any{{"type": "section", "fields": anys(10+o, func(int) map[string]any { return plainText(1) })}}
		}, "11 fields"},
		{"field", func(o int) []map[string]any {
			return []map[string]any{{"type": "section", "fields": []any{plainText(2000 + o)}}}
		}, "2001"},
		{"context", func(o int) []map[string]any {
			return []map[string]any{{"type": "context", "elements": anys(10+o, func(int) map[string]any { return plainText(1) })}}
		}, "11 elements"},
		{"actions", func(o int) []map[string]any {
			return []map[string]any{{"type": "actions", "elements": anys(25+o, ids)}}
		}, "26 elements"},
		{"button label", func(o int) []map[string]any {
			return []map[string]any{{"type": "actions", "elements": []any{button("a", 75+o, 1)}}}
		}, "76"},
		{"button value", func(o int) []map[string]any {
			return []map[string]any{{"type": "actions", "elements": []any{button("a", 1, 2000+o)}}}
		}, "2001"},
		{"all text", func(o int) []map[string]any { return append(times(4, rich(3000)), rich(1200+o)) }, "13201"},
		{"block_id", func(o int) []map[string]any {
			return []map[string]any{{"type": "divider", "block_id": strings.Repeat("b", 255+o)}}
		}, "256"},
	} {
		if err := CheckMessage(c.at(0)); err != nil {
			t.Errorf("%s at the limit: %v", c.name, err)
		}
		if err := CheckMessage(c.at(1)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s over the limit: %v, want %q", c.name, err, c.want)
		}
	}
	for name, b := range map[string]map[string]any{
		"unknown block":         {"type": "hologram"},
		"unknown field":         {"type": "divider", "colour": "red"},
		"empty text":            {"type": "header", "text": plainText(0)},
		"markup in a header":    {"type": "header", "text": map[string]any{"type": "mrkdwn", "text": "x"}},
		"empty rich text":       rich(0),
		"no elements":           {"type": "actions", "elements": []any{}},
		"input in a message":    {"type": "input", "label": plainText(1), "element": map[string]any{"type": "plain_text_input", "action_id": "a"}},
		"image without words":   {"type": "image", "image_url": "https://example.com/a.png"},
		"the same action twice": {"type": "actions", "elements": []any{button("a", 1, 1), button("a", 1, 1)}},
		"button without id":     {"type": "actions", "elements": []any{button("", 1, 1)}},
	} {
		if err := CheckMessage([]map[string]any{b}); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if CheckMessage(nil) == nil {
		t.Error("no blocks at all were taken")
	}
}

// Ensure that the fake looks at tokens, scopes and arguments.
func TestTokens(t *testing.T) {
	s, err := New(Options{BotToken: "xoxb-1", AppToken: "xapp-1", Scopes: []string{"chat:write"}})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, c := range []struct{ method, token, want string }{
		{"chat.postMessage", "", "not_authed"}, {"chat.postMessage", "xoxb-2", "invalid_auth"}, {"chat.postMessage", "xapp-1", "not_allowed_token_type"},
		{"apps.connections.open", "xoxb-1", "not_allowed_token_type"}, {"users.info", "xoxb-1", "missing_scope"}, {"chat.postMessage", "xoxb-1", ""},
	} {
		word, _ := s.allowed(methods[c.method], c.token)
		if word != c.want {
			t.Errorf("%s with %q: %q, want %q", c.method, c.token, word, c.want)
		}
	}
}
