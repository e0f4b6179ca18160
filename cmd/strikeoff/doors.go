package main

import (
	"context"
	"errors"
	"log/slog"
	"net/http"

	"strikeoff/bot"
	"strikeoff/bot/discord"
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
	art    *artwork                      // keeps files; nil where no folder is set
}

// files is where doors put the files that come with messages.
func (o *open) files() bot.FileSink {
	if o.art == nil {
		return nil
	}
	return o.art
}

// slackSecrets reads what opens the door to Slack: a config without a bot token where the door stays shut.
func slackSecrets() (c slack.Config, err error) {
	for name, to := range map[string]*string{"STRIKEOFF_SLACK_BOT_TOKEN": &c.BotToken, "STRIKEOFF_SLACK_APP_TOKEN": &c.AppToken,
		"STRIKEOFF_SLACK_SIGNING_SECRET": &c.SigningSecret} {
		if *to, err = secret(name); err != nil {
			return c, err
		}
	}
	if c.BotToken == "" && c.AppToken+c.SigningSecret != "" {
		return c, errors.New("STRIKEOFF_SLACK_BOT_TOKEN is not set, though another Slack secret is: set it, or none of them")
	}
	return c, nil
}

// slack opens the door to Slack where its token is set.
func (o *open) slack() error {
	c, err := slackSecrets()
	if err != nil || c.BotToken == "" {
		return err
	}
	c.Orders, c.Files, c.Now, c.Log = roomsOf(slack.Name, o.serve.OrdersRooms), o.files(), o.w.now, o.log
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

// discord opens the door to Discord where its token is set.
func (o *open) discord() error {
	c := discord.Config{Desk: o.desk, OrdersRooms: roomsOf(discord.Door, o.serve.OrdersRooms), GuildIDs: o.serve.DiscordServers,
		Files: o.files(), Now: o.w.now, Log: o.log}
	var err error
	if c.Token, err = secret("STRIKEOFF_DISCORD_TOKEN"); err != nil || c.Token == "" {
		return err
	}
	if c.PublicKey, err = secret("STRIKEOFF_DISCORD_PUBLIC_KEY"); err != nil {
		return err
	}
	door, err := discord.New(c)
	if err != nil {
		return err
	}
	o.desk.Doors[discord.Door] = door
	o.runs = append(o.runs, door.Run)
	if c.PublicKey != "" {
		o.mux.Handle("POST /discord/interactions", door.Interactions())
	}
	o.names = append(o.names, discord.Door)
	return nil
}
