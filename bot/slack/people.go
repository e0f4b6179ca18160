package slack

import (
	"cmp"
	"context"
	"sync"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// How long what Slack says about people is believed, and how long one question may take: an acknowledgement waits for it.
const (
	nameLife  = time.Hour
	groupLife = 5 * time.Minute
	missLife  = time.Minute // a question that failed is not asked again for so long
	askLimit  = time.Second
)

// people remembers names and user groups.
type people struct {
	d     *Door
	mu    sync.Mutex
	names map[string]known

	groupMu  sync.Mutex
	groups   map[string][]string // user groups by user
	groupsAt time.Time           // when they were read; zero before
	nextTry  time.Time
}

type known struct {
	name string
	till time.Time
}

// person is somebody as the desk knows them. hint is a name that came with the event, used where Slack does not tell.
func (p *people) person(ctx context.Context, id, hint string) bot.Person {
	return bot.Person{ID: id, Name: p.name(ctx, id, hint), Groups: p.of(ctx, id)}
}

// name is a user's name to show; the id where nobody knows.
func (p *people) name(ctx context.Context, id, hint string) string {
	return p.lookUp(ctx, id, hint, "users.info", func(ctx context.Context) (string, error) {
		u, err := p.d.api.GetUserInfoContext(ctx, id)
		if err != nil {
			return "", err
		}
		return cmp.Or(u.Profile.DisplayName, u.Profile.RealName, u.RealName, u.Name), nil
	})
}

// of lists the user groups that a user is in. What was read once is used while newer is being read; where nothing could be read yet the
// list is empty, which makes nobody a lead.
func (p *people) of(ctx context.Context, id string) []string {
	p.groupMu.Lock()
	defer p.groupMu.Unlock()
	now := p.d.c.Now()
	if now.Sub(p.groupsAt) >= groupLife && !now.Before(p.nextTry) {
		p.nextTry = now.Add(missLife)
		if p.groupsAt.IsZero() {
			p.set(p.read(ctx))
		} else {
			p.d.later(func(ctx context.Context) {
				g, err := p.read(ctx)
				p.groupMu.Lock()
				defer p.groupMu.Unlock()
				p.set(g, err)
			})
		}
	}
	return append([]string(nil), p.groups[id]...)
}

// set takes over what was read. The lock is held.
func (p *people) set(g map[string][]string, err error) {
	if err != nil {
		p.d.log.Warn("the user groups could not be read: leads named by group count as reps where they are not known yet", "err", err)
		return
	}
	p.groups, p.groupsAt = g, p.d.c.Now()
	p.nextTry = time.Time{}
}

func (p *people) read(ctx context.Context) (map[string][]string, error) {
	if err := p.d.open("usergroups.list", ""); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, askLimit)
	defer cancel()
	list, err := p.d.api.GetUserGroupsContext(ctx, sdk.GetUserGroupsOptionIncludeUsers(true))
	if err != nil {
		return nil, p.d.failed("usergroups.list", "", err)
	}
	out := map[string][]string{}
	for _, g := range list {
		for _, u := range g.Users {
			out[u] = append(out[u], g.ID)
		}
	}
	return out, nil
}

// forget drops a name that has changed.
func (p *people) forget(id string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.names, id)
}

// teller gives names by id, of people and of channels, for texts that mention them.
func (p *people) teller(ctx context.Context) func(id string) string {
	return func(id string) string {
		if id != "" && (id[0] == 'C' || id[0] == 'G') {
			return p.room(ctx, id)
		}
		return p.name(ctx, id, "")
	}
}

// room is a channel's name to show; the id where nobody knows.
func (p *people) room(ctx context.Context, id string) string {
	return p.lookUp(ctx, id, "", "conversations.info", func(ctx context.Context) (string, error) {
		c, err := p.d.api.GetConversationInfoContext(ctx, &sdk.GetConversationInfoInput{ChannelID: id})
		if err != nil {
			return "", err
		}
		return c.Name, nil
	})
}

// lookUp is a name by id, remembered. hint is used, or else the id, where Slack does not tell.
func (p *people) lookUp(ctx context.Context, id, hint, method string, ask func(context.Context) (string, error)) string {
	now := p.d.c.Now()
	p.mu.Lock()
	k, ok := p.names[id]
	p.mu.Unlock()
	if ok && now.Before(k.till) {
		return k.name
	}
	name, life := hint, missLife
	if name == "" {
		name = id
	}
	if ok {
		name = k.name
	}
	if p.d.open(method, "") == nil {
		ctx, cancel := context.WithTimeout(ctx, askLimit)
		defer cancel()
		switch n, err := ask(ctx); {
		case err != nil:
			p.d.log.Warn("a name could not be read", "id", id, "err", p.d.failed(method, "", err))
		case n != "":
			name, life = n, nameLife
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.names == nil || len(p.names) > 10000 { // nobody has so many colleagues: start over rather than grow for ever
		p.names = map[string]known{}
	}
	p.names[id] = known{name, now.Add(life)}
	return name
}
