package fake

import (
	"fmt"
	"strconv"
	"unicode/utf8"
)

// where blocks stand.
type surface int

const (
	inMessage surface = iota
	inModal
	inHome
)

// The limits of Block Kit as its reference gives them, lengths in characters. TotalText is not in the reference: a report on Slack's own
// SDK found messages refused with msg_blocks_too_long from about there.
const (
	MaxBlocks     = 50  // in a message
	MaxViewBlocks = 100 // in a modal or Home tab
	TotalText     = 13200
	MaxSection    = 3000
	MaxField      = 2000
	MaxFields     = 10
	MaxHeader     = 150
	MaxButton     = 75
	MaxValue      = 2000
	MaxID         = 255 // action_id, block_id, callback_id
	MaxActions    = 25
	MaxContext    = 10
	MaxViewTitle  = 24
	MaxMetadata   = 3000
)

// checkBlocks is the error word that Slack would answer, "" for none.
func checkBlocks(blocks []map[string]any, at surface) string {
	most := MaxBlocks
	if at != inMessage {
		most = MaxViewBlocks
	}
	if len(blocks) > most {
		return "invalid_blocks"
	}
	c := checker{at: at, ids: map[string]bool{}}
	for _, b := range blocks {
		if c.block(b); c.wrong != "" {
			return "invalid_blocks"
		}
	}
	if at == inMessage && c.total > TotalText {
		return "msg_blocks_too_long"
	}
	return ""
}

// CheckMessage says what Slack would refuse about a message's blocks, for tests of a layout alone. Its error names the block and limit.
func CheckMessage(blocks []map[string]any) error {
	return checked(blocks, inMessage)
}

// CheckModal is CheckMessage for a modal's blocks.
func CheckModal(blocks []map[string]any) error { return checked(blocks, inModal) }

func checked(blocks []map[string]any, at surface) error {
	c := checker{at: at, ids: map[string]bool{}}
	most := MaxBlocks
	if at != inMessage {
		most = MaxViewBlocks
	}
	if len(blocks) > most {
		return fmt.Errorf("%d blocks, at most %d", len(blocks), most)
	}
	if len(blocks) == 0 {
		return fmt.Errorf("no blocks")
	}
	for i, b := range blocks {
		if c.block(b); c.wrong != "" {
			return fmt.Errorf("block %d: %s", i, c.wrong)
		}
	}
	if at == inMessage && c.total > TotalText {
		return fmt.Errorf("%d characters in all, at most %d", c.total, TotalText)
	}
	return nil
}

// checker walks blocks and keeps the first thing wrong.
type checker struct {
	at    surface
	ids   map[string]bool
	total int
	wrong string
}

func (c *checker) fail(format string, a ...any) {
	if c.wrong == "" {
		c.wrong = fmt.Sprintf(format, a...)
	}
}

// known lists the fields that a block or element may have; another field is refused, as Slack does.
var known = map[string][]string{
	"section":          {"text", "fields", "accessory", "expand"},
	"header":           {"text", "level"},
	"context":          {"elements"},
	"actions":          {"elements"},
	"divider":          {},
	"image":            {"alt_text", "image_url", "slack_file", "title"},
	"input":            {"label", "element", "hint", "optional", "dispatch_action"},
	"rich_text":        {"elements"},
	"button":           {"text", "action_id", "url", "value", "style", "confirm", "accessibility_label"},
	"plain_text_input": {"action_id", "initial_value", "multiline", "min_length", "max_length", "placeholder", "focus_on_load", "dispatch_action_config"},
}

func (c *checker) fields(o map[string]any, kind string) {
	for name := range o {
		if name == "type" || name == "block_id" {
			continue
		}
		ok := false
		for _, k := range known[kind] {
			ok = ok || k == name
		}
		if !ok {
			c.fail("%s has no field %q", kind, name)
		}
	}
}

func (c *checker) block(b map[string]any) {
	kind, _ := b["type"].(string)
	if _, ok := known[kind]; !ok || kind == "button" || kind == "plain_text_input" {
		c.fail("no block of type %q", kind)
		return
	}
	c.fields(b, kind)
	if id, ok := b["block_id"].(string); ok && id != "" {
		if c.ids[id] {
			c.fail("block_id %q twice", id)
		}
		c.ids[id] = true
		c.long("block_id", id, MaxID)
	}
	switch kind {
	case "section":
		fs, _ := b["fields"].([]any)
		if b["text"] == nil && len(fs) == 0 {
			c.fail("section without text or fields")
		}
		if b["text"] != nil {
			c.text(b["text"], MaxSection, false)
		}
		if len(fs) > MaxFields {
			c.fail("%d fields, at most %d", len(fs), MaxFields)
		}
		for _, f := range fs {
			c.text(f, MaxField, false)
		}
		if acc, ok := b["accessory"].(map[string]any); ok {
			c.element(acc, map[string]bool{})
		}
	case "header":
		c.text(b["text"], MaxHeader, true)
	case "context":
		els, _ := b["elements"].([]any)
		if len(els) == 0 || len(els) > MaxContext {
			c.fail("context with %d elements, 1 to %d", len(els), MaxContext)
		}
		for _, e := range els {
			c.text(e, MaxSection, false)
		}
	case "actions":
		els, _ := b["elements"].([]any)
		if len(els) == 0 || len(els) > MaxActions {
			c.fail("actions with %d elements, 1 to %d", len(els), MaxActions)
		}
		seen := map[string]bool{}
		for _, e := range els {
			m, _ := e.(map[string]any)
			c.element(m, seen)
		}
	case "image":
		if alt, _ := b["alt_text"].(string); alt == "" {
			c.fail("image without alt_text")
		}
		if b["image_url"] == nil && b["slack_file"] == nil {
			c.fail("image without a picture")
		}
	case "input":
		if c.at == inMessage {
			c.fail("an input block in a message")
		}
		c.text(b["label"], 2000, true)
		if b["hint"] != nil {
			c.text(b["hint"], 2000, true)
		}
		m, _ := b["element"].(map[string]any)
		c.element(m, map[string]bool{})
	case "rich_text":
		els, _ := b["elements"].([]any)
		if len(els) == 0 {
			c.fail("rich_text without elements")
		}
		for _, e := range els {
			c.rich(e)
		}
	}
}

func (c *checker) rich(e any) {
	m, _ := e.(map[string]any)
	kind, _ := m["type"].(string)
	els, _ := m["elements"].([]any)
	switch kind {
	case "rich_text_list":
		if st, _ := m["style"].(string); st != "bullet" && st != "ordered" {
			c.fail("rich_text_list of style %q", st)
		}
		if len(els) == 0 {
			c.fail("an empty list")
		}
		for _, x := range els {
			if y, _ := x.(map[string]any); y["type"] != "rich_text_section" {
				c.fail("a list item of type %v", y["type"])
			}
			c.rich(x)
		}
	case "rich_text_section", "rich_text_quote", "rich_text_preformatted":
		if len(els) == 0 {
			c.fail("%s without elements", kind)
		}
		for _, x := range els {
			y, _ := x.(map[string]any)
			switch y["type"] {
			case "text":
				t, _ := y["text"].(string)
				if t == "" {
					c.fail("an empty text in rich_text")
				}
				c.total += utf8.RuneCountInString(t)
				c.long("rich text", t, MaxSection)
			case "link", "user", "usergroup", "channel", "emoji", "date", "color":
			case "broadcast":
			default:
				c.fail("no rich text element of type %v", y["type"])
			}
		}
	default:
		c.fail("no rich text of type %q", kind)
	}
}

func (c *checker) element(e map[string]any, seen map[string]bool) {
	kind, _ := e["type"].(string)
	if _, ok := known[kind]; !ok {
		c.fail("no element of type %q", kind)
		return
	}
	c.fields(e, kind)
	id, _ := e["action_id"].(string)
	if id == "" {
		c.fail("%s without action_id", kind)
	}
	if seen[id] {
		c.fail("action_id %q twice in one block", id)
	}
	seen[id] = true
	c.long("action_id", id, MaxID)
	switch kind {
	case "button":
		c.text(e["text"], MaxButton, true)
		v, _ := e["value"].(string)
		c.long("value", v, MaxValue)
		if st, ok := e["style"].(string); ok && st != "primary" && st != "danger" {
			c.fail("button style %q", st)
		}
	case "plain_text_input":
		if n, ok := e["max_length"].(float64); ok && (n < 1 || n > 3000) {
			c.fail("max_length %s", strconv.FormatFloat(n, 'f', -1, 64))
		}
		if v, ok := e["initial_value"].(string); ok {
			c.long("initial_value", v, 3000)
		}
		if e["placeholder"] != nil {
			c.text(e["placeholder"], 150, true)
		}
	default:
		c.fail("element of type %q", kind)
	}
}

func (c *checker) text(t any, most int, plain bool) {
	m, _ := t.(map[string]any)
	kind, _ := m["type"].(string)
	if kind != "plain_text" && (plain || kind != "mrkdwn") {
		c.fail("text of type %q", kind)
		return
	}
	s, _ := m["text"].(string)
	if s == "" {
		c.fail("an empty text")
	}
	c.total += utf8.RuneCountInString(s)
	c.long(kind, s, most)
}

func (c *checker) long(what, s string, most int) {
	if n := utf8.RuneCountInString(s); n > most {
		c.fail("%s of %d characters, at most %d", what, n, most)
	}
}
