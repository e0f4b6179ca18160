package bot

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"strikeoff/bot/job"
)

// ErrNoKey says that a door handed in a message without a key, which could not be told from its redelivery.
var ErrNoKey = errors.New("the message has no key")

// Keep keeps a message under its key and wakes the workers. A door calls it before it acknowledges the message to the platform; where it
// fails, nothing was kept, the door does not acknowledge, and shows the person the sentence from [Down]. It reports whether the message
// is new: a redelivery is kept once and needs nothing more.
//
// An order that a program hands in is read, planned and saved before Keep returns, where that can be done at once.
//
// Text that is no valid UTF-8 is made so, and a text longer than Limits.TextBytes is cut.
func (d *Desk) Keep(ctx context.Context, in Inbound) (fresh bool, err error) {
	d.setup()
	if in.Key == "" {
		return false, ErrNoKey
	}
	if in.Sort == "" {
		in.Sort = job.Message
	}
	if in.Anchor == "" {
		in.Anchor = in.Place.Thread
	}
	in.Text = trimText(in.Text, d.Limits.TextBytes)
	in.Kept = d.Now()
	ctx, cancel := context.WithTimeout(ctx, d.Limits.Call)
	defer cancel()
	if standsAlone(in) {
		fresh, done, err := d.atOnce(ctx, in)
		if err != nil {
			return false, fmt.Errorf("keep order %s: %w", in.Key, err)
		}
		if done {
			return fresh, nil
		}
	}
	fresh, err = d.Ledger.Keep(ctx, in)
	if err != nil {
		return false, fmt.Errorf("keep message %s: %w", in.Key, err)
	}
	wake(d.wakeIn)
	return fresh, nil
}

// trimText is text as valid UTF-8 of at most n bytes.
func trimText(text string, n int) string {
	text = strings.ToValidUTF8(text, "\uFFFD")
	if len(text) <= n {
		return text
	}
	return strings.ToValidUTF8(text[:n], "")
}

// errKept marks an error that came after a message was kept: nothing of it is lost.
var errKept = errors.New("what was said is kept")

// Down is what a door shows a person when Keep failed; or when Work, Alert or Deliver did, where somebody waits for these.
func Down(err error) string {
	switch {
	case err == nil:
		return ""
	case errors.Is(err, errKept):
		return "What you said is kept, but cannot be answered now: the ledger cannot be reached. The answer comes when it can; you need not say it again."
	case errors.Is(err, job.ErrTooNew):
		return "Nothing was kept: the ledger was written by a newer strikeoff than this one. Tell whoever runs it, and say it again after."
	case errors.Is(err, job.ErrCorrupt):
		return "Nothing was kept: the ledger is damaged. Tell whoever runs it, and say it again after."
	}
	return "Nothing was kept: the ledger cannot be reached. Please say it again in a minute."
}

// Down is the function of that name, for doors that know the desk as an interface.
func (d *Desk) Down(err error) string { return Down(err) }
