// Package record is how jobs, history, what came in and what must go out are written down: structs of their own, apart from those the
// program thinks in, each with a version, so that a ledger written today can be read by a later strikeoff.
//
// A change that old records survive adds a field and leaves Version as it is: a missing field reads as its zero value, and a field that is
// not known is passed over. A change that they do not survive raises Version, and reads the older ones in the function of that record.
// Orders and plans stand inside as the order and plan contracts write them; their names are fixed there.
package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"

	"strikeoff/bot/job"
)

// Version is the newest version of a record that this program reads, and the one it writes. Records begin at 1.
const Version = 2 // 2: long records of jobs and history may be packed

// decode reads a record of a version that is known. The error is job.ErrTooNew for a record of a later version and job.ErrCorrupt for one
// that cannot be read.
func decode(what string, b []byte, into any) error {
	b, err := unpack(b)
	if err != nil {
		return fmt.Errorf("the record of %s: %w", what, err)
	}
	v, err := VersionOf(b)
	switch {
	case err != nil:
		return fmt.Errorf("%w: the record of %s cannot be read: %w", job.ErrCorrupt, what, err)
	case v > Version:
		return fmt.Errorf("%w: the record of %s has version %d, and this program reads up to %d", job.ErrTooNew, what, v, Version)
	}
	if err := json.Unmarshal(b, into); err != nil {
		return fmt.Errorf("%w: the record of %s cannot be read: %w", job.ErrCorrupt, what, err)
	}
	return nil
}

// prefix is how every record begins, so that its version can be told without reading it whole.
const prefix = `{"v":`

// VersionOf is a record's version, read from its first bytes once unpacked. A record without one is an error.
func VersionOf(b []byte) (int, error) {
	b, err := unpack(b)
	if err != nil {
		return 0, err
	}
	rest, ok := bytes.CutPrefix(b, []byte(prefix))
	end := bytes.IndexAny(rest, ",}")
	if !ok || end < 1 {
		return 0, fmt.Errorf("it does not begin with a version")
	}
	v, err := strconv.Atoi(string(rest[:end]))
	if err != nil || v < 1 {
		return 0, fmt.Errorf("its version %.20q is no number from 1 up", rest[:end])
	}
	return v, nil
}

// encode writes a record. Only a year beyond 9999 or a figure that is no number cannot be written.
func encode(what string, r any) ([]byte, error) {
	b, err := json.Marshal(r)
	if err != nil {
		return nil, fmt.Errorf("the record of %s cannot be written: %w", what, err)
	}
	return b, nil
}
