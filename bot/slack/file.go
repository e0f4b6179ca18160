package slack

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// fileIn is a file that came with a message, and whether it is one that can be fetched: a file kept elsewhere (a link) is not, nor is one
// that was taken back or that Slack hides for its age.
func fileIn(f fields) (bot.File, bool) {
	id := f.str("id")
	if id == "" || f.yes("is_external") {
		return bot.File{}, false
	}
	switch f.str("mode") {
	case "tombstone", "hidden_by_limit", "external":
		return bot.File{}, false
	}
	name := f.str("name")
	if name == "" {
		name = id // a stub: what it is must be asked for
	}
	return bot.File{ID: id, Name: name, Type: f.str("mimetype"), Bytes: f.num("size")}, true
}

// errTooLarge says that a file is larger than the door's limit.
var errTooLarge = errors.New("the file is larger than the limit")

// handFiles hands a kept message's files to the sink, in the background: a file that cannot be had must not hold up what was said.
func (d *Door) handFiles(in bot.Inbound) {
	if d.c.Files == nil {
		return
	}
	for _, f := range in.Files {
		d.busy.Add(1)
		d.tasks.Go(func() {
			defer d.busy.Add(-1)
			for try := range 3 {
				life := d.alive()
				if try > 0 && !pause(life, time.Duration(try)*time.Second) {
					return
				}
				ctx, cancel := context.WithTimeout(life, time.Minute)
				var b bytes.Buffer
				full, err := d.fetch(ctx, f, &b)
				if err == nil {
					err = d.c.Files.KeepFile(ctx, in, full, &b)
				}
				cancel()
				if err == nil {
					return
				}
				d.log.Warn("a file was not kept", "message", in.Key, "file", f.ID, "try", try+1, "err", d.scrub.err(err))
				if errors.Is(err, errTooLarge) || word(err) == "file_not_found" || word(err) == "missing_scope" {
					return
				}
			}
		})
	}
}

// Fetch writes a file's bytes to w.
func (d *Door) Fetch(ctx context.Context, f bot.File, w io.Writer) error {
	_, err := d.fetch(ctx, f, w)
	return err
}

// fetch also says what Slack knows about the file: events may carry a stub.
func (d *Door) fetch(ctx context.Context, f bot.File, w io.Writer) (bot.File, error) {
	if f.Bytes > d.c.Limits.FileBytes {
		return f, d.tooLarge(f)
	}
	info, _, _, err := d.api.GetFileInfoContext(ctx, f.ID, 0, 0)
	if err != nil {
		return f, d.failed("files.info", "", err)
	}
	f.Name, f.Type, f.Bytes = info.Name, info.Mimetype, int64(info.Size)
	if f.Bytes > d.c.Limits.FileBytes {
		return f, d.tooLarge(f)
	}
	url := info.URLPrivateDownload
	if url == "" {
		url = info.URLPrivate
	}
	capped := &capped{w: w, left: d.c.Limits.FileBytes}
	if err := d.api.GetFileContext(ctx, url, capped); err != nil {
		if capped.over {
			return f, d.tooLarge(f)
		}
		return f, d.failed("file download", "", err)
	}
	return f, nil
}

func (d *Door) tooLarge(f bot.File) error {
	return fmt.Errorf("file %s: %w of %d bytes", f.ID, errTooLarge, d.c.Limits.FileBytes)
}

// capped is a writer that takes so much and no more, whatever size was declared.
type capped struct {
	w    io.Writer
	left int64
	over bool
}

func (c *capped) Write(p []byte) (int, error) {
	if int64(len(p)) > c.left {
		c.over = true
		return 0, errTooLarge
	}
	n, err := c.w.Write(p)
	c.left -= int64(n)
	return n, err
}

// PutFile puts a file up in a room or thread, and returns Slack's id of it.
func (d *Door) PutFile(ctx context.Context, at bot.Place, name, alt string, data []byte) (string, error) {
	if err := d.open("files.getUploadURLExternal", at.Room); err != nil {
		return "", err
	}
	f, err := d.api.UploadFileContext(ctx, sdk.UploadFileParameters{Channel: at.Room, ThreadTimestamp: at.Thread, Filename: name, Title: name, AltTxt: alt,
		FileSize: len(data), Content: string(data)})
	if err != nil {
		return "", d.failed("files.getUploadURLExternal", at.Room, err)
	}
	return f.ID, nil
}

var _ bot.FileDoor = (*Door)(nil)
