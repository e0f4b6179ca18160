// Command strikeoff reads print requests, plans how to print them, and keeps each job until its test print is signed off.
package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"github.com/alecthomas/kong"
)

func main() {
	os.Exit(run(theWorld()))
}

// theWorld is the real one.
func theWorld() world {
	return world{args: os.Args[1:], in: os.Stdin, out: os.Stdout, err: os.Stderr, now: time.Now}
}

// world is everything outside that the program touches, so that a test can stand in for it.
type world struct {
	args     []string
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
}

// cli is what can be typed. Kong builds the help from it.
type cli struct {
	settings

	Chat   chatCmd   `cmd:"" help:"Talk with the desk in this terminal: paste a request, get a plan, sign off the test print."`
	Read   readCmd   `cmd:"" help:"Read a request and print the order that was understood."`
	Plan   planCmd   `cmd:"" help:"Read a request, or take orders as JSON, and print how to make them."`
	Jobs   jobsCmd   `cmd:"" help:"List the open jobs, or show one with its history."`
	Serve  serveCmd  `cmd:"" help:"Run the desk for chat rooms and programs until it is told to stop."`
	Check  checkCmd  `cmd:"" help:"Check the settings, the ledger and the clock, and say what to change."`
	Events eventsCmd `cmd:"" help:"Look after the news that programs are told."`
	Books  ledgerCmd `cmd:"" name:"ledger" help:"Look after the ledger."`
}

// The exit codes: a wrong command line is told apart from work that failed.
const (
	exitOK    = 0
	exitFail  = 1
	exitUsage = 2
)

// run is the whole program on a given world. It returns the exit code.
func run(w world) (code int) {
	var c cli
	k, err := kong.New(&c,
		kong.Name("strikeoff"),
		kong.Description("Reads what a customer wrote, says how to print it and what to test first, and holds the job until a production lead has signed off the test print."),
		kong.Writers(w.out, w.err),
		kong.UsageOnError(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(n int) { panic(leave(n)) }),
		kong.Bind(w),
	)
	if err != nil {
		fmt.Fprintln(w.err, "strikeoff:", err)
		return exitFail
	}
	defer func() {
		switch l := recover().(type) {
		case nil:
		case leave: // --help has printed what it had to say
			code = int(l)
		default:
			panic(l)
		}
	}()
	if err := c.fromFile(k, w.args); err != nil {
		fmt.Fprintln(w.err, "strikeoff:", err)
		return exitUsage
	}
	ctx, err := k.Parse(w.args)
	if err != nil {
		fmt.Fprintf(w.err, "strikeoff: %v\nstrikeoff --help shows what can be typed.\n", err)
		return exitUsage
	}
	if err := ctx.Run(&c.settings); err != nil {
		fmt.Fprintln(w.err, "strikeoff:", err)
		return exitFail
	}
	return exitOK
}

// leave carries an exit code out of the CLI library, which would otherwise end the process under a test.
type leave int
