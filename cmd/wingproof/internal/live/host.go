package live

import (
	"net"
	"net/netip"
	"os"
	"strings"
)

// hosts are the names under which a server may be asked for. A page of somebody else's that has its own name point to this computer
// is refused: it asks under that name.
type hosts struct {
	port  string
	names map[string]bool // lower case, without port
	any   bool            // every address of this computer is listened on: any of them may be asked for
}

// hostsOf are the names of what is listened on: the address, and for an address of this computer alone its usual name.
func hostsOf(address net.Addr) hosts {
	host, port, err := net.SplitHostPort(address.String())
	h := hosts{port: port, names: map[string]bool{}}
	if err != nil {
		return h
	}
	ip, err := netip.ParseAddr(host)
	if err != nil {
		return h
	}
	h.names[ip.WithZone("").String()] = true
	if ip.IsLoopback() || ip.IsUnspecified() {
		h.names["localhost"] = true
	}
	if ip.IsLoopback() {
		return h
	}
	h.any = ip.IsUnspecified()
	if name, err := os.Hostname(); err == nil && name != "" {
		short, _, _ := strings.Cut(strings.ToLower(name), ".")
		h.names[short], h.names[short+".local"] = true, true
	}
	return h
}

// allows tells whether a request may ask for this host. local is the address on this computer that it came in by.
func (h hosts) allows(host string, local net.Addr) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil { // the port is left out where it is that of the web
		name, port = strings.Trim(host, "[]"), "80"
	}
	if port != h.port {
		return false
	}
	ip, err := netip.ParseAddr(name)
	if err != nil {
		return h.names[strings.ToLower(name)]
	}
	return h.names[ip.String()] || h.any && local != nil && hostOf(local.String()) == ip.String()
}
