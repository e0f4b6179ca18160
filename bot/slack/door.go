package slack

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// Name is this door's name in places, rosters and the desk's table of doors.
const Name = "slack"

// Config is everything the door needs to be told. BotToken, Now and one of AppToken and SigningSecret are required.
type Config struct {
	BotToken      string   // "xoxb-…": what the app may do in the workspace
	AppToken      string   // "xapp-…", scope connections:write: events come over a socket, and no public address is needed
	SigningSecret string   // proves that an HTTP request is Slack's; "" refuses every HTTP request
	Orders        []string // ids of the channels (C…) in which every message may be a request; none: every channel that the app is in
	Limits        Limits
	Files         bot.FileSink     // gets the files that come with messages; nil drops them
	APIURL        string           // another API base than Slack's, ending in "/", for tests
	Client        *http.Client     // nil is a client with a 10 s limit
	Now           func() time.Time // the clock
	Log           *slog.Logger     // nil is silence
}

// Limits bound what the door takes in and holds. Every zero means the usual value, named beside it.
type Limits struct {
	BodyBytes int64         // the largest HTTP request: 1 MiB
	FileBytes int64         // the largest file that is fetched: 32 MiB
	Overlap   time.Duration // how far before the last message seen catching up begins: 10 minutes
	Pages     int           // history pages read a room when catching up, 200 messages each: 50
	Parts     int           // messages that one long post may be split into: 8
}

// usual puts the usual value where none is set.
func (l Limits) usual() Limits {
	if l.BodyBytes <= 0 {
		l.BodyBytes = 1 << 20
	}
	if l.FileBytes <= 0 {
		l.FileBytes = 32 << 20
	}
	if l.Overlap <= 0 {
		l.Overlap = 10 * time.Minute
	}
	if l.Pages <= 0 {
		l.Pages = 50
	}
	if l.Parts <= 0 {
		l.Parts = 8
	}
	return l
}

// LogValue keeps the secrets out of logs.
func (c Config) LogValue() slog.Value {
	return slog.GroupValue(slog.Bool("socket", c.AppToken != ""), slog.Bool("http", c.SigningSecret != ""), slog.Any("orders", c.Orders))
}

// String keeps the secrets out of printed texts.
func (c Config) String() string { return "slack door: " + c.LogValue().String() }

// GoString keeps the secrets out of %#v.
func (c Config) GoString() string { return c.String() }

// check says what is wrong with a configuration, naming what is allowed and never a secret's value.
func (c Config) check() error {
	switch {
	case !strings.HasPrefix(c.BotToken, "xoxb-"):
		return errors.New("the Slack bot token must begin with xoxb-: copy it from the app's page \"OAuth & Permissions\"")
	case c.AppToken != "" && !strings.HasPrefix(c.AppToken, "xapp-"):
		return errors.New("the Slack app token must begin with xapp-: make one on the app's page \"Basic Information\" with the scope connections:write")
	case c.AppToken == "" && c.SigningSecret == "":
		return errors.New("the Slack door needs an app token (events over a socket) or a signing secret (events by HTTP), and has neither")
	case c.APIURL != "" && !strings.HasSuffix(c.APIURL, "/"):
		return fmt.Errorf("the Slack API URL %q must end in a slash", c.APIURL)
	case c.Now == nil:
		return errors.New("the Slack door has no clock")
	}
	for _, id := range c.Orders {
		if id == "" || !strings.ContainsAny(id[:1], "CG") || strings.ContainsAny(id, " #") {
			return fmt.Errorf("the Slack orders channel %q is no channel id: an id begins with C and stands at the foot of the channel's details", id)
		}
	}
	return nil
}

// Door is Slack as the desk sees it. It is an http.Handler for Slack's requests and a bot.Poster. Its methods are safe for concurrent use.
type Door struct {
	c      Config
	desk   *bot.Desk
	api    *sdk.Client
	log    *slog.Logger
	scrub  scrubber
	paces  paces
	people people
	urls   replyURLs
	doubts doubts
	marks  marks
	recent recent
	orders map[string]bool

	meetMu sync.Mutex
	self   self      // who we are; zero until Slack was asked
	unmet  error     // why Slack did not say
	metAt  time.Time // when it was asked last
	lifeMu sync.Mutex
	life   context.Context // of what goes on in the background; ends a while after Run has ended
	end    context.CancelFunc
	tasks  sync.WaitGroup // what goes on in the background
	busy   atomic.Int64   // how much goes on after acknowledgements
}

// self is the app as Slack knows it.
type self struct{ team, user, bot string }

// New makes a door to a desk. It talks to nobody yet.
func New(desk *bot.Desk, c Config) (*Door, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	c.Limits = c.Limits.usual()
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Client == nil {
		t := http.DefaultTransport.(*http.Transport).Clone()
		t.MaxIdleConnsPerHost = 32
		c.Client = &http.Client{Timeout: 10 * time.Second, Transport: t}
	}
	opts := []sdk.Option{sdk.OptionHTTPClient(c.Client), sdk.OptionAppLevelToken(c.AppToken), sdk.OptionLog(silent{})}
	if c.APIURL != "" {
		opts = append(opts, sdk.OptionAPIURL(c.APIURL))
	}
	d := &Door{c: c, desk: desk, api: sdk.New(c.BotToken, opts...), log: c.Log, orders: map[string]bool{}}
	d.scrub = newScrubber(c.BotToken, c.AppToken, c.SigningSecret)
	for _, id := range c.Orders {
		d.orders[id] = true
	}
	d.people.d, d.urls.now, d.paces.now = d, c.Now, c.Now
	return d, nil
}

// silent is a logger that says nothing: the library would log message texts.
type silent struct{}

func (silent) Output(int, string) error { return nil }

// Meet asks Slack who we are, once. Until it succeeded nothing can be handled, for the keys of messages carry the team.
func (d *Door) Meet(ctx context.Context) error {
	_, err := d.whoami(ctx)
	return err
}

func (d *Door) whoami(ctx context.Context) (self, error) {
	d.meetMu.Lock()
	defer d.meetMu.Unlock()
	if d.self.team != "" {
		return d.self, nil
	}
	if d.unmet != nil && d.c.Now().Sub(d.metAt) < time.Second { // those who wait must not ask one after the other
		return self{}, d.unmet
	}
	r, err := d.api.AuthTestContext(ctx)
	if err != nil {
		d.unmet, d.metAt = d.failed("auth.test", "", err), d.c.Now()
		return self{}, d.unmet
	}
	d.self = self{team: r.TeamID, user: r.UserID, bot: r.BotID}
	return d.self, nil
}

// alive is the context of what goes on in the background.
func (d *Door) alive() context.Context {
	d.lifeMu.Lock()
	defer d.lifeMu.Unlock()
	if d.life == nil || d.life.Err() != nil {
		d.life, d.end = context.WithCancel(context.Background())
	}
	return d.life
}

// finish waits for what goes on in the background, and ends it where it takes too long.
func (d *Door) finish(within time.Duration) {
	d.alive()
	d.lifeMu.Lock()
	late := time.AfterFunc(within, d.end)
	d.lifeMu.Unlock()
	d.tasks.Wait()
	late.Stop()
}

// later runs f after the acknowledgement, with a time limit of its own: the request it belongs to is over by then.
func (d *Door) later(f func(context.Context)) {
	if f == nil {
		return
	}
	d.busy.Add(1)
	d.tasks.Go(func() {
		defer d.busy.Add(-1)
		ctx, cancel := context.WithTimeout(d.alive(), 15*time.Second)
		defer cancel()
		f(ctx)
	})
}
