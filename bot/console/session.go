package console

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot"
)

// Desk is what a session needs of the conversation.
type Desk interface {
	Keep(ctx context.Context, in bot.Inbound) (fresh bool, err error)
	Work(ctx context.Context) (n int, err error)
	Deliver(ctx context.Context) (n int, err error)
	Alert(ctx context.Context) (n int, err error)
	Job(ctx context.Context, id bot.JobID) (bot.Job, error)
}

// Source gives what is typed, one message at a time: io.EOF when there is no more. prompt is what an asking terminal shows.
type Source interface {
	Next(prompt string) (string, error)
}

// Session is one sitting at the console.
type Session struct {
	Desk   Desk
	Screen *Screen
	Source Source
	Echo   bool                // repeat what was said, with who said it: for a reader of a script's output
	Name   string              // makes the keys of this sitting its own
	Now    func() time.Time    // when things are said
	Wait   func(time.Duration) // moves a scripted clock on; nil where time goes by itself

	who    bot.Person
	thread string // the thread that is being talked in; "" for none
	last   string // anchor of the last message outside a thread
	count  int
}

// The commands of the console itself begin with a stroke, so that they are never taken for talk.
const consoleHelp = `/as rep, /as lead   who is speaking (a name may follow)
/new                leave the thread: the next message is a request of its own
/in N               step into the thread of job N
/quit               leave
help                what can be said to the desk`

// Speak sets who is speaking.
func (s *Session) Speak(role, name string) error {
	if role != RepID && role != LeadID {
		return fmt.Errorf("%q is nobody here: /as rep or /as lead", role)
	}
	if name == "" {
		name = role
	}
	s.who = bot.Person{ID: role, Name: name}
	return nil
}

// Run talks until the source ends, /quit, or ctx. What an earlier sitting left undone is done first.
func (s *Session) Run(ctx context.Context) error {
	s.Screen.Saw = s.saw
	if s.who.ID == "" {
		if err := s.Speak(RepID, ""); err != nil {
			return err
		}
	}
	if err := s.settle(ctx); err != nil {
		s.say(bot.Down(err))
	}
	for ctx.Err() == nil {
		text, err := s.Source.Next(s.prompt())
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("reading what was typed: %w", err)
		}
		if strings.TrimSpace(text) == "" {
			continue
		}
		if s.Echo {
			fmt.Fprintf(s.Screen.Out, "%s%s\n\n", s.prompt(), strings.TrimRight(text, "\n"))
		}
		if word, rest, ok := consoleCommand(text); ok {
			if word == "quit" {
				return nil
			}
			s.console(ctx, word, rest)
			continue
		}
		s.hand(ctx, text)
	}
	return ctx.Err()
}

// hand hands a message to the desk and shows what comes of it.
func (s *Session) hand(ctx context.Context, text string) {
	s.count++
	key := fmt.Sprintf("%s:%s:%d", Door, s.Name, s.count)
	in := bot.Inbound{Key: key, Sort: "message", By: s.who, Text: text, Said: s.Now(), Anchor: s.thread,
		Place: bot.Place{Door: Door, Room: OrdersRoom, Thread: s.thread}}
	if s.thread == "" {
		in.Anchor, s.last = key, key
	}
	if _, err := s.Desk.Keep(ctx, in); err != nil {
		s.say(bot.Down(err))
		return
	}
	if err := s.settle(ctx); err != nil {
		s.say(bot.Down(err))
	}
}

// settle works, alerts and delivers until nothing is left to do now.
func (s *Session) settle(ctx context.Context) error {
	for {
		w, err := s.Desk.Work(ctx)
		if err != nil {
			return err
		}
		a, err := s.Desk.Alert(ctx)
		if err != nil {
			return err
		}
		d, err := s.Desk.Deliver(ctx)
		if err != nil {
			return err
		}
		if w+a+d == 0 {
			return nil
		}
	}
}

// Tick alerts and delivers between messages, for a terminal that waits while time goes by.
func (s *Session) Tick(ctx context.Context) error {
	if _, err := s.Desk.Alert(ctx); err != nil {
		return err
	}
	_, err := s.Desk.Deliver(ctx)
	return err
}

// saw steps into the thread of the request that was just answered.
func (s *Session) saw(p bot.Parcel) {
	if p.Post.Card != nil && s.thread == "" && s.last != "" && p.Place.Thread == s.last {
		s.thread = s.last
		fmt.Fprintf(s.Screen.Out, "You are in the thread of job %d. Answer here; /new for another request.\n\n", p.Post.Card.Job)
	}
}

// prompt says who is speaking and where.
func (s *Session) prompt() string {
	if s.thread == "" {
		return s.who.Name + "> "
	}
	return s.who.Name + ", in the thread> "
}

// consoleCommand splits a line of the console's own from talk.
func consoleCommand(text string) (word, rest string, ok bool) {
	line := strings.TrimSpace(text)
	if !strings.HasPrefix(line, "/") || strings.Contains(line, "\n") {
		return "", "", false
	}
	word, rest, _ = strings.Cut(line[1:], " ")
	return strings.ToLower(word), strings.TrimSpace(rest), true
}

// console does one of the console's own commands.
func (s *Session) console(ctx context.Context, word, rest string) {
	switch word {
	case "as":
		role, name, _ := strings.Cut(rest, " ")
		if err := s.Speak(strings.ToLower(role), strings.TrimSpace(name)); err != nil {
			s.say(err.Error())
		}
	case "new":
		s.thread, s.last = "", ""
	case "in":
		n, err := strconv.ParseInt(strings.TrimPrefix(rest, "#"), 10, 64)
		if err != nil {
			s.say("Which job? Type /in and its number, as /in 12; jobs lists them.")
			return
		}
		s.step(ctx, bot.JobID(n))
	case "wait":
		d, err := time.ParseDuration(rest)
		if err != nil || s.Wait == nil {
			s.say("Only a demonstration can wait: /wait 48h moves its clock on.")
			return
		}
		s.Wait(d)
		if err := s.settle(ctx); err != nil {
			s.say(bot.Down(err))
		}
	case "help":
		s.say(consoleHelp)
	default:
		s.say("The console does not know /" + word + ". It knows:\n" + consoleHelp)
	}
}

// step steps into the thread of a job. A request that came in by another door has its thread elsewhere.
func (s *Session) step(ctx context.Context, id bot.JobID) {
	j, err := s.Desk.Job(ctx, id)
	switch {
	case errors.Is(err, bot.ErrNoJob):
		s.say(fmt.Sprintf("There is no job %d. Type jobs to list them.", id))
	case err != nil:
		s.say(fmt.Sprintf("Job %d cannot be read now: the ledger cannot be reached. Nothing has changed; try /in %d again.", id, id))
	case j.Place.Door != Door:
		s.say(fmt.Sprintf("Job %d was asked for elsewhere (%s). It can be worked on here by its number, as job %d.", id, j.Place.Door, id))
	default:
		s.thread = j.Place.Thread
	}
}

// say shows a line of the console's own.
func (s *Session) say(text string) { fmt.Fprintf(s.Screen.Out, "%s\n\n", text) }
