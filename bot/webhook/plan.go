package webhook

import (
	"net/http"

	"strikeoff/rules"
)

// planned is the answer of POST /v1/plan, in the names of the order and plan contracts.
type planned struct {
	IsOrder bool        `json:"is_order"`
	Order   rules.Order `json:"order"`
	Plan    rules.Plan  `json:"plan"`
}

// plan is POST /v1/plan: read and planned at once, and forgotten. It opens no job.
func (a *API) plan(w http.ResponseWriter, r *http.Request) error {
	now := a.c.Now()
	body, err := a.readBody(w, r, a.c.Limits.Body)
	if err != nil {
		return err
	}
	if _, _, err := a.admit(r, body, AskPlans, now); err != nil {
		return err
	}
	q, err := a.parse(r.Header.Get("Content-Type"), body)
	if err != nil {
		return err
	}
	if len(q.art) > 0 {
		return problem{Status: http.StatusUnprocessableEntity, Code: "no-artwork", Detail: "A plan without a job takes no artwork.", Next: "Send it with the order to /v1/orders."}
	}
	today := rules.DateOf(now)
	if q.Received != "" {
		today = q.Received
	}
	out := planned{IsOrder: true}
	if q.Order != nil {
		out.Order = *q.Order
	} else {
		out.Order, out.IsOrder = a.c.Read(q.Text, today)
	}
	out.Plan = a.c.Decide(out.Order, today)
	a.c.Meters.plan(out.Plan)
	writeJSON(w, http.StatusOK, "application/json", out)
	return nil
}
