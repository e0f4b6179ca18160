package page

import (
	"fmt"
	"strings"

	"github.com/piglig/go-qr"
)

// qrQuiet is the empty margin around a code, in modules. Source: ISO/IEC 18004, which asks for four.
const qrQuiet = 4

// qrCode is a code as an SVG path: one module a unit.
type qrCode struct {
	Size int    // with the margin
	Path string // the dark modules
}

// newQR draws an address. Medium error correction mends 15 % of the code: a ticket on a press gets splashed.
func newQR(address string) (qrCode, error) {
	for _, c := range []byte(address) {
		if c < 0x21 || c > 0x7e {
			return qrCode{}, fmt.Errorf("an address on a ticket must be plain ASCII")
		}
	}
	qr, err := go_qr.EncodeText(address, go_qr.Medium)
	if err != nil {
		return qrCode{}, fmt.Errorf("code on the ticket: %w", err)
	}
	var b strings.Builder
	n := qr.Size()
	for y := range n {
		for x := 0; x < n; x++ {
			from := x
			for x < n && qr.Module(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&b, "M%d %dh%dv1H%dz", from+qrQuiet, y+qrQuiet, x-from, from+qrQuiet)
			}
		}
	}
	return qrCode{Size: n + 2*qrQuiet, Path: b.String()}, nil
}
