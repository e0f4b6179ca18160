package main

import (
	"fmt"
	"strings"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/intake"
	"strikeoff/rules"
)

type planCmd struct {
	reading
	Orders string `help:"Plan a JSON Lines file of {id, order, shop}, the orders already read; - is standard input." placeholder:"FILE"`
}

// readOrder is one line of a file of orders.
type readOrder struct {
	ID    string      `json:"id"`
	Order rules.Order `json:"order"`
	Shop  *rules.Shop `json:"shop"` // overrides the shop's settings for this line
}

// planned is what is printed for an order.
type planned struct {
	ID   string     `json:"id"`
	Plan rules.Plan `json:"plan"`
}

func (c planCmd) Run(w world, set *settings) error {
	shop := set.shop
	if c.Orders != "" {
		return eachLine(w, c.Orders, func(o readOrder) error {
			s := shop
			if o.Shop != nil {
				s = *o.Shop
			}
			return printJSON(w.out, planned{ID: o.ID, Plan: rules.Decide(o.Order, s, rules.Record{})})
		})
	}
	if c.Lines != "" {
		return eachLine(w, c.Lines, func(m message) error {
			o, err := c.options(w, set, m.Received)
			if err != nil {
				return err
			}
			r := understand(m, o)
			return printJSON(w.out, answerOf(m.ID, r, shop, o.Received))
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
	a := answerOf("", intake.Read(text, o), shop, o.Received)
	if c.JSON {
		return printJSON(w.out, a)
	}
	if !a.IsOrder {
		_, err := fmt.Fprintln(w.out, "This asks for nothing to be printed. A plan needs garments and what goes on them.")
		return err
	}
	j := job.Job{Order: a.Order, Plan: *a.Plan, PlanRev: 1}
	for _, odd := range a.Odd {
		j.Odd = append(j.Odd, odd.Text)
	}
	card := bot.FullCardOf(j, w.now(), set.zone)
	card.Actions = nil
	_, err = fmt.Fprintln(w.out, strings.TrimPrefix(bot.Text(bot.Post{Card: &card}, 100), "Job 0: ")) // nobody opened a job
	return err
}

// answerOf plans what was read.
func answerOf(id string, r intake.Reading, shop rules.Shop, today rules.Date) answer {
	p := rules.Decide(r.Order, shop, rules.Record{Today: today})
	return answer{ID: id, IsOrder: r.IsOrder, Order: r.Order, Odd: r.Odd, Plan: &p}
}
