package record

import (
	"fmt"
	"time"

	"strikeoff/bot/job"
)

// Check says what is wrong with a change that no ledger should keep: entries that do not lead from the expected revision to the job's, or
// items without a key. Such a change is a mistake of the program.
func Check(c job.Change) error {
	if c.Done != "" {
		if err := CheckKey(c.Done); err != nil {
			return err
		}
	}
	for _, o := range c.Out {
		if err := CheckKey(o.Key); err != nil {
			return fmt.Errorf("a post cannot be kept: %w", err)
		}
	}
	if c.Job == nil {
		if len(c.Entries) > 0 {
			return fmt.Errorf("%d entries of history were given without their job", len(c.Entries))
		}
		return nil
	}
	j := *c.Job
	if j.ID <= 0 || c.Expect < 0 || j.Revision != c.Expect+len(c.Entries) {
		return fmt.Errorf("job %d goes from revision %d to %d with %d entries of history", j.ID, c.Expect, j.Revision, len(c.Entries))
	}
	for i, en := range c.Entries {
		if en.Job != j.ID || en.Seq != c.Expect+1+i {
			return fmt.Errorf("entry %d of job %d was given where entry %d of job %d belongs", en.Seq, en.Job, c.Expect+1+i, j.ID)
		}
	}
	return nil
}

// OpenedBy is the key of the message that opened a new job by this change; "" where the change opens none.
func OpenedBy(c job.Change) string {
	if c.Job == nil || c.Expect != 0 {
		return ""
	}
	for _, en := range c.Entries {
		if en.Kind == job.Opened && en.Message != "" {
			return en.Message
		}
	}
	return c.Done
}

// Remember is how long a ledger remembers the keys of what was done and sent, so that a late redelivery does nothing.
const Remember = 14 * 24 * time.Hour

// Milli is a time as ledgers compare it: milliseconds since 1970, rounded up, so that nothing is due before its time.
func Milli(t time.Time) int64 {
	ms := t.UnixMilli()
	if t.Nanosecond()%int(time.Millisecond) != 0 {
		ms++
	}
	return ms
}

// longestKey bounds keys, in bytes: a platform's ids are far shorter.
const longestKey = 1024

// CheckKey says what is wrong with a key.
func CheckKey(key string) error {
	if key == "" || len(key) > longestKey {
		return fmt.Errorf("a key must have 1 to %d bytes, this has %d", longestKey, len(key))
	}
	return nil
}
