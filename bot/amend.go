package bot

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"strikeoff/bot/job"
	"strikeoff/intake"
)

// talk answers what is written in a job's thread: an answer or an amendment changes the job, anything else is silence.
func (t *turn) talk(id job.ID) error {
	if err := t.load(id); err != nil {
		return err
	}
	if t.job.State == job.Closed {
		if r := t.d.Read(t.in.Text, t.options()); r.IsOrder {
			return t.open(r) // the same customer comes back in the same thread
		}
	}
	changed, err := t.amend(t.in.Text)
	if err != nil || changed || !t.in.Called {
		return err
	}
	t.say(fmt.Sprintf("I read no change to job %d in that, and no command. Say it as in \"make it 60, in navy\", or type help.", id) + t.hinted())
	return nil
}

// amend reads a text as a change of the loaded job. It reports whether anything was said about it: a change, or what was odd.
func (t *turn) amend(text string) (bool, error) {
	r, changed := t.d.Amend(intake.Reading{Order: t.job.Order.Clone(), IsOrder: true}, text, t.options())
	odd := oddWords(r.Odd)
	if !changed {
		if len(odd) > 0 {
			t.say(strings.Join(odd, "\n"))
		}
		return len(odd) > 0, nil
	}
	if t.job.State == job.Closed {
		t.say(fmt.Sprintf("Job %d is closed, so nothing was changed. To change it, open it again first: reopen %d", t.job.ID, t.job.ID))
		return true, nil
	}
	return true, t.become(r, text, t.in.Key, odd)
}

// become gives the loaded job another order, which the message with that key caused, and says in one line what changed.
func (t *turn) become(r intake.Reading, text, message string, odd []string) error {
	before := t.job
	plan, rec := t.plan(r.Order, t.job.Record)
	if len(rec.Chosen) > 0 && newStop(before.Plan, plan) {
		rec.Chosen = nil // who picked did not see this stop, so did not pick in spite of it
		plan, rec = t.plan(r.Order, rec)
	}
	err := t.happen(job.Event{Kind: job.Amended, Message: message, Text: text, Order: &r.Order, Plan: &plan, Record: rec, Odd: odd})
	if err != nil {
		return t.excuse(err)
	}
	t.tell(strings.Join(append([]string{amendedWords(before, t.job) + t.nowWords(before)}, odd...), "\n"))
	return nil
}

// edited reads a request again that was changed in place; so too a message in a thread that had changed its job. Where the message had
// done nothing, what it says now is read as if it had just been said.
func (t *turn) edited() error {
	id, err := t.spoken()
	if err != nil {
		return err
	}
	if id == 0 {
		t.in.Sort = job.Message
		return t.message()
	}
	if err := t.load(id); err != nil {
		return err
	}
	return t.replay(map[string]string{t.in.Of: t.in.Text})
}

// spoken is the job that the message which this is about opened or changed, 0 where it did neither.
func (t *turn) spoken() (job.ID, error) {
	id, err := t.d.Ledger.FromMessage(t.ctx, t.in.Of)
	if err == nil || !errors.Is(err, job.ErrNoJob) {
		return id, err
	}
	place := t.thread()
	if place.Thread == "" {
		return 0, nil
	}
	id, err = t.d.Ledger.InThread(t.ctx, place)
	if errors.Is(err, job.ErrNoJob) {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	hist, err := t.d.Ledger.History(t.ctx, id)
	if err != nil {
		return 0, err
	}
	for _, e := range hist {
		if e.Message == t.in.Of && (e.Kind == job.Opened || e.Kind == job.Amended) {
			return id, nil
		}
	}
	return 0, nil
}

// replay reads all that was said about a job again, with some messages saying something else; "" is a message taken back.
func (t *turn) replay(now map[string]string) error {
	if t.job.State == job.Closed {
		return nil
	}
	hist, err := t.d.Ledger.History(t.ctx, t.job.ID)
	if err != nil {
		return err
	}
	words := said(hist)
	for i, w := range words {
		if text, ok := now[w.message]; ok {
			words[i].text = text
		}
	}
	if len(words) == 0 {
		return nil
	}
	r := t.d.Read(words[0].text, t.on(words[0].at)) // "by Friday" means what it meant when it was said
	if first := hist[0]; first.Data && first.Order != nil {
		r = intake.Reading{Order: first.Order.Clone(), IsOrder: true}
	}
	for _, w := range words[1:] {
		if w.text != "" {
			r, _ = t.d.Amend(r, w.text, t.on(w.at))
		}
	}
	if sameOrder(r.Order, t.job.Order) {
		return nil
	}
	return t.become(r, t.in.Text, t.in.Of, oddWords(r.Odd))
}

// saying is what one message said last about a job.
type saying struct {
	message, text string
	at            time.Time // when it was first heard
}

// said are the messages that made a job's order, in the order first said.
func said(hist []job.Entry) []saying {
	var out []saying
	at := map[string]int{}
	for _, e := range hist {
		if e.Kind != job.Opened && e.Kind != job.Amended {
			continue
		}
		if i, again := at[e.Message]; again {
			out[i].text = e.Text
			continue
		}
		at[e.Message] = len(out)
		out = append(out, saying{e.Message, e.Text, e.At})
	}
	return out
}

// deleted closes a job whose request was taken back; a job on test is not closed unasked. An amendment taken back is undone.
func (t *turn) deleted() error {
	id, err := t.spoken()
	if err != nil || id == 0 {
		return err
	}
	if err := t.load(id); err != nil {
		return err
	}
	hist, err := t.d.Ledger.History(t.ctx, id)
	if err != nil {
		return err
	}
	if len(hist) > 0 && hist[0].Message != t.in.Of {
		return t.replay(map[string]string{t.in.Of: ""})
	}
	switch t.job.State {
	case job.Closed:
		return nil
	case job.OnTest, job.Cleared, job.Refused:
		t.answer(Post{Text: fmt.Sprintf("The request of job %d was taken back, and its test print is made already. Is it off? Then type: close %d REASON", id, id)}, false)
		return nil
	}
	err = t.happen(job.Event{Kind: job.ClosedIt, Note: "the request was taken back"})
	if err != nil {
		return t.excuse(err)
	}
	t.tell(fmt.Sprintf("Job %d is closed: the request was taken back. To open it again, type: reopen %d", id, id))
	return nil
}
