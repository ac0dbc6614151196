package main

// guidegen publish: checks the guide, then writes the site.

import (
	"fmt"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/content"
)

func (c *command) publish() *cobra.Command {
	var s shared
	var out string
	cmd := &cobra.Command{
		Use:   "publish [GUIDE]",
		Short: "check a guide and write its site",
		Long: `Checks the guide in the folder GUIDE and writes its site. With an error in the
guide nothing is written, and a site written before stays as it was.

Without GUIDE: the guide in this folder, or else the demo.`,
		Example: `  guidegen publish
  guidegen publish our-guide --out /media/stick/guide
  guidegen publish our-guide --edition members --date 2026-05-03`,
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
			r, err := build.Publish(o)
			if err != nil {
				return err
			}
			if s.format == "json" {
				err = printJSON(c.out, asJSON(r))
			} else {
				c.published(r)
			}
			if err == nil && !r.Sound() {
				err = errFaulty
			}
			return err
		},
	}
	s.flags(cmd, "guide", "edition", "date", "format")
	cmd.Flags().StringVar(&out, "out", "", "the `folder` to write; published, or published-members, if not given")
	must(cmd.MarkFlagDirname("out"))
	return cmd
}

func (c *command) published(r *build.Report) {
	fmt.Fprintf(c.out, "read %s\n", r.Source)
	if !r.Sound() {
		var errs []content.Problem
		for _, p := range r.Problems {
			if p.Grade == content.Error {
				errs = append(errs, p)
			}
		}
		printProblems(c.err, r, errs)
		fmt.Fprintf(c.err, "%s; nothing was written\n", counts(r))
		return
	}
	fmt.Fprintf(c.out, "wrote %s: %s, %s; %s, %s\n", r.Out, several(r.Pages, "page"), several(r.Files, "file"), of(r.Edition), r.Date)
	if r.Count(content.Warning)+r.Count(content.Note) > 0 {
		fmt.Fprintf(c.out, "%s; guidegen proof shows them\n", counts(r))
	}
}
