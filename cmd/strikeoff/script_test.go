package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"strikeoff/bot/ledger/ledgertest"
)

// TestMain makes this test binary answer to the name strikeoff, so that scripts run the whole program. Its clock can be moved by the
// script: testOnlyShift is a duration in the environment that the real program never looks at.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"strikeoff": func() {
			w := theWorld()
			if shift, err := time.ParseDuration(os.Getenv("testOnlyShift")); err == nil {
				start := scriptDay
				w.now = func() time.Time { return start.Add(shift) }
			}
			os.Exit(run(w))
		},
	})
}

// scriptDay is when every script begins: a Monday morning.
var scriptDay = time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)

// TestScripts runs testdata/script/*.txtar: whole conversations against the real program, each on a bolt file and on a real Redis.
func TestScripts(t *testing.T) {
	files, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no scripts were found (%v): the check would pass for want of anything to check", err)
	}
	for _, on := range []string{"bolt", "redis"} {
		t.Run(on, func(t *testing.T) {
			ledger := func(dir string) string { return filepath.Join(dir, "jobs.db") }
			if on == "redis" {
				addr := ledgertest.StartRedis(t).Addr
				ledger = func(string) string { return "redis://" + addr + "/0" }
			}
			testscript.Run(t, testscript.Params{
				Files: files,
				Setup: func(e *testscript.Env) error {
					e.Setenv("testOnlyShift", "0s")
					e.Setenv("STRIKEOFF_TIME_ZONE", "UTC")
					e.Setenv("STRIKEOFF_LEDGER", ledger(e.WorkDir))
					// Scripts share the Redis, each as a shop of its own.
					e.Setenv("STRIKEOFF_SHOP_NAME", strings.ToLower(strings.NewReplacer("/", "-", "_", "-").Replace(filepath.Base(e.WorkDir))))
					e.Values[talkKey{}] = &talk{}
					return nil
				},
				Cmds: map[string]func(*testscript.TestScript, bool, []string){
					"later": cmdLater, "open": cmdOpen, "say": cmdSay, "await": cmdAwait, "cut": cmdCut, "leave": cmdLeave,
				},
			})
		})
	}
}

// talk is a running chat that a script types into.
type talk struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	mu  sync.Mutex
	out bytes.Buffer // what it printed since the last await
}

type talkKey struct{}

func (t *talk) Write(b []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.out.Write(b)
}

func talking(ts *testscript.TestScript) *talk { return ts.Value(talkKey{}).(*talk) }

// later DURATION: the clock of everything that is started from now on stands that long after the script's first moment.
func cmdLater(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: later DURATION")
	}
	ts.Setenv("testOnlyShift", args[0])
}

// open [ARGS]: start a chat with its input held open.
func cmdOpen(ts *testscript.TestScript, _ bool, args []string) {
	t := talking(ts)
	exe, err := exec.LookPath("strikeoff")
	ts.Check(err)
	t.cmd = exec.Command(exe, append([]string{"chat"}, args...)...)
	t.cmd.Dir = ts.Getenv("WORK")
	for _, name := range []string{"PATH", "testOnlyShift", "STRIKEOFF_TIME_ZONE", "STRIKEOFF_LEDGER", "STRIKEOFF_SHOP_NAME", "HOME"} {
		t.cmd.Env = append(t.cmd.Env, name+"="+ts.Getenv(name))
	}
	t.cmd.Stdout, t.cmd.Stderr = t, t
	t.in, err = t.cmd.StdinPipe()
	ts.Check(err)
	ts.Check(t.cmd.Start())
}

// say TEXT: type one message.
func cmdSay(ts *testscript.TestScript, _ bool, args []string) {
	_, err := fmt.Fprintf(talking(ts).in, "%s\n.\n", strings.Join(args, " "))
	ts.Check(err)
}

// await REGEX: wait until what was printed since the last await matches.
func cmdAwait(ts *testscript.TestScript, _ bool, args []string) {
	t, want := talking(ts), regexp.MustCompile(strings.Join(args, " "))
	for deadline := time.Now().Add(30 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		t.mu.Lock()
		text := t.out.String()
		if want.MatchString(text) {
			t.out.Reset()
			t.mu.Unlock()
			return
		}
		t.mu.Unlock()
		if time.Now().After(deadline) {
			ts.Fatalf("never saw /%s/; what was printed:\n%s", want, text)
		}
	}
}

// cut: end the chat at once, as a power cut would.
func cmdCut(ts *testscript.TestScript, _ bool, _ []string) {
	t := talking(ts)
	ts.Check(t.cmd.Process.Kill())
	_ = t.cmd.Wait() // it was killed: its exit status says so
}

// leave: close the chat's input and let it end by itself.
func cmdLeave(ts *testscript.TestScript, _ bool, _ []string) {
	t := talking(ts)
	ts.Check(t.in.Close())
	ts.Check(t.cmd.Wait())
}
