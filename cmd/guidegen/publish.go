package main

// guidegen publish: checks the guide, then writes the site.

import (
	"context"
	"fmt"
	"os/signal"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/content"
)

func (c *command) publish() *cobra.Command {
	var s shared
	var out string
	var booklet bool
	cmd := &cobra.Command{
		Use:   "publish [GUIDE]",
		Short: "check a guide and write its site",
		Long: `Checks the guide in the folder GUIDE and writes its site. With an error in the
guide nothing is written, and a site written before stays as it was.

Without --out the site goes into published/, or published-members/, in this folder.
The guide's own folder may hold these two, which are never read as part of it; no
other place inside a guide is written to, and no edition replaces the other.

With --booklet the pocket cards (A4) and booklets (A5, in multiples of four pages)
are printed as PDF too, where a Chromium, Chrome or Edge is on this machine. Where
none is, or it fails, the site is written all the same, a warning says what to do,
and the exit status stays 0: the pages print from any browser.

Without GUIDE: the guide in this folder, or else the demo.`,
		Example: `  guidegen publish
  guidegen publish our-guide --out /media/stick/guide
  guidegen publish our-guide --edition members --date 2026-05-03
  guidegen publish our-guide --booklet`,
		Args: most(0, "GUIDE"),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := c.options(&s, first(args))
			if err != nil {
				return err
			}
			defer o.Source.Close()
			if o.Edition == build.AnyEdition {
				o.Edition = build.Public
			}
			if o.Out = out; out == "" {
				o.Out = o.Edition.Out()
			}
			o.Print = booklet
			var stop func()
			o.Stop, stop = signal.NotifyContext(context.Background(), ends...)
			defer stop()
			r, err := build.Publish(o)
			if err != nil {
				return err
			}
			if s.format == "json" {
				err = printJSON(c.out, asJSON(r))
			} else {
				c.published(r)
			}
			c.notPrinted(r)
			if err == nil && !r.Sound() {
				err = errFaulty
			}
			return err
		},
	}
	s.flags(cmd, "guide", "edition", "date", "format")
	cmd.Flags().BoolVar(&booklet, "booklet", false, "print cards and booklets as PDF too, into print/")
	cmd.Flags().StringVar(&out, "out", "", "the `folder` to write; published, or published-members, if not given")
	must(cmd.MarkFlagDirname("out"))
	return cmd
}

func (c *command) published(r *build.Report) {
	fmt.Fprintf(c.out, "read %s\n", r.Guide())
	if !r.Sound() {
		printProblems(c.err, r, true)
		fmt.Fprintf(c.err, "%s; nothing was written\n", counts(r))
		return
	}
	fmt.Fprintf(c.out, "wrote %s: %s, %s; %s, %s\n", r.Out, several(r.Pages, "page"), several(r.Files, "file"), of(r.Edition), r.Date)
	if r.Anew {
		fmt.Fprintf(c.out, "since the last time: %s changed, %s gone; an upload moves %s\n", several(r.Changed, "file"), several(r.Gone, "file"), byteText(r.ToMove))
	}
	c.news(r)
	if r.PDFs > 0 {
		fmt.Fprintf(c.out, "printed %s into print/\n", several(r.PDFs, "PDF"))
	}
	if n := r.Count(content.Warning) + r.Count(content.Note); n > 0 {
		fmt.Fprintf(c.out, "%s; guidegen proof shows %s\n", counts(r), map[bool]string{true: "it", false: "them"}[n == 1])
	}
}

// mostNews is how many pages' changes are printed.
const mostNews = 8

// news says what a reader would call changed, a line a page: the rest is on the page of changes.
func (c *command) news(r *build.Report) {
	for i, n := range r.News {
		if i == mostNews {
			fmt.Fprintf(c.out, "  and %s more\n", several(len(r.News)-i, "page"))
			break
		}
		line := n.Title
		if len(n.Lines) > 0 {
			line += ": " + n.Lines[0]
		}
		if len(n.Lines) > 1 {
			line += " …"
		}
		fmt.Fprintln(c.out, "  "+forTerminal.Replace(line))
	}
	if len(r.News) > 0 {
		fmt.Fprintln(c.out, "  all of it: changes.html")
	}
}

// byteText is a number of bytes as a person reads it, in thousands (SI).
func byteText(n int64) string {
	switch {
	case n >= 1e6:
		return content.Decimal(float64(n)/1e6, 1) + " MB"
	case n >= 1e3:
		return content.Decimal(float64(n)/1e3, 0) + " kB"
	}
	return several(int(n), "byte")
}

// notPrinted warns where PDFs that were asked for are missing, and says what to do.
func (c *command) notPrinted(r *build.Report) {
	if r.NotPrinted == "" {
		return
	}
	fmt.Fprintf(c.err, "warning: not all cards and booklets were printed: %s\n", r.NotPrinted)
	fmt.Fprintf(c.err, "install Chromium and publish again, or print booklet.html and the pages in booklet/ and card/ from any browser\n")
}
