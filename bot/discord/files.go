package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"strikeoff/bot"
)

// fileHosts are where Discord keeps what is attached. Nothing is fetched from anywhere else, whatever a message says.
var fileHosts = []string{"cdn.discordapp.com", "media.discordapp.net"}

// FileLimit is the largest file that is read, in bytes: 25 MiB, above what Discord takes without a subscription (10 MiB).
const FileLimit = 25 << 20

// The errors of Fetch.
var (
	ErrNoFile    = errors.New("discord: the file is gone")
	ErrFileLarge = errors.New("discord: the file is larger than the door reads")
)

// A file's id holds its channel, message and attachment: Discord's addresses run out, and only the message gives a fresh one.
func fileID(channelID, messageID, attachmentID string) string {
	return channelID + "/" + messageID + "/" + attachmentID
}

// Fetch writes a file that was attached to a message of this door to w. The error is ErrNoFile where the message or its file is gone, and
// ErrFileLarge past FileLimit: then w has seen a part.
func (c *Chat) Fetch(ctx context.Context, f bot.File, w io.Writer) error {
	r, err := c.open(ctx, f)
	if err != nil {
		return err
	}
	defer r.Close()
	if _, err := io.Copy(w, r); err != nil {
		return fmt.Errorf("discord: read file %s: %w", f.ID, err)
	}
	return nil
}

// open finds the file's message and begins to read the file. The caller closes it.
func (c *Chat) open(ctx context.Context, f bot.File) (io.ReadCloser, error) {
	parts := strings.Split(f.ID, "/")
	if len(parts) != 3 || slices.ContainsFunc(parts, func(s string) bool { return s == "" || strings.Trim(s, "0123456789") != "" }) {
		return nil, fmt.Errorf("%w: %q is no file of this door", ErrNoFile, f.ID)
	}
	if f.Bytes > FileLimit {
		return nil, ErrFileLarge
	}
	var m message
	err := c.rest.do(ctx, call{method: http.MethodGet, path: "/channels/" + parts[0] + "/messages/" + parts[1], again: true}, &m)
	if refused(err) {
		return nil, fmt.Errorf("%w: %w", ErrNoFile, err)
	}
	if err != nil {
		return nil, err
	}
	all := slices.Clone(m.Attachments.V)
	for _, s := range m.Snapshots.V {
		all = append(all, s.Message.V.Attachments.V...)
	}
	i := slices.IndexFunc(all, func(a attachment) bool { return a.ID == parts[2] })
	if i < 0 {
		return nil, ErrNoFile
	}
	return c.download(ctx, all[i].URL.V)
}

// download fetches from Discord's own file hosts, without the token.
func (c *Chat) download(ctx context.Context, address string) (io.ReadCloser, error) {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "https" || !slices.Contains(fileHosts, u.Host) || u.User != nil {
		return nil, fmt.Errorf("%w: its address is not Discord's", ErrNoFile)
	}
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, u.String(), nil)
	if err != nil {
		return nil, fmt.Errorf("%w: its address cannot be asked for", ErrNoFile)
	}
	res, err := c.rest.client.Do(req)
	if err != nil {
		return nil, scrubbed(err, http.MethodGet, u.Path)
	}
	switch {
	case res.StatusCode == http.StatusNotFound || res.StatusCode == http.StatusForbidden:
		res.Body.Close()
		return nil, ErrNoFile
	case res.StatusCode != http.StatusOK:
		res.Body.Close()
		return nil, fmt.Errorf("discord: GET of a file: status %d", res.StatusCode)
	case res.ContentLength > FileLimit:
		res.Body.Close()
		return nil, ErrFileLarge
	}
	return &limited{ReadCloser: res.Body, left: FileLimit}, nil
}

// PutFile puts a file up in a room or thread, and returns its id. alt is what is read out in place of a picture.
func (c *Chat) PutFile(ctx context.Context, at bot.Place, name, alt string, data []byte) (string, error) {
	channelID, under, err := c.target(ctx, at, bot.Post{})
	if err != nil {
		return "", err
	}
	m := struct {
		outMessage
		Attachments []map[string]any `json:"attachments"`
	}{newMessage(), []map[string]any{{"id": 0, "filename": name, "description": clip(alt, 1024)}}}
	if under != "" {
		m.Reference = &replyRef{Message: under}
	}
	var made message
	err = c.rest.do(ctx, call{method: http.MethodPost, path: "/channels/" + channelID + "/messages", body: m, file: &upload{name, data}}, &made)
	if err != nil {
		return "", err
	}
	if len(made.Attachments.V) == 0 {
		return "", fmt.Errorf("discord: the message %s was made without its file", made.ID)
	}
	return fileID(channelID, made.ID, made.Attachments.V[0].ID), nil
}

// handFiles gives the files of a message to the sink, in the background: the message itself is kept already.
func (c *Chat) handFiles(in bot.Inbound) {
	if c.cfg.Files == nil || len(in.Files) == 0 {
		return
	}
	if !c.lanes.carry(func(ctx context.Context) {
		for _, f := range in.Files {
			c.handFile(ctx, in, f)
		}
	}) {
		c.log.Error("too many files at once: those of one message were not read", "key", in.Key)
	}
}

// fileTries is how often a file is tried.
const fileTries = 4

func (c *Chat) handFile(ctx context.Context, in bot.Inbound, f bot.File) {
	wait := time.Second
	for try := 1; ; try++ {
		r, err := c.open(ctx, f)
		if err == nil {
			err = c.cfg.Files.KeepFile(ctx, in, f, r)
			r.Close()
		}
		if err == nil || ctx.Err() != nil {
			return
		}
		if try == fileTries || errors.Is(err, ErrNoFile) || errors.Is(err, ErrFileLarge) {
			c.log.Error("a file could not be kept", "key", in.Key, "file", f.ID, "err", err)
			return
		}
		if c.pause(ctx, wait) != nil {
			return
		}
		wait *= 4
	}
}

// limited is a reader that fails past a number of bytes, rather than ending as if there were no more.
type limited struct {
	io.ReadCloser
	left int64
}

func (l *limited) Read(p []byte) (int, error) {
	if l.left <= 0 {
		// One byte more tells a file of just the limit from a larger one.
		var one [1]byte
		n, err := l.ReadCloser.Read(one[:])
		if n > 0 {
			return 0, ErrFileLarge
		}
		return 0, err
	}
	if int64(len(p)) > l.left {
		p = p[:l.left]
	}
	n, err := l.ReadCloser.Read(p)
	l.left -= int64(n)
	return n, err
}
