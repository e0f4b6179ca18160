package webhook

import (
	"encoding/base64"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"strikeoff/bot"
	"strikeoff/rules"
)

// errQuery is a query parameter that cannot be.
func errQuery(detail, next string) error {
	return problem{Status: http.StatusBadRequest, Code: "query", Detail: detail, Next: next}
}

// jobID is the number in the address.
func jobID(r *http.Request) (bot.JobID, error) {
	n, err := strconv.ParseInt(r.PathValue("id"), 10, 64)
	if err != nil || n <= 0 {
		return 0, errNoJob
	}
	return bot.JobID(n), nil
}

// jobURL is where a job is read.
func (a *API) jobURL(n bot.JobID) string { return fmt.Sprintf("%s/v1/jobs/%d", a.c.Base, n) }

// job is GET /v1/jobs/{id}.
func (a *API) job(w http.ResponseWriter, r *http.Request) error {
	if _, _, err := a.admit(r, nil, ReadJobs, a.c.Now()); err != nil {
		return err
	}
	id, err := jobID(r)
	if err != nil {
		return err
	}
	j, err := a.c.Jobs.Load(r.Context(), id)
	if err != nil {
		return err
	}
	tag := `"` + strconv.Itoa(j.Revision) + `"`
	w.Header().Set("ETag", tag)
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	writeJSON(w, http.StatusOK, "application/json", a.viewJob(j))
	return nil
}

// What one page of a list holds.
const (
	pageUsual = 20
	pageMost  = 100
	scanMost  = 1000 // jobs looked at for one page, where most do not fit the question
)

// list is GET /v1/jobs: newest first, with a cursor where there may be more.
func (a *API) list(w http.ResponseWriter, r *http.Request) error {
	if _, _, err := a.admit(r, nil, ReadJobs, a.c.Now()); err != nil {
		return err
	}
	q, err := readQuery(r.URL.RawQuery)
	if err != nil {
		return err
	}
	out := listView{Jobs: []briefView{}}
	below := q.below
	for scanned := 0; ; {
		page, err := a.c.Jobs.Jobs(r.Context(), q.states, below, pageMost)
		if err != nil {
			return err
		}
		for _, j := range page {
			below = j.ID
			if q.due != "" && (j.Order.Due == "" || j.Order.Due > q.due) {
				continue
			}
			out.Jobs = append(out.Jobs, a.viewBrief(j))
			if len(out.Jobs) == q.limit {
				out.Next = cursor(below)
				writeJSON(w, http.StatusOK, "application/json", out)
				return nil
			}
		}
		scanned += len(page)
		if len(page) < pageMost {
			break
		}
		if scanned >= scanMost {
			out.Next = cursor(below)
			break
		}
	}
	writeJSON(w, http.StatusOK, "application/json", out)
	return nil
}

// query is what a list is asked for.
type query struct {
	states []bot.State
	due    rules.Date
	below  bot.JobID
	limit  int
}

// readQuery reads a list's question. What is not known is refused: a misspelt filter would answer with everything.
func readQuery(raw string) (query, error) {
	q := query{limit: pageUsual}
	vals, err := url.ParseQuery(raw)
	if err != nil {
		return q, errQuery("The query is not well formed.", "Escape it as a form.")
	}
	for name, vs := range vals {
		if name != "state" && len(vs) > 1 {
			return q, errQuery("The parameter "+name+" stands twice.", "Give it once.")
		}
		switch name {
		case "state":
			for s := range strings.SplitSeq(strings.Join(vs, ","), ",") {
				if !slices.Contains(states, bot.State(s)) {
					return q, errQuery("There is no state "+strconv.Quote(printable(s, 20))+".", fmt.Sprintf("The states are %v.", states))
				}
				if !slices.Contains(q.states, bot.State(s)) {
					q.states = append(q.states, bot.State(s))
				}
			}
		case "due":
			q.due = rules.Date(vs[0])
			if _, ok := q.due.Time(); !ok {
				return q, errQuery("due is no day written YYYY-MM-DD.", "It lists jobs due on that day or before.")
			}
		case "limit":
			n, err := strconv.Atoi(vs[0])
			if err != nil || n < 1 || n > pageMost {
				return q, errQuery(fmt.Sprintf("limit is no number from 1 to %d.", pageMost), fmt.Sprintf("Leave it out for %d.", pageUsual))
			}
			q.limit = n
		case "cursor":
			if q.below, err = readCursor(vs[0]); err != nil {
				return q, err
			}
		default:
			return q, errQuery("There is no parameter "+strconv.Quote(printable(name, 20))+".", "The parameters are state, due, limit and cursor.")
		}
	}
	return q, nil
}

// cursor is an opaque place in a list.
func cursor(below bot.JobID) string {
	return base64.RawURLEncoding.EncodeToString(fmt.Appendf(nil, "below %d", below))
}

func readCursor(s string) (bot.JobID, error) {
	b, err := base64.RawURLEncoding.DecodeString(s)
	if n, ok := strings.CutPrefix(string(b), "below "); err == nil && ok {
		if id, err := strconv.ParseInt(n, 10, 64); err == nil && id > 0 {
			return bot.JobID(id), nil
		}
	}
	return 0, errQuery("The cursor is none that was given out here.", "Take it from next of the page before.")
}

// events is GET /v1/jobs/{id}/events: the job's history, oldest first.
func (a *API) events(w http.ResponseWriter, r *http.Request) error {
	if _, _, err := a.admit(r, nil, ReadJobs, a.c.Now()); err != nil {
		return err
	}
	id, err := jobID(r)
	if err != nil {
		return err
	}
	after, limit := 0, pageMost
	vals, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return errQuery("The query is not well formed.", "Escape it as a form.")
	}
	for name := range vals {
		n, err := strconv.Atoi(vals.Get(name))
		switch {
		case name == "after" && err == nil && n >= 0:
			after = n
		case name == "limit" && err == nil && n >= 1 && n <= pageMost:
			limit = n
		default:
			return errQuery("after is a number from 0, limit one from 1 to 100, and there are no other parameters.", "Take after from next of the page before.")
		}
	}
	entries, err := a.c.Jobs.History(r.Context(), id)
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return errNoJob // every job has the event that opened it
	}
	out := eventsView{Job: id, Events: []eventView{}}
	for _, e := range entries {
		if e.Seq <= after {
			continue
		}
		if len(out.Events) == limit {
			out.Next = out.Events[limit-1].Seq
			break
		}
		out.Events = append(out.Events, viewEvent(e))
	}
	writeJSON(w, http.StatusOK, "application/json", out)
	return nil
}
