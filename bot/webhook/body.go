package webhook

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strings"
	"unicode/utf8"

	"strikeoff/rules"
)

// request is what a body asks for, however it was dressed.
type request struct {
	Text     string       `json:"text"`
	Order    *rules.Order `json:"order"`
	From     sender       `json:"from"`
	Received rules.Date   `json:"received"` // /v1/plan only

	art []art
}

// sender is the person behind an order, as the source names them. It gives them no role.
type sender struct {
	Name string `json:"name"`
}

// art is one piece of artwork as it came.
type art struct {
	name, kind string
	data       []byte
}

// readBody reads the whole body, which must be whole to be verified, within its limit.
func (a *API) readBody(w http.ResponseWriter, r *http.Request, limit int64) ([]byte, error) {
	tooLarge := problem{Status: http.StatusRequestEntityTooLarge, Code: "too-large",
		Detail: fmt.Sprintf("The body is larger than the %d KiB that are taken here, so nothing was kept.", limit>>10), Next: "Send less in one request."}
	if r.ContentLength > limit {
		return nil, tooLarge
	}
	var buf bytes.Buffer
	if r.ContentLength > 0 {
		buf.Grow(int(r.ContentLength) + bytes.MinRead)
	}
	_, err := buf.ReadFrom(http.MaxBytesReader(w, r.Body, limit))
	var over *http.MaxBytesError
	switch {
	case errors.As(err, &over):
		return nil, tooLarge
	case err != nil:
		return nil, problem{Status: http.StatusRequestTimeout, Code: "cut-short", Detail: "The body did not arrive whole in time, so nothing was kept.",
			Next: "Send the same request again."}
	}
	return buf.Bytes(), nil
}

// parse reads a verified body by its media type.
func (a *API) parse(contentType string, body []byte) (request, error) {
	kind, params, err := mime.ParseMediaType(contentType)
	if err != nil {
		kind = ""
	}
	switch kind {
	case "application/json":
		return parseJSON(body)
	case "text/plain":
		q := request{Text: string(body)}
		return q, q.check()
	case "multipart/form-data":
		return a.parseForm(params["boundary"], body)
	}
	return request{}, problem{Status: http.StatusUnsupportedMediaType, Code: "media-type", Detail: "The body is neither application/json, text/plain nor multipart/form-data, so nothing was kept.",
		Next: "Set Content-Type to the one that it is."}
}

// parseJSON reads a JSON body. A field that is not known is refused, since a misspelt one would be lost in silence.
func parseJSON(body []byte) (request, error) {
	var q request
	if err := strict(body, &q); err != nil {
		return request{}, err
	}
	return q, q.check()
}

// strict reads exactly one JSON value into v.
func strict(body []byte, v any) error {
	bad := func(detail string) error {
		return problem{Status: http.StatusBadRequest, Code: "json", Detail: "The body could not be read as JSON: " + detail + ". Nothing was kept.",
			Next: "See /v1/openapi.yaml for what it must hold."}
	}
	if !utf8.Valid(body) {
		return bad("it is not UTF-8")
	}
	dec := json.NewDecoder(bytes.NewReader(body))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		var syn *json.SyntaxError
		var typ *json.UnmarshalTypeError
		switch {
		case errors.As(err, &typ):
			return bad(fmt.Sprintf("the field %s cannot be a %s", typ.Field, typ.Value))
		case errors.As(err, &syn):
			return bad(fmt.Sprintf("it breaks off or goes wrong at byte %d", syn.Offset))
		case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
			return bad("it is empty or breaks off")
		}
		if name, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
			return bad("the field " + name + " is not known here")
		}
		return bad("a value is not of its type")
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return bad("something follows the first value")
	}
	return nil
}

// parseForm reads a multipart body: the fields text, order, from, and files under artwork.
func (a *API) parseForm(boundary string, body []byte) (request, error) {
	var q request
	bad := func(detail string) error {
		return problem{Status: http.StatusBadRequest, Code: "form", Detail: "The form could not be read: " + detail + ". Nothing was kept.",
			Next: "See /v1/openapi.yaml for what it must hold."}
	}
	mr := multipart.NewReader(bytes.NewReader(body), boundary)
	for parts := 0; ; parts++ {
		p, err := mr.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return q, bad("a part breaks off or is not well formed")
		}
		if parts > 16 {
			return q, bad("it has more than 16 parts")
		}
		data, err := io.ReadAll(p) // bounded: the body is in memory already
		if err != nil {
			return q, bad("a part breaks off")
		}
		name := p.FormName()
		if name != "artwork" && int64(len(data)) > a.c.Limits.Body {
			return q, problem{Status: http.StatusRequestEntityTooLarge, Code: "too-large", Detail: "The field " + printable(name, 40) + " is too large, so nothing was kept.",
				Next: "Send less in one request."}
		}
		switch name {
		case "text":
			q.Text = string(data)
		case "order":
			q.Order = new(rules.Order)
			if err := strict(data, q.Order); err != nil {
				return q, err
			}
		case "from":
			q.From.Name = string(data)
		case "artwork":
			if len(q.art) == a.c.Limits.Files {
				return q, bad(fmt.Sprintf("it has more than %d pieces of artwork", a.c.Limits.Files))
			}
			kind, ok := artKind(data)
			if !ok {
				return q, problem{Status: http.StatusUnsupportedMediaType, Code: "artwork-type",
					Detail: "The artwork " + printable(p.FileName(), 80) + " is none of PNG, JPEG, GIF, WebP, TIFF, BMP, SVG and PDF, so nothing was kept.",
					Next:   "Send the artwork in one of those."}
			}
			q.art = append(q.art, art{name: printable(p.FileName(), 120), kind: kind, data: data})
		default:
			return q, bad("the field " + printable(name, 40) + " is not known here")
		}
	}
	return q, q.check()
}

// check says what a request lacks.
func (q *request) check() error {
	q.From.Name = printable(q.From.Name, 80)
	if strings.TrimSpace(q.Text) == "" && q.Order == nil {
		return problem{Status: http.StatusUnprocessableEntity, Code: "empty", Detail: "There is neither a text nor an order in the request, so nothing was kept.",
			Next: "Send the customer's words as text, or the order by the order contract as order."}
	}
	q.Text = strings.ToValidUTF8(q.Text, "\uFFFD")
	if q.Order != nil {
		if f := checkOrder(*q.Order); len(f) > 0 {
			return problem{Status: http.StatusUnprocessableEntity, Code: "order", Detail: "The order holds values that the order contract does not know, so nothing was kept.",
				Next: "Put right what faults lists, and send it again under a new webhook-id.", Faults: f}
		}
	}
	if q.Received != "" {
		if _, ok := q.Received.Time(); !ok {
			return problem{Status: http.StatusUnprocessableEntity, Code: "received", Detail: "received is no day written YYYY-MM-DD.", Next: "Leave it out for today."}
		}
	}
	return nil
}

// printable is s as one line of at most n characters that can be shown and logged.
func printable(s string, n int) string {
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(s, "") {
		if n == 0 {
			break
		}
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x200b && r <= 0x200f || r >= 0x2028 && r <= 0x202e || r >= 0x2060 && r <= 0x2069 || r == 0xfeff {
			continue
		}
		b.WriteRune(r)
		n--
	}
	return strings.TrimSpace(b.String())
}
