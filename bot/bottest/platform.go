package bottest

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

// Door is the recording platform's door.
const Door = "paper"

// Platform is a chat platform that only keeps what it was told. It is a Stage, and a Poster that can be made to fail.
type Platform struct {
	t    testing.TB
	desk *bot.Desk

	mu    sync.Mutex
	fail  func(bot.Parcel) error
	watch func(bot.Parcel)
	posts []Posted
	told  map[Who][]string // what Keep's failure told a person
	ids   int
	last  bot.Inbound
	said  map[string]bot.Inbound // messages by their own id, which is the anchor of one outside a thread
	by    map[string]Who         // people by id
}

// Posted is a post as it stands on the recording platform.
type Posted struct {
	Ref     string
	Parcel  bot.Parcel // the latest parcel that wrote it
	Updates int        // how often it was brought up to date
}

// NewPlatform sets the recording platform up against a desk.
func NewPlatform(t testing.TB, d *bot.Desk) *Platform {
	p := &Platform{t: t, told: map[Who][]string{}, said: map[string]bot.Inbound{}, by: map[string]Who{id(Rep): Rep, id(Lead): Lead}}
	p.Join(d)
	return p
}

// Join sets the platform up against another desk, as when a program is started again: what was posted stands.
func (p *Platform) Join(d *bot.Desk) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.desk = d
	d.Doors = map[string]bot.Poster{Door: p}
	d.Roster = map[string]bot.Leads{Door: {People: []string{id(Lead)}}}
	d.Production = map[string]bot.Place{Door: {Door: Door, Room: "production"}}
}

// id is a person's id on the recording platform.
func id(who Who) string { return "id-" + strings.ToLower(strings.Fields(string(who))[0]) }

// Say keeps a message.
func (p *Platform) Say(who Who, thread, text string) (anchor string) {
	in := p.inbound(job.Message, who, thread, text)
	p.keep(who, in)
	return in.Anchor
}

// Press keeps a command.
func (p *Platform) Press(who Who, thread, command string) {
	p.keep(who, p.inbound(job.Command, who, thread, command))
}

// Edit keeps an edit of an earlier message.
func (p *Platform) Edit(who Who, anchor, text string) { p.about(job.Edited, who, anchor, text) }

// Delete keeps that an earlier message was taken back.
func (p *Platform) Delete(who Who, anchor string) { p.about(job.Deleted, who, anchor, "") }

// Ask keeps that somebody wants an earlier message read as an order.
func (p *Platform) Ask(who Who, anchor, text string) { p.about(job.Shortcut, who, anchor, text) }

// Redeliver keeps the last thing again.
func (p *Platform) Redeliver() {
	p.mu.Lock()
	in := p.last
	p.mu.Unlock()
	if fresh, err := p.desk.Keep(p.t.Context(), in); err != nil || fresh {
		p.t.Errorf("a redelivery was kept as fresh = %v, %v; want false, nil", fresh, err)
	}
}

// Call keeps a message that calls the desk by name.
func (p *Platform) Call(who Who, thread, text string) (anchor string) {
	in := p.inbound(job.Message, who, thread, text)
	in.Called = true
	p.keep(who, in)
	return in.Anchor
}

// Paste keeps a message that another program wrote.
func (p *Platform) Paste(thread, text string) (anchor string) {
	in := p.inbound(job.Message, "Form bot (invented)", thread, text)
	in.By.Bot = true
	p.keep("", in)
	return in.Anchor
}

// Last is the id of what was said last, to be edited or deleted by.
func (p *Platform) Last() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return strings.TrimPrefix(p.last.Key, Door+":")
}

// about keeps something about an earlier message.
func (p *Platform) about(sort job.Sort, who Who, anchor, text string) {
	p.mu.Lock()
	of, ok := p.said[anchor]
	p.mu.Unlock()
	if !ok {
		p.t.Fatalf("nothing was said under %q", anchor)
	}
	in := p.inbound(sort, who, of.Place.Thread, text)
	in.Of, in.Anchor = of.Key, of.Anchor
	p.keep(who, in)
}

// inbound makes a message with ids of its own.
func (p *Platform) inbound(sort job.Sort, who Who, thread, text string) bot.Inbound {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.ids++
	key := fmt.Sprintf("%s:m%d", Door, p.ids)
	anchor := thread
	if thread == "" && sort == job.Message {
		anchor = fmt.Sprintf("m%d", p.ids)
	}
	in := bot.Inbound{Key: key, Sort: sort, Place: bot.Place{Door: Door, Room: "orders", Thread: thread}, Anchor: anchor,
		By: bot.Person{ID: id(who), Name: string(who)}, Text: text, Said: p.desk.Now()}
	if sort == job.Message {
		p.said[fmt.Sprintf("m%d", p.ids)] = in
	}
	return in
}

// keep hands a message to the desk, and tells the person where that fails.
func (p *Platform) keep(who Who, in bot.Inbound) {
	_, err := p.desk.Keep(p.t.Context(), in)
	p.mu.Lock()
	defer p.mu.Unlock()
	p.last = in
	if err != nil {
		p.told[who] = append(p.told[who], bot.Down(err))
	}
}

// FailWith makes posting fail with what f returns, until it is called with nil.
func (p *Platform) FailWith(f func(bot.Parcel) error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.fail = f
}

// Watch has every parcel that is put up shown to f.
func (p *Platform) Watch(f func(bot.Parcel)) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.watch = f
}

// Post records a post, or fails on demand.
func (p *Platform) Post(ctx context.Context, parcel bot.Parcel) (string, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.fail != nil {
		if err := p.fail(parcel); err != nil {
			return "", err
		}
	}
	if p.watch != nil {
		p.watch(parcel)
	}
	if parcel.Ref != "" {
		i := slices.IndexFunc(p.posts, func(x Posted) bool { return x.Ref == parcel.Ref })
		if i < 0 {
			return "", bot.Permanent(fmt.Errorf("there is no post %q", parcel.Ref))
		}
		p.posts[i].Parcel = parcel
		p.posts[i].Updates++
		return parcel.Ref, nil
	}
	ref := fmt.Sprintf("p%d", len(p.posts)+1)
	p.posts = append(p.posts, Posted{Ref: ref, Parcel: parcel})
	return ref, nil
}

// WhoIs is the person that a private post is for.
func (p *Platform) WhoIs(id string) Who { return p.by[id] }

// Posts is every post as it stands, oldest first.
func (p *Platform) Posts() []Posted {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.posts)
}

// Seen is the posts of a thread as text.
func (p *Platform) Seen(thread string) []string {
	var out []string
	for _, x := range p.Posts() {
		at := x.Parcel.Place
		if x.Parcel.To == "" && (at.Thread == thread && at.Room == "orders" || thread == Production && at.Room == "production") {
			out = append(out, bot.Text(x.Parcel.Post, 0))
		}
	}
	return out
}

// Private is what one person was shown alone.
func (p *Platform) Private(who Who) []string {
	var out []string
	for _, x := range p.Posts() {
		if x.Parcel.To == id(who) {
			out = append(out, bot.Text(x.Parcel.Post, 0))
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return append(out, p.told[who]...)
}
