package bot

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"strikeoff/bot/job"
	"strikeoff/intake"
	"strikeoff/rules"
)

// turn is one message being answered: who said it where, the job that it is about, and what comes of it. Nothing of a turn happens before
// it is saved, and all of it at once: a turn that meets a stale job is thrown away and played again.
type turn struct {
	d   *Desk
	ctx context.Context
	in  Inbound
	by  job.Actor
	now time.Time // in the shop's zone

	was     job.Job     // the job as the ledger has it; ID 0 where none is talked about
	job     job.Job     // the job as it becomes
	entries []job.Entry // what happened to it
	out     []Outbound
	posts   int    // direct answers so far, for their keys
	hint    string // how the command is typed that the message begins like, where it was taken for talk
}

// turn begins to answer a message.
func (d *Desk) turn(ctx context.Context, in Inbound) *turn {
	return &turn{d: d, ctx: ctx, in: in, by: d.actor(in), now: d.Now().In(d.Zone)}
}

// load makes a job the one that is talked about.
func (t *turn) load(id job.ID) error {
	j, err := t.d.Ledger.Load(t.ctx, id)
	if err != nil {
		return err
	}
	t.was, t.job = j, j
	return nil
}

// here is the newest job of the thread in which the message stands, 0 where there is none.
func (t *turn) here() (job.ID, error) {
	if t.in.Place.Thread == "" {
		return 0, nil
	}
	id, err := t.d.Ledger.InThread(t.ctx, t.in.Place)
	if errors.Is(err, job.ErrNoJob) {
		return 0, nil
	}
	return id, err
}

// thread is where an answer to the message goes.
func (t *turn) thread() Place {
	p := t.in.Place
	if t.in.Anchor != "" {
		p.Thread = t.in.Anchor
	}
	return p
}

// today is the calendar day in the shop.
func (t *turn) today() rules.Date { return rules.DateOf(t.now) }

// options are how this message is to be read: relative dates count from the day it was said.
func (t *turn) options() intake.Options {
	said := t.in.Said
	if said.IsZero() {
		said = t.now
	}
	return t.on(said)
}

// happen takes one event on the job. Where the job does not allow it the error is a *job.Fault and the turn is as it was.
func (t *turn) happen(e job.Event) error {
	if e.By.ID == "" && e.By.Role == "" {
		e.By = t.by
	}
	if e.Where == (Place{}) {
		e.Where = t.in.Place
	}
	if e.Message == "" {
		e.Message = t.in.Key
	}
	e.At = t.now
	next, entries, _, err := job.Apply(t.job, t.now, e)
	if err != nil {
		return err
	}
	t.job, t.entries = next, append(t.entries, entries...)
	return nil
}

// plan answers an order for this job, with what is known of it beyond the order.
func (t *turn) plan(o rules.Order, rec rules.Record) (rules.Plan, rules.Record) {
	rec.Today = t.today()
	return t.d.Decide(o, t.d.Shop, rec), rec
}

// answer says something back to whoever wrote, where they wrote: for everybody to read, or to them alone.
func (t *turn) answer(p Post, alone bool) {
	t.posts++
	o := Outbound{Key: fmt.Sprintf("%s/answer%d", t.in.Key, t.posts), Job: t.job.ID, Place: t.thread(), Reply: t.in.Reply}
	if alone {
		o.To = t.in.By.ID
	}
	t.send(o, p)
}

// reply answers a question: in the thread where it was typed, alone where it came from a button or a slash command.
func (t *turn) reply(p Post) { t.answer(p, t.in.Sort == job.Command) }

// say is reply with one or a few plain sentences.
func (t *turn) say(text string) { t.reply(Post{Text: text}) }

// tell says one line in the job's thread, for everybody to see. Where the message came from elsewhere, whoever wrote it is answered too.
func (t *turn) tell(text string) {
	home := t.job.Place
	if home == t.thread() {
		t.answer(Post{Text: text}, false)
		return
	}
	t.posts++
	t.send(Outbound{Key: fmt.Sprintf("%s/line%d", t.in.Key, t.posts), Job: t.job.ID, Place: home}, Post{Text: text})
	t.say(text)
}

// heard reports whether somebody may listen at a place.
func (t *turn) heard(p Place) bool {
	l, ok := t.d.Doors[p.Door].(Listener)
	return !ok || l.Listens(p)
}

// send lays a post by, to go out once the turn is saved.
func (t *turn) send(o Outbound, p Post) {
	if !t.heard(o.Place) {
		return
	}
	b, err := json.Marshal(p)
	if err != nil {
		t.d.Log.Error("a post cannot be written down", "key", o.Key, "err", err)
		return
	}
	o.Payload = b
	if o.At.IsZero() {
		o.At = t.now.UTC()
	}
	t.out = append(t.out, o)
}

// replans are the kinds of event that make another plan, or may: people must see the card anew.
var replans = []job.Kind{job.Opened, job.Amended, job.Picked, job.RefusedIt}

// show brings the job's card up to date in its thread.
func (t *turn) show() {
	if !t.heard(t.job.Place) {
		return // a card takes longer to draw up than all the rest
	}
	anew := t.job.PlanRev != t.was.PlanRev || slices.ContainsFunc(t.entries, func(e job.Entry) bool {
		return slices.Contains(replans, e.Kind) || e.Kind == job.StepRead && !e.Pass
	})
	card := CardOf(t.job, t.now, t.d.Zone)
	t.send(Outbound{Key: t.in.Key + "/card", Job: t.job.ID, Place: t.job.Place, Slot: fmt.Sprintf("job-%d", t.job.ID)}, Post{Card: &card, Anew: anew})
}

// also is what must go out: what the turn says, and what the program adds for every change of a job.
func (t *turn) also() []Outbound {
	if t.d.Also == nil || len(t.entries) == 0 {
		return t.out
	}
	more := t.d.Also(t.was, t.job, t.entries)
	for i := range more {
		if more[i].At.IsZero() {
			more[i].At = t.now.UTC()
		}
	}
	return append(t.out, more...)
}

// save keeps what the turn did, and marks the message done.
func (t *turn) save() error {
	c := job.Change{Done: t.in.Key}
	if len(t.entries) > 0 {
		t.show()
		c.Next = t.alert()
		c.Job, c.Expect, c.Entries = &t.job, t.was.Revision, t.entries
	}
	c.Out = t.also()
	if err := t.d.Ledger.Save(t.ctx, c); err != nil {
		return err
	}
	if len(c.Out) > 0 {
		wake(t.d.wakeOut)
	}
	if c.Job != nil {
		wake(t.d.wakeBell)
	}
	return nil
}

// excuse says a fault to whoever met it, alone where their role is not enough; any other error is passed on.
func (t *turn) excuse(err error) error {
	f, ok := errors.AsType[*job.Fault](err)
	if !ok {
		return err
	}
	if f.Kind == job.Malformed {
		t.d.Log.Error("an event lacks what it needs", "job", t.job.ID, "message", t.in.Key, "err", err)
	}
	t.answer(Post{Text: f.Say}, f.Kind == job.NotAllowed || t.in.Sort == job.Command)
	return nil
}
