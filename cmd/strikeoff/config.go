package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/alecthomas/kong"
	"go.yaml.in/yaml/v3"

	"strikeoff/rules"
	"strikeoff/rules/house"
)

// settings are what the program needs to know before it starts. Each can stand on the command line, in the environment or in the file
// that --config names, the first of them winning.
type settings struct {
	Config    string   `help:"YAML file of settings; its keys are the long names below, and shop: holds the shop's own." env:"STRIKEOFF_CONFIG" placeholder:"FILE" group:"settings"`
	Ledger    string   `help:"Where jobs are kept: a file on this machine, or redis://HOST:PORT/DB (rediss:// for TLS; several hosts with commas are a cluster)." env:"STRIKEOFF_LEDGER" default:"strikeoff.db" group:"settings"`
	ShopName  string   `help:"Short name of the shop: letters, digits and hyphens. Shops that share a Redis need different ones." env:"STRIKEOFF_SHOP_NAME" default:"shop" group:"settings"`
	TimeZone  string   `help:"The shop's time zone, as Europe/Lisbon; days and waits are told in it." env:"STRIKEOFF_TIME_ZONE" default:"Local" group:"settings"`
	DateOrder string   `help:"How 12/11 is read: mdy is December 11, dmy is 12 November." env:"STRIKEOFF_DATE_ORDER" enum:"mdy,dmy" default:"mdy" group:"settings"`
	Leads     []string `help:"Who may record and sign test prints, as DOOR:PERSON or DOOR:group:GROUP, with commas." env:"STRIKEOFF_LEADS" placeholder:"WHO" group:"settings"`
	LogLevel  string   `help:"How much is logged: debug, info, warn or error." env:"STRIKEOFF_LOG_LEVEL" enum:"debug,info,warn,error" default:"info" group:"settings"`

	shop rules.Shop // from the file's shop: section
	zone *time.Location
}

// Validate checks the settings before anything starts. Kong calls it after every source has been read.
func (s *settings) Validate() error {
	var err error
	if s.zone, err = time.LoadLocation(s.TimeZone); err != nil {
		return fmt.Errorf("time-zone is %q, which is no time zone here: write one as Europe/Lisbon or America/Chicago, or UTC", s.TimeZone)
	}
	if s.ShopName == "" || strings.Trim(strings.ToLower(s.ShopName), "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		return fmt.Errorf("shop-name is %q: letters, digits and hyphens are allowed", s.ShopName)
	}
	if s.Ledger == "" {
		return errors.New("ledger is empty: give a file name, or redis://HOST:PORT/DB")
	}
	if scheme, _, isURL := strings.Cut(s.Ledger, "://"); isURL {
		if !slices.Contains([]string{"redis", "rediss"}, scheme) {
			return fmt.Errorf("ledger is %q: a file name, redis:// or rediss:// is allowed", s.hideLedger())
		}
	}
	for _, l := range s.Leads {
		if door, who, ok := strings.Cut(l, ":"); !ok || door == "" || strings.TrimPrefix(who, "group:") == "" {
			return fmt.Errorf("leads has %q: write each as DOOR:PERSON or DOOR:group:GROUP, for example slack:U0123 or discord:group:42", l)
		}
	}
	return nil
}

// onRedis reports whether the ledger is a Redis address.
func (s *settings) onRedis() bool { return strings.Contains(s.Ledger, "://") }

// hideLedger is the ledger's address fit for a log: without the password that may stand in it.
func (s *settings) hideLedger() string {
	if u, err := url.Parse(s.Ledger); err == nil && s.onRedis() {
		return u.Redacted()
	}
	if i := strings.LastIndex(s.Ledger, "@"); s.onRedis() && i >= 0 {
		return "(address) @" + s.Ledger[i+1:] // several hosts are no URL that can be parsed
	}
	return s.Ledger
}

// readConfig reads the YAML file of settings: its values by name, lists joined by commas, and the shop's own section.
func readConfig(path string, known []string) (map[string]string, rules.Shop, error) {
	b, err := os.ReadFile(path)
	if err != nil {
		return nil, rules.Shop{}, fmt.Errorf("config: %w", err)
	}
	d := yaml.NewDecoder(bytes.NewReader(b))
	var tree map[string]yaml.Node
	if err := d.Decode(&tree); err != nil && !errors.Is(err, io.EOF) {
		return nil, rules.Shop{}, fmt.Errorf("config %s is no YAML of names and values: %w", path, err)
	}
	if err := d.Decode(new(yaml.Node)); !errors.Is(err, io.EOF) {
		return nil, rules.Shop{}, fmt.Errorf("config %s holds a second document after ---, which would be ignored: keep one", path)
	}
	values := map[string]string{}
	var shop rules.Shop
	for key, node := range tree {
		switch {
		case key == "shop":
			text, err := yaml.Marshal(&node)
			if err != nil {
				return nil, shop, fmt.Errorf("config %s line %d: %w", path, node.Line, err)
			}
			if shop, err = house.Decode(text); err != nil {
				return nil, shop, fmt.Errorf("config %s line %d: %w", path, node.Line, err)
			}
		case !slices.Contains(known, key):
			return nil, shop, fmt.Errorf("config %s line %d: %q is no setting; allowed are shop, %s", path, node.Line, key, strings.Join(known, ", "))
		case node.Kind == yaml.SequenceNode:
			var list []string
			if err := node.Decode(&list); err != nil {
				return nil, shop, fmt.Errorf("config %s line %d: %s wants a list of words: %w", path, node.Line, key, err)
			}
			values[key] = strings.Join(list, ",")
		case node.Kind == yaml.ScalarNode:
			values[key] = node.Value
		default:
			return nil, shop, fmt.Errorf("config %s line %d: %s wants one value or a list", path, node.Line, key)
		}
	}
	return values, shop, nil
}

// fromFile reads the file that --config names, where one is named, and lets Kong resolve settings from it. Kong would let a resolver
// override the environment, so it stands back where the environment speaks.
func (s *settings) fromFile(k *kong.Kong, args []string) error {
	path := configPath(args)
	if path == "" {
		return nil
	}
	var known []string
	for _, f := range k.Model.Flags {
		if f.Group != nil && f.Group.Key == "settings" && f.Name != "config" {
			known = append(known, f.Name)
		}
	}
	values, shop, err := readConfig(path, known)
	if err != nil {
		return err
	}
	s.shop = shop
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
