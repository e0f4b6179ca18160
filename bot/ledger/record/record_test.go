package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// fill sets every field that can be reached to something that is not its zero value, so that a field that a conversion forgets shows.
func fill(v reflect.Value, depth int) {
	if v.Type() == reflect.TypeFor[time.Time]() {
		v.Set(reflect.ValueOf(noon))
		return
	}
	if v.Type() == reflect.TypeFor[json.RawMessage]() {
		v.Set(reflect.ValueOf(json.RawMessage(`{"text":"a","empty":[],"n":1.50}`)))
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString("«ä» <&> " + v.Type().Name())
	case reflect.Int, reflect.Int64:
		v.SetInt(7)
	case reflect.Float64:
		v.SetFloat(1.5)
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), depth+1)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(v.Index(0), depth+1)
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), depth+1)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		key, val := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		fill(key, depth+1)
		fill(val, depth+1)
		v.SetMapIndex(key, val)
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), depth+1)
		}
	default:
		panic("fill does not know " + v.Type().String())
	}
}

func filled[T any]() T {
	var v T
	fill(reflect.ValueOf(&v).Elem(), 0)
	return v
}

// full are a job, an entry, a message and a post with every field set.
func full() (job.Job, job.Entry, job.Inbound, job.Outbound) {
	j := filled[job.Job]()
	j.Order.Due = "2026-12-18"
	e := filled[job.Event]()
	e.Order.Due = "2026-12-18"
	en := job.Chain(job.Job{ID: 7}, []job.Event{e})[0]
	return j, en, filled[job.Inbound](), filled[job.Outbound]()
}

// Ensure nothing is lost on the way into a record and back, whatever fields there are.
func TestNothingIsLost(t *testing.T) {
	j, en, in, out := full()
	b, err := Job(j)
	check(t, err)
	j2, err := ReadJob(b)
	check(t, err)
	same(t, "job", j2, j)
	b, err = Entry(en)
	check(t, err)
	en2, err := ReadEntry(b)
	check(t, err)
	same(t, "entry", en2, en)
	check(t, job.Verify([]job.Entry{en2}))
	b, err = Inbound(in)
	check(t, err)
	in2, err := ReadInbound(b, in.Tries)
	check(t, err)
	same(t, "message", in2, in)
	b, err = Outbound(out)
	check(t, err)
	out2, err := ReadOutbound(b, out.Tries, out.Ref)
	check(t, err)
	same(t, "post", out2, out)
	// And of what is empty nothing is made up.
	b, err = Job(job.Job{})
	check(t, err)
	j2, err = ReadJob(b)
	check(t, err)
	if j2.Reads != nil || j2.Alerted != nil || j2.SignOff != nil || j2.Refusal != nil || j2.Printed != (job.Stamp{}) {
		t.Errorf("an empty job was read as %+v", j2)
	}
}

var update = flag.Bool("update", false, "write the records of this version, where there are none")

// Ensure records that were written by earlier versions are read. A file here is never rewritten: a new version adds a folder.
func TestOldRecordsAreRead(t *testing.T) {
	if *update {
		j, en, in, out := full()
		for name, write := range map[string]func() ([]byte, error){
			"job": func() ([]byte, error) { return Job(j) }, "entry": func() ([]byte, error) { return Entry(en) },
			"inbound": func() ([]byte, error) { return Inbound(in) }, "outbound": func() ([]byte, error) { return Outbound(out) },
		} {
			path := filepath.Join("testdata", "v2", name+".record")
			if _, err := os.Stat(path); err == nil {
				t.Fatalf("%s stands already: add a folder for the new version", path)
			}
			b, err := write()
			check(t, err)
			check(t, os.WriteFile(path, b, 0o644))
		}
	}
	files, err := filepath.Glob(filepath.Join("testdata", "v*", "*"))
	check(t, err)
	if len(files) < 8 {
		t.Fatalf("%d old records, want 8 at least", len(files))
	}
	for _, f := range files {
		b, err := os.ReadFile(f)
		check(t, err)
		switch strings.TrimSuffix(filepath.Base(f), filepath.Ext(f)) {
		case "job":
			j, err := ReadJob(b)
			check(t, err)
			if j.ID != 7 || j.Order.Due != "2026-12-18" || len(j.Reads) != 1 || len(j.Alerted) != 1 || j.SignOff == nil || j.SignOff.PlanRev != 7 ||
				j.Refusal == nil || !j.Refusal.At.Equal(noon) || len(j.Plan.Checklist) != 1 || len(j.Record.Failures) != 1 || !j.Printed.At.Equal(noon) {
				t.Errorf("%s was read as %+v", f, j)
			}
		case "entry":
			en, err := ReadEntry(b)
			check(t, err)
			if err := job.Verify([]job.Entry{en}); err != nil {
				t.Errorf("%s does not verify any more: %v", f, err)
			}
			if en.Order == nil || en.Order.Due != "2026-12-18" || en.Plan == nil || !en.Pass {
				t.Errorf("%s was read as %+v", f, en)
			}
		case "inbound":
			in, err := ReadInbound(b, 1)
			check(t, err)
			if in.Key == "" || len(in.Files) != 1 || in.Files[0].Bytes != 7 || len(in.By.Groups) != 1 || !in.Called || !in.Kept.Equal(noon) {
				t.Errorf("%s was read as %+v", f, in)
			}
		case "outbound":
			out, err := ReadOutbound(b, 1, "r")
			check(t, err)
			if out.Key == "" || out.Job != 7 || out.Slot == "" || string(out.Payload) != `{"text":"a","empty":[],"n":1.50}` || !out.At.Equal(noon) {
				t.Errorf("%s was read as %+v", f, out)
			}
		default:
			t.Errorf("nobody reads %s", f)
		}
	}
}

// Ensure a record of a later version and a damaged one are told apart, and neither is half read.
func TestBadRecords(t *testing.T) {
	for text, want := range map[string]error{
		`{"v":3,"id":[1,2]}`:             job.ErrTooNew,
		`{"v":999999,"anything":`:        job.ErrTooNew,
		`{"v":1,"id":"seven"}`:           job.ErrCorrupt,
		`{"v":1,"id":7`:                  job.ErrCorrupt,
		`{"v":1,"id":7} trailing`:        job.ErrCorrupt,
		`{"v":0}`:                        job.ErrCorrupt,
		`{"v":-1}`:                       job.ErrCorrupt,
		`{"v":1e3}`:                      job.ErrCorrupt,
		`{"id":7,"v":1}`:                 job.ErrCorrupt,
		`{}`:                             job.ErrCorrupt,
		`null`:                           job.ErrCorrupt,
		``:                               job.ErrCorrupt,
		"\x00\x00\x00":                   job.ErrCorrupt,
		`{"v":99999999999999999999999}`:  job.ErrCorrupt,
		`{"v":1,"order":{"lines":"no"}}`: job.ErrCorrupt,
	} {
		j, err := ReadJob([]byte(text))
		if !errors.Is(err, want) {
			t.Errorf("%q: %v, want %v", text, err, want)
		}
		if !reflect.DeepEqual(j, job.Job{}) {
			t.Errorf("%q: half read as %+v", text, j)
		}
	}
}

// Ensure places and slots that differ have keys that differ.
func TestPlaceKeys(t *testing.T) {
	places := []job.Place{{}, {Door: "a"}, {Room: "a"}, {Thread: "a"}, {Door: "a b", Room: "c"}, {Door: "a", Room: "b c"}, {Door: `a" "b`}, {Door: "a", Room: "b"}}
	seen := map[string]job.Place{}
	for _, p := range places {
		for _, slot := range []string{"", "x", `" x`} {
			k := PlaceKey(p)
			if slot != "" {
				k = SlotKey(job.Outbound{Place: p, Slot: slot})
			}
			if other, there := seen[k]; there {
				t.Errorf("%+v and %+v share the key %q", p, other, k)
			}
			seen[k] = p
		}
	}
}

// Ensure nothing is due before its time, for all that ledgers compare milliseconds.
func TestMilliRoundsUp(t *testing.T) {
	for ns, want := range map[int64]int64{0: 0, 1: 1, 999_999: 1, 1_000_000: 1, 1_000_001: 2, -1: 0, -1_000_000: -1} {
		if got := Milli(time.Unix(0, ns)); got != want {
			t.Errorf("%d ns are %d ms, want %d", ns, got, want)
		}
	}
}

// Whatever bytes stand where a record should, reading them never panics and ends in a record or in one of the two errors; and what was
// read is written and read again the same.
func FuzzReadRecords(f *testing.F) {
	j, en, in, out := full()
	for _, write := range []func() ([]byte, error){
		func() ([]byte, error) { return Job(j) }, func() ([]byte, error) { return Entry(en) },
		func() ([]byte, error) { return Inbound(in) }, func() ([]byte, error) { return Outbound(out) },
	} {
		b, err := write()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
		f.Add(b[:len(b)/2])
		f.Add(bytes.Replace(b, []byte(`"v":1`), []byte(`"v":3`), 1))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		j, err := ReadJob(b)
		again(t, j, err, Job, ReadJob)
		en, err := ReadEntry(b)
		if known(t, err) {
			_ = job.Verify([]job.Entry{en})
		}
		in, err := ReadInbound(b, 0)
		again(t, in, err, Inbound, func(b []byte) (job.Inbound, error) { return ReadInbound(b, 0) })
		_, err = ReadOutbound(b, 0, "")
		known(t, err)
	})
}

// known reports whether a record was read, and fails on an error of another kind.
func known(t *testing.T, err error) bool {
	t.Helper()
	if err != nil && !errors.Is(err, job.ErrCorrupt) && !errors.Is(err, job.ErrTooNew) {
		t.Fatalf("an error of no known kind: %v", err)
	}
	return err == nil
}

// again writes and reads a record twice over: the second must be the first.
func again[T any](t *testing.T, v T, err error, write func(T) ([]byte, error), read func([]byte) (T, error)) {
	t.Helper()
	if !known(t, err) {
		return
	}
	b1, err := write(v)
	if err != nil {
		return // a time that JSON cannot hold
	}
	v2, err := read(b1)
	if err != nil {
		t.Fatalf("what was written cannot be read: %v\n%s", err, b1)
	}
	b2, err := write(v2)
	if err != nil || !bytes.Equal(b1, b2) {
		t.Fatalf("it is not the same the second time: %v\n%s\n%s", err, b1, b2)
	}
}

func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func same(t *testing.T, what string, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got, cmp.AllowUnexported(rules.Order{})); d != "" {
		t.Errorf("the %s is not what it was (-want +got):\n%s", what, d)
	}
}
