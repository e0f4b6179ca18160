package webhook

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"syscall"
	"time"
)

// Target is a program that is told when a job changes.
type Target struct {
	Name    string // short, letters, digits and hyphens: it is the room of this door
	URL     string // https, or http where Private
	Keys    Keys   // sign what is sent: one, or two while a secret is changed over
	Private bool   // may stand on a private or loopback address: a program in the shop's own network
}

// check says what is wrong with a target's settings.
func (t Target) check() error {
	if t.Name == "" || len(t.Name) > 40 || strings.Trim(t.Name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") != "" {
		return fmt.Errorf("the target name %q must be 1 to 40 letters, digits and hyphens", t.Name)
	}
	u, err := url.Parse(t.URL)
	if err != nil || u.Host == "" || u.User != nil || u.Fragment != "" {
		return fmt.Errorf("target %s needs a whole address without a user or a fragment", t.Name)
	}
	if u.Scheme != "https" && !(u.Scheme == "http" && t.Private) {
		return fmt.Errorf("target %s must be https; http is taken only where private is set", t.Name)
	}
	if len(t.Keys) == 0 || len(t.Keys) > 2 {
		return fmt.Errorf("target %s needs one signing secret, or two while one is changed over", t.Name)
	}
	for _, k := range t.Keys {
		if len(k.key) == 0 {
			return fmt.Errorf("target %s has an empty signing secret", t.Name)
		}
	}
	return nil
}

// errPrivate says that a target's name led to an address that is not for it.
var errPrivate = errors.New("the target's address is private, and the target is not set to be")

// inner are addresses that netip's own questions do not name and that lead inward or nowhere. Source: IANA special-purpose address
// registries (RFC 6890 and its updates).
var inner = func() []netip.Prefix {
	var out []netip.Prefix
	for _, s := range []string{"0.0.0.0/8", "100.64.0.0/10", "192.0.0.0/24", "192.0.2.0/24", "192.88.99.0/24", "198.18.0.0/15", "198.51.100.0/24", "203.0.113.0/24", "240.0.0.0/4",
		"64:ff9b::/96", "64:ff9b:1::/48", "100::/64", "2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20", "5f00::/16", "fec0::/10"} {
		out = append(out, netip.MustParsePrefix(s))
	}
	return out
}()

// public reports whether an address is one of the open internet.
func public(a netip.Addr) bool {
	a = a.Unmap().WithZone("")
	if !a.IsGlobalUnicast() || a.IsPrivate() || a.IsLoopback() || a.IsLinkLocalUnicast() {
		return false
	}
	for _, p := range inner {
		if p.Contains(a) {
			return false
		}
	}
	return true
}

// guard looks at the address that is about to be dialled, after every look-up, so that a name that changes its answer between a check and
// the call (DNS rebinding) gains nothing.
func guard(_, address string, _ syscall.RawConn) error {
	ap, err := netip.ParseAddrPort(address)
	if err != nil || !public(ap.Addr()) {
		return errPrivate
	}
	return nil
}

// client is an HTTP client for one target. It follows no redirect and asks no proxy: either would get round the guard.
func (t Target) client() *http.Client {
	d := &net.Dialer{Timeout: 5 * time.Second, KeepAlive: 30 * time.Second}
	if !t.Private {
		d.Control = guard
	}
	return &http.Client{
		Transport: &http.Transport{DialContext: d.DialContext, Proxy: nil, ForceAttemptHTTP2: true, TLSHandshakeTimeout: 5 * time.Second,
			MaxIdleConnsPerHost: 2, MaxConnsPerHost: 8, IdleConnTimeout: time.Minute, MaxResponseHeaderBytes: 64 << 10},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
}
