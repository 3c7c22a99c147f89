package main

import (
	"net"
	"net/netip"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every address that the system gives this computer is its own, of whatever kind, and one kept for papers is not.
func TestOwnAddress(t *testing.T) {
	addresses, err := net.InterfaceAddrs()
	require.NoError(t, err)
	for _, a := range addresses {
		prefix, err := netip.ParsePrefix(a.String())
		require.NoError(t, err)
		require.True(t, ownAddress(prefix.Addr()), a)
	}
	require.True(t, ownAddress(netip.MustParseAddr("127.0.0.1")))
	require.False(t, ownAddress(netip.MustParseAddr("203.0.113.9"))) // RFC 5737: documentation only
}
