package discord

import (
	"encoding/json"
	"strconv"
	"time"
)

// What Discord sends, as far as the door reads it. The library's own types lose a whole message to one part that they do not know; these
// name only what is needed, and where a part could be odd it is loose.

// loose decodes T where it can and stays zero where it cannot: a field that only adds something must not cost the message.
type loose[T any] struct{ V T }

func (l *loose[T]) UnmarshalJSON(b []byte) error {
	var v T
	if json.Unmarshal(b, &v) == nil {
		l.V = v
	}
	return nil
}

func (l loose[T]) MarshalJSON() ([]byte, error) { return json.Marshal(l.V) }

type user struct {
	ID       string        `json:"id"`
	Username string        `json:"username"`
	Global   loose[string] `json:"global_name"`
	Bot      loose[bool]   `json:"bot"`
}

type member struct {
	User  *user           `json:"user,omitempty"`
	Nick  loose[string]   `json:"nick"`
	Roles loose[[]string] `json:"roles"`
}

type attachment struct {
	ID   string        `json:"id"`
	Name string        `json:"filename"`
	Type loose[string] `json:"content_type"`
	Size loose[int64]  `json:"size"`
	URL  loose[string] `json:"url"`
}

type messageRef struct {
	Type    int    `json:"type"` // 0 a reply, 1 a forward
	Message string `json:"message_id"`
	Channel string `json:"channel_id"`
}

type message struct {
	ID          string                   `json:"id"`
	Channel     string                   `json:"channel_id"`
	Guild       loose[string]            `json:"guild_id"`
	Author      *user                    `json:"author"`
	Member      loose[*member]           `json:"member"`
	Content     string                   `json:"content"`
	Edited      loose[string]            `json:"edited_timestamp"`
	Type        loose[int]               `json:"type"`
	Flags       loose[int64]             `json:"flags"`
	Attachments loose[[]attachment]      `json:"attachments"`
	Mentions    loose[[]user]            `json:"mentions"`
	Application loose[string]            `json:"application_id"`
	Reference   loose[*messageRef]       `json:"message_reference"`
	Referenced  loose[*message]          `json:"referenced_message"`
	Snapshots   loose[[]messageSnapshot] `json:"message_snapshots"`
	Embeds      loose[[]embed]           `json:"embeds"`
}

// messageSnapshot is a forwarded message as it was.
type messageSnapshot struct {
	Message loose[struct {
		Content     string              `json:"content"`
		Attachments loose[[]attachment] `json:"attachments"`
	}] `json:"message"`
}

// The types of message that a person wrote; every other is Discord's own notice or a program's answer.
const (
	typeDefault = 0
	typeReply   = 19
)

const flagHasThread = 1 << 5

type channel struct {
	ID     string        `json:"id"`
	Type   int           `json:"type"`
	Guild  loose[string] `json:"guild_id"`
	Parent loose[string] `json:"parent_id"`
	Owner  loose[string] `json:"owner_id"`
	Last   loose[string] `json:"last_message_id"`
	Name   loose[string] `json:"name"`
}

// The kinds of channel that matter.
const (
	kindText         = 0
	kindDM           = 1
	kindGroupDM      = 3
	kindNews         = 5
	kindNewsThread   = 10
	kindPublicThread = 11
	kindPrivThread   = 12
	kindForum        = 15
	kindMedia        = 16
)

func (c channel) isThread() bool {
	return c.Type == kindNewsThread || c.Type == kindPublicThread || c.Type == kindPrivThread
}

func (c channel) isDirect() bool { return c.Type == kindDM || c.Type == kindGroupDM }

type interaction struct {
	ID          string            `json:"id"`
	Application string            `json:"application_id"`
	Type        int               `json:"type"`
	Token       string            `json:"token"`
	Guild       loose[string]     `json:"guild_id"`
	ChannelID   string            `json:"channel_id"`
	Channel     loose[*channel]   `json:"channel"`
	Member      loose[*member]    `json:"member"`
	User        loose[*user]      `json:"user"`
	Message     loose[*message]   `json:"message"`
	Data        loose[actionData] `json:"data"`
}

// The types of interaction.
const (
	interPing         = 1
	interCommand      = 2
	interComponent    = 3
	interAutocomplete = 4
	interModal        = 5
)

type actionData struct {
	// a command
	ID       string                `json:"id"`
	Name     string                `json:"name"`
	Type     loose[int]            `json:"type"`
	Target   loose[string]         `json:"target_id"`
	Options  loose[[]actionOption] `json:"options"`
	Resolved loose[struct {
		Messages map[string]message `json:"messages"`
	}] `json:"resolved"`
	// a component
	Custom string          `json:"custom_id"`
	Values loose[[]string] `json:"values"`
	// a modal
	Components loose[[]modalPart] `json:"components"`
}

type actionOption struct {
	Name    string          `json:"name"`
	Value   json.RawMessage `json:"value"`
	Focused bool            `json:"focused"`
}

// text is an option's value as it would be typed.
func (o actionOption) text() string {
	var s string
	if json.Unmarshal(o.Value, &s) == nil {
		return s
	}
	return string(o.Value)
}

// modalPart is a part of a submitted form: a label with one input, or a row with some.
type modalPart struct {
	Custom     string             `json:"custom_id"`
	Value      loose[string]      `json:"value"`
	Component  loose[*modalPart]  `json:"component"`
	Components loose[[]modalPart] `json:"components"`
}

// field finds a form's input by its name.
func field(parts []modalPart, name string) (string, bool) {
	for _, p := range parts {
		if p.Custom == name {
			return p.Value.V, true
		}
		if p.Component.V != nil && p.Component.V.Custom == name {
			return p.Component.V.Value.V, true
		}
		if v, ok := field(p.Components.V, name); ok {
			return v, true
		}
	}
	return "", false
}

// epoch is the first millisecond of Discord's ids: 1 January 2015 UTC.
const epoch = 1420070400000

// snowTime is when a thing with that id was made; the zero time where the id is none.
func snowTime(id string) time.Time {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil {
		return time.Time{}
	}
	return time.UnixMilli(int64(n>>22) + epoch).UTC()
}

// snowAt is the smallest id that something made at t can have.
func snowAt(t time.Time) string {
	ms := t.UnixMilli() - epoch
	if ms < 0 {
		return "0"
	}
	return strconv.FormatUint(uint64(ms)<<22, 10)
}

// newer reports whether id a was made after id b. Ids are numbers of up to 20 digits.
func newer(a, b string) bool {
	if len(a) != len(b) {
		return len(a) > len(b)
	}
	return a > b
}
