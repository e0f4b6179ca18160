package webhook

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	prometheusFiles = filepath.Join("..", "..", "deploy", "prometheus")
	dashboardFile   = filepath.Join("..", "..", "deploy", "grafana", "strikeoff.json")
)

// TestRulesAskForWhatIsMeasured: a rule or a panel on a series that does not exist is silent for ever.
func TestRulesAskForWhatIsMeasured(t *testing.T) {
	name := regexp.MustCompile(`strikeoff_[a-z_]+`)
	asked := map[string]bool{}
	for _, path := range []string{filepath.Join(prometheusFiles, "strikeoff.rules.yml"), dashboardFile} {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		found := name.FindAllString(string(b), -1)
		if len(found) == 0 {
			t.Errorf("%s asks for nothing", path)
		}
		for _, s := range found {
			s = strings.TrimSuffix(strings.TrimSuffix(s, "_bucket"), "_count")
			asked[s] = true
			if !slices.Contains(series, s) {
				t.Errorf("%s asks for %s, which is not measured", path, s)
			}
		}
	}
	for _, s := range series {
		if !asked[s] && s != "strikeoff_draining" && s != "strikeoff_ledger_failures_total" {
			t.Errorf("%s is measured and nobody looks at it", s)
		}
	}
	b, err := os.ReadFile(dashboardFile)
	if err != nil {
		t.Fatal(err)
	}
	var board struct {
		Panels []struct{ Title string }
	}
	if err := json.Unmarshal(b, &board); err != nil || len(board.Panels) == 0 {
		t.Errorf("the dashboard has %d panels: %v", len(board.Panels), err)
	}
}

// TestPromtool has Prometheus' own tool check the rules and run their tests.
func TestPromtool(t *testing.T) {
	tool, err := exec.LookPath("promtool")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("no promtool here: %v", err)
		}
		t.Skipf("no promtool here: %v", err)
	}
	for _, args := range [][]string{{"check", "rules", "strikeoff.rules.yml"}, {"test", "rules", "strikeoff.rules.test.yml"}, {"check", "config", "scrape.yml"}} {
		cmd := exec.Command(tool, args...)
		cmd.Dir = prometheusFiles
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("promtool %s: %v\n%s", strings.Join(args, " "), err, out)
		}
	}
}
