package main

// The way in and out of every command: exit statuses, and how an error is told.

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"
	_ "time/tzdata" // not every machine has the zones

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/build/site"
	"guidegen/content"
	"guidegen/content/calendar"
)

// The exit statuses.
const (
	fine   = 0
	faulty = 1   // the guide has errors; nothing was written
	misuse = 2   // what was asked for can't be done; nothing was written
	ended  = 130 // by Ctrl-C or another signal; nothing was written
	broken = 3   // our own failure: disk, permission, a fault of the program
)

// errFaulty ends a command whose guide has errors; they have been printed.
var errFaulty = errors.New("the guide has errors")

// command is what every command needs of its surroundings.
type command struct {
	in       io.Reader
	out, err io.Writer
	here     string // the folder a guide is looked for in
}

// run carries out one command line and returns the exit status.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (status int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(stderr, "guidegen: a fault of the program, not of the guide: %v\n", r)
			status = broken
		}
	}()
	c := &command{stdin, stdout, stderr, "."}
	root := c.root()
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := unknownCommand(root, args)
	if err == nil {
		err = root.Execute()
	}
	return c.tell(err)
}

// tell prints an error in one line where it can and gives its exit status.
func (c *command) tell(err error) int {
	var wrong *build.Misuse
	var refused *site.Refusal
	switch {
	case err == nil:
		return fine
	case errors.Is(err, errFaulty):
		return faulty
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(c.err, "guidegen: stopped; nothing was written")
		return ended
	case errors.As(err, &wrong), errors.As(err, &refused):
		fmt.Fprintf(c.err, "guidegen: %v\n", err)
		return misuse
	}
	fmt.Fprintf(c.err, "guidegen: %v\n", err)
	return broken
}

// unknownCommand looks at the first word alone, so that a mistyped command is
// named as such whatever follows it.
func unknownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") || strings.HasPrefix(args[0], "__") {
		return nil
	}
	known := []string{"help"}
	for _, sub := range root.Commands() {
		known = append(known, sub.Name())
	}
	for _, k := range append(known, "completion") {
		if args[0] == k {
			return nil
		}
	}
	return build.Misused("there is no command %q%s\nthe commands are: %s", args[0],
		content.DidYouMean(args[0], known[1:]), strings.Join(known[1:], ", "))
}

// today is the only clock in the program.
func today() calendar.Date { return calendar.DateOf(time.Now()) }

// parseDate reads the value of a date flag; an empty one is today.
func parseDate(flag, s string) (calendar.Date, error) {
	if s == "" {
		return today(), nil
	}
	d, err := calendar.ParseDate(s)
	if err != nil {
		return d, build.Misused("--%s: %s", flag, dateFault(s, err))
	}
	return d, nil
}

func dateFault(s string, err error) string {
	if e, ok := errors.AsType[*calendar.Error](err); ok {
		t := fmt.Sprintf("%q %s", s, e.Reason)
		if e.Want != "" {
			t += "; " + e.Want
		}
		return t
	}
	return err.Error()
}

// onDisk reports a source that a command can write into.
func onDisk(s *build.Source) error {
	if s.Dir == "" {
		return build.Misused("the demo guide can't be written to; start a guide of your own with: guidegen blank guide, or name one with --guide")
	}
	if _, err := os.Stat(s.Dir); err != nil {
		return err
	}
	return nil
}
