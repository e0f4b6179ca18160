package job_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// history is a whole life of a job, told in five entries.
func history(t *testing.T) (job.Job, []job.Entry) {
	t.Helper()
	return after(t, opening(planOf(rules.Plastisol, true, "rub", "wash/2")), print1(1), read("rub", true, "sound"), read("wash", true, ""), sign(1))
}

// Ensure every way to change the past shows.
func TestChangedPastShows(t *testing.T) {
	j, entries := history(t)
	if err := job.VerifyJob(j, entries); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func([]job.Entry) []job.Entry{
		"a note":               func(e []job.Entry) []job.Entry { e[2].Note = "flakes"; return e },
		"a note and its bytes": func(e []job.Entry) []job.Entry { e[2].Note = "flakes"; e[2].Body = nil; return e },
		"the bytes alone": func(e []job.Entry) []job.Entry {
			e[2].Body = json.RawMessage(strings.Replace(string(e[2].Body), "sound", "flake", 1))
			return e
		},
		"who signed":         func(e []job.Entry) []job.Entry { e[4].By.Name = "Nobody"; return e },
		"a hash":             func(e []job.Entry) []job.Entry { e[1].Hash = e[0].Hash; return e },
		"an entry left out":  func(e []job.Entry) []job.Entry { return slices.Delete(e, 2, 3) },
		"the first left out": func(e []job.Entry) []job.Entry { return e[1:] },
		"the last left out":  func(e []job.Entry) []job.Entry { return e[:4] },
		"all left out":       func([]job.Entry) []job.Entry { return nil },
		"two exchanged":      func(e []job.Entry) []job.Entry { e[2], e[3] = e[3], e[2]; return e },
		"one told twice":     func(e []job.Entry) []job.Entry { return slices.Insert(e, 2, e[2]) },
		"another job's":      func(e []job.Entry) []job.Entry { e[3].Job = 13; return e },
		"all given to another job": func(e []job.Entry) []job.Entry {
			for i := range e {
				e[i].Job = 13
			}
			return e
		},
		"one added with its own chain": func(e []job.Entry) []job.Entry {
			return append(e, job.Chain(j, []job.Event{{Kind: job.ClosedIt, By: rep, Note: "x", At: noon}})...)
		},
	} {
		t.Run(name, func(t *testing.T) {
			if err := job.VerifyJob(j, change(slices.Clone(entries))); !errors.Is(err, job.ErrTampered) {
				t.Errorf("error = %v, want ErrTampered", err)
			}
		})
	}
	j.SignOff = nil
	if err := job.VerifyJob(j, entries); !errors.Is(err, job.ErrTampered) {
		t.Errorf("a changed job: error = %v", err)
	}
}

// Ensure a history that verifies but could not have happened is told.
func TestImpossibleHistory(t *testing.T) {
	p := planOf(rules.Plastisol, true, "rub")
	e := opening(p)
	e.At = noon
	s := sign(1)
	s.At = noon
	_, err := job.Replay(job.Chain(job.Job{ID: 12}, []job.Event{e, s}))
	var f *job.Fault
	if !errors.As(err, &f) || !strings.Contains(err.Error(), "entry 2") {
		t.Errorf("error = %v, want the fault of entry 2", err)
	}
}

// Ensure an entry written by a version whose events had fewer fields, or more, still verifies: the hash is over the bytes as written.
func TestOtherFieldsStillVerify(t *testing.T) {
	_, entries := history(t)
	for name, body := range map[string]string{
		"fewer": `{"kind":"opened","by":{"id":"U1"}}`,
		"more":  `{"kind":"opened","by":{"id":"U1"},"weather":"rain"}`,
	} {
		en := entries[0]
		en.Event = job.Event{}
		en.Body = json.RawMessage(body)
		if err := json.Unmarshal(en.Body, &en.Event); err != nil {
			t.Fatal(err)
		}
		if err := job.Verify([]job.Entry{job.Rehashed(en)}); err != nil {
			t.Errorf("%s fields: %v", name, err)
		}
	}
}

// Ensure text that is no UTF-8 does not break the chain.
func TestBrokenText(t *testing.T) {
	e := opening(planOf(rules.Plastisol, true, "rub"))
	e.Text = "72 tees \xff\xfe and \ufffd \\ufffd \x00"
	_, entries := after(t, e)
	if err := job.Verify(entries); err != nil {
		t.Fatal(err)
	}
	again := entries[0]
	again.Event = job.Event{}
	if err := json.Unmarshal(again.Body, &again.Event); err != nil {
		t.Fatal(err)
	}
	if err := job.Verify([]job.Entry{again}); err != nil {
		t.Errorf("read back: %v", err)
	}
}
