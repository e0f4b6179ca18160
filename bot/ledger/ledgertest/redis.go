package ledgertest

import (
	"bufio"
	"fmt"
	"net"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Redis is a real redis-server that a test started for itself.
type Redis struct {
	Addr string
	Dir  string // its data
	args []string
	cmd  *exec.Cmd
	t    testing.TB
}

// StartRedis starts a redis-server on a free loopback port, in a folder of its own, writing every change to disk before it answers. Further
// arguments are given to it as they are. It is stopped when the test ends. Without a redis-server the test is skipped; where the environment
// says CI=true it fails, for there nothing may pass because something was missing.
func StartRedis(t testing.TB, args ...string) *Redis {
	t.Helper()
	if _, err := exec.LookPath("redis-server"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("there is no redis-server: install the redis-server package")
		}
		t.Skip("there is no redis-server here: the real Redis is not tested")
	}
	// A short path: the tests' own may be too long for what Redis writes there.
	dir, err := os.MkdirTemp("", "redis")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	hole, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	port := hole.Addr().(*net.TCPAddr).Port
	hole.Close()
	r := &Redis{t: t, Dir: dir, Addr: fmt.Sprintf("127.0.0.1:%d", port), args: append([]string{"--port", fmt.Sprint(port), "--bind", "127.0.0.1", "--dir", dir,
		"--appendonly", "yes", "--appendfsync", "always", "--save", "", "--daemonize", "no", "--logfile", ""}, args...)}
	r.Start()
	t.Cleanup(r.Kill)
	return r
}

// Start starts the server, again after Kill, and returns when it answers.
func (r *Redis) Start() {
	r.t.Helper()
	r.cmd = exec.Command("redis-server", r.args...)
	out, err := r.cmd.StdoutPipe()
	if err != nil {
		r.t.Fatal(err)
	}
	if err := r.cmd.Start(); err != nil {
		r.t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	var log []string
	for lines.Scan() {
		log = append(log, lines.Text())
		if strings.Contains(lines.Text(), "Ready to accept connections") {
			go func() { // its log must be read, or it would wait for a reader
				for lines.Scan() {
				}
			}()
			return
		}
	}
	r.t.Fatalf("redis-server did not start:\n%s", strings.Join(log, "\n"))
}

// Kill ends the server at once, as a crash would: kill -9 of the process that this test started.
func (r *Redis) Kill() {
	if r.cmd != nil && r.cmd.Process != nil {
		_ = r.cmd.Process.Kill()
		_ = r.cmd.Wait()
		r.cmd = nil
	}
}
