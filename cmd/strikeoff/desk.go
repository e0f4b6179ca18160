package main

import (
	"io"
	"log/slog"
	"strings"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/console"
)

// desk wires the conversation over a ledger. Doors are added by whoever opens them.
func (s *settings) desk(l bot.Ledger, now func() time.Time, log *slog.Logger) *bot.Desk {
	return &bot.Desk{
		Ledger:   l,
		Now:      now,
		Shop:     s.shop,
		Zone:     s.zone,
		DayFirst: s.DateOrder == "dmy",
		Roster:   s.roster(),
		Production: map[string]bot.Place{
			console.Door: {Door: console.Door, Room: console.ProductionRoom},
		},
		Doors: map[string]bot.Poster{},
		Log:   log,
	}
}

// roster is the leads by door. Who sits at the console may speak as its lead.
func (s *settings) roster() map[string]bot.Leads {
	r := map[string]bot.Leads{console.Door: {People: []string{console.LeadID}}}
	for _, l := range s.Leads {
		door, who, _ := strings.Cut(l, ":")
		leads := r[door]
		if group, ok := strings.CutPrefix(who, "group:"); ok {
			leads.Groups = append(leads.Groups, group)
		} else {
			leads.People = append(leads.People, who)
		}
		r[door] = leads
	}
	return r
}

// logger logs to w at the level that is set.
func (s *settings) logger(w io.Writer) *slog.Logger {
	var level slog.Level
	_ = level.UnmarshalText([]byte(s.LogLevel)) // Kong lets only the four names through
	return slog.New(slog.NewTextHandler(w, &slog.HandlerOptions{Level: level}))
}
