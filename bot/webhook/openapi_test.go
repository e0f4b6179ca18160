package webhook

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"

	"strikeoff/bot/job"
	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// description is openapi.yaml with its schemas compiled by a JSON Schema library of others, so that the document is held to the standard
// and not to our reading of it.
type description struct {
	doc     map[string]any
	mu      sync.Mutex
	schemas *jsonschema.Compiler
}

var readDescription = sync.OnceValues(func() (*description, error) {
	var doc map[string]any
	if err := yaml.Unmarshal(openAPI, &doc); err != nil {
		return nil, err
	}
	b, err := json.Marshal(doc) // to the types that JSON has
	if err != nil {
		return nil, err
	}
	plain, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		return nil, err
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	c.AssertFormat()
	if err := c.AddResource("mem:openapi.json", plain); err != nil {
		return nil, err
	}
	return &description{doc: plain.(map[string]any), schemas: c}, nil
})

func described(t testing.TB) *description {
	t.Helper()
	d, err := readDescription()
	if err != nil {
		t.Fatalf("openapi.yaml: %v", err)
	}
	return d
}

// at walks the document, following references.
func (d *description) at(pointer ...string) (any, string) {
	var v any = d.doc
	path := "#"
	for _, p := range pointer {
		for {
			m, ok := v.(map[string]any)
			ref, isRef := m["$ref"].(string)
			if !ok || !isRef {
				break
			}
			v, path = d.at(strings.Split(strings.TrimPrefix(ref, "#/"), "/")...)
		}
		m, _ := v.(map[string]any)
		v, path = m[p], path+"/"+strings.NewReplacer("~", "~0", "/", "~1").Replace(p)
	}
	if m, ok := v.(map[string]any); ok {
		if ref, ok := m["$ref"].(string); ok {
			return d.at(strings.Split(strings.TrimPrefix(ref, "#/"), "/")...)
		}
	}
	return v, path
}

// check holds a JSON value to the schema at a place in the document.
func (d *description) check(path string, body []byte) error {
	d.mu.Lock()
	s, err := d.schemas.Compile("mem:openapi.json" + path)
	d.mu.Unlock()
	if err != nil {
		return err
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(body))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// route is the document's path for an address, "" where it has none.
func (d *description) route(path string) string {
	got := strings.Split(path, "/")
	for p := range d.doc["paths"].(map[string]any) {
		want := strings.Split(p, "/")
		if slices.EqualFunc(got, want, func(g, w string) bool { return g == w || strings.HasPrefix(w, "{") && g != "" }) {
			return p
		}
	}
	return ""
}

// hold fails the test where an answer is not one that the document allows. It is called for every answer that any test here gets.
func (d *description) hold(t testing.TB, req *http.Request, w *httptest.ResponseRecorder) {
	t.Helper()
	p, method := d.route(req.URL.Path), strings.ToLower(req.Method)
	status := strconv.Itoa(w.Code)
	op, _ := d.at("paths", p, method)
	if p == "" || op == nil || req.Method != strings.ToUpper(req.Method) { // 404 and 405 of addresses that are not described
		if w.Code != 404 && w.Code != 405 {
			t.Errorf("%s %s is not described and was answered %s", req.Method, req.URL.Path, status)
		}
		if err := d.check("#/components/schemas/Problem", w.Body.Bytes()); err != nil {
			t.Errorf("%s %s: %v", req.Method, req.URL.Path, err)
		}
		return
	}
	resp, _ := d.at("paths", p, method, "responses", status)
	if resp == nil {
		t.Errorf("%s %s was answered %s, which openapi.yaml does not list", req.Method, p, status)
		return
	}
	content, _ := d.at("paths", p, method, "responses", status, "content")
	if content == nil {
		if w.Body.Len() > 0 {
			t.Errorf("%s %s %s has a body that is not described", req.Method, p, status)
		}
		return
	}
	kind := w.Header().Get("Content-Type")
	schema, path := d.at("paths", p, method, "responses", status, "content", kind, "schema")
	if schema == nil {
		t.Errorf("%s %s %s came as %q, which is not described", req.Method, p, status, kind)
		return
	}
	if strings.HasSuffix(kind, "json") {
		if err := d.check(path, w.Body.Bytes()); err != nil {
			t.Errorf("%s %s %s is not as described: %v\n%s", req.Method, p, status, err, w.Body)
		}
	}
	headers, _ := d.at("paths", p, method, "responses", status, "headers")
	hs, _ := headers.(map[string]any)
	for name := range hs {
		if w.Header().Get(name) == "" {
			t.Errorf("%s %s %s lacks the header %s", req.Method, p, status, name)
		}
	}
}

// TestExamplesRun sends every example of the document and wants a 2xx that is as described.
func TestExamplesRun(t *testing.T) {
	d := described(t)
	ran := 0
	for p, item := range d.doc["paths"].(map[string]any) {
		for method := range item.(map[string]any) {
			content, _ := d.at("paths", p, method, "requestBody", "content")
			kinds, _ := content.(map[string]any)
			for kind := range kinds {
				examples, _ := d.at("paths", p, method, "requestBody", "content", kind, "examples")
				es, _ := examples.(map[string]any)
				for name, ex := range es {
					value := ex.(map[string]any)["value"]
					body := fmt.Sprint(value)
					if kind == "application/json" {
						b, err := json.Marshal(value)
						if err != nil {
							t.Fatal(err)
						}
						body = string(b)
						_, path := d.at("paths", p, method, "requestBody", "content", kind, "schema")
						if err := d.check(path, b); err != nil {
							t.Errorf("%s %s, example %s: %v", method, p, name, err)
						}
					}
					r := newRig(t)
					req := r.bearer(r.all, strings.ToUpper(method), p, kind, body)
					req.Header.Set(headerID, "example-"+name)
					if w := r.send(req); w.Code/100 != 2 {
						t.Errorf("%s %s, example %s as %s: %d %s", method, p, name, kind, w.Code, w.Body)
					}
					ran++
				}
			}
		}
	}
	if ran < 5 {
		t.Fatalf("only %d examples were found to run", ran)
	}
}

// TestEveryAddressIsDescribed: the document and the program know the same addresses.
func TestEveryAddressIsDescribed(t *testing.T) {
	d, r := described(t), newRig(t)
	r.ledger.house(t)
	n := 0
	for p, item := range d.doc["paths"].(map[string]any) {
		for method := range item.(map[string]any) {
			n++
			req := r.bearer(r.all, strings.ToUpper(method), strings.ReplaceAll(p, "{id}", "1"), "text/plain", "")
			req.Header.Set(headerID, "x")
			if w := r.send(req); w.Code == 405 || strings.Contains(w.Body.String(), errPath.Code) {
				t.Errorf("%s %s is described but not there: %d %s", method, p, w.Code, w.Body)
			}
		}
	}
	if n != 7 {
		t.Errorf("%d operations are described, the program registers 7", n)
	}
}

// TestWordsAreDescribed: the words of the contracts are the same in the document as in the program.
func TestWordsAreDescribed(t *testing.T) {
	d := described(t)
	for _, c := range []struct {
		path string
		want []string
	}{
		{"State/enum", texts(job.States)},
		{"Line/properties/garment/enum", texts(rules.Garments)},
		{"Line/properties/fabric/enum", texts(fabrics)},
		{"Line/properties/fibres/propertyNames/enum", texts(fibre.All)},
		{"Line/properties/sizes/propertyNames/enum", texts(rules.SizeOrder)},
		{"Print/properties/place/enum", texts(rules.Places)},
		{"Print/properties/method/enum", texts(asked)},
		{"Print/properties/effects/items/enum", texts(effects)},
		{"Order/properties/wishes/items/enum", texts(wishes)},
		{"Order/properties/uses/items/enum", texts(uses)},
		{"PrintPlan/properties/pick/enum", texts(rules.Methods)},
		{"EventKind/enum", texts([]job.Kind{job.Opened, job.Amended, job.Picked, job.Printed, job.StepRead, job.SignedOff, job.RefusedIt, job.ClearedIt, job.ClosedIt, job.Reopened, job.AlertSent})},
	} {
		v, _ := d.at(append([]string{"components", "schemas"}, strings.Split(c.path, "/")...)...)
		list, _ := v.([]any)
		var got []string
		for _, w := range list {
			if w != nil {
				got = append(got, fmt.Sprint(w))
			}
		}
		slices.Sort(got)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s is %v in openapi.yaml, %v in the program", c.path, got, c.want)
		}
	}
}

func texts[T ~string](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, string(v))
	}
	return out
}

// TestOrderFieldsAreDescribed: an order has the same fields in the document as in the program.
func TestOrderFieldsAreDescribed(t *testing.T) {
	d := described(t)
	for name, v := range map[string]any{"Order": rules.Order{}, "Line": rules.Line{}, "Print": rules.Print{}} {
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		var fields map[string]any
		if err := json.Unmarshal(b, &fields); err != nil {
			t.Fatal(err)
		}
		props, _ := d.at("components", "schemas", name, "properties")
		want, got := slices.Sorted(maps.Keys(fields)), slices.Sorted(maps.Keys(props.(map[string]any)))
		if !slices.Equal(want, got) {
			t.Errorf("%s has the fields %v in the program, %v in openapi.yaml: add what is new there", name, want, got)
		}
	}
}

// TestSchemasBite: the document refuses what is not so, or the checks above would pass anything.
func TestSchemasBite(t *testing.T) {
	d := described(t)
	for _, c := range []struct{ schema, body string }{
		{"Problem", `{"type":"about:blank"}`},
		{"Problem", `{"type":"about:blank","title":"x","status":200,"detail":"x","code":"x","kept":false,"next":"x"}`},
		{"Order", `{"due":"18 Dec"}`},
		{"Order", `{"lines":[{"garment":"spacesuit"}]}`},
		{"Job", `{}`},
		{"JobBrief", `{"job":0,"state":"asking","revision":1,"plan_revision":1,"customer":null,"due":null,"summary":"","opened_at":"2026-11-25T12:00:00Z","url":"/v1/jobs/0"}`},
		{"OrderRequest", `{"from":{"name":"x"}}`},
		{"Taken", `{"id":"a.b","kept":true,"repeat":false,"order":"/v1/orders/a"}`},
	} {
		if d.check("#/components/schemas/"+c.schema, []byte(c.body)) == nil {
			t.Errorf("%s allows %s", c.schema, c.body)
		}
	}
}
