package bot_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/ledger/boltledger"
)

var update = flag.Bool("update", false, "rewrite what the conversations in testdata are answered")

// Every conversation in testdata gets the answers that stand in it. Each file says in its head what it is about, holds under talk what
// people say, and under want the whole of it with what the desk posts after each line; of a
// post that was changed, the lines that are new.
//
//	rep: text      a message outside a thread        rep@1: text    in the thread of message 1
//	rep!1: words   a button in that thread           rep?1: text    message 1 is asked to be read as an order
//	rep~1: text    message 1 is edited               rep-1:         message 1 is deleted
//	rep*@1: text   a message that calls the desk     form@1: text   written by another program
//	+25h           time goes by
//
// A text in quotation marks is read as a Go string. After a change that is meant, run the test with -update and read the difference.
func TestConversations(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no conversations were found: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			ar, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			talk, want := "", ""
			for _, f := range ar.Files {
				switch f.Name {
				case "talk":
					talk = string(f.Data)
				case "want":
					want = string(f.Data)
				}
			}
			got := newPlay(t).all(talk)
			if *update {
				ar.Files = []txtar.File{{Name: "talk", Data: []byte(talk)}, {Name: "want", Data: []byte(got)}}
				if err := os.WriteFile(file, txtar.Format(ar), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if want == "" {
				t.Fatalf("%s has no answers; run with -update and read what they are", file)
			}
			if d := cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")); d != "" {
				t.Errorf("the answers differ (run with -update where that is meant):\n%s", d)
			}
		})
	}
}

// play is one conversation on the recording platform.
type play struct {
	t     *testing.T
	desk  *bot.Desk
	clock *bottest.Clock
	*bottest.Platform
	anchors []string // of each message, by its number
	ids     []string
	seen    map[string]int    // posts that were written out, with their updates
	shown   map[string]string // and as what
	out     strings.Builder
}

func newPlay(t *testing.T) *play {
	c := bottest.NewClock()
	d := bottest.NewDesk(openBolt(t), c)
	return &play{t: t, desk: d, clock: c, Platform: bottest.NewPlatform(t, d), seen: map[string]int{}, shown: map[string]string{}}
}

// openBolt opens an empty ledger in a file of the test's own.
func openBolt(t testing.TB) bot.Ledger {
	l, err := boltledger.Open(filepath.Join(t.TempDir(), "jobs.bolt"), boltledger.Options{NoSyncForTests: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

var scriptLine = regexp.MustCompile(`^(rep|lead|form)([@!?~*-]|\*@)?(\d*):\s?(.*)$`)

// all plays every line and returns what was said and posted.
func (p *play) all(talk string) string {
	lines := 0
	for line := range strings.Lines(talk) {
		line = strings.TrimRight(line, "\n")
		if strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#") {
			continue
		}
		lines++
		fmt.Fprintf(&p.out, "> %s\n", line)
		p.line(line)
		bottest.Settle(p.t, p.desk)
		p.write()
	}
	if lines == 0 {
		p.t.Fatal("nobody says anything")
	}
	return p.out.String()
}

// line plays one line.
func (p *play) line(line string) {
	if wait, ok := strings.CutPrefix(line, "+"); ok {
		d, err := time.ParseDuration(wait)
		if err != nil {
			p.t.Fatal(err)
		}
		p.clock.Move(d)
		return
	}
	m := scriptLine.FindStringSubmatch(line)
	if m == nil {
		p.t.Fatalf("this line cannot be played: %s", line)
	}
	who, text, n := map[string]bottest.Who{"rep": bottest.Rep, "lead": bottest.Lead}[m[1]], m[4], 0
	if m[3] != "" {
		n, _ = strconv.Atoi(m[3])
	}
	if strings.HasPrefix(text, `"`) {
		s, err := strconv.Unquote(text)
		if err != nil {
			p.t.Fatalf("%s: %v", line, err)
		}
		text = s
	}
	thread, id := "", ""
	if n > 0 {
		if n > len(p.anchors) {
			p.t.Fatalf("there is no message %d yet: %s", n, line)
		}
		thread, id = p.anchors[n-1], p.ids[n-1]
	}
	switch {
	case m[1] == "form":
		p.said(p.Paste(thread, text))
	case m[2] == "" || m[2] == "@":
		p.said(p.Say(who, thread, text))
	case m[2] == "*" || m[2] == "*@":
		p.said(p.Call(who, thread, text))
	case m[2] == "!":
		p.Press(who, thread, text)
	case m[2] == "?":
		p.Ask(who, id, text)
	case m[2] == "~":
		p.Edit(who, id, text)
	case m[2] == "-":
		p.Delete(who, id)
	}
}

// said numbers a message.
func (p *play) said(anchor string) {
	p.anchors, p.ids = append(p.anchors, anchor), append(p.ids, p.Last())
	if anchor == "" {
		p.t.Fatal("a message without an anchor")
	}
}

// write writes out what was posted or changed since the last line.
func (p *play) write() {
	said := false
	for _, x := range p.Posts() {
		have, known := p.seen[x.Ref]
		if known && have == x.Updates {
			continue
		}
		p.seen[x.Ref] = x.Updates
		said = true
		where := "thread " + x.Parcel.Place.Thread
		switch {
		case x.Parcel.Place.Room == "production":
			where = "production room"
		case x.Parcel.Place.Thread == "":
			where = "room"
		}
		if x.Parcel.To != "" {
			where += ", to " + strings.Fields(string(p.WhoIs(x.Parcel.To)))[0] + " alone"
		}
		if known {
			where += ", changed"
		}
		if x.Parcel.Post.Loud {
			where += ", loud"
		}
		fmt.Fprintf(&p.out, "[%s]\n", where)
		text, was := bot.Text(x.Parcel.Post, 100), strings.Split(p.shown[x.Ref], "\n")
		p.shown[x.Ref] = text
		for line := range strings.SplitSeq(text, "\n") {
			if known && slices.Contains(was, line) {
				continue
			}
			fmt.Fprintf(&p.out, "  %s\n", line)
		}
	}
	if !said {
		p.out.WriteString("[silence]\n")
	}
	p.out.WriteString("\n")
}
