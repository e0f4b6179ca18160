package page

import (
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"

	"strikeoff/bot"
	"strikeoff/rules"
)

// today is the calendar day in the shop.
func (p *Pages) today() rules.Date { return rules.DateOf(p.c.Now().In(p.c.Zone)) }

// ticketView is a job as it hangs on the press.
type ticketView struct {
	frame
	Card  bot.Card
	Tile  tileView
	Lines []ticketLine
	QR    qrCode
	Stops []string // cautions that stop the job, and those that ask for care
	Cares []string
	Made  string // when the test print was made; "" when none was
	Brief bool   // there is no room for how each check is made: the code leads there
}

// sheetMM is the height of a Letter sheet within the margins of look.css, less a little, since lines are guessed. A4 has more.
const sheetMM = 244

// brief reports whether a ticket would spill on a second sheet with how each check is made. It guesses lines from letters, by the type
// of look.css in a wide face.
func (t ticketView) brief() bool {
	lines := func(text string, letters int) float64 { return float64((len(text) + letters - 1) / letters) }
	mm := 26 + 4.6*lines(t.Card.Headline, 68)
	for _, l := range t.Lines {
		mm += 13 + 2.5
		if len(l.Sizes) > 0 {
			mm += 13
		}
		for _, p := range l.Prints {
			mm += 1.5 + 4.1*max(lines(p.Where, 24), lines(p.Method+", with "+p.Add, 20), 2)
		}
	}
	for _, text := range slices.Concat(t.Stops, t.Cares) {
		mm += 4 * lines(text, 105)
	}
	for _, s := range t.Card.Steps {
		mm += 1.8 + 3.9*(lines(s.Title+s.How, 84)+lines(s.Pass, 66))
	}
	return mm+25 > sheetMM
}

// ticketLine is one order line with its size run and its prints.
type ticketLine struct {
	What   string
	Sizes  []sizeCount
	Prints []ticketPrint
}

type sizeCount struct {
	Size  string
	Count int
}

// ticketPrint is one place, as the press needs it. Unsaid is "", which the ticket shows as a line to write on.
type ticketPrint struct {
	Where, Method, Base, Add, Mesh, Heat string
}

// ticket is GET /jobs/{id}/ticket.
func (p *Pages) ticket(w http.ResponseWriter, r *http.Request, v visitor) error {
	j, err := p.load(r, v)
	if err != nil {
		return err
	}
	qr, err := newQR(p.JobLink(j.ID, p.c.Now().Add(p.c.Ticket)))
	if err != nil {
		return err
	}
	t := ticketView{frame: p.frame(fmt.Sprintf("Ticket, job %d", j.ID), v), Card: p.c.Card(j), Tile: p.tile(j, p.today()), QR: qr, Made: p.when(j.Printed.At)}
	for i, l := range j.Order.Lines {
		tl := ticketLine{Sizes: sizeRun(l.Sizes)}
		if i < len(t.Card.Lines) {
			tl.What, _, _ = strings.Cut(t.Card.Lines[i].What, ";") // the sizes stand in boxes below
		}
		for k := range l.Prints {
			tp := ticketPrint{}
			if i < len(t.Card.Lines) && k < len(t.Card.Lines[i].Prints) {
				tp.Where = t.Card.Lines[i].Prints[k].Where
			}
			if i < len(j.Plan.Lines) && k < len(j.Plan.Lines[i].Prints) {
				pressed(&tp, j.Plan.Lines[i].Prints[k])
			}
			tl.Prints = append(tl.Prints, tp)
		}
		t.Lines = append(t.Lines, tl)
	}
	for _, c := range t.Card.Cautions {
		switch c.Severity {
		case "stop":
			t.Stops = append(t.Stops, c.Text)
		case "caution":
			t.Cares = append(t.Cares, c.Text)
		}
	}
	t.Brief = t.brief()
	p.render(w, http.StatusOK, "ticket.html", t)
	return nil
}

// sizeRun is a run of sizes, smallest first.
func sizeRun(s rules.Sizes) []sizeCount {
	var out []sizeCount
	for _, size := range rules.SizeOrder {
		if n := s[size]; n > 0 {
			out = append(out, sizeCount{string(size), n})
		}
	}
	return out
}

// pressed fills in what the pick says.
func pressed(tp *ticketPrint, pp rules.PrintPlan) {
	c, ok := pp.Picked()
	if !ok {
		return
	}
	tp.Method = strings.ReplaceAll(string(c.Method), "-", " ")
	if c.Setup.Base != "" {
		tp.Base = strings.ReplaceAll(string(c.Setup.Base), "-", " ")
	}
	var add []string
	for _, a := range c.Setup.Additives {
		add = append(add, strings.ReplaceAll(string(a), "-", " "))
	}
	tp.Add = strings.Join(add, ", ")
	if m := c.Setup.Screen; m != nil {
		tp.Mesh = whole(m.MeshCM) + "/cm (" + whole(m.MeshInch) + "/in)"
	}
	if h := c.Setup.Heat; h != nil {
		tp.Heat = fmt.Sprintf("%s °C (%s °F), %s s", span(h.TempC, 1, 0), span(h.TempC, 1.8, 32), span(h.Seconds, 1, 0))
	}
}

// span writes a range in whole numbers, times by plus add: 1.8 and 32 make °F of °C.
func span(v [2]float64, by, add float64) string {
	lo, hi := math.Round(v[0]*by+add), math.Round(v[1]*by+add)
	if lo == hi {
		return fmt.Sprintf("%g", lo)
	}
	return fmt.Sprintf("%g to %g", lo, hi)
}

// whole writes a range of whole numbers.
func whole(v [2]int) string {
	return span([2]float64{float64(v[0]), float64(v[1])}, 1, 0)
}
