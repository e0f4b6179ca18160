package webhook

import (
	"bytes"
	"errors"
	"net/http"
	"strings"

	"strikeoff/bot"
)

// taken is the answer to an order that was kept.
type taken struct {
	ID     string `json:"id"`     // the webhook-id
	Kept   bool   `json:"kept"`   // always true: what was not kept is a problem
	Repeat bool   `json:"repeat"` // it had been kept before, and nothing was done again
	Order  string `json:"order"`  // where to ask what became of it
}

// opened is what became of an order.
type opened struct {
	ID  string    `json:"id"`
	Job bot.JobID `json:"job"`
	URL string    `json:"url"`
}

// keyOf is the ledger's key of a source's message.
func keyOf(source, id string) string { return Door + ":" + source + ":" + id }

// take is POST /v1/orders: the order is read, planned and kept with its job, then acknowledged. One that cannot be answered now is kept for
// the desk to try again, and acknowledged too.
func (a *API) take(w http.ResponseWriter, r *http.Request) error {
	if a.draining.Load() {
		return errDraining
	}
	now := a.c.Now()
	if a.backlog.over(r.Context(), a.c.Jobs, a.c.Limits.Backlog, now) {
		return errBacklog
	}
	limit := a.c.Limits.Body
	if kind := r.Header.Get("Content-Type"); strings.HasPrefix(strings.ToLower(kind), "multipart/") {
		if !a.uploads.enter(r.Context()) {
			return errBusy
		}
		defer a.uploads.leave()
		limit = a.c.Limits.Upload
	}
	body, err := a.readBody(w, r, limit)
	if err != nil {
		return err
	}
	src, id, err := a.admit(r, body, WriteOrders, now)
	if err != nil {
		return err
	}
	if !goodID(id) {
		return problem{Status: http.StatusBadRequest, Code: "webhook-id", Detail: "Nothing was kept: " + ErrID.Error() + ".",
			Next: "Give every order an id of its own in the header webhook-id, and the same id when it is sent again."}
	}
	q, err := a.parse(r.Header.Get("Content-Type"), body)
	if err != nil {
		return err
	}
	in := bot.Inbound{Key: keyOf(src.Name, id), Sort: bot.Shortcut, Place: src.Room, Text: q.Text, Order: q.Order, Said: now,
		By: bot.Person{ID: "source:" + src.Name, Name: src.Name, Bot: true}}
	if q.From.Name != "" {
		in.By.Name = q.From.Name + " by " + src.Name
	}
	if in.Place.Door == Door {
		in.Place.Thread = id
		in.Anchor = id
	}
	for _, f := range q.art {
		if a.c.Shelf == nil {
			return problem{Status: http.StatusUnprocessableEntity, Code: "no-artwork", Detail: "This shop takes no artwork here, so nothing was kept.",
				Next: "Send the order without it."}
		}
		fileID, err := a.c.Shelf.Put(r.Context(), f.data)
		if errors.Is(err, ErrShelfFull) {
			return problem{Status: http.StatusInsufficientStorage, Code: "shelf-full", Detail: "There is no room left for artwork, so nothing was kept.",
				Next: "Tell whoever runs strikeoff, and send it again after.", after: errBacklog.after}
		} else if err != nil {
			return err
		}
		in.Files = append(in.Files, bot.File{ID: fileID, Name: f.name, Type: f.kind, Bytes: int64(len(f.data))})
	}
	fresh, err := a.c.Desk.Keep(r.Context(), in)
	if err != nil {
		return err
	}
	for i, f := range in.Files {
		if a.c.Sink == nil {
			break
		}
		// The order and its artwork are safe already: a sink that fails is no reason to refuse them.
		if err := a.c.Sink.KeepFile(r.Context(), in, f, bytes.NewReader(q.art[i].data)); err != nil {
			a.c.Log.Error("artwork was kept but could not be handed on", "message", in.Key, "file", f.ID, "error", err)
		}
	}
	a.c.Log.Info("order kept", "message", in.Key, "fresh", fresh, "bytes", len(body), "files", len(in.Files))
	t := taken{ID: id, Kept: true, Repeat: !fresh, Order: a.c.Base + "/v1/orders/" + id}
	w.Header().Set("Location", t.Order)
	status := http.StatusAccepted
	if t.Repeat {
		status = http.StatusOK
	}
	writeJSON(w, status, "application/json", t)
	return nil
}

// order is GET /v1/orders/{id}: the job that came of the caller's own order.
func (a *API) order(w http.ResponseWriter, r *http.Request) error {
	src, _, err := a.admit(r, nil, ReadJobs, a.c.Now())
	if err != nil {
		return err
	}
	id := r.PathValue("id")
	if !goodID(id) {
		return problem{Status: http.StatusNotFound, Code: "no-such-order", Detail: "That is no id of an order.", Next: "Use the webhook-id that the order was sent under."}
	}
	n, err := a.c.Jobs.FromMessage(r.Context(), keyOf(src.Name, id))
	if errors.Is(err, bot.ErrNoJob) {
		return problem{Status: http.StatusNotFound, Code: "no-job-yet", Detail: "No job has come of an order with that id. It may still wait to be read, it may ask for no printing, or it never came.",
			Next: "Ask again in a few seconds.", after: errBusy.after}
	} else if err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, "application/json", opened{ID: id, Job: n, URL: a.jobURL(n)})
	return nil
}
