package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/bot/ledger/redisledger"
)

// settings are what the program needs to know before it starts. Each can stand on the command line, in the environment or in the file
// that --config names, the first of them winning.
type settings struct {
	Config    string   `help:"YAML file of settings; its keys are the long names below, and shop: holds the shop's own." env:"STRIKEOFF_CONFIG" placeholder:"FILE" group:"settings"`
	Ledger    string   `help:"Where jobs are kept: a file on this machine, or redis://HOST:PORT/DB (rediss:// for TLS, more hosts of a cluster as ?addr=HOST:PORT)." env:"STRIKEOFF_LEDGER" default:"strikeoff.db" group:"settings"`
	ShopName  string   `help:"Short name of the shop: letters, digits and hyphens. Shops that share a Redis need different ones." env:"STRIKEOFF_SHOP_NAME" default:"shop" group:"settings"`
	TimeZone  string   `help:"The shop's time zone, as Europe/Lisbon; days and waits are told in it." env:"STRIKEOFF_TIME_ZONE" default:"Local" group:"settings"`
	DateOrder string   `help:"How 12/11 is read: mdy is December 11, dmy is 12 November." env:"STRIKEOFF_DATE_ORDER" enum:"mdy,dmy" default:"mdy" group:"settings"`
	Leads     []string `help:"Who may record and sign test prints, as DOOR:PERSON or DOOR:group:GROUP, with commas." env:"STRIKEOFF_LEADS" placeholder:"WHO" group:"settings"`
	LogLevel  string   `help:"How much is logged: debug, info, warn or error." env:"STRIKEOFF_LOG_LEVEL" enum:"debug,info,warn,error" default:"info" group:"settings"`

	sections
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
	if s.onRedis() {
		return redisledger.HidePassword(s.Ledger)
	}
	return s.Ledger
}
