package discord

import (
	"context"
	"net/http"
	"slices"
	"strings"
	"time"
)

// The kinds of application command, and of their options.
const (
	commandTyped     = 1
	commandOnMessage = 3
	optionText       = 3
	optionNumber     = 4
)

// readAsOrder is the command on a message.
const readAsOrder = "Read as order"

// slash is a command that can be typed after a stroke. What it hands in is its name and its options in order, as it would be typed in a
// thread: it is the desk that knows what they mean.
type slash struct {
	name, does string
	args       []arg
}

type arg struct {
	name, does string
	number     bool
	must       bool
	offers     bool   // completed while it is typed
	lead       string // stands before the value
}

var (
	theJob  = arg{name: "job", does: "The job's number", number: true, must: true, offers: true}
	theStep = arg{name: "step", does: "The check that was read", must: true, offers: true}
)

// slashes are the commands. Required options stand first: Discord insists on it.
var slashes = []slash{
	{"jobs", "List the jobs that want something", []arg{{name: "which", does: "A state, or all; left out: the open ones", offers: true}, {name: "before", does: "Only jobs below this number", number: true, lead: "before "}}},
	{"job", "Show a job's card", []arg{theJob}},
	{"why", "Say why a method was picked, or was not", []arg{theJob, {name: "method", does: "A method", offers: true}}},
	{"pick", "Take another method", []arg{theJob, {name: "method", does: "The method", must: true, offers: true},
		{name: "print", does: "Which print: a place, 1.2 for line 1 print 2, or all; left out where there is one"}}},
	{"amend", "Change what a job asks for", []arg{theJob, {name: "change", does: "What changes, as you would write it", must: true}}},
	{"printed", "Say that the test print was made", []arg{theJob}},
	{"pass", "Record that a check was passed", []arg{theJob, theStep,
		{name: "note", does: "What was seen or measured"}, {name: "early", does: "The reason, where it is read before its wait is over", lead: "early: "}}},
	{"fail", "Record that a check failed", []arg{theJob, theStep, {name: "note", does: "What was seen or measured", must: true}}},
	{"sign", "Sign the test print off", []arg{theJob}},
	{"refuse", "Turn the test print down", []arg{theJob, {name: "reason", does: "Why", must: true}}},
	{"close", "Close a job", []arg{theJob, {name: "reason", does: "Why"}}},
	{"reopen", "Open a closed job again", []arg{theJob}},
	{"wall", "Make the wall screen's link, or take it back", []arg{{name: "off", does: "off takes the link back; left out: a new link"}}},
	{"help", "Say what can be said to the desk", []arg{{name: "command", does: "One command to be told about"}}},
}

// slashText is a typed command as the desk reads it; false is a command that is not ours.
func slashText(d actionData) (string, bool) {
	i := slices.IndexFunc(slashes, func(s slash) bool { return s.name == d.Name })
	if i < 0 {
		return "", false
	}
	parts := []string{d.Name}
	for _, a := range slashes[i].args {
		for _, o := range d.Options.V {
			if o.Name == a.name && strings.TrimSpace(o.text()) != "" {
				parts = append(parts, a.lead+oneLine(o.text()))
			}
		}
	}
	return strings.Join(parts, " "), true
}

// command and its parts as Discord keeps them. The fields that Discord adds by itself are left out, so that what is there can be compared
// with what should be.
type appCommand struct {
	Type        int         `json:"type"`
	Name        string      `json:"name"`
	Description string      `json:"description"`
	Options     []appOption `json:"options,omitempty"`
}

type appOption struct {
	Type        int    `json:"type"`
	Name        string `json:"name"`
	Description string `json:"description"`
	Required    bool   `json:"required,omitempty"`
	Complete    bool   `json:"autocomplete,omitempty"`
	Least       int    `json:"min_value,omitempty"`
}

// wanted are the commands as they should stand at Discord.
func wanted() []appCommand {
	var out []appCommand
	for _, s := range slashes {
		c := appCommand{Type: commandTyped, Name: s.name, Description: s.does}
		for _, a := range s.args {
			o := appOption{Type: optionText, Name: a.name, Description: a.does, Required: a.must, Complete: a.offers}
			if a.number {
				o.Type, o.Least = optionNumber, 1
			}
			c.Options = append(c.Options, o)
		}
		out = append(out, c)
	}
	return append(out, appCommand{Type: commandOnMessage, Name: readAsOrder})
}

// register makes the commands stand at Discord as they should, in each named server or else everywhere. It writes only where they differ:
// a server takes 200 new commands a day. Where they stand everywhere, what stood in single servers while trying is taken away, or people
// would be offered everything twice.
func (c *Chat) register(ctx context.Context) {
	if len(c.cfg.GuildIDs) > 0 {
		for _, g := range c.cfg.GuildIDs {
			c.registerIn(ctx, c.guildScope(g), wanted())
		}
		return
	}
	c.registerIn(ctx, "/applications/"+c.app()+"/commands", wanted())
	for c.guilds.Load() == nil {
		if sleep(ctx, 100*time.Millisecond) != nil {
			return
		}
	}
	for _, g := range *c.guilds.Load() {
		c.registerIn(ctx, c.guildScope(g), []appCommand{})
	}
}

func (c *Chat) guildScope(guild string) string {
	return "/applications/" + c.app() + "/guilds/" + guild + "/commands"
}

// registerIn makes the commands of one scope as they should be, again until it is done, refused, or ctx ends.
func (c *Chat) registerIn(ctx context.Context, scope string, want []appCommand) {
	for wait := time.Second; ; wait = min(2*wait, 5*time.Minute) {
		err := c.registerOnce(ctx, scope, want)
		if err == nil || ctx.Err() != nil {
			return
		}
		if refused(err) {
			c.log.Error("the commands could not be registered: invite the bot again with the scope applications.commands, and check the server's id", "err", err)
			return
		}
		c.log.Warn("the commands could not be registered; trying again", "err", err, "wait", wait)
		if sleep(ctx, wait) != nil {
			return
		}
	}
}

func (c *Chat) registerOnce(ctx context.Context, scope string, want []appCommand) error {
	var have []appCommand
	if err := c.rest.do(ctx, call{method: http.MethodGet, path: scope, again: true}, &have); err != nil {
		return err
	}
	if sameCommands(have, want) {
		return nil
	}
	if err := c.rest.do(ctx, call{method: http.MethodPut, path: scope, body: want, again: true}, nil); err != nil {
		return err
	}
	c.log.Info("the commands were registered", "scope", scope, "commands", len(want))
	return nil
}

// sameCommands compares two lists of commands whatever their order.
func sameCommands(a, b []appCommand) bool {
	if len(a) != len(b) {
		return false
	}
	for _, x := range a {
		if !slices.ContainsFunc(b, func(y appCommand) bool {
			return x.Type == y.Type && x.Name == y.Name && x.Description == y.Description && slices.Equal(x.Options, y.Options)
		}) {
			return false
		}
	}
	return true
}
