package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
	"go.yaml.in/yaml/v3"

	"strikeoff/rules"
	"strikeoff/rules/house"
)

// sections are the parts of the settings file that are more than one value, and so can stand nowhere else. No secret stands in the file:
// it names the environment variable that holds one.
type sections struct {
	shop    rules.Shop
	sources []sourceSetting
	targets []targetSetting
}

// sourceSetting is a program that may hand in orders or read jobs.
type sourceSetting struct {
	Name   string   `yaml:"name"`
	Scopes []string `yaml:"scopes"` // orders:write, jobs:read, plans:ask
	Secret []string `yaml:"secret"` // names of the variables that hold its signing keys: one, or two while a key is changed over
	Token  []string `yaml:"token"`  // names of the variables that hold its bearer tokens
	Room   string   `yaml:"room"`   // where its jobs are talked about, as DOOR:ROOM
	Rate   float64  `yaml:"rate"`   // requests a second
}

// targetSetting is a program that is told when a job changes.
type targetSetting struct {
	Name    string   `yaml:"name"`
	URL     string   `yaml:"url"`
	Secret  []string `yaml:"secret"`
	Private bool     `yaml:"private"` // may stand on a private address
}

// fromFile reads the file that --config names, where one is named, and lets Kong resolve settings from it. Kong would let a resolver
// override the environment, so it stands back where the environment speaks.
func (s *settings) fromFile(k *kong.Kong, args []string) error {
	path := configPath(args)
	if path == "" {
		return nil
	}
	values, sections, err := readConfig(path, settable(k.Model.Node))
	if err != nil {
		return err
	}
	s.sections = sections
	return kong.Resolvers(kong.ResolverFunc(func(_ *kong.Context, _ *kong.Path, f *kong.Flag) (any, error) {
		for _, env := range f.Tag.Envs {
			if _, set := os.LookupEnv(env); set {
				return nil, nil
			}
		}
		if v, ok := values[f.Name]; ok {
			return v, nil
		}
		return nil, nil
	})).Apply(k)
}

// configPath finds --config before Kong parses, since what it names is one of Kong's own sources.
func configPath(args []string) string {
	for i, a := range args {
		if v, ok := strings.CutPrefix(a, "--config="); ok {
			return v
		}
		if a == "--config" && i+1 < len(args) {
			return args[i+1]
		}
	}
	return os.Getenv("STRIKEOFF_CONFIG")
}

// settable is the names of every flag that the file may set: those that can stand in the environment too, of any command.
func settable(n *kong.Node) []string {
	names := map[string]bool{}
	var walk func(*kong.Node)
	walk = func(n *kong.Node) {
		for _, f := range n.Flags {
			if len(f.Tag.Envs) > 0 && f.Name != "config" {
				names[f.Name] = true
			}
		}
		for _, c := range n.Children {
			walk(c)
		}
	}
	walk(n)
	return slices.Sorted(maps.Keys(names))
}

// readConfig reads the settings file: its values by name, lists joined by commas, and its sections. Every error names the line and the key.
func readConfig(path string, known []string) (values map[string]string, s sections, err error) {
	fail := func(n *yaml.Node, format string, args ...any) (map[string]string, sections, error) {
		return nil, sections{}, fmt.Errorf("config %s line %d: %w", path, n.Line, fmt.Errorf(format, args...))
	}
	b, err := os.ReadFile(path)
	if err != nil {
		return nil, s, fmt.Errorf("config: %w", err)
	}
	d := yaml.NewDecoder(bytes.NewReader(b))
	var tree map[string]yaml.Node
	if err := d.Decode(&tree); err != nil && !errors.Is(err, io.EOF) {
		return nil, s, fmt.Errorf("config %s is no YAML of names and values: %w", path, err)
	}
	if err := d.Decode(new(yaml.Node)); !errors.Is(err, io.EOF) {
		return nil, s, fmt.Errorf("config %s holds a second document after ---, which would be ignored: keep one", path)
	}
	parts := map[string]func([]byte) error{
		"shop":    func(text []byte) (err error) { s.shop, err = house.Decode(text); return err },
		"sources": func(text []byte) error { return strict(text, &s.sources) },
		"targets": func(text []byte) error { return strict(text, &s.targets) },
	}
	values = map[string]string{}
	for key, node := range tree {
		part, isPart := parts[key]
		switch {
		case isPart:
			text, err := yaml.Marshal(&node)
			if err == nil {
				err = part(text)
			}
			if err != nil {
				return fail(&node, "%s: %w", key, err)
			}
		case !slices.Contains(known, key):
			return fail(&node, "%q is no setting; allowed are shop, sources, targets, %s", key, strings.Join(known, ", "))
		case node.Kind == yaml.SequenceNode:
			var list []string
			if err := node.Decode(&list); err != nil {
				return fail(&node, "%s wants a list of words: %w", key, err)
			}
			values[key] = strings.Join(list, ",")
		case node.Kind == yaml.ScalarNode:
			values[key] = node.Value
		default:
			return fail(&node, "%s wants one value or a list", key)
		}
	}
	return values, s, nil
}

// strict decodes YAML and refuses names that nothing reads.
func strict(text []byte, to any) error {
	d := yaml.NewDecoder(bytes.NewReader(text))
	d.KnownFields(true)
	return d.Decode(to)
}
