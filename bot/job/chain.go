package job

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"time"
)

// Apply takes events one after the other: the job they make of it, the entries of its history, and what must go out. Where one is refused
// none is taken. It is Step and Chain together: the job's LastHash is that of the last entry.
func Apply(j Job, now time.Time, events ...Event) (Job, []Entry, []Effect, error) {
	next, effects := j, []Effect(nil)
	dated := make([]Event, len(events))
	for i, e := range events {
		e.At = happened(e, now)
		dated[i] = e
		n, fx, err := Step(next, e, now)
		if err != nil {
			return j, nil, nil, err
		}
		next, effects = n, append(effects, fx...)
	}
	entries := Chain(j, dated)
	if len(entries) > 0 {
		next.LastHash = entries[len(entries)-1].Hash
	}
	return next, entries, effects, nil
}

// Chain makes events into the entries that follow a job's history. The job is the one before the events; their times must be set. The job
// after them must carry the last entry's hash as LastHash.
func Chain(j Job, events []Event) []Entry {
	out := make([]Entry, 0, len(events))
	seq, prev := j.Revision, j.LastHash
	for _, e := range events {
		seq++
		en := Entry{Job: j.ID, Seq: seq, Prev: prev, Event: e, Body: body(e)}
		en.Hash = en.sum()
		prev = en.Hash
		out = append(out, en)
	}
	return out
}

// sum is the hash of an entry: SHA-256, in hex, over the hash before it, the job, the place in the history, and the event's bytes.
func (en Entry) sum() string {
	h := sha256.New()
	for _, part := range []string{en.Prev, strconv.FormatInt(int64(en.Job), 10), strconv.Itoa(en.Seq)} {
		h.Write([]byte(part))
		h.Write([]byte{'\n'})
	}
	b := en.Body
	if b == nil {
		b = body(en.Event)
	}
	h.Write(b)
	return hex.EncodeToString(h.Sum(nil))
}

// ErrTampered is a history that is not as it was written.
var ErrTampered = errors.New("the history is not as it was written")

// Verify checks that a job's whole history, oldest entry first, is as it was written. It cannot see that the newest entries are missing: VerifyJob can.
func Verify(entries []Entry) error {
	if len(entries) == 0 {
		return fmt.Errorf("%w: there is none", ErrTampered)
	}
	prev := ""
	for i, en := range entries {
		switch {
		case en.Job != entries[0].Job:
			return fmt.Errorf("%w: entry %d belongs to job %d, not to job %d", ErrTampered, i+1, en.Job, entries[0].Job)
		case en.Seq != i+1:
			return fmt.Errorf("%w: entry %d stands where entry %d should", ErrTampered, en.Seq, i+1)
		case en.Prev != prev:
			return fmt.Errorf("%w: entry %d does not follow the one before it", ErrTampered, en.Seq)
		case en.Hash != en.sum():
			return fmt.Errorf("%w: entry %d (%s) was changed", ErrTampered, en.Seq, en.Kind)
		case !en.whole():
			return fmt.Errorf("%w: entry %d (%s) says something else than was written", ErrTampered, en.Seq, en.Kind)
		}
		prev = en.Hash
	}
	return nil
}

// whole reports whether the entry's event is the one in its bytes.
func (en Entry) whole() bool {
	if en.Body == nil {
		return true
	}
	var e Event
	if json.Unmarshal(en.Body, &e) != nil {
		return false
	}
	return bytes.Equal(body(e), body(en.Event))
}
