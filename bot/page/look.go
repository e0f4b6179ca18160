package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"time"
)

// look is how pages are drawn.
type look struct {
	pages  map[string]*template.Template
	static map[string]string // name → address, which changes with the content
}

// newLook reads the built-in templates.
func newLook() (look, error) {
	l := look{pages: map[string]*template.Template{}, static: map[string]string{}}
	names, err := files.ReadDir("static")
	if err != nil {
		return l, err
	}
	for _, n := range names {
		b, err := files.ReadFile("static/" + n.Name())
		if err != nil {
			return l, err
		}
		sum := sha256.Sum256(b)
		l.static[n.Name()] = "/static/" + n.Name() + "?v=" + hex.EncodeToString(sum[:6])
	}
	funcs := template.FuncMap{
		"static": func(name string) (string, error) {
			if a, ok := l.static[name]; ok {
				return a, nil
			}
			return "", fmt.Errorf("no static file %s", name)
		},
		"state": func(s any) string { return strings.ReplaceAll(fmt.Sprint(s), "-", " ") },
	}
	for _, name := range []string{"board.html", "job.html", "ticket.html", "trouble.html"} {
		t, err := template.New(name).Funcs(funcs).ParseFS(files, "html/frame.html", "html/"+name)
		if err != nil {
			return l, fmt.Errorf("page %s: %w", name, err)
		}
		l.pages[name] = t
	}
	return l, nil
}

// frame is what every page has around it.
type frame struct {
	Title string
	All   bool   // the visitor may see the board
	Wall  bool   // it hangs on the wall
	At    string // when it was made, in the shop
}

func (p *Pages) frame(title string, v visitor) frame {
	return frame{Title: title, All: v.All, Wall: v.Wall, At: p.c.Now().In(p.c.Zone).Format("Mon 2 Jan 15:04")}
}

// render writes a page. It is drawn whole before anything is sent, so that a failure shows as one.
func (p *Pages) render(w http.ResponseWriter, status int, name string, data any) {
	var b bytes.Buffer
	if err := p.look.pages[name].ExecuteTemplate(&b, "frame", data); err != nil {
		p.c.Log.Error("page could not be drawn", "page", name, "error", err)
		http.Error(w, "This page could not be drawn; it is in the log.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes())
}

// when says a time in the shop: "Wed 25 Nov 12:00".
func (p *Pages) when(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(p.c.Zone).Format("Mon 2 Jan 15:04")
}
