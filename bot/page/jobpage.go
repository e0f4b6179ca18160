package page

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"strikeoff/bot"
)

// jobID is the number in the address.
func jobID(r *http.Request) (bot.JobID, error) {
	n, err := strconv.ParseInt(r.PathValue("id"), 10, 64)
	if err != nil || n <= 0 {
		return 0, errNoSuch
	}
	return bot.JobID(n), nil
}

// load reads the job in the address, where the visitor may see it.
func (p *Pages) load(r *http.Request, v visitor) (bot.Job, error) {
	id, err := jobID(r)
	if err != nil {
		return bot.Job{}, err
	}
	if !v.may(id) {
		return bot.Job{}, errOverLink
	}
	return p.c.Jobs.Load(r.Context(), id)
}

// happening is one line of a job's history.
type happening struct {
	At, Who, What, Said string
}

// job is GET /jobs/{id}.
func (p *Pages) job(w http.ResponseWriter, r *http.Request, v visitor) error {
	j, err := p.load(r, v)
	if err != nil {
		return err
	}
	hist, err := p.c.Jobs.History(r.Context(), j.ID)
	if err != nil {
		return err
	}
	var pics []Picture
	if p.c.Pictures != nil {
		if pics, err = p.c.Pictures(r.Context(), j); err != nil {
			p.c.Log.Warn("pictures cannot be shown", "job", j.ID, "error", err) // the job is worth showing without
		}
	}
	var past []happening
	for _, e := range hist {
		past = append(past, happening{At: p.when(e.At), Who: who(e.By), What: what(e), Said: said(e)})
	}
	p.render(w, http.StatusOK, "job.html", struct {
		frame
		Card     bot.Card
		Tile     tileView
		Text     string
		Past     []happening
		Pictures []Picture
	}{p.frame(fmt.Sprintf("Job %d", j.ID), v), p.c.Card(j), p.tile(j, p.today()), j.Text, past, pics})
	return nil
}

// who names a person with their role.
func who(a bot.Actor) string {
	name := a.Name
	if name == "" {
		name = a.ID
	}
	if a.Role == "desk" {
		return "the desk"
	}
	return name + ", " + string(a.Role)
}

// what says what an entry was.
func what(e bot.Entry) string {
	switch e.Kind {
	case "opened":
		return "brought the request"
	case "amended":
		return "changed the order"
	case "picked":
		return "picked " + string(e.Chosen.Method)
	case "printed":
		return fmt.Sprintf("made the test print of plan %d", e.PlanRev)
	case "step-read":
		if e.Pass {
			return "passed " + e.Step
		}
		return "failed " + e.Step
	case "signed-off":
		return fmt.Sprintf("signed off plan %d", e.PlanRev)
	case "refused":
		return "refused the test print"
	case "cleared":
		return "cleared it for the run"
	case "closed":
		return "closed it"
	case "reopened":
		return "opened it again"
	case "alert-sent":
		return "sent an alert"
	}
	return strings.ReplaceAll(string(e.Kind), "-", " ")
}

// said is what was written with an entry, apart from the request itself, which stands on the page already.
func said(e bot.Entry) string {
	var parts []string
	if e.Kind == "amended" && e.Text != "" {
		parts = append(parts, e.Text)
	}
	if e.Note != "" {
		parts = append(parts, e.Note)
	}
	if e.Early != "" {
		parts = append(parts, "read before its wait was over: "+e.Early)
	}
	return strings.Join(parts, "; ")
}

// picture is GET /jobs/{id}/pictures/{name}.
func (p *Pages) picture(w http.ResponseWriter, r *http.Request, v visitor) error {
	j, err := p.load(r, v)
	if err != nil {
		return err
	}
	if p.c.Pictures == nil {
		return errNoSuch
	}
	pics, err := p.c.Pictures(r.Context(), j)
	if err != nil {
		return err
	}
	for _, pic := range pics {
		if pic.Name == r.PathValue("name") && (pic.Type == "image/png" || pic.Type == "image/jpeg" || pic.Type == "image/svg+xml") {
			w.Header().Set("Content-Type", pic.Type)
			w.Header().Set("Content-Security-Policy", "default-src 'none'; sandbox") // an SVG opened by itself runs nothing
			_, _ = w.Write(pic.Data)
			return nil
		}
	}
	return errNoSuch
}
