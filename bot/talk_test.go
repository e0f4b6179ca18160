package bot_test

import (
	"fmt"
	"strings"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// shopFloor is a desk with jobs 1 to 12, all on a tri-blend: 12 is on test, and its thread is given.
func shopFloor(t *testing.T) (*play, string) {
	p := newPlay(t)
	at := ""
	for range 12 {
		at = p.Say(bottest.Rep, "", "72 tees in tri-blend, navy, white front print")
	}
	bottest.Settle(t, p.desk)
	p.Press(bottest.Lead, at, "printed 12")
	bottest.Settle(t, p.desk)
	return p, at
}

// What people say to one another in a print shop is never taken for a command, whoever says it and wherever.
func TestTalkIsLeftAlone(t *testing.T) {
	talk := []string{
		"pass me the squeegee", "pass me 12 screens", "pass it on", "pass on that", "pass 12 squeegees over", "pass the 12 oz ink", "can you pass 12",
		"sign here please", "sign for the parcel", "sign 12 of these", "sign please", "please sign here", "signs look good", "sing 12 songs", "sign?",
		"sign 12?", "a good sign", "signed 12 forms",
		"close the door", "close enough", "close 12 boxes of ink", "close 12 cartons", "close to done", "close it", "closed the window", "close call on job 12",
		"lose 12 kilos", "clone 12",
		"jobs are piling up", "jobs, jobs, jobs", "job done", "job well done", "job 12 is late", "job 12 looks great", "job 12 close to done",
		"job 12 printed yesterday", "job 12 sign is missing on the wall", "jog 5",
		"help me lift this", "help is coming", "help yourself to coffee", "helps a lot",
		"pick up the order", "pick 12 boxes", "pick me up at 5", "pick one", "pick a lane", "pink 12 towels",
		"why is it blurred?", "why are we out of ink", "why 12 and not 10", "why me", "why don't we use a grey base",
		"printed 12 shirts", "printed it already", "printed 12 today", "printed 12?", "print 12 more", "printed matter",
		"fail fast", "fail again", "fail 12 times", "failed 12 of them", "mail 12 customers", "fall 12",
		"refuse bins are full", "refuse to believe it", "refuse 12 boxes from the supplier", "refused 12",
		"reopen the window", "reopen 12 boxes", "reopen at nine",
		"amend the invoice", "order is ready", "order 12 more screens", "order lunch", "orders are up",
		"> sign 12", ">sign 12", "> close 12 done\nno, wait", "`sign 12`", "```\nsign 12\n```", "\"sign 12\"", "\u201csign 12\u201d", "'sign 12'", "&gt; sign 12",
		"sign 12\nor so they say", "and then I type sign 12", "the command is: sign 12", "/sign 12", "12 sign", "sign12", "sign 12.5", "s i g n 12",
		"", " ", "...", "👍", "12", "#12", "sign -12", "sign 1 2 3 4", "pass 12 for now I'd say", "wash test passed?", "pass 12 wash?",
	}
	p, at := shopFloor(t)
	before := len(p.Posts())
	for _, line := range talk {
		for _, thread := range []string{"", at} {
			for _, who := range []bottest.Who{bottest.Rep, bottest.Lead} {
				p.Say(who, thread, line)
				bottest.Settle(t, p.desk)
				if posts := p.Posts(); len(posts) != before {
					where := "in the room"
					if thread != "" {
						where = "in the job's thread"
					}
					t.Errorf("%q, said %s by %s, was answered:\n%s", line, where, who, bot.Text(posts[len(posts)-1].Parcel.Post, 0))
					before = len(posts)
				}
			}
		}
	}
	for id := range bot.JobID(12) {
		hist, err := p.desk.History(t.Context(), id+1)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[bool]int{true: 3, false: 2}[id+1 == 12]; len(hist) != want {
			t.Errorf("job %d has %d entries, want the %d from before the talk", id+1, len(hist), want)
		}
	}
}

// Commands are found however they are spelt, in any thread by their number and in the job's own thread without.
func TestCommandsAreForgiving(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"pass 12 cure", "passed cure"},
		{"PASS 12 CURE", "passed cure"},
		{"Pass #12 cure", "passed cure"},
		{"pass#12 cure", "passed cure"},
		{"  pass   12   cure  ", "passed cure"},
		{"pass 12 cure.", "passed cure"},
		{"pass 12 cure test", "passed cure"},
		{"pass 12 cure check, looks fine", "passed cure"},
		{"pass 12 Cure Check", "passed cure"},
		{"pass 12 cuer", "passed cure"},
		{"pass 12 cur", "passed cure"},
		{"job 12 pass cure", "passed cure"},
		{"please pass 12 cure", "passed cure"},
		{"pass 12 cure please", "passed cure"},
		{"pass 12 cure wash early: oven was hot", "passed cure and wash"},
		{"pass 12 cure, wash, early - oven was hot", "passed cure and wash"},
		{"pass 12 wash early", "say why the step is read early"},
		{"fail 12 cure: cracks at the hem, both sides", "cracks at the hem, both sides"},
		{"fail 12 cure cracks\nand more on the second line", "more on the second line"},
		{"job 12", "job 12: read the test print"},
		{"Job #12.", "job 12: read the test print"},
		{"job 12 close: they went elsewhere", "closed by"},
		{"close 12 customer cancelled", "closed by"},
		{"close 12: customer cancelled", "closed by"},
		{"refuse 12 white is thin", "refused by"},
		{"why 12", "plastisol"},
		{"why 12 sub", "shows no white"},
		{"why 12 dye sub?", "shows no white"},
		{"pick 12 DTF", "takes DTF"},
		{"pick 12 dtf for the front", "takes DTF"},
		{"pick 12 dtf 1.1", "takes DTF"},
		{"pick 12 dtf line 1", "takes DTF"},
		{"amend 12 make it 60", "60 instead of 72"},
		{"jobs", "12 jobs"},
		{"Jobs?", "12 jobs"},
		{"jobs on-test", "1 job"},
		{"jobs before 4", "3 jobs"},
		{"help", "pass N STEP"},
		{"help?", "pass N STEP"},
		{"help Pass", "pass N STEP"},
		{"strikeoff: job 12", "job 12: read the test print"},
		{"psas 12 cure", "did you mean: pass 12 cure"},
		{"sgin 12", "did you mean: sign 12"},
		{"pas 12 cure", "did you mean: pass 12 cure"},
		{"sign 12", "job 12 waits for: cure, wash"},
		{"reopen 12", "nothing to reopen"},
		{"printed 12", "made by"},
		{"order: socks", "job 13"},
		{"pass 99 wash", "there is no job 99"},
		{"close 99 done", "there is no job 99"},
		{"pass 12 abrasion", `no step "abrasion"`},
	} {
		t.Run(c.line, func(t *testing.T) {
			p, _ := shopFloor(t)
			at := p.Say(bottest.Lead, "", c.line)
			bottest.Settle(t, p.desk)
			p.answered(t, at, c.want)
		})
	}
	for _, c := range []struct{ line, want string }{
		{"pass cure", "passed cure"},
		{"pass wash early: oven was hot", "passed wash"},
		{"fail wash pink cast", "pink cast"},
		{"why?", "plastisol"},
		{"why dtf", "thicker"},
		{"pick dtf", "takes DTF"},
		{"close: customer cancelled", "closed by"},
		{"refuse: white is thin", "refused by"},
		{"amend: make it 60", "60 instead of 72"},
		{"make it 60", "60 instead of 72"},
		{"printed", "made by"},
		{"Printed.", "made by"},
		{"job", "read the test print"},
		{"pass", "which step"},
		{"close", "say why"},
		{"pass 11 cure", "there is no test print to read"},
	} {
		t.Run("in the thread/"+c.line, func(t *testing.T) {
			p, at := shopFloor(t)
			p.Say(bottest.Lead, at, c.line)
			bottest.Settle(t, p.desk)
			p.answered(t, at, c.want)
		})
	}
}

// answered fails where neither the newest posts of the thread nor a private one hold the words.
func (p *play) answered(t *testing.T, thread, want string) {
	t.Helper()
	var all []string
	for _, x := range p.Posts() {
		all = append(all, bot.Text(x.Parcel.Post, 0))
		if strings.Contains(strings.ToLower(all[len(all)-1]), strings.ToLower(want)) {
			return
		}
	}
	t.Errorf("nothing says %q; the last posts are:\n%s", want, strings.Join(all[max(0, len(all)-3):], "\n---\n"))
}

// Every example that help shows does, when it is typed, what its command does: it is never met with silence or another command.
func TestHelpExamplesWork(t *testing.T) {
	if len(bot.Commands()) < 14 {
		t.Fatalf("help shows %d commands", len(bot.Commands()))
	}
	for _, u := range bot.Commands() {
		t.Run(u.Example, func(t *testing.T) {
			p, _ := shopFloor(t)
			before := len(p.Posts())
			p.Say(bottest.Lead, "", u.Example)
			bottest.Settle(t, p.desk)
			posts := p.Posts()[before:]
			if len(posts) == 0 {
				t.Fatalf("%q was met with silence", u.Example)
			}
			got := bot.Text(posts[0].Parcel.Post, 0)
			for _, no := range []string{"Did you mean", "There is no job", "Which job", "no command"} {
				if strings.Contains(got, no) {
					t.Errorf("%q was answered %q", u.Example, got)
				}
			}
			verb, _, _ := strings.Cut(u.Form, " ")
			if !strings.HasPrefix(u.Example, verb) {
				t.Errorf("the example %q is not of %q", u.Example, u.Form)
			}
		})
	}
}

// A list of jobs that is longer than one answer says how to go on, and goes on.
func TestListGoesOn(t *testing.T) {
	p := newPlay(t)
	for i := range 17 {
		p.Say(bottest.Rep, "", fmt.Sprintf("%d tees in tri-blend", i+1))
	}
	bottest.Settle(t, p.desk)
	p.Say(bottest.Rep, "", "jobs test-due")
	bottest.Settle(t, p.desk)
	p.answered(t, "", "jobs test-due before 3")
	p.Say(bottest.Rep, "", "jobs test-due before 3")
	bottest.Settle(t, p.desk)
	p.answered(t, "", "2 jobs")
}
