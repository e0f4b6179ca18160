package fake

import (
	"io"
	"net/http"
	"path"
	"strconv"
	"strings"
)

type file struct {
	id, name, kind string
	data           []byte
	title          string
	hidden         bool // events carry a stub only: file_access "check_file_info"
	external       bool
}

// AddFile keeps bytes to be attached to a message and returns the file's id. With hidden, events carry a stub that must be looked up.
func (s *Slack) AddFile(name, kind string, data []byte, hidden bool) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.id("F")
	s.files[id] = &file{id: id, name: name, kind: kind, data: data, hidden: hidden}
	return id
}

// File is a kept file's bytes, nil where there is none.
func (s *Slack) File(id string) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f := s.files[id]; f != nil {
		return f.data
	}
	return nil
}

func (s *Slack) fileShown(f *file) map[string]any {
	return map[string]any{"id": f.id, "name": f.name, "title": f.name, "mimetype": f.kind, "size": len(f.data), "is_external": f.external,
		"url_private": s.base() + "/files/" + f.id, "url_private_download": s.base() + "/files/" + f.id, "mode": "hosted"}
}

func (s *Slack) fileInfo(a args) (map[string]any, string) {
	f := s.files[a.str("file")]
	if f == nil {
		return nil, "file_not_found"
	}
	return map[string]any{"file": s.fileShown(f)}, ""
}

func (s *Slack) uploadURL(a args) (map[string]any, string) {
	if a.num("length") <= 0 {
		return nil, "invalid_arguments"
	}
	id := s.id("F")
	s.files[id] = &file{id: id, name: a.str("filename")}
	return map[string]any{"file_id": id, "upload_url": s.base() + "/upload/" + id}, ""
}

func (s *Slack) upload(w http.ResponseWriter, r *http.Request) {
	data, err := uploaded(r)
	s.mu.Lock()
	defer s.mu.Unlock()
	f := s.files[r.PathValue("file")]
	if err != nil || f == nil {
		w.WriteHeader(http.StatusBadRequest)
		return
	}
	f.data = data
	io.WriteString(w, "OK - "+strconv.Itoa(len(data)))
}

func uploaded(r *http.Request) ([]byte, error) {
	if !strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/") {
		return io.ReadAll(r.Body)
	}
	mr, err := r.MultipartReader()
	if err != nil {
		return nil, err
	}
	for {
		p, err := mr.NextPart()
		if err != nil {
			return nil, err
		}
		if p.FileName() != "" {
			return io.ReadAll(p)
		}
	}
}

func (s *Slack) uploadDone(a args) (map[string]any, string) {
	var list []struct{ ID, Title string }
	if !a.object("files", &list) || len(list) == 0 {
		return nil, "invalid_arguments"
	}
	var shown []map[string]any
	for _, l := range list {
		f := s.files[l.ID]
		if f == nil || f.data == nil {
			return nil, "file_not_found"
		}
		f.title = l.Title
		shown = append(shown, s.fileShown(f))
	}
	if ch := a.str("channel_id"); ch != "" {
		c, word := s.room(ch)
		if word != "" {
			return nil, word
		}
		m := &Message{Channel: ch, TS: s.ts(), ThreadTS: a.str("thread_ts"), User: BotUser, BotID: BotID, AppID: AppID, Subtype: "file_share", Files: shown, Text: a.str("initial_comment")}
		c.messages = append(c.messages, m)
		s.change()
	}
	return map[string]any{"files": shown}, ""
}

// download serves a file to the bot token only; to anybody else Slack serves its sign-in page.
func (s *Slack) download(w http.ResponseWriter, r *http.Request) {
	if r.Header.Get("Authorization") != "Bearer "+s.o.BotToken {
		http.Redirect(w, r, s.base()+"/signin", http.StatusFound)
		return
	}
	s.mu.Lock()
	f := s.files[path.Base(r.PathValue("file"))]
	s.mu.Unlock()
	if f == nil {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", f.kind)
	w.Write(f.data)
}
