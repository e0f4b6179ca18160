package rules

import "encoding/json"

// List is a slice that is [] in JSON when it is empty, never null.
type List[T any] []T

// MarshalJSON writes an empty list as [].
func (l List[T]) MarshalJSON() ([]byte, error) {
	if len(l) == 0 {
		return []byte("[]"), nil
	}
	return json.Marshal([]T(l))
}

// orNull writes a word, or null where it was not said.
func orNull(s string) ([]byte, error) {
	if s == "" {
		return []byte("null"), nil
	}
	return json.Marshal(s)
}
