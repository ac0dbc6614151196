package main

// guidegen tell: what is on around a date on one water, and what to tie for a
// trip, from the same figures as the pages.

import (
	"fmt"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
)

func (c *command) tellCommand() *cobra.Command {
	var s shared
	var on, from, to string
	var tie bool
	var few int
	cmd := &cobra.Command{
		Use:   "tell RIVER",
		Short: "print what is on around a date",
		Long: `Prints what is on around a date on RIVER: each fly with its chance, what that
is based on, hours, sizes and dressings. With --tying: what to tie for a trip.`,
		Example: `  guidegen tell "Lorrow Brook" --on 2026-05-10
  guidegen tell "Lorrow Brook" --from 2026-05-10 --to 2026-05-16 --tying`,
		Args:              most(1, "RIVER"),
		ValidArgsFunction: c.completeWaters(&s),
		RunE: func(_ *cobra.Command, args []string) error {
			if tie != (from != "" || to != "") || (from == "") != (to == "") {
				return build.Misused("a tying list takes --tying with both --from and --to")
			}
			if few < 0 || few > 0 && !tie {
				return build.Misused("--few is a number of dressings, with --tying")
			}
			if tie && on != "" {
				return build.Misused("--on is for one date; --tying takes --from and --to")
			}
			book, r, err := c.book(&s, "")
			if err != nil {
				return err
			}
			w, err := water(book, args[0])
			if err != nil {
				return err
			}
			said, err := view.NewTeller(book)
			if err != nil {
				return err
			}
			tell := teller{said}
			if tie {
				a, b, err := days(from, to)
				if err != nil {
					return err
				}
				if b.Sub(a) >= calendar.Year {
					return build.Misused("a trip of %d days is longer than a year", b.Sub(a)+1)
				}
				t := book.Trip(w, a.OfYear(), b.OfYear())
				if few > 0 {
					t = book.FewTrip(w, a.OfYear(), b.OfYear(), few)
				}
				return c.tellTrip(r, s.format, tell, t, a, b)
			}
			d := r.Date
			if on != "" {
				if d, err = parseDate("on", on); err != nil {
					return err
				}
			}
			told := tell.around(w, d)
			if s.format == "json" {
				told.Guide = chosen(r)
				told.Edition = book.Edition.Name()
				return printJSON(c.out, told)
			}
			fmt.Fprintf(c.out, "read %s\n\n", r.Guide())
			told.print(c.out, tell)
			return nil
		},
	}
	s.flags(cmd, "guide", "edition", "date", "format")
	f := cmd.Flags()
	f.StringVar(&on, "on", "", "the `day`, as 2026-05-03; today if not given")
	f.StringVar(&from, "from", "", "first `day` of a trip")
	f.StringVar(&to, "to", "", "last `day` of a trip")
	f.IntVar(&few, "few", 0, "with --tying: a short box of this `number` of dressings")
	f.BoolVar(&tie, "tying", false, "list what to tie for the trip")
	return cmd
}

// book reckons the guide for a command that prints figures. Its errors are printed.
func (c *command) book(s *shared, arg string) (*figures.Book, *build.Report, error) {
	o, err := c.options(s, arg)
	if err != nil {
		return nil, nil, err
	}
	defer o.Source.Close()
	if o.Edition == build.AnyEdition {
		o.Edition = build.Public
	}
	book, r, err := build.Reckon(o)
	if err == nil && !r.Sound() {
		printProblems(c.err, r, true)
		fmt.Fprintln(c.err, counts(r))
		err = errFaulty
	}
	return book, r, err
}

// water finds a water of the book by any of its names.
func water(b *figures.Book, name string) (*figures.Water, error) {
	var l []*rivers.Water
	for _, w := range b.Waters {
		l = append(l, w.Water)
	}
	i, err := waterNamed(l, name)
	if err != nil {
		return nil, err
	}
	return b.Waters[i], nil
}

// completeWaters offers the guide's waters to the shell.
func (c *command) completeWaters(s *shared) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		var l []string
		if src, err := build.Find(s.guide, c.here); err == nil && len(args) == 0 {
			defer src.Close()
			if g, err := build.Read(src, calendar.Date{}, &content.Problems{}); err == nil {
				for _, w := range g.Waters {
					l = append(l, w.Name.S)
				}
			}
		}
		return l, cobra.ShellCompDirectiveNoFileComp
	}
}
