package main

// The commands and the flags they share.

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"guidegen/build"
	"guidegen/content"
	"guidegen/content/calendar"
)

func (c *command) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "guidegen",
		Short: "make a regional hatch guide from a folder of accounts and records",
		Long: `guidegen turns a club's accounts of river flies (Markdown) and its records of
rivers and net samples (YAML, CSV) into a website: the club's hatch guide.

If you name no guide, it takes the one in this folder or else the demo.`,
		Version:       build.Version,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetVersionTemplate("guidegen {{.Version}}\n")
	root.SetFlagErrorFunc(flagFault)
	root.SetHelpFunc(help)
	root.AddCommand(c.publish(), c.proof(), c.desk(), c.blank(), c.visit(), c.tellCommand(), c.figures())
	return root
}

// flagFault words a flag that can't be read, with the nearest one there is.
func flagFault(cmd *cobra.Command, err error) error {
	text := err.Error()
	var known []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, "--"+f.Name) })
	if _, name, ok := strings.Cut(text, "unknown flag: "); ok {
		text = cmd.CommandPath() + " has no flag " + name + content.DidYouMean(name, known)
	}
	return build.Misused("%s\nsee: %s --help", text, cmd.CommandPath())
}

// shared are the flags that most commands have.
type shared struct {
	guide, edition, date, format string
}

// flags adds those of the shared flags that a command takes.
func (s *shared) flags(cmd *cobra.Command, names ...string) {
	f := cmd.Flags()
	for _, n := range names {
		switch n {
		case "guide":
			f.StringVar(&s.guide, n, "", "the guide's `folder`")
			must(cmd.MarkFlagDirname(n))
		case "edition":
			f.StringVar(&s.edition, n, "", "public or members: which `edition`")
			must(cmd.RegisterFlagCompletionFunc(n, fixed("public", "members")))
		case "date":
			f.StringVar(&s.date, n, "", "build as of this `day`, as 2026-05-03, without anything later; today if not given")
		case "format":
			f.StringVar(&s.format, n, "text", "text or json: the `form` of what is printed")
			must(cmd.RegisterFlagCompletionFunc(n, fixed("text", "json")))
		}
	}
}

// must stops at a mistake in the declaration of a command: it would show in every run.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

func fixed(words ...string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return words, cobra.ShellCompDirectiveNoFileComp
	}
}

// options finds the guide and reads the shared flags. arg is the argument
// GUIDE, or "". The source has to be closed.
func (c *command) options(s *shared, arg string) (build.Options, error) {
	o := build.Options{Edition: build.Edition(s.edition)}
	if s.edition != "" && !slices.Contains(build.Editions, o.Edition) {
		return o, build.Misused("--edition: %q isn't an edition; write public or members", s.edition)
	}
	if s.format != "" && s.format != "text" && s.format != "json" {
		return o, build.Misused("--format: %q isn't a form; write text or json", s.format)
	}
	if arg != "" && s.guide != "" {
		return o, build.Misused("the guide is named twice: %s and --guide %s", arg, s.guide)
	}
	var err error
	o.Preview = s.date != ""
	if o.Date, err = parseDate("date", s.date); err != nil {
		return o, err
	}
	o.Source, err = build.Find(arg+s.guide, c.here)
	return o, err
}

// days reads a pair of flags that are dates.
func days(from, to string) (a, b calendar.Date, err error) {
	if a, err = parseDate("from", from); err != nil {
		return
	}
	if b, err = parseDate("to", to); err != nil {
		return
	}
	if b.Before(a) {
		err = build.Misused("--to %s lies before --from %s", b, a)
	}
	return
}

// most allows up to the named arguments, least of them needed.
func most(least int, names ...string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return build.Misused("%s needs %s\nsee: %s --help", cmd.CommandPath(), strings.Join(names[len(args):least], " and "), cmd.CommandPath())
		case len(args) > len(names):
			return build.Misused("%s takes no argument %q\nsee: %s --help", cmd.CommandPath(), args[len(names)], cmd.CommandPath())
		}
		return nil
	}
}

func first(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}
