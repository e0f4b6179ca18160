package main

import (
	"fmt"
	"slices"

	"strikeoff/bot"
	"strikeoff/bot/webhook"
	"strikeoff/intake"
	"strikeoff/rules"
)

// programs opens the door for programs: the API where the settings name sources, and the news where they name targets.
func (o *open) programs(ledger bot.Ledger, meters *webhook.Meters) error {
	if err := o.sources(ledger, meters); err != nil {
		return err
	}
	return o.targets(ledger, meters)
}

// sources opens the API to the programs that may use it.
func (o *open) sources(ledger bot.Ledger, meters *webhook.Meters) error {
	if len(o.set.sources) == 0 {
		return nil
	}
	c := webhook.Config{
		Desk: o.desk, Jobs: ledger, Now: o.w.now, Base: o.serve.BaseURL, Meters: meters, Log: o.log,
		Read: func(text string, received rules.Date) (rules.Order, bool) {
			r := intake.Read(text, intake.Options{Received: received, DayFirst: o.desk.DayFirst})
			return r.Order, r.IsOrder
		},
		Decide: func(order rules.Order, today rules.Date) rules.Plan {
			return rules.Decide(order, o.set.shop, rules.Record{Today: today})
		},
	}
	c.Now = inZone(o.w.now, o.set.zone)
	if o.art != nil {
		c.Shelf = o.art.shelf
	}
	for _, s := range o.set.sources {
		source, err := sourceOf(s)
		if err != nil {
			return err
		}
		c.Sources = append(c.Sources, source)
	}
	api, err := webhook.New(c)
	if err != nil {
		return err
	}
	api.Register(o.mux)
	o.drains = append(o.drains, api.Drain)
	o.names = append(o.names, "api")
	return nil
}

// sourceOf turns a source's settings into what the door needs, its secrets included.
func sourceOf(s sourceSetting) (webhook.Source, error) {
	what := fmt.Sprintf("source %q", s.Name)
	source := webhook.Source{Name: s.Name, Rate: s.Rate}
	for _, scope := range s.Scopes {
		if !slices.Contains(webhook.Scopes, webhook.Scope(scope)) {
			return source, fmt.Errorf("%s has the scope %q; allowed are %v", what, scope, webhook.Scopes)
		}
		source.Scopes = append(source.Scopes, webhook.Scope(scope))
	}
	var err error
	if source.Keys, err = keysOf(what, s.Secret); err != nil {
		return source, err
	}
	for _, name := range s.Token {
		v, err := neededSecret(name, what)
		if err != nil {
			return source, err
		}
		token, err := webhook.ParseToken(v)
		if err != nil {
			return source, fmt.Errorf("%s: the token in %s: %w", what, name, err)
		}
		source.Tokens = append(source.Tokens, token)
	}
	if s.Room != "" {
		if source.Room, err = roomOf(s.Room); err != nil {
			return source, fmt.Errorf("%s: room: %w", what, err)
		}
	}
	return source, nil
}

// keysOf reads the signing keys that the variables of those names hold.
func keysOf(what string, names []string) (keys webhook.Keys, err error) {
	for _, name := range names {
		v, err := neededSecret(name, what)
		if err != nil {
			return nil, err
		}
		key, err := webhook.ParseSecret(v)
		if err != nil {
			return nil, fmt.Errorf("%s: the signing key in %s: %w", what, name, err)
		}
		keys = append(keys, key)
	}
	return keys, nil
}

// targets opens the way out to the programs that are told when a job changes.
func (o *open) targets(ledger bot.Ledger, meters *webhook.Meters) error {
	c := webhook.SenderConfig{Now: o.w.now, Ledger: ledger, Source: o.serve.BaseURL, Meters: meters, Log: o.log}
	announcer := webhook.Announcer{Base: o.serve.BaseURL}
	for _, t := range o.set.targets {
		keys, err := keysOf(fmt.Sprintf("target %q", t.Name), t.Secret)
		if err != nil {
			return err
		}
		c.Targets = append(c.Targets, webhook.Target{Name: t.Name, URL: t.URL, Keys: keys, Private: t.Private})
		announcer.Targets = append(announcer.Targets, t.Name)
	}
	for _, p := range o.desk.Production {
		c.Alerts = p // any production room will do: what was set aside concerns whoever runs the shop
	}
	sender, err := webhook.NewSender(c)
	if err != nil {
		return err
	}
	o.desk.Doors[webhook.Door] = sender
	o.desk.Also = announcer.Also
	return nil
}
