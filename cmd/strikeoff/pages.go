package main

import (
	"context"
	"crypto/rand"
	"fmt"
	"strings"

	"strikeoff/bot"
	"strikeoff/bot/page"
)

// pageKey is the variable that holds the keys that sign links to pages: one, or two with a space between while a key is changed over.
const pageKey = "STRIKEOFF_PAGE_KEY"

// pages opens the pages. Without a key of the operator's, links are signed with one that lasts until the program stops.
func (o *open) pages(ledger bot.Ledger) error {
	written, err := secret(pageKey)
	if err != nil {
		return err
	}
	var keys [][]byte
	for _, k := range strings.Fields(written) {
		keys = append(keys, []byte(k))
	}
	if len(keys) == 0 {
		key := make([]byte, 32)
		if _, err := rand.Read(key); err != nil {
			return fmt.Errorf("making a key for links: %w", err)
		}
		keys = [][]byte{key}
	}
	p, err := page.New(page.Config{Jobs: ledger, Card: o.desk.FullCardOf, Row: o.desk.RowOf, Now: o.w.now, Zone: o.set.zone, Base: o.base(), Keys: keys, Log: o.log})
	if err != nil {
		return fmt.Errorf("pages: %w; %s wants 32 characters or more", err, pageKey)
	}
	p.Register(o.mux)
	o.desk.Links = p
	o.desk.Ledger = nudging{o.desk.Ledger, p.Nudge}
	o.names = append(o.names, "pages")
	return nil
}

// base is what this server is called from outside.
func (o *open) base() string {
	if o.serve.BaseURL != "" {
		return strings.TrimRight(o.serve.BaseURL, "/")
	}
	return "http://" + o.serve.Listen
}

// nudging is a ledger that tells open boards at once when a job was saved here; what another copy of the program saves they find by looking.
type nudging struct {
	bot.Ledger
	saved func()
}

// Save saves, and tells.
func (l nudging) Save(ctx context.Context, c bot.Change) error {
	err := l.Ledger.Save(ctx, c)
	if err == nil && c.Job != nil {
		l.saved()
	}
	return err
}
