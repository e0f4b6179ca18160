package record

import (
	_ "embed"
	"fmt"
	"slices"

	"github.com/klauspost/compress/s2"

	"strikeoff/bot/job"
)

// What a plan says comes from the rules' own sentences, so that one job's history is much like another's: packed against a text of such
// phrases it takes about a tenth of the room, on disk, in memory and on the wire. Records below the least size are left readable.

// phrases is that text. It is part of how records are written: a changed byte makes every packed record unreadable. A better one gets a mark of
// its own beside it.
//
//go:embed phrases.dict
var phrases []byte

const (
	packed    = 'P' // a record that begins with it is packed by s2 against phrases; any other begins with {
	leastPack = 512 // bytes
)

var dict = s2.MakeDict(phrases, nil)

// pack packs a record, where it is worth it.
func pack(b []byte) []byte {
	if len(b) < leastPack {
		return b
	}
	out := make([]byte, 1+s2.MaxEncodedLen(len(b)))
	out[0] = packed
	n := len(dict.Encode(out[1:], b))
	return slices.Clip(slices.Clone(out[:1+n]))
}

// unpack gives a record as it was before pack. The error is job.ErrCorrupt.
func unpack(b []byte) ([]byte, error) {
	if len(b) == 0 || b[0] != packed {
		return b, nil
	}
	n, err := s2.DecodedLen(b[1:])
	if err == nil && n > mostUnpacked {
		err = fmt.Errorf("it says that it is %d bytes long", n)
	}
	var out []byte
	if err == nil {
		out, err = dict.Decode(nil, b[1:])
	}
	if err != nil {
		return nil, fmt.Errorf("%w: a packed record cannot be unpacked: %w", job.ErrCorrupt, err)
	}
	return out, nil
}

// mostUnpacked is more than any record has, in bytes: an order's text is cut far below it. A damaged length must not ask for all memory.
const mostUnpacked = 256 << 20
