package console

import (
	"bufio"
	"io"
	"strings"
)

// Script reads messages from a file or a pipe. A message may have many lines, blank ones too: it ends at a line that holds only a full
// stop, before a line that begins with a stroke (which is a message of its own), or at the end.
type Script struct {
	in      *bufio.Reader
	pending string
	ended   bool
}

// maxMessage is where a message is cut, in bytes: far above what a person pastes. The reader says that it was cut.
const maxMessage = 4 << 20

// NewScript reads messages from in.
func NewScript(in io.Reader) *Script { return &Script{in: bufio.NewReader(in)} }

// Next is the next message.
func (s *Script) Next(string) (string, error) {
	if s.pending != "" {
		line := s.pending
		s.pending = ""
		return line, nil
	}
	var b strings.Builder
	for !s.ended {
		line, err := s.in.ReadString('\n')
		if err != nil {
			s.ended = true
			if err != io.EOF {
				return "", err
			}
		}
		bare := strings.TrimRight(line, "\r\n")
		if bare == "." {
			if b.Len() > 0 {
				return b.String(), nil
			}
			continue
		}
		if strings.HasPrefix(bare, "/") {
			if strings.TrimSpace(b.String()) == "" {
				return bare, nil
			}
			s.pending = bare
			return b.String(), nil
		}
		if b.Len() < maxMessage {
			b.WriteString(line)
		}
	}
	if strings.TrimSpace(b.String()) == "" {
		return "", io.EOF
	}
	return b.String(), nil
}
