package discord

import (
	"math/bits"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	dg "github.com/bwmarrin/discordgo"
)

var permissionRow = regexp.MustCompile(`(?m)^\| [A-Z][A-Za-z ]+ \| (\d+) \| (\d+) \| \S.* \|$`)

// Ensure the page explains each bit of the number that it tells people to grant, and no other.
func TestPermissionNumber(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "deploy", "discord", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var sum int64
	rows := permissionRow.FindAllStringSubmatch(string(b), -1)
	for _, r := range rows {
		bit, _ := strconv.Atoi(r[1])
		n, _ := strconv.ParseInt(r[2], 10, 64)
		if n != 1<<bit {
			t.Errorf("bit %d is %d, not %d", bit, int64(1)<<bit, n)
		}
		sum += n
	}
	if len(rows) == 0 || len(rows) != bits.OnesCount64(Permissions) || sum != Permissions {
		t.Errorf("%d rows come to %d, want the %d bits of %d", len(rows), sum, bits.OnesCount64(Permissions), int64(Permissions))
	}
	number := strconv.FormatInt(Permissions, 10)
	link := strings.Replace(Invite("APPLICATION_ID"), "&scope=bot+applications.commands", "", 1)
	if !strings.Contains(string(b), link) || !strings.Contains(string(b), "**"+number+"**") {
		t.Errorf("the page lacks the invitation %s or the sum", link)
	}
}

// needs is what each call of the door needs, by Discord's documentation of the endpoints. A call that is missing here fails the test.
var needs = map[string]int64{
	"GET /channels/:main":                             dg.PermissionViewChannel,
	"PATCH /channels/:main":                           dg.PermissionSendMessagesInThreads,
	"GET /channels/:main/messages":                    dg.PermissionViewChannel | dg.PermissionReadMessageHistory,
	"GET /channels/:main/messages/:id":                dg.PermissionViewChannel | dg.PermissionReadMessageHistory,
	"POST /channels/:main/messages":                   dg.PermissionSendMessages | dg.PermissionSendMessagesInThreads | dg.PermissionEmbedLinks | dg.PermissionAttachFiles,
	"PATCH /channels/:main/messages/:id":              0, // our own
	"DELETE /channels/:main/messages/:id":             0, // our own
	"POST /channels/:main/messages/:id/threads":       dg.PermissionCreatePublicThreads,
	"GET /guilds/:main/channels":                      0,
	"GET /guilds/:main/threads/active":                dg.PermissionViewChannel,
	"GET /applications/@me":                           0,
	"GET /users/@me":                                  0,
	"GET /gateway":                                    0,
	"GET /applications/:id/commands":                  0, // the scope applications.commands
	"PUT /applications/:id/commands":                  0,
	"GET /applications/:id/guilds/:id/commands":       0,
	"PUT /applications/:id/guilds/:id/commands":       0,
	"GET /webhooks/:main/:token/messages/@original":   0, // by the interaction's own token
	"PATCH /webhooks/:main/:token/messages/@original": 0,
	"POST /webhooks/:main/:token":                     0,
	"POST /interactions/:id/:callback":                0,
}

// Ensure every permission that is asked for is needed by a call, and none that is needed is missing.
func TestPermissionsUsed(t *testing.T) {
	var all int64
	for _, n := range needs {
		all |= n
	}
	if all != Permissions {
		t.Errorf("the calls need %b, the bot asks for %b", all, int64(Permissions))
	}
}

// checkNeeds notes a call that needs does not list. Every test that talks to the fake so keeps the list true.
func (f *fake) checkNeeds(method, path string) {
	route, _ := routeOf(method, path)
	route = strings.Replace(route, " ", " /", 1)
	if strings.HasPrefix(path, "/interactions/") {
		route = "POST /interactions/:id/:callback"
	}
	if _, ok := needs[route]; !ok {
		f.t.Errorf("the call %s is not in the list of what needs which permission", route)
	}
}
