package job

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Replay builds a job from its whole history, oldest entry first. The error is ErrTampered where the history does not verify, and wraps
// the Fault where it holds an event that could not have happened.
func Replay(entries []Entry) (Job, error) {
	if err := Verify(entries); err != nil {
		return Job{}, err
	}
	j := Job{ID: entries[0].Job}
	for _, en := range entries {
		next, _, err := Step(j, en.Event, en.At)
		if err != nil {
			return Job{}, fmt.Errorf("job %d, entry %d (%s) could not have happened: %w", j.ID, en.Seq, en.Kind, err)
		}
		next.LastHash = en.Hash
		j = next
	}
	return j, nil
}

// VerifyJob checks a stored job against its whole history: that the history is as it was written, that none of it is missing, and that the
// job is what the history makes of it.
func VerifyJob(j Job, entries []Entry) error {
	r, err := Replay(entries)
	if err != nil {
		return err
	}
	if r.Revision != j.Revision || r.LastHash != j.LastHash || r.ID != j.ID {
		return fmt.Errorf("%w: job %d is at revision %d, its history at %d", ErrTampered, j.ID, j.Revision, r.Revision)
	}
	if j.TriedRev == 0 {
		r.TriedRev = 0 // the job was written before this was kept
	}
	a, errA := json.Marshal(r)
	b, errB := json.Marshal(j)
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		return fmt.Errorf("%w: job %d is not what its history makes of it", ErrTampered, j.ID)
	}
	return nil
}
