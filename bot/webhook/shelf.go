package webhook

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

// Shelf keeps artwork until it is measured. Put is idempotent: the same bytes have the same id.
type Shelf interface {
	Put(ctx context.Context, data []byte) (id string, err error)
	Open(ctx context.Context, id string) (io.ReadCloser, error)
}

// ErrShelfFull says that the shelf holds all it may.
var ErrShelfFull = errors.New("the artwork shelf is full")

// Folder is a Shelf in a folder: one file a piece, named for the SHA-256 of its bytes.
type Folder struct {
	dir  string
	most int64

	mu   sync.Mutex
	used int64
}

// NewFolder opens the folder, making it where it is missing, and counts what it holds. most is how many bytes it may hold in all.
func NewFolder(dir string, most int64) (*Folder, error) {
	if most <= 0 {
		return nil, errors.New("an artwork folder needs a limit above zero bytes")
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("artwork folder: %w", err)
	}
	f := &Folder{dir: dir, most: most}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("artwork folder: %w", err)
	}
	for _, e := range entries {
		if info, err := e.Info(); err == nil {
			f.used += info.Size()
		}
	}
	return f, nil
}

// Put writes the bytes under their own name, whole or not at all.
func (f *Folder) Put(_ context.Context, data []byte) (string, error) {
	sum := sha256.Sum256(data)
	id := hex.EncodeToString(sum[:])
	f.mu.Lock()
	defer f.mu.Unlock()
	path := filepath.Join(f.dir, id)
	if _, err := os.Stat(path); err == nil {
		return id, nil
	}
	if f.used+int64(len(data)) > f.most {
		return "", ErrShelfFull
	}
	tmp, err := os.CreateTemp(f.dir, "part-*")
	if err != nil {
		return "", fmt.Errorf("artwork: %w", err)
	}
	defer func() { _ = os.Remove(tmp.Name()) }() // gone already where the rename went well
	_, err = tmp.Write(data)
	if err = errors.Join(err, tmp.Sync(), tmp.Close()); err != nil {
		return "", fmt.Errorf("artwork: %w", err)
	}
	if err := os.Rename(tmp.Name(), path); err != nil {
		return "", fmt.Errorf("artwork: %w", err)
	}
	f.used += int64(len(data))
	return id, nil
}

// Open reads a piece back; fs.ErrNotExist where there is none.
func (f *Folder) Open(_ context.Context, id string) (io.ReadCloser, error) {
	if len(id) != 2*sha256.Size || strings.Trim(id, "0123456789abcdef") != "" {
		return nil, fs.ErrNotExist // an id is never a path
	}
	return os.Open(filepath.Join(f.dir, id))
}

// artKind is the media type of artwork by its first bytes, and whether it is one that is taken. What the sender declares is not believed.
func artKind(data []byte) (string, bool) {
	switch {
	case bytes.HasPrefix(data, []byte("II*\x00")), bytes.HasPrefix(data, []byte("MM\x00*")):
		return "image/tiff", true
	case bytes.HasPrefix(data, []byte("%PDF-")):
		return "application/pdf", true
	}
	kind := http.DetectContentType(data)
	switch kind {
	case "image/png", "image/jpeg", "image/gif", "image/webp", "image/bmp":
		return kind, true
	}
	head := bytes.TrimLeft(data[:min(len(data), 1024)], "\xef\xbb\xbf \t\r\n")
	if bytes.HasPrefix(head, []byte("<")) && bytes.Contains(head, []byte("<svg")) {
		return "image/svg+xml", true
	}
	return kind, false
}
