package live

import (
	"net"
	"sync"
	"time"
)

// What one server carries. A shop has a dozen screens; a browser opens six connections to a server, one of them a stream for each
// page that is looked at.
const (
	mostConnections      = 512
	mostConnectionsEach  = 128 // from one other computer
	mostStreams          = 128
	mostStreamsEach      = 24 // to one computer
	headerTime           = 5 * time.Second
	requestTime          = 10 * time.Second
	answerTime           = 60 * time.Second // a page over a slow network
	idleTime             = 60 * time.Second
	streamTime           = 10 * time.Second // one event to one client
	beatTime             = 5 * time.Second
	restTime             = 100 * time.Millisecond // between two events of one stream
	mostHeaderBytes      = 16 << 10
	mostBytesOfPageNames = 512
)

// counted admits up to a number of clients in all and of each address.
type counted struct {
	mu   sync.Mutex
	all  int
	of   map[string]int
	most int
	each int // 0: no limit
}

func newCounted(most, each int) *counted {
	return &counted{of: map[string]int{}, most: most, each: each}
}

// enter admits a client of an address, or not. Who was admitted must leave.
func (c *counted) enter(address string) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.all >= c.most || c.each > 0 && c.of[address] >= c.each {
		return false
	}
	c.all++
	c.of[address]++
	return true
}

func (c *counted) leave(address string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.all--
	if c.of[address]--; c.of[address] == 0 {
		delete(c.of, address)
	}
}

// limited is a listener that closes at once what goes beyond its count: who is already there is not held up.
type limited struct {
	net.Listener
	count *counted
}

// Accept returns the next connection that is within the count.
func (l limited) Accept() (net.Conn, error) {
	for {
		c, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		address := hostOf(c.RemoteAddr().String())
		if l.count.enter(address) {
			return &leaving{Conn: c, leave: sync.OnceFunc(func() { l.count.leave(address) })}, nil
		}
		_ = c.Close() // too many
	}
}

// leaving is a connection that says when it is closed.
type leaving struct {
	net.Conn
	leave func()
}

// Close closes the connection and gives its place back.
func (c *leaving) Close() error {
	defer c.leave()
	return c.Conn.Close()
}

// hostOf is an address without its port.
func hostOf(address string) string {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return address
	}
	return host
}
