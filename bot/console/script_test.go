package console

import (
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
)

// Ensure messages end where the person meant them to.
func TestScript(t *testing.T) {
	for _, c := range []struct {
		name, in string
		want     []string
	}{
		{"nothing", "", nil},
		{"blank lines only", "\n \n", nil},
		{"one without an end", "48 tees", []string{"48 tees"}},
		{"a mail with blank lines stays whole", "Hi,\n\n48 tees\n\nThanks\n.\nsign\n", []string{"Hi,\n\n48 tees\n\nThanks\n", "sign\n"}},
		{"a stroke ends what is before it", "48 tees\n/as lead\nprinted\n", []string{"48 tees\n", "/as lead", "printed\n"}},
		{"strokes in a row", "/new\n/as rep\n", []string{"/new", "/as rep"}},
		{"full stops in a row", ".\n.\nhello\n.\n", []string{"hello\n"}},
		{"a line that ends in a full stop goes on", "by Friday.\nthanks\n.\n", []string{"by Friday.\nthanks\n"}},
		{"carriage returns", "48 tees\r\n.\r\nsign\r\n", []string{"48 tees\r\n", "sign\r\n"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := NewScript(strings.NewReader(c.in))
			var got []string
			for {
				m, err := s.Next("")
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatal(err)
				}
				got = append(got, m)
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("messages = %q, want %q", got, c.want)
			}
		})
	}
}

// Ensure a message without end is cut rather than kept in memory.
func TestScriptCutsWhatIsTooLong(t *testing.T) {
	m, err := NewScript(io.LimitReader(lines{}, 3*maxMessage)).Next("")
	if err != nil || len(m) > maxMessage+100 {
		t.Errorf("a message of %d bytes came through (%v), want at most about %d", len(m), err, maxMessage)
	}
}

// lines is a source of short lines without end.
type lines struct{}

func (lines) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = 'x'
		if i%80 == 79 {
			b[i] = '\n'
		}
	}
	return len(b), nil
}
