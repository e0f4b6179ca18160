package console

import (
	"errors"
	"io"
	"os"
	"strings"

	"golang.org/x/term"
)

// Terminal reads messages from a person: line editing, history by the arrow keys, and a pasted request of many lines kept in one piece.
type Terminal struct {
	term    *term.Terminal
	restore func() error
}

// NewTerminal takes the terminal over until Close.
func NewTerminal(in, out *os.File) (*Terminal, error) {
	fd := int(in.Fd())
	old, err := term.MakeRaw(fd)
	if err != nil {
		return nil, err
	}
	t := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{in, out}, "")
	if w, h, err := term.GetSize(int(out.Fd())); err == nil {
		if err := t.SetSize(w, h); err != nil {
			return nil, errors.Join(err, term.Restore(fd, old))
		}
	}
	t.SetBracketedPasteMode(true)
	return &Terminal{term: t, restore: func() error { return term.Restore(fd, old) }}, nil
}

// IsTerminal reports whether a file is a terminal that a person sits at.
func IsTerminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

// Width is the terminal's columns, 0 where it does not say.
func Width(f *os.File) int {
	w, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return w
}

// Write shows text above the line that is being typed.
func (t *Terminal) Write(b []byte) (int, error) { return t.term.Write(b) }

// Close gives the terminal back.
func (t *Terminal) Close() error {
	t.term.SetBracketedPasteMode(false)
	return t.restore()
}

// Next is the next message. Lines that are pasted, and lines that end in a backslash, are joined; Enter after them sends.
func (t *Terminal) Next(prompt string) (string, error) {
	var lines []string
	t.term.SetPrompt(prompt)
	for {
		line, err := t.term.ReadLine()
		switch {
		case errors.Is(err, term.ErrPasteIndicator):
			lines = append(lines, line)
		case err != nil:
			return "", err
		case strings.HasSuffix(line, `\`):
			lines = append(lines, strings.TrimSuffix(line, `\`))
		default:
			_, err := t.term.Write([]byte("\n")) // the answer stands apart from what was typed
			return strings.Join(append(lines, line), "\n"), err
		}
		t.term.SetPrompt("  (more; Enter sends) ")
	}
}
