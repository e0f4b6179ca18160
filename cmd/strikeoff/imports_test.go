package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// may is the one-way rule of the house: what each package may import of this module, and of the outside world. A name ending in "/…" lets in
// everything below it. Tests may import anything. The standard library is open to all but the pure packages.
var may = map[string]struct {
	pure    bool     // only the standard packages in pureStd
	ours    []string // packages of this module
	outside []string // modules of others
}{
	"rules":                  {pure: true, ours: []string{"rules/…"}},
	"rules/colour":           {pure: true},
	"rules/fibre":            {pure: true, ours: []string{"rules/source"}},
	"rules/source":           {pure: true},
	"rules/house":            {ours: []string{"rules", "rules/…"}, outside: []string{"go.yaml.in/yaml/v3", "cel.dev/cel-go/…"}},
	"intake":                 {pure: true, ours: []string{"rules", "rules/…"}, outside: []string{"golang.org/x/text/…"}},
	"intake/artwork":         {ours: []string{"rules", "rules/colour"}, outside: []string{"golang.org/x/image/…"}},
	"bot/job":                {pure: true, ours: []string{"rules"}},
	"bot/alert":              {pure: true, ours: []string{"rules", "bot/job"}},
	"bot":                    {ours: []string{"rules", "rules/…", "intake", "intake/artwork", "bot/job", "bot/alert"}, outside: []string{"golang.org/x/time/rate", "github.com/cenkalti/backoff/v5"}},
	"bot/picture":            {ours: []string{"rules", "rules/colour"}, outside: []string{"golang.org/x/image/…"}},
	"bot/ledger/redisledger": {ours: []string{"rules", "bot/job", "bot", "bot/ledger/record"}, outside: []string{"github.com/redis/go-redis/v9/…"}},
	"bot/ledger/boltledger":  {ours: []string{"rules", "bot/job", "bot", "bot/ledger/record"}, outside: []string{"go.etcd.io/bbolt/…"}},
	"bot/ledger/record":      {pure: true, ours: []string{"rules", "bot/job"}, outside: []string{"github.com/klauspost/compress/s2"}},
	"bot/ledger/ledgertest":  {ours: []string{"rules", "bot", "bot/job"}, outside: []string{"github.com/google/go-cmp/…", "pgregory.net/rapid"}},
	"bot/slack":              {ours: []string{"rules", "bot"}, outside: []string{"github.com/slack-go/slack/…", "golang.org/x/time/rate", "github.com/gorilla/websocket"}},
	"bot/slack/fake":         {outside: []string{"github.com/gorilla/websocket"}},
	"bot/discord":            {ours: []string{"rules", "bot"}, outside: []string{"github.com/bwmarrin/discordgo", "golang.org/x/time/rate", "github.com/gorilla/websocket"}},
	"bot/webhook":            {ours: []string{"rules", "rules/…", "bot"}, outside: []string{"golang.org/x/time/rate", "github.com/cenkalti/backoff/v5", "github.com/prometheus/client_golang/…"}},
	"bot/console":            {ours: []string{"rules", "bot"}, outside: []string{"golang.org/x/term"}},
	"bot/page":               {ours: []string{"rules", "bot"}, outside: []string{"github.com/piglig/go-qr"}},
	"bot/bottest":            {ours: []string{"rules", "rules/…", "intake", "bot", "bot/job", "bot/alert"}, outside: []string{"github.com/google/go-cmp/…"}},
	"cmd/strikeoff":          {ours: []string{"…"}, outside: []string{"github.com/alecthomas/kong", "go.yaml.in/yaml/v3", "go.opentelemetry.io/otel/…"}},
}

// pureStd are the standard packages that reach neither clock nor world. time is among them: that nobody calls time.Now is checked by name.
var pureStd = []string{"bytes", "cmp", "crypto/sha256", "embed", "encoding/hex", "encoding/json", "encoding/csv", "errors", "fmt", "iter", "maps",
	"math", "math/bits", "regexp", "slices", "sort", "strconv", "strings", "sync", "time", "unicode", "unicode/utf8"}

// clockCalls read the clock or wait; only cmd may (design: time is handed in).
var clockCalls = []string{"Now", "Since", "Until", "Sleep", "After", "Tick"}

// clockless are the packages, beyond the pure ones, in which the clock must be handed in.
var clockless = []string{"bot", "bot/ledger/boltledger", "bot/ledger/redisledger", "bot/page", "rules/house", "intake/artwork"}

func TestImportTable(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if n := d.Name(); path != root && (strings.HasPrefix(n, ".") || n == "testdata") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		files++
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, breach := range breaches(filepath.ToSlash(filepath.Dir(rel)), rel, src) {
			t.Error(breach)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files == 0 {
		t.Fatal("no Go files were read: the check would pass for want of anything to check")
	}
}

// TestImportTableSeesBreaches plants breaches and expects each to be named.
func TestImportTableSeesBreaches(t *testing.T) {
	for _, c := range []struct{ name, pkg, src, want string }{
		{"inner room opens outward", "rules", `package rules; import _ "strikeoff/bot"`, "may not import strikeoff/bot"},
		{"core reaches the network", "rules", `package rules; import _ "net/http"`, "may not import net/http"},
		{"platform in the core", "bot", `package bot; import _ "github.com/slack-go/slack"`, "may not import github.com/slack-go/slack"},
		{"second Redis client", "bot/webhook", `package webhook; import _ "github.com/redis/go-redis/v9"`, "may not import github.com/redis"},
		{"clock in the state machine", "bot/job", `package job; import "time"; var _ = time.Now()`, "reads the clock"},
		{"room not in the table", "bot/attic", `package attic`, "not in the import table"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := strings.Join(breaches(c.pkg, "planted.go", []byte(c.src)), "\n")
			if !strings.Contains(got, c.want) {
				t.Errorf("breaches = %q, want one that says %q", got, c.want)
			}
		})
	}
	if got := breaches("bot/job", "planted.go", []byte(`package job; import ("time"; "strikeoff/rules"); var _ time.Time; var _ rules.Order`)); len(got) > 0 {
		t.Errorf("a lawful file was called a breach: %q", got)
	}
}

// breaches says what a file of a package does that the table does not allow.
func breaches(pkg, file string, src []byte) []string {
	law, listed := may[pkg]
	if !listed {
		return []string{file + ": package " + pkg + " is not in the import table: give it a line there, with what it may import"}
	}
	f, err := parser.ParseFile(token.NewFileSet(), file, src, 0)
	if err != nil {
		return []string{file + ": " + err.Error()}
	}
	var out []string
	for _, spec := range f.Imports {
		path, _ := strconv.Unquote(spec.Path.Value)
		allowed := false
		switch ours, own := strings.CutPrefix(path, "strikeoff/"); {
		case own:
			allowed = covers(law.ours, ours)
		case strings.Contains(strings.Split(path, "/")[0], "."):
			allowed = covers(law.outside, path)
		default:
			allowed = !law.pure || slices.Contains(pureStd, path)
		}
		if !allowed {
			out = append(out, file+": "+pkg+" may not import "+path)
		}
	}
	if law.pure || slices.Contains(clockless, pkg) {
		ast.Inspect(f, func(n ast.Node) bool {
			if sel, ok := n.(*ast.SelectorExpr); ok && slices.Contains(clockCalls, sel.Sel.Name) {
				if id, ok := sel.X.(*ast.Ident); ok && id.Name == "time" {
					out = append(out, file+": "+pkg+" reads the clock (time."+sel.Sel.Name+"); be given the time instead")
				}
			}
			return true
		})
	}
	return out
}

// covers reports whether a list of names lets path in.
func covers(list []string, path string) bool {
	for _, l := range list {
		if base, open := strings.CutSuffix(l, "…"); open && (strings.HasPrefix(path, base) || path == strings.TrimSuffix(base, "/")) || l == path {
			return true
		}
	}
	return false
}
