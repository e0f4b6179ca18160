package page

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// shots is a folder for pictures of the pages, to be looked at by a person: go test ./bot/page -run Browser -shots /some/folder
var shots = flag.String("shots", "", "write screenshots and the printed ticket to this folder")

// missing skips a test for want of a tool, or fails it where CI promises the tool.
func missing(t *testing.T, format string, args ...any) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf(format, args...)
	}
	t.Skipf(format, args...)
}

// browser starts a headless Chromium with a profile of its own.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser takes seconds to start")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		missing(t, "no chromium here: %v", err)
	}
	opts := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true), chromedp.UserDataDir(t.TempDir()))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil { // without a deadline: it would end the browser
		t.Fatalf("chromium does not start: %v", err)
	}
	t.Cleanup(func() { _ = chromedp.Cancel(ctx) }) // waits, so that the profile can be removed
	ctx, done := context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(done)
	return ctx
}

func run[T any](t *testing.T, ctx context.Context, a chromedp.Action[T]) T {
	t.Helper()
	v, err := chromedp.Run(ctx, a)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// dress makes the browser a phone or a wall, light or dark.
func dress(t *testing.T, ctx context.Context, width, height int64, scheme string) {
	t.Helper()
	run(t, ctx, chromedp.EmulateViewport(width, height))
	run(t, ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return err
	}))
}

func keep(t *testing.T, name string, data []byte) {
	t.Helper()
	if *shots != "" {
		if err := os.WriteFile(filepath.Join(*shots, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func TestBrowserBoardMovesWithAJob(t *testing.T) {
	ctx := browser(t)
	s := newSite(t, house(t))
	wall, err := s.pages.MakeWall(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(wall), chromedp.WaitVisible(chromedp.CSS(".state-test-due #job-3"))); err != nil {
		t.Fatal(err)
	}
	if at := run(t, ctx, chromedp.Location()); strings.Contains(at, "key=") {
		t.Errorf("the key stands in the address: %s", at)
	}
	run(t, ctx, chromedp.Focus(chromedp.CSS("#job-3")))
	s.ledger.do(t, 3, s.now(), job.Event{Kind: job.Printed, By: lead, PlanRev: 1})
	soon, cancel := context.WithTimeout(ctx, 20*time.Second)
	defer cancel()
	if err := chromedp.Do(soon, chromedp.WaitVisible(chromedp.CSS(".state-on-test #job-3"))); err != nil {
		t.Fatalf("the job moved and the board did not: %v", err)
	}
	if focus := run(t, ctx, chromedp.Evaluate[string](`document.activeElement.id`)); focus != "job-3" {
		t.Errorf("who was on job-3 by keyboard is now on %q", focus)
	}
	if news := run(t, ctx, chromedp.TextContent(chromedp.CSS("#news"))); !strings.Contains(news, "changed") {
		t.Errorf("a screen reader is told %q", news)
	}
	if err := s.pages.RevokeWall(context.Background()); err != nil {
		t.Fatal(err)
	}
	for soon.Err() == nil { // the page goes away while it is asked
		if h1, err := chromedp.Run(soon, chromedp.Evaluate[string](`document.querySelector("h1").textContent`)); err == nil && strings.Contains(h1, "link is over") {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Error("the wall link was taken back and the screen still shows jobs")
}

// TestBrowserWithoutScript: the board is whole without its script, and asks the browser to reload it.
func TestBrowserWithoutScript(t *testing.T) {
	ctx := browser(t)
	s := newSite(t, house(t))
	run(t, ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	}))
	if err := chromedp.Do(ctx, chromedp.Navigate(s.pages.BoardLink(s.hour())), chromedp.WaitVisible(chromedp.CSS("#job-6"))); err != nil {
		t.Fatal(err)
	}
	if html := run(t, ctx, chromedp.OuterHTML(chromedp.CSS("head"))); !strings.Contains(html, `http-equiv="refresh"`) {
		t.Error("without script nothing reloads the board")
	}
}

var pageCount = regexp.MustCompile(`/Type\s*/Pages[^>]*?/Count\s+(\d+)|/Count\s+(\d+)[^>]*?/Type\s*/Pages`)

// pages counts the pages of a PDF by its page tree (ISO 32000, section 7.7.3.2).
func pages(t *testing.T, pdf []byte) string {
	t.Helper()
	most := ""
	for _, m := range pageCount.FindAllSubmatch(pdf, -1) {
		if n := string(m[1]) + string(m[2]); len(n) > len(most) || n > most {
			most = n
		}
	}
	if most == "" {
		t.Fatal("no page tree was found in the PDF")
	}
	return most
}

func TestBrowserTicketPrintsOnOnePage(t *testing.T) {
	ctx := browser(t)
	l := house(t)
	// A job ten times the usual, so that the count of pages is seen to count.
	big := order("Larkspur Rowing", "2026-12-18")
	for range 10 {
		big.Lines = append(big.Lines, big.Lines[0])
	}
	l.do(t, 0, noon, opened(big, true, "everything"))
	for _, o := range []rules.Order{order("Larkspur Rowing", "2026-12-18"), {Customer: "Quarry Street Climbers", Due: "2026-12-04", Lines: order("", "").Lines[:1]}} { // by the shop's real rules
		p := rules.Decide(o, rules.Shop{}, rules.Record{Today: "2026-11-25"})
		l.do(t, 0, noon, job.Event{Kind: job.Opened, By: rep, Where: job.Place{Door: "paper", Room: "orders", Thread: "1"}, Message: "m", Text: "72 tees", Order: &o, Plan: &p})
	}
	s := newSite(t, l)
	for _, paper := range []struct {
		name string
		size chromedp.PaperSize
	}{{"a4", chromedp.PaperA4}, {"letter", chromedp.PaperLetter}} {
		for id, want := range map[int]bool{2: true, 4: true, 1: true, 8: false, 9: true, 10: true} {
			link := strings.Replace(s.pages.JobLink(job.ID(id), s.hour()), "?", "/ticket?", 1)
			if err := chromedp.Do(ctx, chromedp.Navigate(link), chromedp.WaitVisible(chromedp.CSS(".sheet"))); err != nil {
				t.Fatal(err)
			}
			pdf := run(t, ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper.size), chromedp.PDFPreferCSSPageSize()))
			keep(t, fmt.Sprintf("ticket-%d-%s.pdf", id, paper.name), pdf)
			if n := pages(t, pdf); (n == "1") != want {
				t.Errorf("the ticket of job %d takes %s pages of %s", id, n, paper.name)
			}
		}
	}
}

// TestBrowserAxe has axe-core look for what keeps people from reading a page.
func TestBrowserAxe(t *testing.T) {
	ctx := browser(t)
	axe := axeCore(t)
	s := newSite(t, house(t))
	if err := chromedp.Do(ctx, chromedp.Navigate(s.pages.BoardLink(s.hour()))); err != nil {
		t.Fatal(err)
	}
	looked := 0
	for _, scheme := range []string{"light", "dark"} {
		for path, view := range map[string][2]int64{"/board": {1920, 1080}, "/jobs/2": {390, 844}, "/jobs/5": {1280, 900}, "/jobs/1": {390, 844}, "/jobs/2/ticket": {1280, 900}, "/jobs/99": {390, 844}} {
			dress(t, ctx, view[0], view[1], scheme)
			if err := chromedp.Do(ctx, chromedp.Navigate(s.url+path), chromedp.WaitVisible(chromedp.CSS("main"))); err != nil {
				t.Fatal(err)
			}
			looked++
			run(t, ctx, chromedp.Evaluate[chromedp.Void](axe))
			for _, v := range axeRun(t, ctx) {
				report := t.Logf
				if v.Impact == "serious" || v.Impact == "critical" {
					report = t.Errorf
				}
				report("%s, %s: %s (%s): %s %s", path, scheme, v.ID, v.Impact, v.Help, v.Nodes)
			}
			if wide := run(t, ctx, chromedp.Evaluate[bool](`document.documentElement.scrollWidth > innerWidth`)); wide && !strings.HasSuffix(path, "ticket") {
				t.Errorf("%s is wider than a screen of %d", path, view[0])
			}
			keep(t, strings.ReplaceAll(strings.Trim(path, "/"), "/", "-")+"-"+scheme+".png", run(t, ctx, chromedp.FullScreenshot(100)))
		}
	}
	if looked != 12 {
		t.Fatalf("%d pages were looked at", looked)
	}
	// A page with a fault must be found out, or the above means nothing.
	run(t, ctx, chromedp.Evaluate[chromedp.Void](`document.querySelector("main").insertAdjacentHTML("beforeend", "<img src=x>")`))
	if found := axeRun(t, ctx); !slices.ContainsFunc(found, func(v violation) bool { return v.ID == "image-alt" }) {
		t.Errorf("a picture without words was not found: %v", found)
	}
}

type violation struct {
	ID, Impact, Help string
	Nodes            json.RawMessage
}

func axeRun(t *testing.T, ctx context.Context) []violation {
	t.Helper()
	raw := run(t, ctx, chromedp.Evaluate[string](`axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v =>
		({ID: v.id, Impact: v.impact, Help: v.help, Nodes: v.nodes.map(n => n.html.slice(0, 120) + " " + n.failureSummary)}))))`, chromedp.EvalAwaitPromise))
	var out []violation
	if err := json.Unmarshal([]byte(raw), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// axeVersion is the axe-core that looks (MPL-2.0, fetched for the test alone, never shipped).
const axeVersion = "4.14.1"

// axeCore fetches axe-core from npm and returns its script.
func axeCore(t *testing.T) string {
	t.Helper()
	script, err := fetchAxe()
	if err != nil {
		missing(t, "axe-core cannot be had: %v", err)
	}
	return script
}

var fetchAxe = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "axe")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	if out, err := exec.Command("npm", "pack", "--silent", "--pack-destination", dir, "axe-core@"+axeVersion).CombinedOutput(); err != nil {
		return "", fmt.Errorf("npm pack: %w: %s", err, out)
	}
	b, err := os.ReadFile(filepath.Join(dir, "axe-core-"+axeVersion+".tgz"))
	if err != nil {
		return "", err
	}
	zr, err := gzip.NewReader(bytes.NewReader(b))
	if err != nil {
		return "", err
	}
	for tr := tar.NewReader(zr); ; {
		h, err := tr.Next()
		if errors.Is(err, io.EOF) {
			return "", errors.New("axe.min.js is not in the package")
		}
		if err != nil {
			return "", err
		}
		if h.Name == "package/axe.min.js" {
			script, err := io.ReadAll(io.LimitReader(tr, 4<<20))
			return string(script), err
		}
	}
})
