package bot_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
)

// shownPages are pages that only count their wall links.
type shownPages struct{ walls int }

func (p *shownPages) JobLink(id job.ID, until time.Time) string {
	return fmt.Sprintf("https://desk.example/jobs/%d?until=%d", id, until.Unix())
}
func (p *shownPages) BoardLink(until time.Time) string {
	return fmt.Sprintf("https://desk.example/board?until=%d", until.Unix())
}
func (p *shownPages) MakeWall(context.Context) (string, error) {
	p.walls++
	return fmt.Sprintf("https://desk.example/board?wall=%d", p.walls), nil
}
func (p *shownPages) RevokeWall(context.Context) error { p.walls = 0; return nil }

// Ensure links to pages are given in chat: a job's and the board's to all, the wall's to a lead alone; and that a shop without pages says so.
func TestLinks(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(openBolt(t), clock)
	p := bottest.NewPlatform(t, d)
	say := func(who bottest.Who, thread, text string) string {
		at := p.Say(who, thread, text)
		bottest.Settle(t, d)
		return at
	}
	holds := func(what string, posts []string, want string) {
		t.Helper()
		if !slices.ContainsFunc(posts, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("%s: no post holds %q: %q", what, want, posts)
		}
	}

	at := say(bottest.Lead, "", "wall")
	holds("a shop without pages", p.Seen(at), "shows no pages")

	pages := &shownPages{}
	d.Links = pages
	at = say(bottest.Rep, "", bottest.Request)
	say(bottest.Rep, at, "job 1")
	until := clock.Now().Add(24 * time.Hour).Unix()
	holds("job 1", p.Seen(at), fmt.Sprintf("https://desk.example/jobs/1?until=%d", until))
	list := say(bottest.Rep, "", "jobs")
	holds("jobs", p.Seen(list), fmt.Sprintf("https://desk.example/board?until=%d", until))

	no := say(bottest.Rep, "", "wall")
	holds("a rep asks for the wall", p.Seen(no), "Only a production lead")
	if pages.walls != 0 {
		t.Error("a rep made a wall link")
	}
	open := say(bottest.Lead, "", "wall")
	holds("a lead asks for the wall", p.Private(bottest.Lead), "https://desk.example/board?wall=1")
	if slices.ContainsFunc(p.Seen(open), func(s string) bool { return strings.Contains(s, "wall=1") }) {
		t.Error("the wall link was shown to everybody")
	}
	say(bottest.Lead, "", "wall off")
	if pages.walls != 0 {
		t.Error("the wall link still holds")
	}
	talk := say(bottest.Lead, "", "wall paint is dry")
	if posts := p.Seen(talk); len(posts) > 0 {
		t.Errorf("talk about a wall was answered: %q", posts)
	}
}

var _ bot.Links = (*shownPages)(nil)
