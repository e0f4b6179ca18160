package discord

import (
	"net/url"
	"strconv"

	dg "github.com/bwmarrin/discordgo"
)

// Permissions are what the bot asks for when it is invited. Each bit is used by a call that the door makes; none is there for later.
const Permissions = dg.PermissionViewChannel | // to hear what is said in a room
	dg.PermissionSendMessages | // to answer in a room, and to tell the production room
	dg.PermissionSendMessagesInThreads | // to answer in a request's thread, and to wake it
	dg.PermissionCreatePublicThreads | // to start that thread
	dg.PermissionEmbedLinks | // to show cards
	dg.PermissionAttachFiles | // to put up the picture of the foreseen colours
	dg.PermissionReadMessageHistory // to read what was said while the program was away, and fetch files

// Invite is the address at which somebody who manages a server invites the bot to it.
func Invite(appID string) string {
	q := url.Values{"client_id": {appID}, "scope": {"bot applications.commands"}, "permissions": {strconv.FormatInt(Permissions, 10)}}
	return "https://discord.com/oauth2/authorize?" + q.Encode()
}
