package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
	"go.yaml.in/yaml/v3"
)

// secretNames are the environment variables that hold secrets; they are no flags, so Kong does not know them.
var secretNames = []string{"STRIKEOFF_SLACK_BOT_TOKEN", "STRIKEOFF_SLACK_APP_TOKEN", "STRIKEOFF_SLACK_SIGNING_SECRET",
	"STRIKEOFF_DISCORD_TOKEN", "STRIKEOFF_DISCORD_PUBLIC_KEY", pageKey}

func model(t *testing.T) *kong.Kong {
	t.Helper()
	k, err := kong.New(&cli{}, kong.Name("strikeoff"), kong.Bind(world{}))
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// Ensure the settings file that we ship is read whole, and is allowed.
func TestSampleSettings(t *testing.T) {
	path := filepath.Join("..", "..", "deploy", "strikeoff.yaml")
	known := settable(model(t).Model.Node)
	values, sections, err := readConfig(path, known)
	if err != nil {
		t.Fatal(err)
	}
	if len(sections.sources) != 2 || len(sections.targets) != 1 || len(sections.shop.Methods) == 0 || values["time-zone"] == "" {
		t.Errorf("the sample was read as %v, %+v: something in it is not used", values, sections)
	}
	t.Setenv("STRIKEOFF_LEDGER", "") // the machine's own settings must not decide
	os.Unsetenv("STRIKEOFF_LEDGER")
	var out, errs strings.Builder
	code := run(world{args: []string{"--config", path, "read", "--json", "--received", "2027-03-01", "hello"}, in: strings.NewReader(""), out: &out, err: &errs})
	if code != exitOK {
		t.Errorf("the sample is refused: %s", errs.String())
	}
}

// Ensure every environment variable that the deploy files and the README name is one that the program reads.
func TestDeployNamesRealSettings(t *testing.T) {
	var real []string
	var walk func(*kong.Node)
	walk = func(n *kong.Node) {
		for _, f := range n.Flags {
			real = append(real, f.Tag.Envs...)
		}
		for _, c := range n.Children {
			walk(c)
		}
	}
	walk(model(t).Model.Node)
	real = append(real, secretNames...)
	// The sample's own names for secrets of programs are free to choose.
	real = append(real, "STRIKEOFF_SOURCE_WEB_FORM", "STRIKEOFF_SOURCE_OFFICE", "STRIKEOFF_TARGET_OFFICE")
	root := filepath.Join("..", "..")
	names := regexp.MustCompile(`STRIKEOFF_[A-Z_]*[A-Z]`)
	seen := 0
	files := []string{"Dockerfile", "README.md", "deploy/compose.yaml", "deploy/strikeoff.service", "deploy/strikeoff.yaml"}
	guides, err := filepath.Glob(filepath.Join(root, "deploy", "*", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range guides {
		rel, err := filepath.Rel(root, g)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, rel)
	}
	for _, file := range files {
		b, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Error(err)
			continue
		}
		for _, name := range names.FindAllString(string(b), -1) {
			seen++
			if !slices.Contains(real, name) && !slices.Contains(real, strings.TrimSuffix(name, "_FILE")) {
				t.Errorf("%s names %s, which the program does not read", file, name)
			}
		}
	}
	if seen == 0 {
		t.Error("no names were found: the check would pass for want of anything to check")
	}
}

// Ensure the Redis that we ship keeps what it acknowledges, as check and the ledger's own health ask.
func TestShippedRedisIsDurable(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "deploy", "redis.conf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"appendonly yes", "appendfsync always", "maxmemory-policy noeviction"} {
		if !slices.Contains(strings.Split(string(b), "\n"), want) {
			t.Errorf("deploy/redis.conf does not say %q", want)
		}
	}
	b, err = os.ReadFile(filepath.Join("..", "..", "deploy", "compose.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var compose struct {
		Services map[string]struct {
			Volumes []string
			Command []string
		}
	}
	if err := yaml.Unmarshal(b, &compose); err != nil {
		t.Fatal(err)
	}
	redis := compose.Services["redis"]
	if !slices.Contains(redis.Volumes, "./redis.conf:/etc/redis/redis.conf:ro") || !slices.Contains(redis.Command, "/etc/redis/redis.conf") {
		t.Errorf("compose.yaml does not run Redis on deploy/redis.conf: %+v", redis)
	}
}

// Ensure the README's transcript is what the demonstration prints, line by line in its order; … marks what is left out.
func TestReadmeTranscript(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(readme), "## A morning, shortened\n")
	section, _, ok := strings.Cut(rest, "\n## ")
	if !ok {
		t.Fatal("the README has no section with the transcript")
	}
	var out, errs strings.Builder
	if code := run(world{args: []string{"chat", "--demo"}, in: strings.NewReader(""), out: &out, err: &errs}); code != exitOK {
		t.Fatalf("the demonstration ended with %d: %s", code, errs.String())
	}
	printed, checked := strings.Split(out.String(), "\n"), 0
	for _, line := range strings.Split(section, "\n") {
		want, quoted := strings.CutPrefix(line, "    ")
		if !quoted || want == "…" {
			continue
		}
		checked++
		at := slices.Index(printed, want)
		if at < 0 {
			t.Fatalf("the demonstration does not print, from here on: %q", want)
		}
		printed = printed[at+1:]
	}
	if checked < 20 {
		t.Errorf("only %d lines of a transcript were found", checked)
	}
}
