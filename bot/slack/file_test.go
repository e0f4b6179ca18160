package slack

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/png"
	"io"
	"strings"
	"sync"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// sink keeps what it is given.
type sink struct {
	mu   sync.Mutex
	got  map[string][]byte
	file map[string]bot.File
	fail int
}

func (s *sink) KeepFile(_ context.Context, in bot.Inbound, f bot.File, r io.Reader) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.fail > 0 {
		s.fail--
		return errors.New("the sink is full")
	}
	b, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	s.got[in.Key+"/"+f.ID], s.file[f.ID] = b, f
	return nil
}

// Ensure that files that come with a message are kept with it, by the token, behind the size limit, stubs looked up, links left alone.
func TestFiles(t *testing.T) {
	k := &sink{got: map[string][]byte{}, file: map[string]bot.File{}}
	s, clock := hearing(t, func(c *Config) { c.Files, c.Limits.FileBytes = k, 1000 })
	k.fail = 1
	art, stub := []byte("the customer's art"), []byte("seen only by asking")
	a := s.slack.AddFile("art.png", "image/png", art, false)
	b := s.slack.AddFile("sketch.pdf", "application/pdf", stub, true)
	big := s.slack.AddFile("photo.tif", "image/tiff", bytes.Repeat([]byte("x"), 1001), false)
	bigStub := s.slack.AddFile("photo2.tif", "image/tiff", bytes.Repeat([]byte("x"), 1001), true)
	_, d := s.slack.Say(orders, repID, "", "72 tees", a, b, big, bigStub)
	s.settle(d)
	in := s.one(clock)
	if len(in.Files) != 4 || in.Files[0] != (bot.File{ID: a, Name: "art.png", Type: "image/png", Bytes: int64(len(art))}) || in.Files[1].ID != b {
		t.Errorf("files: %+v", in.Files)
	}
	if len(k.got) != 2 || !bytes.Equal(k.got[in.Key+"/"+a], art) || !bytes.Equal(k.got[in.Key+"/"+b], stub) || k.file[b].Name != "sketch.pdf" {
		t.Errorf("the sink has %v\nlog:\n%s", k.file, s.logs.text())
	}
	if log := s.logs.text(); strings.Contains(log, botToken) || strings.Contains(log, "/files/") {
		t.Errorf("a file's address or the token is in the log:\n%s", log)
	}
	var w bytes.Buffer
	if err := s.door.Fetch(t.Context(), in.Files[0], &w); err != nil || !bytes.Equal(w.Bytes(), art) {
		t.Errorf("Fetch: %v, %q", err, w.Bytes())
	}
	if err := s.door.Fetch(t.Context(), in.Files[2], &w); !errors.Is(err, errTooLarge) {
		t.Errorf("Fetch of a large file: %v", err)
	}
	if err := s.door.Fetch(t.Context(), bot.File{ID: "F9"}, &w); word(err) != "file_not_found" {
		t.Errorf("Fetch of no file: %v", err)
	}
	for _, f := range []string{`{"id":"F1","is_external":true}`, `{"id":"F1","mode":"tombstone"}`, `{"id":"F1","mode":"hidden_by_limit"}`, `{"id":""}`, `{}`} {
		ff, _ := readFields([]byte(f))
		if _, ok := fileIn(ff); ok {
			t.Errorf("%s was taken for a file", f)
		}
	}
}

// Ensure that a download ends at the limit whatever was declared.
func TestCapped(t *testing.T) {
	var b bytes.Buffer
	c := &capped{w: &b, left: 10}
	if _, err := io.Copy(c, strings.NewReader(strings.Repeat("x", 11))); !errors.Is(err, errTooLarge) || !c.over || b.Len() > 10 {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
}

// Ensure that a picture can be put up in a thread.
func TestPutFile(t *testing.T) {
	s, _ := hearing(t, nil)
	root := s.Say(bottest.Rep, "", "72 tees")
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8))); err != nil {
		t.Fatal(err)
	}
	id, err := s.door.PutFile(t.Context(), bot.Place{Door: Name, Room: orders, Thread: root}, "job-1.png", "White ink on navy", b.Bytes())
	if err != nil || !bytes.Equal(s.slack.File(id), b.Bytes()) {
		t.Fatalf("PutFile = %q, %v", id, err)
	}
	found := false
	for _, m := range s.slack.Thread(orders, root) {
		found = found || len(m.Files) == 1 && m.Files[0]["id"] == id
	}
	if !found {
		t.Error("the picture is not in the thread")
	}
	if _, err := s.door.PutFile(t.Context(), bot.Place{Door: Name, Room: elsewhere}, "x.png", "x", b.Bytes()); !bot.IsPermanent(err) {
		t.Errorf("a picture in a channel that the app is not in: %v", err)
	}
}
