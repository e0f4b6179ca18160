// Package house reads a shop's own settings from its file: what it can print, how long things take there, when it works.
package house

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"strikeoff/rules"
)

// Decode reads the settings of a shop from YAML whose keys are the JSON names of rules.Shop. No text is the usual shop. The error names
// the key, the value and what is allowed.
func Decode(text []byte) (rules.Shop, error) {
	var shop rules.Shop
	if len(bytes.TrimSpace(text)) == 0 {
		return shop, nil
	}
	var tree map[string]any
	if err := yaml.Unmarshal(text, &tree); err != nil {
		return shop, fmt.Errorf("the shop's settings are no YAML of names and values: %w", err)
	}
	b, err := json.Marshal(tree)
	if err != nil {
		return shop, fmt.Errorf("the shop's settings hold something other than names, numbers and lists: %w", err)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&shop); err != nil {
		var wrong *json.UnmarshalTypeError
		if errors.As(err, &wrong) {
			return shop, fmt.Errorf("shop setting %s is a %s, and a %s is wanted", wrong.Field, wrong.Value, wrong.Type)
		}
		return shop, fmt.Errorf("the shop's settings: %s", strings.TrimPrefix(err.Error(), "json: "))
	}
	return shop, Check(shop)
}

// Check says what in the settings cannot be.
func Check(shop rules.Shop) error {
	for _, m := range shop.Methods {
		if !slices.Contains(rules.Methods, m) {
			return fmt.Errorf("shop setting methods has %q; allowed are %v", m, rules.Methods)
		}
	}
	return nil
}
