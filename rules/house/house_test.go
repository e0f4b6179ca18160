package house

import (
	"strings"
	"testing"

	"strikeoff/rules"
)

func TestDecode(t *testing.T) {
	shop, err := Decode([]byte("methods: [plastisol, dtf]"))
	if err != nil || len(shop.Methods) != 2 || shop.Methods[1] != rules.DTF {
		t.Fatalf("Decode = %+v, %v", shop, err)
	}
	if _, err := Decode(nil); err != nil {
		t.Errorf("no settings at all must be the usual shop: %v", err)
	}
}

// Ensure every error names the key that is wrong.
func TestDecodeSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"methods: [plastisol, woodcut]": `"woodcut"`,
		"methods: 3":                    "methods is a number",
		"methodz: [dtf]":                "methodz",
		"methods: [dtf":                 "no YAML",
	} {
		if _, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Decode(%q) = %v, want an error that says %s", text, err, want)
		}
	}
}
