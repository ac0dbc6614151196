package main

// guidegen proof: everything that publish does but the writing, and every
// problem printed.

import (
	"fmt"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/content/problems"
)

func (c *command) proof() *cobra.Command {
	var s shared
	var why string
	cmd := &cobra.Command{
		Use:   "proof [GUIDE]",
		Short: "check a guide and print every problem",
		Long: `Checks the guide in the folder GUIDE, for both editions unless one is named, and
prints every problem with its place. An error keeps the guide from being
published; a warning can be acknowledged in acknowledged.yaml; a note informs.

Without GUIDE: the guide in this folder, or else the demo.`,
		Example: `  guidegen proof our-guide
  guidegen proof --why unknown-fly`,
		Args: most(0, "GUIDE"),
		RunE: func(_ *cobra.Command, args []string) error {
			switch id := first(args); {
			case why == everyProblem && id != "":
				return c.why(id)
			case why == everyProblem:
				return c.whyList()
			case why != "":
				return c.why(why)
			}
			o, err := c.options(&s, first(args))
			if err != nil {
				return err
			}
			defer o.Source.Close()
			r, err := build.Proof(o)
			if err != nil {
				return err
			}
			if s.format == "json" {
				err = printJSON(c.out, asJSON(r))
			} else {
				c.proved(r)
			}
			if err == nil && !r.Sound() {
				err = errFaulty
			}
			return err
		},
	}
	s.flags(cmd, "guide", "edition", "date", "format")
	cmd.Flags().StringVar(&why, "why", "", "explain the problem of this `id`; without one, list them all")
	cmd.Flags().Lookup("why").NoOptDefVal = everyProblem
	must(cmd.RegisterFlagCompletionFunc("why", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return problems.IDs(), cobra.ShellCompDirectiveNoFileComp
	}))
	return cmd
}

func (c *command) proved(r *build.Report) {
	fmt.Fprintf(c.out, "read %s\n", r.Guide())
	printProblems(c.out, r, false)
	if r.Sound() {
		fmt.Fprintf(c.out, "%s; %s of %s can be published\n", counts(r), several(r.Pages, "page"), of(r.Edition))
		return
	}
	fmt.Fprintf(c.out, "%s\n", counts(r))
}
