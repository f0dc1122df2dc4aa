package gate

import (
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// clientOf is the address that a request comes from. A proxy in front is believed when it was named: what it says then is
// read from its end, as whatever stands further ahead may be forged.
func (g *Gate) clientOf(r *http.Request) netip.Addr {
	at := remote(r)
	said := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
	for i := len(said) - 1; i >= 0 && g.trusted(at); i-- {
		next, err := netip.ParseAddr(strings.TrimSpace(said[i]))
		if err != nil {
			break
		}
		at = next.Unmap().WithZone("")
	}
	return at
}

// direct says whether a request comes from this very machine, with no proxy in between.
func direct(r *http.Request) bool {
	return remote(r).IsLoopback() && r.Header.Get("X-Forwarded-For") == "" && r.Header.Get("Forwarded") == ""
}

func remote(r *http.Request) netip.Addr {
	at, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	return at.Addr().Unmap().WithZone("")
}

func (g *Gate) trusted(at netip.Addr) bool {
	return slices.ContainsFunc(g.proxies, func(p netip.Prefix) bool { return p.Contains(at) })
}
