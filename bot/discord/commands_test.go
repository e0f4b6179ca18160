package discord

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// Ensure commands are registered once, left alone while they are right, and put right when they are not.
func TestRegister(t *testing.T) {
	t.Parallel()
	f, d, chat, _, _ := stand(t, func(c *Config) { c.GuildIDs = []string{fakeGuild, "201"} })
	stop := f.start(t, chat)
	f.await("the commands", func() bool { return f.writes == 2 })
	stop()
	f.start(t, f.door(t, d, func(c *Config) { c.GuildIDs = []string{fakeGuild, "201"} }))
	scope := "/applications/" + fakeApp + "/guilds/201/commands"
	f.await("the second look", func() bool {
		n := 0
		for _, c := range f.calls {
			if c == "GET "+scope {
				n++
			}
		}
		return n == 2
	})
	if f.writes != 2 {
		t.Errorf("the commands were written %d times, want 2", f.writes)
	}
	f.mu.Lock()
	f.commands[scope] = json.RawMessage(`[{"type":1,"name":"jobs","description":"something else"}]`)
	f.mu.Unlock()
	f.start(t, f.door(t, d, func(c *Config) { c.GuildIDs = []string{"201"} }))
	f.await("the repair", func() bool { return f.writes == 3 })
	f.start(t, f.door(t, d, func(c *Config) { c.GuildIDs = nil }))
	f.await("the commands everywhere", func() bool { return f.commands["/applications/"+fakeApp+"/commands"] != nil })
	// Those of the server in which they were tried are gone, or they would be offered twice.
	f.await("the trial's commands to go", func() bool {
		return string(f.commands["/applications/"+fakeApp+"/guilds/"+fakeGuild+"/commands"]) == "[]"
	})
}

// Ensure every command of the desk can be typed after a stroke, save the one that the message command stands for, and no other.
func TestEveryCommand(t *testing.T) {
	var have []string
	for _, s := range slashes {
		have = append(have, s.name)
	}
	usages := bot.Commands()
	if len(usages) == 0 {
		t.Fatal("the desk has no commands")
	}
	for _, u := range usages {
		verb := strings.Trim(strings.Fields(u.Form)[0], ":")
		if i := slices.Index(have, verb); i >= 0 {
			have = slices.Delete(have, i, i+1)
		} else if verb != "order" { // a typed request has no message to answer under: Read as order is asked of one
			t.Errorf("the desk's %q cannot be typed after a stroke", verb)
		}
	}
	if len(have) > 0 {
		t.Errorf("commands that the desk does not know: %q", have)
	}
}

// Ensure a typed command becomes the words that would be said in a thread.
func TestSlashText(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{`{"name":"jobs"}`, "jobs"},
		{`{"name":"jobs","options":[{"name":"before","value":12},{"name":"which","value":"all"}]}`, "jobs all before 12"},
		{`{"name":"fail","options":[{"name":"note","value":" pink cast\nin the white "},{"name":"step","value":"wash"},{"name":"job","value":12}]}`, "fail 12 wash pink cast; in the white"},
		{`{"name":"pass","options":[{"name":"job","value":12},{"name":"step","value":"wash"},{"name":"early","value":"oven doubled"},{"name":"note","value":"dE 0.4"}]}`, "pass 12 wash dE 0.4 early: oven doubled"},
		{`{"name":"pick","options":[{"name":"job","value":3},{"name":"method","value":"dtf"},{"name":"print","value":"1.2"}]}`, "pick 3 dtf 1.2"},
		{`{"name":"frobnicate"}`, ""},
	} {
		var d actionData
		if err := json.Unmarshal([]byte(c.data), &d); err != nil {
			t.Fatal(err)
		}
		if got, ok := slashText(d); got != c.want || ok != (c.want != "") {
			t.Errorf("%s says %q, %v; want %q", c.data, got, ok, c.want)
		}
	}
}

// Ensure jobs, methods, states and steps are suggested while a command is typed.
func TestSuggestions(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	f.start(t, chat)
	f.say(fakeRep, fakeOrders, bottest.Request)
	f.say(fakeRep, fakeOrders, order(48))
	f.await("the requests", func() bool { return len(w.all()) == 2 })
	bottest.Settle(t, d)
	send := f.overHTTP(chat.Interactions())
	opt := func(name string, v any, focused bool) map[string]any {
		return map[string]any{"name": name, "type": optionText, "value": v, "focused": focused}
	}
	for _, c := range []struct {
		name, command string
		options       []map[string]any
		want          []string // values, as text
	}{
		{"all open jobs", "sign", []map[string]any{opt("job", "", true)}, []string{"2", "1"}},
		{"a job by number", "sign", []map[string]any{opt("job", "1", true)}, []string{"1"}},
		{"a job by its customer", "sign", []map[string]any{opt("job", "larks", true)}, []string{"1"}},
		{"closed jobs to open again", "reopen", []map[string]any{opt("job", "", true)}, nil},
		{"a method", "pick", []map[string]any{opt("job", 1, false), opt("method", "dt", true)}, []string{"dtg", "dtf"}},
		{"a state", "jobs", []map[string]any{opt("which", "test", true)}, []string{"test-due", "on-test"}},
		{"a step of the job", "pass", []map[string]any{opt("job", 1, false), opt("step", "w", true)}, []string{"wash"}},
		{"a step of no job", "pass", []map[string]any{opt("job", 99, false), opt("step", "", true)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, x := range f.suggest(send, fakeLead, fakeOrders, c.command, c.options...) {
				if x.Name == "" || length(x.Name) > 100 {
					t.Errorf("a suggestion would be refused: %+v", x)
				}
				b, _ := json.Marshal(x.Value)
				got = append(got, strings.Trim(string(b), `"`))
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("suggested %q, want %q", got, c.want)
			}
		})
	}
}
