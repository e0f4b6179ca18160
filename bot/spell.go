package bot

import (
	"slices"
	"strings"

	"strikeoff/rules"
)

// slips are words that are one slip away from a command and mean something of their own.
var slips = []string{"lose", "sin", "ass", "picks", "pic", "closes", "closed", "fails", "failed", "passes", "passed", "refuses", "refused", "orders", "ordered",
	"signs", "helps", "amends", "reopens", "print", "prints", "jo", "job", "hob", "passe", "ail"}

// nearVerb is the command that a misspelt word must be meant for: two letters swapped, one left out, or one too many. One letter for
// another is not a slip here: "mail", "pink" and "past" are words.
func nearVerb(word string) *command {
	word = strings.ToLower(word)
	if slices.Contains(slips, word) {
		return nil
	}
	for _, c := range commands {
		if len(c.verb) >= 4 && (swapped(word, c.verb) || missing(word, c.verb) || missing(c.verb, word)) {
			return c
		}
	}
	return nil
}

// swapped reports whether two neighbours of the right word changed places.
func swapped(wrong, right string) bool {
	if len(wrong) != len(right) || wrong == right {
		return false
	}
	for i := range len(right) - 1 {
		if wrong == right[:i]+right[i+1:i+2]+right[i:i+1]+right[i+2:] {
			return true
		}
	}
	return false
}

// missing reports whether short is long without one letter.
func missing(short, long string) bool {
	if len(short)+1 != len(long) {
		return false
	}
	for i := range long {
		if short == long[:i]+long[i+1:] {
			return true
		}
	}
	return false
}

// slip reports whether a word is one slip away from another that is long enough to tell.
func slip(wrong, right string) bool {
	return len(right) >= 4 && (swapped(wrong, right) || missing(wrong, right) || missing(right, wrong) || replaced(wrong, right))
}

// replaced reports whether one letter stands for another.
func replaced(wrong, right string) bool {
	if len(wrong) != len(right) {
		return false
	}
	n := 0
	for i := range len(right) {
		if wrong[i] != right[i] {
			n++
		}
	}
	return n == 1
}

// methodNames are what people call the methods, beyond their own words.
var methodNames = map[string]rules.Method{"waterbased": rules.WaterBased, "water": rules.WaterBased, "wb": rules.WaterBased,
	"water-based-ink": rules.WaterBased, "sub": rules.Sublimation, "dye-sub": rules.Sublimation, "transfer": rules.HeatTransfer,
	"direct-to-garment": rules.DTG, "direct-to-film": rules.DTF, "plasti": rules.Plastisol}

// methodIn reads the method that some words begin with, and returns what follows it.
func methodIn(words string) (m rules.Method, rest string, ok bool) {
	f := strings.Fields(strings.ToLower(words))
	for n := min(3, len(f)); n > 0; n-- {
		name := strings.Trim(strings.Join(f[:n], "-"), ".,:;?!")
		rest = strings.Join(f[n:], " ")
		if slices.Contains(rules.Methods, rules.Method(name)) {
			return rules.Method(name), rest, true
		}
		if m, known := methodNames[name]; known {
			return m, rest, true
		}
		for _, m := range rules.Methods {
			if slip(name, string(m)) {
				return m, rest, true
			}
		}
	}
	return "", "", false
}

// stepIn reads the check that some words begin with: its code, its title, or a slip of the code. It returns how many words that took.
func stepIn(checks []rules.Check, words []string) (code string, used int) {
	for n := min(4, len(words)); n > 0; n-- {
		name := strings.ToLower(strings.Trim(strings.Join(words[:n], "-"), ".,:;"))
		for _, c := range checks {
			if name == c.Code || name == strings.ToLower(strings.ReplaceAll(c.Title, " ", "-")) {
				return c.Code, n
			}
		}
	}
	if len(words) == 0 {
		return "", 0
	}
	name := strings.ToLower(strings.Trim(words[0], ".,:;"))
	found := ""
	for _, c := range checks {
		if slip(name, c.Code) || len(name) >= 3 && strings.HasPrefix(c.Code, name) {
			if found != "" {
				return "", 0
			}
			found = c.Code
		}
	}
	if found == "" {
		return "", 0
	}
	return found, 1
}
