package slack

import (
	"encoding/json"
	"fmt"
	"unicode/utf8"

	sdk "github.com/slack-go/slack"
)

// What one message is given at most. Slack takes 50 blocks and, by a report, about 13,200 characters in all.
const (
	blocksMost = 48
	totalMost  = 12000
)

// unit is blocks that belong together: a step and its buttons, a question and its answers.
type unit []sdk.Block

// size is the text of a unit in characters, what its buttons say included.
func (u unit) size() int {
	n := 0
	for _, b := range u {
		n += textIn(b)
	}
	return n
}

// textIn counts the characters of every text in a block. It reads the block as JSON, so that a kind of block that was not thought of
// is counted too.
func textIn(b sdk.Block) int {
	raw, err := json.Marshal(b)
	if err != nil {
		return 0
	}
	var v any
	if json.Unmarshal(raw, &v) != nil {
		return 0
	}
	return countText(v)
}

func countText(v any) int {
	n := 0
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			if s, ok := e.(string); ok && k == "text" {
				n += utf8.RuneCountInString(s)
			} else {
				n += countText(e)
			}
		}
	case []any:
		for _, e := range v {
			n += countText(e)
		}
	}
	return n
}

// pack lays units into messages of at most so many blocks and characters each, in order, and at most so many messages; what does not fit is
// said to be left out. A unit is broken only where it alone is too much for a message.
func pack(units []unit, blocks, chars, messages int) [][]sdk.Block {
	var out [][]sdk.Block
	var cur []sdk.Block
	n := 0
	room := chars - 100 // for the line that says that something was left out
	flush := func() {
		if len(cur) > 0 {
			out, cur, n = append(out, cur), nil, 0
		}
	}
	for i, u := range units {
		size := u.size()
		if len(cur) > 0 && (len(cur)+len(u) > blocks-1 || n+size > room) {
			if len(out) == messages-1 {
				cur = append(cur, rich(line(italic(fmt.Sprintf("Left out here for length: %d more parts.", len(units)-i)))))
				break
			}
			flush()
		}
		if len(u) > blocks-1 || size > room { // it alone is too much: block by block
			for _, b := range u {
				s := textIn(b)
				if len(cur) > 0 && (len(cur)+1 > blocks-1 || n+s > room) && len(out) < messages-1 {
					flush()
				}
				if len(cur)+1 > blocks-1 || n+s > room && len(cur) > 0 {
					continue
				}
				cur, n = append(cur, b), n+s
			}
			continue
		}
		cur, n = append(cur, u...), n+size
	}
	flush()
	return out
}
