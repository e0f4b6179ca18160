package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/webhook"
)

// artwork keeps the files that people drop into a request's thread: the bytes on the shelf, named for their contents, and a line in a
// book that says with which message of which thread they came. Nothing looks into a file yet.
type artwork struct {
	shelf *webhook.Folder
	book  string // path of the book, one JSON line a file

	mu   sync.Mutex
	kept map[string]bool // message and file that the book has
}

// mostBytes is the largest file that is read, in bytes. Doors have limits of their own below it.
const mostBytes = 64 << 20

// bookLine is one file in the book.
type bookLine struct {
	Message string    `json:"message"` // key of the message that it came with
	Place   bot.Place `json:"place"`
	File    bot.File  `json:"file"`
	Shelf   string    `json:"shelf"` // the piece's name on the shelf
	Said    time.Time `json:"said"`
}

// openArtwork opens the folder, making it where it is missing, with the book beside it. most is in bytes.
func openArtwork(dir string, most int64) (*artwork, error) {
	shelf, err := webhook.NewFolder(dir, most)
	if err != nil {
		return nil, err
	}
	a := &artwork{shelf: shelf, book: filepath.Clean(dir) + ".jsonl", kept: map[string]bool{}}
	f, err := os.Open(a.book)
	if errors.Is(err, os.ErrNotExist) {
		return a, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	for d := json.NewDecoder(f); ; {
		var l bookLine
		if err := d.Decode(&l); err != nil {
			return a, nil // the end, or a line that a crash cut short: its file comes again or lies on the shelf
		}
		a.kept[l.Message+"\n"+l.File.ID] = true
	}
}

// KeepFile keeps one file. The same file of the same message is kept once.
func (a *artwork) KeepFile(ctx context.Context, in bot.Inbound, f bot.File, r io.Reader) error {
	a.mu.Lock()
	defer a.mu.Unlock()
	id := in.Key + "\n" + f.ID
	if a.kept[id] {
		return nil
	}
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return fmt.Errorf("reading the file %q: %w", f.Name, err)
	}
	if len(data) > mostBytes {
		return fmt.Errorf("the file %q is larger than %d MiB", f.Name, mostBytes>>20)
	}
	l := bookLine{Message: in.Key, Place: in.Place, File: f, Said: in.Said}
	if l.Shelf, err = a.shelf.Put(ctx, data); err != nil {
		return err
	}
	line, err := json.Marshal(l)
	if err != nil {
		return err
	}
	book, err := os.OpenFile(a.book, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = book.Write(append(line, '\n'))
	if err = errors.Join(err, book.Sync(), book.Close()); err != nil {
		return fmt.Errorf("writing %s: %w", a.book, err)
	}
	a.kept[id] = true
	return nil
}
