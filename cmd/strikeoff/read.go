package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"strikeoff/intake"
	"strikeoff/rules"
)

// reading is what the commands that read messages share.
type reading struct {
	Received string   `help:"The day the message arrived, YYYY-MM-DD; relative dates count from it. Default: today." placeholder:"DAY"`
	JSON     bool     `help:"Print JSON by the contract instead of sentences."`
	Lines    string   `help:"Read a JSON Lines file of {id, received, text, then}; - is standard input." placeholder:"FILE"`
	Text     []string `arg:"" optional:"" help:"The request. Without it, standard input is read."`
}

// options says how to read, with received overriding the flag where it is set.
func (r reading) options(w world, set *settings, received rules.Date) (intake.Options, error) {
	o := intake.Options{Received: received, DayFirst: set.DateOrder == "dmy"}
	if o.Received == "" {
		o.Received = rules.Date(r.Received)
	}
	if o.Received == "" {
		o.Received = rules.DateOf(w.now().In(set.zone))
	}
	if _, ok := o.Received.Time(); !ok {
		return o, fmt.Errorf("received is %q, which is no day: write it as 2026-11-25", o.Received)
	}
	return o, nil
}

// text is the request from the arguments or from standard input.
func (r reading) text(w world) (string, error) {
	if len(r.Text) > 0 {
		return strings.Join(r.Text, " "), nil
	}
	b, err := io.ReadAll(io.LimitReader(w.in, maxLine))
	if err != nil {
		return "", fmt.Errorf("reading the request: %w", err)
	}
	if len(strings.TrimSpace(string(b))) == 0 {
		return "", errors.New("there is no request to read: give it as arguments or on standard input")
	}
	return string(b), nil
}

// message is one line of a file of messages.
type message struct {
	ID       string     `json:"id"`
	Received rules.Date `json:"received"`
	Text     string     `json:"text"`
	Then     []string   `json:"then"` // later messages of the same thread
}

// answer is what is printed for a message.
type answer struct {
	ID      string          `json:"id,omitempty"`
	IsOrder bool            `json:"is_order"`
	Order   rules.Order     `json:"order"`
	Odd     []intake.Oddity `json:"odd,omitempty"`
	Marks   []intake.Mark   `json:"marks,omitempty"`
	Plan    *rules.Plan     `json:"plan,omitempty"`
}

// understand reads a message and those that follow it in its thread.
func understand(m message, o intake.Options) intake.Reading {
	r := intake.Read(m.Text, o)
	for _, t := range m.Then {
		r, _ = intake.Amend(r, t, o)
	}
	return r
}

type readCmd struct {
	reading
	Explain bool `help:"Show the text with every span that was read marked and named."`
}

func (c readCmd) Run(w world, set *settings) error {
	if c.Lines != "" {
		return eachLine(w, c.Lines, func(m message) error {
			o, err := c.options(w, set, m.Received)
			if err != nil {
				return err
			}
			r := understand(m, o)
			return printJSON(w.out, answer{ID: m.ID, IsOrder: r.IsOrder, Order: r.Order})
		})
	}
	o, err := c.options(w, set, "")
	if err != nil {
		return err
	}
	text, err := c.text(w)
	if err != nil {
		return err
	}
	r := intake.Read(text, o)
	switch {
	case c.Explain:
		_, err = fmt.Fprintln(w.out, intake.Explain(text, r))
		return err
	case c.JSON:
		return printJSON(w.out, answer{IsOrder: r.IsOrder, Order: r.Order, Odd: r.Odd, Marks: r.Marks})
	case !r.IsOrder:
		fmt.Fprintln(w.out, "This asks for nothing to be printed.")
	default:
		fmt.Fprintln(w.out, intake.Restate(r.Order))
	}
	for _, odd := range r.Odd {
		fmt.Fprintln(w.out, "Odd: "+odd.Text)
	}
	for _, words := range r.Order.Unread {
		fmt.Fprintln(w.out, "Not used: "+words)
	}
	return nil
}
