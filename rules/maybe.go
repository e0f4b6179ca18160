package rules

import "encoding/json"

// Maybe is a value that a message may not have said. The zero Maybe is unknown, which is never the same as a known zero.
// In JSON an unknown value is null.
type Maybe[T comparable] struct {
	Value T
	Known bool
}

// Said returns a known value.
func Said[T comparable](v T) Maybe[T] { return Maybe[T]{Value: v, Known: true} }

// Or returns the value, or other where it is unknown.
func (m Maybe[T]) Or(other T) T {
	if m.Known {
		return m.Value
	}
	return other
}

// MarshalJSON writes the value, or null where it is unknown.
func (m Maybe[T]) MarshalJSON() ([]byte, error) {
	if !m.Known {
		return []byte("null"), nil
	}
	return json.Marshal(m.Value)
}

// UnmarshalJSON reads null as unknown.
func (m *Maybe[T]) UnmarshalJSON(b []byte) error {
	*m = Maybe[T]{}
	if string(b) == "null" {
		return nil
	}
	if err := json.Unmarshal(b, &m.Value); err != nil {
		return err
	}
	m.Known = true
	return nil
}
