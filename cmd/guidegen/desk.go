package main

// guidegen desk: the site on this machine, kept fresh while the guide is edited.

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"guidegen/build/desk"
	"guidegen/content/calendar"
)

// deskPort is asked for first, so that a bookmark works from day to day; where
// it is taken the system gives another.
const deskPort = "8417"

func (c *command) desk() *cobra.Command {
	var s shared
	cmd := &cobra.Command{
		Use:   "desk [GUIDE]",
		Short: "show the site on this machine while the guide is edited",
		Long: `Shows the site of the guide in the folder GUIDE at an address of this machine and
loads open pages again as files change, then checks every page. With errors in the
guide it shows them, and keeps the last good site. Nothing is written into the guide or beside it.
Ctrl-C ends it.`,
		Args: most(0, "GUIDE"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := c.options(&s, first(args))
			if err != nil {
				return err
			}
			defer o.Source.Close()
			ctx, stop := signal.NotifyContext(context.Background(), ends...)
			defer stop()
			date := today
			if s.date != "" {
				date = func() calendar.Date { return o.Date }
			}
			return c.serve(ctx, desk.Options{Source: o.Source, Edition: o.Edition, Date: date, Preview: o.Preview})
		},
	}
	s.flags(cmd, "guide", "edition", "date")
	return cmd
}

// ends are the signals that end a command cleanly.
var ends = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}

// serve shows a guide until the context ends.
func (c *command) serve(ctx context.Context, o desk.Options) error {
	o.Told = func(s desk.State) {
		if !s.Sound {
			fmt.Fprint(c.err, s.Text)
		}
		fmt.Fprintln(c.out, s.Summary)
	}
	d, err := desk.New(o)
	if err != nil {
		return err
	}
	defer d.Close()
	listener, err := listen()
	if err != nil {
		return err
	}
	defer listener.Close()
	fmt.Fprintf(c.out, "read %s\n", o.Source)
	d.Refresh()
	fmt.Fprintf(c.out, "open http://%s/ (Ctrl-C ends)\n", listener.Addr())

	server := &http.Server{Handler: d.Handler(), ReadHeaderTimeout: 10 * time.Second,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	failed := make(chan error, 2)
	go func() { failed <- server.Serve(listener) }()
	go func() { failed <- d.Watch(ctx) }()
	select {
	case <-ctx.Done():
		err = nil
	case err = <-failed:
	}
	if e := server.Close(); err == nil {
		err = e
	}
	if errors.Is(err, http.ErrServerClosed) || errors.Is(err, net.ErrClosed) {
		err = nil
	}
	return err
}

func listen() (net.Listener, error) {
	if l, err := net.Listen("tcp", "127.0.0.1:"+deskPort); err == nil {
		return l, nil
	}
	return net.Listen("tcp", "127.0.0.1:0")
}
