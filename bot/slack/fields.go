package slack

import (
	"encoding/json"
	"errors"
)

// fields is a JSON object read one field at a time, so that a field of an unexpected shape costs that field and not the event.
type fields map[string]json.RawMessage

// errNoObject says that a payload was no JSON object.
var errNoObject = errors.New("the payload is no JSON object")

func readFields(b []byte) (fields, error) {
	var f fields
	if err := json.Unmarshal(b, &f); err != nil || f == nil {
		return nil, errNoObject
	}
	return f, nil
}

// str is a string field, "" where it is missing or no string.
func (f fields) str(name string) string {
	var s string
	if json.Unmarshal(f[name], &s) != nil {
		return ""
	}
	return s
}

// num is a whole number field, 0 where it is missing or none.
func (f fields) num(name string) int64 {
	var n int64
	if json.Unmarshal(f[name], &n) != nil {
		return 0
	}
	return n
}

// yes is a boolean field, false where it is missing or none.
func (f fields) yes(name string) bool {
	var b bool
	return json.Unmarshal(f[name], &b) == nil && b
}

// sub is an object field, nil where it is missing or none. A nil fields may be read: all is empty.
func (f fields) sub(name string) fields {
	var s fields
	if json.Unmarshal(f[name], &s) != nil {
		return nil
	}
	return s
}

// list is the objects of an array field; what is no object in it is left out.
func (f fields) list(name string) []fields {
	var raw []json.RawMessage
	if json.Unmarshal(f[name], &raw) != nil {
		return nil
	}
	var out []fields
	for _, r := range raw {
		if s, err := readFields(r); err == nil {
			out = append(out, s)
		}
	}
	return out
}
