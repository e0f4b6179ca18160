package discord

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"strikeoff/bot"
)

// How a post looks: an embed whose title says the job and what to do, whose first line says where it stands, and whose fields hold the
// rest in the order of the card. What does not fit one message goes on in the next; buttons stand under the last.

// The limits of Discord on a message, in UTF-16 units.
const (
	contentLimit = 2000
	titleLimit   = 256
	bodyLimit    = 4096
	fieldsLimit  = 25
	nameLimit    = 256
	valueLimit   = 1024
	sumLimit     = 6000
	rowsLimit    = 5
	rowLimit     = 5
	labelLimit   = 80
	optionsLimit = 25
	optionLimit  = 100
)

// pagesLimit is how many messages a post may become. More would bury the thread.
const pagesLimit = 5

type embed struct {
	Title       string       `json:"title,omitempty"`
	Description string       `json:"description,omitempty"`
	Color       int          `json:"color,omitempty"`
	Fields      []embedField `json:"fields,omitempty"`
}

type embedField struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func (e embed) size() int {
	n := units(e.Title) + units(e.Description)
	for _, f := range e.Fields {
		n += f.size()
	}
	return n
}

func (f embedField) size() int { return units(f.Name) + units(f.Value) }

// mentions says whom a message may ping. It is always nobody.
type mentions struct {
	Parse []string `json:"parse"`
}

// outMessage is a message as it is sent.
type outMessage struct {
	Content    string    `json:"content"`
	Embeds     []embed   `json:"embeds"`
	Components []row     `json:"components"`
	Mentions   mentions  `json:"allowed_mentions"`
	Flags      int       `json:"flags,omitempty"`
	Nonce      string    `json:"nonce,omitempty"`
	Enforce    bool      `json:"enforce_nonce,omitempty"`
	Reference  *replyRef `json:"message_reference,omitempty"`
}

type replyRef struct {
	Message string `json:"message_id"`
	Lenient bool   `json:"fail_if_not_exists"` // false: post even where that message is gone
}

func newMessage() outMessage {
	return outMessage{Embeds: []embed{}, Components: []row{}, Mentions: mentions{Parse: []string{}}}
}

// plain is a message of a sentence or two.
func plain(text string) outMessage {
	m := newMessage()
	m.Content = clip(escape(text), contentLimit)
	return m
}

// colours mark a card's state at its edge: amber waits for somebody, red is a stop, green may run, grey is over.
var colours = map[bot.State]int{bot.Asking: 0xC98A00, bot.Planned: 0x3B6EA5, bot.TestDue: 0xC98A00, bot.OnTest: 0x3B6EA5, bot.Refused: 0xB3261E,
	bot.Cleared: 0x2E7D4F, bot.Closed: 0x7A7A7A}

// stateWords are the states as people say them.
var stateWords = map[bot.State]string{bot.Asking: "waits for an answer", bot.Planned: "planned, nothing to test", bot.TestDue: "test print due",
	bot.OnTest: "on test", bot.Refused: "refused", bot.Cleared: "cleared for the run", bot.Closed: "closed"}

// dress turns a post into messages, and names the button ids that must be kept because they were too long.
func dress(p bot.Post) (pages []outMessage, refs map[string]string) {
	b := &pager{}
	if p.Text != "" {
		text := escape(p.Text)
		if units(text) <= contentLimit {
			b.content = text
		} else {
			b.body(text)
		}
	}
	acts := p.Quick
	if p.Card != nil {
		b.card(*p.Card)
		acts = append(append([]bot.Action{}, p.Card.Actions...), acts...)
	}
	for _, r := range p.Rows {
		b.body(rowText(r))
	}
	for _, u := range p.Help {
		b.body(usageText(u))
	}
	if p.Link != nil {
		// A masked link shows its address to whoever rests on it; angle brackets keep Discord from fetching a page that is not public.
		b.body("[" + escape(p.Link.Label) + "](<" + p.Link.URL + ">)")
	}
	pages = b.pages()
	rows, refs := buttons(acts)
	pages[len(pages)-1].Components = rows
	return pages, refs
}

// card lays out a card.
func (b *pager) card(c bot.Card) {
	state := stateWords[c.State]
	if state == "" {
		state = string(c.State)
	}
	b.name = fmt.Sprintf("Job %d", c.Job)
	b.title, b.colour = b.name+": "+escape(c.Headline), colours[c.State]
	if over(b.title, titleLimit) {
		b.title = b.name + ": " + state
		b.body("**" + escape(c.Headline) + "**")
	} else {
		b.body(upperFirst(escape(state)) + ".")
	}
	if c.Customer != "" {
		b.body("For " + escape(c.Customer))
	}
	if c.Due != "" {
		b.body("Due " + escape(c.Due))
	}
	if c.SignedBy != "" {
		b.body("Signed off: " + escape(c.SignedBy))
	}
	if c.Refusal != "" {
		b.body("Refused: " + escape(c.Refusal))
	}
	for _, l := range c.Lines {
		b.field(escape(l.What), lineText(l))
	}
	b.field("Cautions", notesText(c.Cautions))
	steps := stepsText(c.Steps)
	if c.Brief {
		steps = append(steps, escape(bot.HowElsewhere(c)))
	}
	b.field("Test print", steps)
	b.field("Inspect the finished run", listText(c.Inspect, ""))
	b.field("Ask the customer", asksText(c.Questions))
	b.field("Taken as usual, because the message did not say", listText(c.Assumed, ""))
	b.field("Odd in the message", listText(c.Odd, ""))
	b.field("Not used, in the customer's words", listText(c.Unread, `"`))
}

// lineText is the answer for one order line.
func lineText(l bot.Line) []string {
	var out []string
	for _, p := range l.Prints {
		out = append(out, "**"+escape(upperFirst(p.Where))+"**", escape(upperFirst(p.Do)))
		if p.Press != "" {
			out = append(out, escape(upperFirst(p.Press)))
		}
		for _, w := range p.Why {
			out = append(out, "• "+escape(w))
		}
		if others := bot.OthersWords(p.Others); others != "" {
			out = append(out, "Or: "+escape(others))
		}
	}
	if l.Migration != "" {
		out = append(out, escape(upperFirst(l.Migration)))
	}
	return out
}

var severityWords = map[string]string{"stop": "**Stop:** ", "caution": "**Caution:** ", "info": "Note: "}

func notesText(ns []bot.Note) []string {
	var out []string
	for _, n := range ns {
		out = append(out, severityWords[n.Severity]+escape(n.Text))
	}
	return out
}

var markWords = map[string]string{"": "to do", "passed": "passed", "failed": "FAILED", "waiting": "waits"}

// stepsText is a block a step, so that a step is not torn apart where it fits.
func stepsText(ss []bot.Step) []string {
	var out []string
	for _, s := range ss {
		mark := markWords[s.Mark]
		if mark == "" {
			mark = s.Mark
		}
		block := []string{fmt.Sprintf("**%s** (%s): %s", escape(s.Code), escape(mark), escape(s.Title))}
		if s.Mark != "passed" && s.Mark != "failed" {
			how := s.How
			if s.Pass != "" {
				how = strings.TrimSpace(how + " Pass: " + s.Pass)
			}
			if how != "" {
				block = append(block, escape(how))
			}
		}
		if s.Note != "" {
			block = append(block, upperFirst(escape(s.Note)))
		}
		out = append(out, strings.Join(block, "\n"))
	}
	return out
}

func asksText(qs []bot.Ask) []string {
	var out []string
	for i, q := range qs {
		out = append(out, fmt.Sprintf("%d\\. %s", i+1, escape(q.Text)))
	}
	return out
}

func listText(ss []string, quote string) []string {
	var out []string
	for _, s := range ss {
		out = append(out, "• "+quote+escape(strings.Join(strings.Fields(s), " "))+quote)
	}
	return out
}

func rowText(r bot.Row) string {
	state := stateWords[r.State]
	if state == "" {
		state = string(r.State)
	}
	s := fmt.Sprintf("**%d** %s: %s", r.Job, escape(state), escape(r.What))
	for _, part := range []struct{ lead, text string }{{", for ", r.Customer}, {", due ", r.Due}, {". Waits for ", r.Waits}} {
		if part.text != "" {
			s += part.lead + escape(part.text)
		}
	}
	return s
}

func usageText(u bot.Usage) string {
	s := "**" + escape(u.Form) + "**: " + escape(u.Does)
	if u.Lead {
		s += " (lead)"
	}
	if u.Example != "" {
		s += "\n   " + escape(u.Example)
	}
	return s
}

// upperFirst is s with its first letter large.
func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
