// Package slack is the door to Slack: what people say, press and drop there is handed to the desk in its own words, and what the desk says
// is dressed in Slack's blocks. It takes no decision about a job.
//
// Wiring, in the program:
//
//	door, err := slack.New(desk, slack.Config{BotToken: …, AppToken: …, Orders: []string{"C0123456789"}, Now: time.Now, Log: log})
//	desk.Doors[slack.Name] = door                        // posts go out through it
//	desk.Roster[slack.Name] = bot.Leads{People: …, Groups: …} // ids of users (U…) and of user groups (S…)
//	desk.Production[slack.Name] = bot.Place{Door: slack.Name, Room: "C…"}
//	go door.Run(ctx)                                     // the socket (with an AppToken), catching up, keeping cursors
//	mux.Handle("POST /slack", door)                      // only where Slack delivers by HTTP (with a SigningSecret)
//
// Both transports end in the same handlers. Every delivery is kept by the desk before it is acknowledged. Slack redelivers events that
// were not acknowledged, and the key made from team, channel and message makes a redelivery do nothing; it does not redeliver presses,
// forms and commands, so for those the person is told at once when nothing was kept.
//
// Events are decoded by hand, field by field ([fields]): the client library refuses a whole event for one odd field. Nothing that people
// wrote ever stands in text that Slack reads as markup: it goes into rich text elements and plain text objects, and is escaped where
// neither can be had.
package slack
