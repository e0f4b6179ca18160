package webhook

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/pprof"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot"
	"strikeoff/bot/ledger/redisledger"
	"strikeoff/intake"
	"strikeoff/rules"
)

// load is how many orders the load run hands in to each side; 0 leaves it out. It is a measurement, not a check:
//
//	go test ./bot/webhook -run TestLoad -load 20000 -v -timeout 30m
var (
	load        = flag.Int("load", 0, "orders for the load run")
	loadWorkers = flag.Int("load-workers", 0, "bot.Limits.Workers of the load run; 0 is the desk's usual")
	loadProfile = flag.String("load-profile", "", "write the CPU profile of the whole side to this file")
)

// requests are what the load run's customers write (invented).
var requests = []string{
	"Hi, we need 72 black tees, 100% cotton, white print on the front, 11 in wide, by Dec 18. Thanks, Invented Rowing Club",
	"24 navy hoodies 80/20 cotton poly, 2 colour left chest and full back, for the gym staff, sizes 4 S 8 M 8 L 4 XL",
	"50/25/25 tri-blend, heather navy, 120 pcs: S10 M40 L50 XL20, white + gold front, soft hand please, need by Jan 9",
	"36 polyester jerseys red, white numbers on the back 10in, name above, for a school team ages 9 to 12",
}

// redisServer starts a Redis of its own with the shop's settings, and stops it after.
func redisServer(t testing.TB) *redis.Client {
	t.Helper()
	path, err := exec.LookPath("redis-server")
	if err != nil {
		t.Skipf("no redis-server here: %v", err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	port := l.Addr().(*net.TCPAddr).Port
	l.Close()
	cmd := exec.Command(path, "--port", fmt.Sprint(port), "--bind", "127.0.0.1", "--dir", t.TempDir(), "--appendonly", "yes", "--appendfsync", "always",
		"--maxmemory-policy", "noeviction", "--auto-aof-rewrite-min-size", "1gb", "--save", "", "--logfile", "redis.log")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	opts, err := redisledger.Options(fmt.Sprintf("redis://127.0.0.1:%d", port))
	if err != nil {
		t.Fatal(err)
	}
	c := redis.NewClient(opts.Simple())
	t.Cleanup(func() { c.Close() })
	for range 200 {
		if c.Ping(context.Background()).Err() == nil {
			return c
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Fatal("redis-server does not answer")
	return nil
}

// cpuTime is the processor time this program has had.
func cpuTime(t testing.TB) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// redisTime is the processor time that Redis has had.
func redisTime(t testing.TB, c *redis.Client) time.Duration {
	t.Helper()
	total := 0.0
	for line := range strings.Lines(c.Info(context.Background(), "cpu").Val()) {
		for _, name := range []string{"used_cpu_sys:", "used_cpu_user:"} {
			if v, ok := strings.CutPrefix(strings.TrimSpace(line), name); ok {
				secs, err := strconv.ParseFloat(v, 64)
				if err != nil {
					t.Fatal(err)
				}
				total += secs
			}
		}
	}
	return time.Duration(total * float64(time.Second))
}

// figures are what one side did.
type figures struct {
	rate      float64 // orders a second, from the first request to the last order done
	p50, p99  time.Duration
	cpu       time.Duration // processor time of this program for one order, the clients' included
	redis     time.Duration // and of Redis
	heapEarly uint64        // bytes in use after a collection, a fifth of the way in
	heapLate  uint64        // and at the end
}

func (f figures) String() string {
	return fmt.Sprintf("%.0f orders/s, answered in %v (median) %v (p99), processor %v here and %v in Redis an order, heap %.1f MB early, %.1f MB late", f.rate,
		f.p50.Round(10*time.Microsecond), f.p99.Round(10*time.Microsecond), f.cpu.Round(time.Microsecond), f.redis.Round(time.Microsecond), float64(f.heapEarly)/1e6, float64(f.heapLate)/1e6)
}

// drive has 32 clients hand in n signed orders, waits until they are done, and measures.
func drive(t *testing.T, h http.Handler, c *redis.Client, keys Keys, n int, run string, done func()) figures {
	t.Helper()
	srv := httptest.NewServer(h)
	defer srv.Close()
	const clients = 32
	cpu, inRedis := cpuTime(t), redisTime(t, c)
	tr := &http.Transport{MaxIdleConnsPerHost: clients, MaxConnsPerHost: clients}
	client := &http.Client{Transport: tr}
	defer tr.CloseIdleConnections()
	var f figures
	var next, bad atomic.Int64
	took := make([][]time.Duration, clients)
	heap := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	start := time.Now()
	var all sync.WaitGroup
	for k := range clients {
		all.Go(func() {
			for {
				i := int(next.Add(1))
				if i > n {
					return
				}
				if i == n/5 {
					f.heapEarly = heap()
				}
				body := fmt.Appendf(nil, `{"text":%q}`, requests[i%len(requests)])
				req, _ := http.NewRequest("POST", srv.URL+"/v1/orders", bytes.NewReader(body))
				req.Header.Set("Content-Type", "application/json")
				keys.Sign(req.Header, fmt.Sprintf("%s-%d", run, i), time.Now(), body)
				at := time.Now()
				resp, err := client.Do(req)
				if err != nil {
					bad.Add(1)
					continue
				}
				_, _ = io.Copy(io.Discard, resp.Body)
				resp.Body.Close()
				if resp.StatusCode != http.StatusAccepted {
					bad.Add(1)
				}
				took[k] = append(took[k], time.Since(at))
			}
		})
	}
	all.Wait()
	answered := time.Since(start)
	done()
	f.rate = float64(n) / time.Since(start).Seconds()
	f.cpu, f.redis = (cpuTime(t)-cpu)/time.Duration(n), (redisTime(t, c)-inRedis)/time.Duration(n)
	times := slices.Concat(took...)
	slices.Sort(times)
	if bad.Load() > 0 || len(times) == 0 {
		t.Fatalf("%d of %d orders were not taken", bad.Load(), n)
	}
	f.p50, f.p99, f.heapLate = times[len(times)/2], times[len(times)*99/100], heap()
	t.Logf("%s: all answered after %v (%.0f/s)", run, answered.Round(time.Millisecond), float64(n)/answered.Seconds())
	return f
}

// readOrder and decidePlan are what the whole side does with a message's text.
func readOrder(text string, day rules.Date) (rules.Order, bool) {
	r := intake.Read(text, intake.Options{Received: day})
	return r.Order, r.IsOrder
}

func decidePlan(o rules.Order, day rules.Date) rules.Plan {
	return rules.Decide(o, rules.Shop{}, rules.Record{Today: day})
}

// TestLoad measures the whole way of an order (verify, keep, read, plan, save, and the card taken off the outbox) beside a bare handler that
// verifies the signature and writes one entry, on one Redis each, in one run. A third side is the bare handler that reads and plans besides, and
// keeps nothing of it: no way of saving could be faster, so it is the most that the whole way could reach on this machine.
func TestLoad(t *testing.T) {
	if *load <= 0 {
		t.Skip("a measurement: run it with -load N")
	}
	keys := Keys{newSecret(t)}

	bare := func(name string, round int, work func(body []byte) error) figures {
		c := redisServer(t)
		h := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, 256<<10))
			if err != nil {
				http.Error(w, "body", http.StatusBadRequest)
				return
			}
			id, err := keys.Verify(r.Header, body, time.Now())
			if err != nil {
				http.Error(w, "signature", http.StatusUnauthorized)
				return
			}
			if err := work(body); err != nil {
				http.Error(w, "body", http.StatusBadRequest)
				return
			}
			if err := c.XAdd(r.Context(), &redis.XAddArgs{Stream: "orders", Values: map[string]any{"id": id, "body": body}}).Err(); err != nil {
				http.Error(w, "redis", http.StatusServiceUnavailable)
				return
			}
			w.WriteHeader(http.StatusAccepted)
		})
		return drive(t, h, c, keys, *load, fmt.Sprintf("%s%d", name, round), func() {})
	}

	whole := func(round int) figures {
		c := redisServer(t)
		ledger, err := redisledger.Open(context.Background(), c, "load")
		if err != nil {
			t.Fatal(err)
		}
		meters := NewMeters()
		led := MeterLedger(ledger, meters, nil)
		sender, err := NewSender(SenderConfig{Now: time.Now, Ledger: led})
		if err != nil {
			t.Fatal(err)
		}
		d := &bot.Desk{Ledger: led, Now: time.Now, Doors: map[string]bot.Poster{Door: sender}, Limits: bot.Limits{PerSecond: 1e9, Burst: 1e6, Workers: *loadWorkers}}
		api, err := New(Config{Desk: d, Jobs: led, Now: time.Now, Meters: meters, Limits: Limits{Backlog: 1 << 30},
			Read: readOrder, Decide: decidePlan,
			Sources: []Source{{Name: "load", Keys: keys, Scopes: []Scope{WriteOrders}, Rate: 1e6}}})
		if err != nil {
			t.Fatal(err)
		}
		mux := http.NewServeMux()
		api.Register(mux)
		ctx, stop := context.WithCancel(context.Background())
		ran := make(chan error, 1)
		go func() { ran <- d.Run(ctx) }()
		if *loadProfile != "" && round == 0 {
			f, err := os.Create(filepath.Clean(*loadProfile))
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if err := pprof.StartCPUProfile(f); err != nil {
				t.Fatal(err)
			}
			defer pprof.StopCPUProfile()
		}
		f := drive(t, mux, c, keys, *load, fmt.Sprintf("whole%d", round), func() {
			for {
				h, err := led.Health(ctx, time.Now())
				if err != nil {
					t.Fatal(err)
				}
				if h.SetAside > 0 {
					t.Fatalf("%d were set aside", h.SetAside)
				}
				if h.Inbox == 0 && h.Outbox == 0 {
					return
				}
				time.Sleep(50 * time.Millisecond)
			}
		})
		calls, err := meters.reg.Gather()
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range calls {
			if m.GetName() == "strikeoff_ledger_seconds" {
				for _, c := range m.GetMetric() {
					h := c.GetHistogram()
					t.Logf("  %-12s %7d calls, %.2f ms each", c.GetLabel()[0].GetValue(), h.GetSampleCount(), 1000*h.GetSampleSum()/float64(h.GetSampleCount()))
				}
			}
		}
		stop()
		if err := <-ran; err != nil {
			t.Error(err)
		}
		jobs, err := ledger.Jobs(context.Background(), nil, 0, 1)
		if err != nil || len(jobs) == 0 || int(jobs[0].ID) < *load {
			t.Errorf("%d orders, newest job %v, %v", *load, jobs, err)
		}
		return f
	}

	nothing := func([]byte) error { return nil }
	readAndPlan := func(body []byte) error {
		var in struct{ Text string }
		if err := json.Unmarshal(body, &in); err != nil {
			return err
		}
		day := rules.DateOf(time.Now())
		order, _ := readOrder(in.Text, day)
		decidePlan(order, day)
		return nil
	}
	for round := range 2 {
		b := bare("bare", round, nothing)
		m := bare("most", round, readAndPlan)
		w := whole(round)
		t.Logf("bare:  %v", b)
		t.Logf("most:  %v", m)
		t.Logf("whole: %v", w)
		t.Logf("round %d: the whole way runs at %.2f of the bare handler's rate, and takes %.1f times its processor time; reading and planning alone would run at %.2f",
			round, w.rate/b.rate, float64(w.cpu+w.redis)/float64(b.cpu+b.redis), m.rate/b.rate)
	}
}
