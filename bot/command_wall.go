package bot

import (
	"strings"

	"strikeoff/bot/job"
)

var wallCommand = command{
	verb:  "wall",
	usage: Usage{Form: "wall [off]", Does: "makes the link that a wall screen shows the board by, or takes it back", Example: "wall", Lead: true},
	meant: func(_ job.Job, a args) bool {
		return a.id == 0 && !a.colon && (endsQuietly(a.rest) || strings.EqualFold(a.rest, "off"))
	},
	do: wall,
}

// wall makes or takes back the wall screen's link. Whoever holds it sees every job, so only a lead is given it, and alone.
func wall(t *turn, a args) error {
	switch {
	case t.by.Role != job.Lead:
		return half("Only a production lead can make or take back the wall link. Nothing has changed; ask a lead to type: wall")
	case t.d.Links == nil:
		return half("This desk shows no pages, so there is no board for a wall. Whoever runs it can open them with: strikeoff serve")
	case strings.EqualFold(a.rest, "off"):
		if err := t.d.Links.RevokeWall(t.ctx); err != nil {
			return err
		}
		t.say("The wall link is taken back: screens that showed the board by it stop. For a new one type: wall")
		return nil
	case !endsQuietly(a.rest):
		return half("For a new wall link type: wall. To take it back type: wall off")
	}
	url, err := t.d.Links.MakeWall(t.ctx)
	if err != nil {
		return err
	}
	t.answer(Post{Text: "Open this on the wall screen. It holds until somebody types wall off, and the link before it has stopped.",
		Link: &Link{Label: "The board", URL: url}}, true)
	return nil
}
