package main

import (
	"net"
	"net/netip"
	"slices"
	"strings"
)

// ownIPs are the addresses of this computer in its networks, this computer's own address last.
func ownIPs() []netip.Addr {
	var out []netip.Addr
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range addresses {
		if prefix, err := netip.ParsePrefix(a.String()); err == nil && !prefix.Addr().IsLoopback() && !prefix.Addr().IsLinkLocalUnicast() {
			out = append(out, prefix.Addr())
		}
	}
	return append(out, netip.AddrFrom4([4]byte{127, 0, 0, 1}))
}

// ownAddress tells whether an address is one of this computer's, one that it gave itself for want of a network (169.254.…) too.
func ownAddress(ip netip.Addr) bool {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return false
	}
	return ip.IsLoopback() || slices.ContainsFunc(addresses, func(a net.Addr) bool {
		prefix, err := netip.ParsePrefix(a.String())
		return err == nil && prefix.Addr().WithZone("") == ip.WithZone("").Unmap()
	})
}

// ownAddresses lists the addresses of this computer in words.
func ownAddresses() string {
	var words []string
	for _, ip := range ownIPs() {
		words = append(words, ip.String())
	}
	return strings.Join(words, ", ")
}

// reachable are the addresses under which a listener can be asked.
func reachable(ip netip.Addr) []netip.Addr {
	if !ip.IsUnspecified() {
		return []netip.Addr{ip}
	}
	var out []netip.Addr
	for _, own := range ownIPs() {
		if ip.Is6() || own.Is4() {
			out = append(out, own)
		}
	}
	return out
}
