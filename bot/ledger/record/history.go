package record

import (
	"encoding/json"
	"fmt"

	"strikeoff/bot/job"
)

// entryRecord is an entry of a job's history as it is kept. The event stands in it byte for byte as it was hashed.
type entryRecord struct {
	V     int             `json:"v"`
	Job   int64           `json:"job"`
	Seq   int             `json:"seq"`
	Prev  string          `json:"prev"`
	Hash  string          `json:"hash"`
	Event json.RawMessage `json:"event"`
}

// Entry writes an entry down.
func Entry(en job.Entry) ([]byte, error) {
	what := fmt.Sprintf("entry %d of job %d", en.Seq, en.Job)
	body := en.Body
	if body == nil {
		b, err := encode(what, en.Event)
		if err != nil {
			return nil, err
		}
		body = b
	}
	head, err := encode(what, entryRecord{V: Version, Job: int64(en.Job), Seq: en.Seq, Prev: en.Prev, Hash: en.Hash, Event: json.RawMessage("0")})
	if err != nil {
		return nil, err
	}
	// The event goes in as it is: the encoder would go through all of it again, and it is most of the record.
	out := make([]byte, 0, len(head)+len(body))
	return pack(append(append(append(out, head[:len(head)-len("0}")]...), body...), '}')), nil
}

// ReadEntry reads an entry that was written down. It does not check the hash: job.Verify does, over the whole history.
func ReadEntry(b []byte) (job.Entry, error) {
	var r entryRecord
	if err := decode("a job's history", b, &r); err != nil {
		return job.Entry{}, err
	}
	en := job.Entry{Job: job.ID(r.Job), Seq: r.Seq, Prev: r.Prev, Hash: r.Hash, Body: r.Event}
	if err := json.Unmarshal(r.Event, &en.Event); err != nil {
		return job.Entry{}, fmt.Errorf("%w: entry %d of job %d cannot be read: %w", job.ErrCorrupt, r.Seq, r.Job, err)
	}
	return en, nil
}
