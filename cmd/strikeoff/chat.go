package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/console"
)

type chatCmd struct {
	As   string `help:"Who is speaking first: rep or lead. /as changes it." enum:"rep,lead" default:"rep"`
	Name string `help:"The name that what you say is recorded under. Default: the role." placeholder:"NAME"`
	Demo bool   `help:"Play an invented shop's morning on a ledger of its own, which is thrown away after."`
	Echo bool   `help:"Repeat what was said: for reading the output of a script."`
}

func (chatCmd) Help() string {
	return `Paste a request and press Enter: the desk answers with what it understood, how to print each place, what to watch and what to test.
Answer its questions, change the order ("make it 60, and navy"), or type help for the commands. A line of the console's own begins
with a stroke: /as lead, /new, /in 12, /quit.

Input that is no terminal is read as a script: a message ends at a line that holds only a full stop, or before a line that begins
with a stroke.`
}

// demoScript is an invented shop's morning: no customer or person in it exists.
//
//go:embed demo.txt
var demoScript string

// demoDay is when the demonstration begins: a Monday morning.
var demoDay = time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)

func (c chatCmd) Run(w world, set *settings) (err error) {
	var source console.Source
	out := w.out
	screen := &console.Screen{Out: out}
	sitting := console.Session{Screen: screen, Now: w.now, Echo: c.Echo}
	log := set.logger(io.Discard) // the conversation is the output; what goes wrong is said in it

	in, onFile := w.in.(*os.File)
	switch {
	case c.Demo:
		dir, err := os.MkdirTemp("", "strikeoff-demo-")
		if err != nil {
			return fmt.Errorf("making a folder for the demonstration: %w", err)
		}
		defer os.RemoveAll(dir)
		set.Ledger, set.zone = filepath.Join(dir, "demo.db"), time.UTC
		var ahead atomic.Int64
		w.now = func() time.Time { return demoDay.Add(time.Duration(ahead.Load())) }
		sitting.Now, sitting.Echo = w.now, true
		sitting.Wait = func(d time.Duration) { ahead.Add(int64(d)) }
		source = console.NewScript(strings.NewReader(demoScript))
	case onFile && console.IsTerminal(in) && w.out == os.Stdout:
		t, err := console.NewTerminal(in, os.Stdout)
		if err != nil {
			return fmt.Errorf("taking the terminal over: %w", err)
		}
		defer func() { err = errors.Join(err, t.Close()) }()
		source, screen.Out, screen.Width = t, t, console.Width(os.Stdout)
		if os.Getenv("NO_COLOR") == "" {
			screen.Bold = func(s string) string { return "\x1b[1m" + s + "\x1b[0m" }
		}
	default:
		source = console.NewScript(w.in)
	}

	ledger, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	desk := set.desk(ledger, w.now, log)
	desk.Doors[console.Door] = screen
	sitting.Desk, sitting.Source = desk, source
	// Keys of this sitting must differ from those of every other on the same ledger.
	sitting.Name = fmt.Sprintf("%x-%d", time.Now().UnixNano(), os.Getpid())
	if err := sitting.Speak(c.As, c.Name); err != nil {
		return err
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	if screen.Bold != nil || screen.Width > 0 {
		fmt.Fprintf(screen.Out, "Paste a request, or type help. Jobs are kept in %s. /quit leaves.\n\n", set.hideLedger())
		go tick(ctx, &sitting)
	}
	if err := sitting.Run(ctx); err != nil && !errors.Is(err, context.Canceled) {
		return err
	}
	return nil
}

// tick lets alerts come up while a person is thinking.
func tick(ctx context.Context, s *console.Session) {
	t := time.NewTicker(5 * time.Second)
	defer t.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-t.C:
			_ = s.Tick(ctx) // the ledger's being down is said at the next message
		}
	}
}

var _ bot.Poster = (*console.Screen)(nil)
