// Package discord is the door for shops that talk on Discord: it hands what is said there to the desk and puts the desk's answers up as
// embeds and buttons, in a thread a request. It translates and posts; it decides nothing.
//
// Wiring it takes one value:
//
//	door, err := discord.New(discord.Config{
//		Token:       token,             // the bot's token
//		PublicKey:   key,               // hex, from the portal; "" leaves the HTTP endpoint out
//		GuildIDs:    guilds,            // where commands are registered while trying; none is everywhere
//		OrdersRooms: rooms,             // channel ids that are read; none is every channel the bot sees
//		Desk:        desk,
//		Now:         time.Now,
//		Log:         log,
//	})
//	desk.Doors[discord.Door] = door                  // before desk.Run
//	mux.Handle("/discord/interactions", door.Interactions()) // only where PublicKey is set
//	go door.Run(ctx)                                 // until ctx ends, or a *discord.FinalError
//
// Files that come with messages go to Config.Files; [Chat.Fetch] reads one later and [Chat.PutFile] puts one up.
// Leads are named in the desk's roster by user id or, as a group, by role id.
//
// Messages come over the gateway, which has no acknowledgement: each is kept before the next of its channel is looked at, and after every
// new session the history of each room and thread is read from the last message that was kept. Interactions come over the gateway or the
// HTTP endpoint, whichever the portal says, and are kept before they are answered. Several copies of the program may run with one token:
// each hears everything, and the ledger keeps it once.
package discord
