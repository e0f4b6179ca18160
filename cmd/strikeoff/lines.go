package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
)

// maxLine is the longest line, in bytes, that a file of messages or orders may have: a pasted megabyte with room for its JSON escapes.
const maxLine = 8 << 20

// eachLine decodes a JSON Lines file, "-" for standard input, one value at a time. Blank lines are passed over; a line that is no JSON
// ends the run with its number, so that no answer goes missing unseen.
func eachLine[T any](w world, path string, do func(T) error) error {
	in := w.in
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	sc := bufio.NewScanner(in)
	sc.Buffer(nil, maxLine)
	for n := 1; sc.Scan(); n++ {
		if len(sc.Bytes()) == 0 {
			continue
		}
		var v T
		if err := json.Unmarshal(sc.Bytes(), &v); err != nil {
			return fmt.Errorf("%s line %d is not the JSON that is wanted, everything before it was answered: %w", path, n, err)
		}
		if err := do(v); err != nil {
			return fmt.Errorf("%s line %d: %w", path, n, err)
		}
	}
	if err := sc.Err(); err != nil {
		return fmt.Errorf("reading %s: %w", path, err)
	}
	return nil
}

// printJSON writes v as one line, with < and > left as they are.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
