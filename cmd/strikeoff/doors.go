package main

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"

	"strikeoff/bot"
	"strikeoff/bot/slack"
)

// open is everything that is open at once while the program serves.
type open struct {
	desk   *bot.Desk
	mux    *http.ServeMux
	log    *slog.Logger
	set    *settings
	serve  serveCmd
	w      world
	runs   []func(context.Context) error // what runs until the program stops
	drains []func()                      // what must refuse new work before it stops
	names  []string                      // the doors, for the log
}

// slack opens the door to Slack where its token is set.
func (o *open) slack() error {
	c := slack.Config{Orders: roomsOf(slack.Name, o.serve.OrdersRooms), Now: o.w.now, Log: o.log}
	for name, to := range map[string]*string{"STRIKEOFF_SLACK_BOT_TOKEN": &c.BotToken, "STRIKEOFF_SLACK_APP_TOKEN": &c.AppToken,
		"STRIKEOFF_SLACK_SIGNING_SECRET": &c.SigningSecret} {
		v, err := secret(name)
		if err != nil {
			return err
		}
		*to = v
	}
	if c.BotToken == "" {
		if c.AppToken != "" || c.SigningSecret != "" {
			return fmt.Errorf("STRIKEOFF_SLACK_BOT_TOKEN is not set, though another Slack secret is: set it, or none of them")
		}
		return nil
	}
	door, err := slack.New(o.desk, c)
	if err != nil {
		return err
	}
	o.desk.Doors[slack.Name] = door
	o.runs = append(o.runs, door.Run)
	if c.SigningSecret != "" {
		o.mux.Handle("POST /slack", door)
	}
	o.names = append(o.names, slack.Name)
	return nil
}
