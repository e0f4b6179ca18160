package discord

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf16"
)

// length counts as the stricter reading of Discord's limits does.
func length(s string) int { return len(utf16.Encode([]rune(s))) }

// read decodes a message and says what Discord would refuse in it, by the limits of its documentation; "" for nothing.
func (f *fake) read(body []byte, file bool) (m outMessage, bad string) {
	if err := json.Unmarshal(body, &m); err != nil {
		return m, err.Error()
	}
	if !bytes.Contains(body, []byte(`"allowed_mentions":{"parse":[]}`)) {
		f.t.Errorf("a message may ping: %s", body)
	}
	sum := 0
	for i, e := range m.Embeds {
		n := length(e.Title) + length(e.Description)
		switch {
		case length(e.Title) > 256:
			return m, fmt.Sprintf("embed %d: title of %d", i, length(e.Title))
		case length(e.Description) > 4096:
			return m, fmt.Sprintf("embed %d: description of %d", i, length(e.Description))
		case len(e.Fields) > 25:
			return m, fmt.Sprintf("embed %d: %d fields", i, len(e.Fields))
		case n == 0 && len(e.Fields) == 0:
			return m, fmt.Sprintf("embed %d is empty", i)
		}
		for j, x := range e.Fields {
			if length(x.Name) > 256 || length(x.Value) > 1024 || strings.TrimSpace(x.Name) == "" || strings.TrimSpace(x.Value) == "" {
				return m, fmt.Sprintf("embed %d field %d: name of %d, value of %d", i, j, length(x.Name), length(x.Value))
			}
			n += length(x.Name) + length(x.Value)
		}
		sum += n
	}
	switch {
	case length(m.Content) > 2000:
		return m, fmt.Sprintf("content of %d", length(m.Content))
	case len(m.Embeds) > 10:
		return m, fmt.Sprintf("%d embeds", len(m.Embeds))
	case sum > 6000:
		return m, fmt.Sprintf("embeds of %d together", sum)
	case m.Content == "" && len(m.Embeds) == 0 && !file:
		return m, "Cannot send an empty message"
	case length(m.Nonce) > 25:
		return m, fmt.Sprintf("nonce of %d", length(m.Nonce))
	}
	return m, badRows(m.Components)
}

// badRows says what would be refused in rows of buttons.
func badRows(rows []row) string {
	if len(rows) > 5 {
		return fmt.Sprintf("%d rows", len(rows))
	}
	seen := map[string]bool{}
	for i, r := range rows {
		if r.Type != 1 || len(r.Components) == 0 || len(r.Components) > 5 {
			return fmt.Sprintf("row %d: type %d with %d parts", i, r.Type, len(r.Components))
		}
		for _, c := range r.Components {
			if c.Custom == "" || length(c.Custom) > 100 || seen[c.Custom] {
				return fmt.Sprintf("row %d: custom_id %q (%d)", i, c.Custom, length(c.Custom))
			}
			seen[c.Custom] = true
			switch c.Type {
			case 2:
				if c.Label == "" || length(c.Label) > 80 || c.Style < 1 || c.Style > 4 {
					return fmt.Sprintf("row %d: a button %q of style %d", i, c.Label, c.Style)
				}
			case 3:
				values := map[string]bool{}
				if len(r.Components) != 1 || len(c.Options) == 0 || len(c.Options) > 25 || length(c.Placeholder) > 150 {
					return fmt.Sprintf("row %d: a list of %d", i, len(c.Options))
				}
				for _, o := range c.Options {
					if o.Label == "" || o.Value == "" || length(o.Label) > 100 || length(o.Value) > 100 || values[o.Value] {
						return fmt.Sprintf("row %d: option %q %q", i, o.Label, o.Value)
					}
					values[o.Value] = true
				}
			default:
				return fmt.Sprintf("row %d: a part of type %d", i, c.Type)
			}
		}
	}
	return ""
}

var commandName = regexp.MustCompile(`^[-_\p{Ll}0-9]{1,32}$`)

// badCommands says what would be refused in a list of commands.
func badCommands(cs []appCommand) string {
	seen := map[string]bool{}
	for _, c := range cs {
		key := fmt.Sprint(c.Type, c.Name)
		switch {
		case seen[key]:
			return "twice " + c.Name
		case c.Type == commandTyped && (!commandName.MatchString(c.Name) || c.Description == "" || length(c.Description) > 100):
			return "command " + c.Name
		case c.Type == commandOnMessage && (c.Name == "" || length(c.Name) > 32 || c.Description != "" || len(c.Options) > 0):
			return "message command " + c.Name
		case len(c.Options) > 25:
			return "options of " + c.Name
		}
		seen[key] = true
		loose := false
		for _, o := range c.Options {
			if !commandName.MatchString(o.Name) || o.Description == "" || length(o.Description) > 100 {
				return "option " + c.Name + " " + o.Name
			}
			if o.Required && loose {
				return "a required option after one that is not: " + c.Name + " " + o.Name
			}
			loose = loose || !o.Required
		}
	}
	return ""
}
