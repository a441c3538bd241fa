package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"

	"fullfree/linkage"
)

// anyPort is where the page is served unless told: on this machine alone, at a
// port that is free.
const anyPort = "127.0.0.1:0"

func serveCommand() *command {
	return &command{
		name:  "serve",
		usage: "FILE [--open] [--listen HOST:PORT]",
		does:  "a page to try settings on, before a wrench is turned",
		more: `
Serves a page on this machine, and prints its address: the run with a slider for
each control, every threaded end of a rod or conduit with buttons to turn it in
and out, every stop with adjust = [low, high], and beside what is tried, what is
filed. The verdict follows at once. "Save" writes the setting into FILE as
rig --write does: lengths, cores, thread and stops, its comments kept; "revert"
drops it. Nuts of a pair of cables can be tried, but not saved: of them the file
tells the pretension, which is measured. A file that is edited meanwhile shows
up on the page. Of an aircraft there is a slider for each hand and a picture a
run, and what is saved goes into the file of the run that it stands in.

Only this machine reaches the page, unless --listen names another address, and
only who has the whole address, with what stands behind its #, can try, and
save; nobody else gets anything from it. Nothing but FILE, and the runs that an
aircraft names, is ever read or written. It runs until it is interrupted
(Ctrl-C).

Exit status: 0; 2 where the file is faulty, or nothing can be served there.

Examples:
  fullfree serve pedals-unequal.hcl
  fullfree serve pedals-unequal.hcl --open
  fullfree serve pedals-unequal.hcl --listen 127.0.0.1:8080
`,
		run: serve,
	}
}

func serve(c *command, std streams, args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return serveUntil(ctx, c, std, args)
}

// serveUntil serves the page until ctx is done.
func serveUntil(ctx context.Context, c *command, std streams, args []string) int {
	flags := newFlags(c)
	show := flags.Bool("open", false, "open the page in the browser")
	listen := flags.String("listen", anyPort, "the `HOST:PORT` to serve at; port 0 is one that is free")
	rest, goOn, status := parse(c, std, flags, args)
	if !goOn {
		return status
	}
	name, err := oneFile(rest)
	switch {
	case err != nil:
		return std.fail(c, "%s", err)
	case name == "-":
		return std.fail(c, "a file is needed: standard input can't be watched, nor be saved into")
	}
	if _, _, err := net.SplitHostPort(*listen); err != nil {
		return std.fail(c, "--listen %s: HOST:PORT is wanted, such as 127.0.0.1:8080", linkage.Printable(*listen))
	}
	b, err := newWorkbench(std, name)
	if err != nil {
		return std.problem(c, err)
	}
	listener, err := net.Listen("tcp", *listen)
	if err != nil {
		return std.fail(c, "can't serve at %s: %s", linkage.Printable(*listen), listenFault(err))
	}
	at := addressOf(*listen, listener.Addr())
	if !at.local {
		std.message("fullfree %s: CAREFUL: this is not for this machine alone. Who reaches %s and has the\naddress below, or listens to the network, can try settings, and save them into %s.\n", c.name, at.where, linkage.Printable(name))
	}
	address := at.url(b.token)
	if status := std.print(c, []byte(address+"\n"), exitOK); status != exitOK {
		listener.Close()
		return status
	}
	std.message("fullfree %s: open that address, all of it, in a browser on this machine; Ctrl-C ends it\n", c.name)
	if *show {
		done, err := openPage(address, func(err error) { std.tellUnopened(c, err) })
		if err != nil {
			std.tellUnopened(c, err)
		}
		b.opened = done
		defer done()
	}
	if err := serveOn(ctx, listener, guard(b.handler(), at.hosts, b.tellPanic)); err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	return exitOK
}

func (s streams) tellUnopened(c *command, err error) {
	s.message("fullfree %s: the browser could not be opened: %s\n", c.name, linkage.Printable(err.Error()))
}

// listenFault is why an address can't be listened on, without the address.
func listenFault(err error) string {
	var op *net.OpError
	if errors.As(err, &op) && op.Err != nil {
		err = op.Err
	}
	return linkage.Printable(err.Error())
}

const (
	// A request is small and comes from this machine; who takes longer to send
	// one isn't the page.
	readHeaderTimeout = 5 * time.Second
	readTimeout       = 15 * time.Second
	idleTimeout       = 60 * time.Second
	// writeTimeout leaves the time to judge a large run in.
	writeTimeout   = 2 * time.Minute
	mostHeaderSize = 16 << 10
	// graceTime is how long an answer that is under way may still take at the end.
	graceTime = 2 * time.Second
)

// serveOn serves until ctx is done. What is under way then is answered.
func serveOn(ctx context.Context, listener net.Listener, handler http.Handler) error {
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: readHeaderTimeout, ReadTimeout: readTimeout, WriteTimeout: writeTimeout, IdleTimeout: idleTimeout,
		MaxHeaderBytes: mostHeaderSize,
		ErrorLog:       log.New(io.Discard, "", 0), // what a stranger sends is no message for the user
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), graceTime)
	defer cancel()
	if server.Shutdown(last) != nil {
		return server.Close()
	}
	return nil
}

// served is an address that is served.
type served struct {
	// hosts are what a request may call it, with the port; the first is the one
	// that is told.
	hosts []string
	local bool   // only this machine reaches it
	where string // what is listened on, in words
}

// url is the address of the page with its token, behind a mark that no browser sends
// along.
func (s served) url(token string) string { return "http://" + s.hosts[0] + "/#" + token }

// addressOf tells how an address that was asked for may be called, now that it
// is listened on.
func addressOf(asked string, at net.Addr) served {
	tcp, ok := at.(*net.TCPAddr)
	if !ok {
		return served{hosts: []string{at.String()}, where: at.String()}
	}
	port := fmt.Sprint(tcp.Port)
	var s served
	add := func(host string) {
		if named := net.JoinHostPort(strings.ToLower(host), port); !slices.Contains(s.hosts, named) {
			s.hosts = append(s.hosts, named)
		}
	}
	s.local, s.where = tcp.IP.IsLoopback(), tcp.String()
	switch {
	case s.local:
		add(tcp.IP.String())
		add("localhost")
	case tcp.IP.IsUnspecified():
		s.where = "port " + port + " of this machine"
		for _, ip := range ownAddresses() {
			add(ip)
		}
		add("localhost")
	default:
		add(tcp.IP.String())
	}
	if host, _, err := net.SplitHostPort(asked); err == nil && host != "" && net.ParseIP(host) == nil {
		add(host)
	}
	if port == "80" { // then a browser leaves it out
		for _, host := range slices.Clone(s.hosts) {
			s.hosts = append(s.hosts, strings.TrimSuffix(host, ":80"))
		}
	}
	return s
}

// ownAddresses lists the addresses of this machine, its own to itself first.
func ownAddresses() []string {
	list := []string{"127.0.0.1"}
	all, err := net.InterfaceAddrs()
	if err != nil {
		return list
	}
	for _, a := range all {
		if in, ok := a.(*net.IPNet); ok {
			list = append(list, in.IP.String())
		}
	}
	return list
}
