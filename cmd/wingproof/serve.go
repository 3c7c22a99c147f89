package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/live"
)

// servePort is where serve listens when nothing else is said: a free number of our own choosing.
const servePort = 26417

type serveOptions struct {
	folderOptions
	port   int
	listen string
}

func newServeCommand(s streams) *cobra.Command {
	var o serveOptions
	c := &cobra.Command{
		Use:   "serve",
		Short: "the report as a page in the browser that renews itself while the folder changes; read-only",
		Long: `serve hands out the report from memory and prints the address to open. Whenever a file of the program folder changes (a table saved in
the spreadsheet, a new log, program.toml) it works the report out anew, and every page that is open renews itself and keeps its reader's
place. The page comes first, the forecast of what to do next follows some seconds later. While the folder has a mistake the last good page
stays, headed by every mistake with its place. Ctrl-C ends it.

It changes nothing: it writes no file of the folder but the cache, and the pages in report/ on the disk stay as 'wingproof report'
wrote them. It answers only this computer. With --listen ADDRESS, an address of this computer in the shop's network (or 0.0.0.0 for all
of them), everybody in that network can read the report without a password, names and decisions included.`,
		Example: "  wingproof serve\n  wingproof serve --program ../sandreed --port 0",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runServe(c.Context(), s, o) },
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().IntVar(&o.port, "port", servePort, "number of the port to listen on; 0 takes any free one")
	c.Flags().StringVar(&o.listen, "listen", "127.0.0.1", "address of this computer to listen on; anything but the default lets others read")
	return c
}

// serveDocument is the line that serve --json prints.
type serveDocument struct {
	Address   string   `json:"address"`
	Addresses []string `json:"addresses"` // all, where it listens on several
	Network   bool     `json:"network"`   // other computers can read it
	Folder    string   `json:"folder"`
}

func runServe(ctx context.Context, s streams, o serveOptions) error {
	if err := o.checkDate(); err != nil {
		return err
	}
	at, err := o.address()
	if err != nil {
		return err
	}
	dir, err := o.folder()
	if err != nil {
		return err
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return fmt.Errorf("find the program folder: %w", err)
	}
	listener, err := net.Listen("tcp", at.String())
	if err != nil {
		return cannotListen(at, err)
	}
	if err := tellAddress(s, o, listener.Addr(), dir); err != nil {
		_ = listener.Close()
		return err
	}
	return live.Serve(ctx, live.Options{Dir: dir, Name: filepath.Base(dir), Listener: listener, Build: o.builder(dir), Pause: 1500 * time.Millisecond, Tell: func(line string) { fmt.Fprintln(s.Err, line) }})
}

// address is what --listen and --port say together.
func (o serveOptions) address() (netip.AddrPort, error) {
	if o.port < 0 || o.port > 65535 {
		return netip.AddrPort{}, usagef("--port: %d is no port; write a whole number from 1 to 65535, or 0 for any free one", o.port)
	}
	ip, err := netip.ParseAddr(o.listen)
	if err != nil {
		return netip.AddrPort{}, usagef("--listen: %q is no address; write one of this computer in the shop's network without a port, such as 192.168.1.20, or 0.0.0.0 for all of them; the port goes to --port", o.listen)
	}
	if ip.Is6() && ip.IsLinkLocalUnicast() {
		return netip.AddrPort{}, usagef("--listen: %s counts on one line of this computer only, and browsers do not open it; write another of its addresses: %s", ip, ownAddresses())
	}
	return netip.AddrPortFrom(ip, uint16(o.port)), nil
}

func cannotListen(at netip.AddrPort, err error) error {
	if at.Addr().IsLoopback() || at.Addr().IsUnspecified() || ownAddress(at.Addr()) {
		return fmt.Errorf("serve: port %d of %s is taken, perhaps by another wingproof serve, or this computer does not allow it; take another with --port, or any free one with --port 0 (%w)", at.Port(), at.Addr(), reasonOf(err))
	}
	return usagef("--listen: this computer has no address %s; it has %s", at.Addr(), ownAddresses())
}

// reasonOf is what the system said, without the calls and the path that led there.
func reasonOf(err error) error {
	var call *os.SyscallError
	if errors.As(err, &call) {
		return call.Err
	}
	var place *fs.PathError
	if errors.As(err, &place) {
		return place.Err
	}
	return err
}

// tellAddress prints the address to open and, where others can open it too, what that means.
func tellAddress(s streams, o serveOptions, at net.Addr, dir string) error {
	local, err := netip.ParseAddrPort(at.String())
	if err != nil {
		return fmt.Errorf("serve: read the own address: %w", err)
	}
	doc := serveDocument{Network: !local.Addr().IsLoopback(), Folder: dir}
	for _, ip := range reachable(local.Addr()) {
		doc.Addresses = append(doc.Addresses, "http://"+net.JoinHostPort(ip.String(), strconv.Itoa(int(local.Port())))+"/")
	}
	doc.Address = doc.Addresses[0]
	if doc.Network {
		fmt.Fprintf(s.Err, `warning: everybody who reaches this computer over the network can now read, without a password: the board with the names of who is responsible, the
hours and the dates; the decisions with who took them and why; every flight, figure and number of %s; and the mistakes in its files.
The lines are not encrypted. Nobody can change anything. End it with Ctrl-C; without --listen only this computer can read.
`, filepath.Base(dir))
	}
	if o.json {
		return json.NewEncoder(s.Out).Encode(doc)
	}
	for _, address := range doc.Addresses {
		fmt.Fprintln(s.Out, address)
	}
	fmt.Fprintln(s.Err, "open it in a browser; the page renews itself when the folder changes, and Ctrl-C ends it")
	return nil
}
