package main

// What --help prints: in our own words, in 80 columns, commands by what a person wants of them.

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

const helpWidth = 80

// wants puts the commands in the order in which a person comes to need them. A command that no want
// names is not listed: completion of a shell's words works, and tells about itself.
var wants = []struct {
	want     string
	commands []string
}{
	{"Look", []string{"desk", "tell", "figures"}},
	{"Check", []string{"proof"}},
	{"Publish", []string{"publish"}},
	{"Write", []string{"visit", "blank"}},
}

func help(cmd *cobra.Command, _ []string) {
	w := cmd.OutOrStdout()
	paragraphs(w, cmd.Long)
	if cmd.HasParent() {
		helpCommand(w, cmd)
		return
	}
	fmt.Fprint(w, "\nType guidegen, a command, and what it works on:\n  guidegen publish our-guide\n")
	for _, want := range wants {
		fmt.Fprintf(w, "\n%s\n", want.want)
		for _, name := range want.commands {
			if sub, _, err := cmd.Find([]string{name}); err == nil {
				helpRow(w, name, sub.Short, 11)
			}
		}
	}
	fmt.Fprint(w, "\nMore about a command: guidegen COMMAND --help\n"+
		"Which version this is: guidegen --version\n"+
		"Commands that complete themselves at the tab key: guidegen completion --help\n")
}

func helpCommand(w io.Writer, cmd *cobra.Command) {
	fmt.Fprintf(w, "\nType\n  %s\n", strings.TrimSuffix(cmd.UseLine(), " [flags]"))
	if cmd.HasExample() {
		fmt.Fprintf(w, "\nFor example\n%s\n", cmd.Example)
	}
	for _, sub := range cmd.Commands() {
		if sub.IsAvailableCommand() {
			fmt.Fprintf(w, "\n  %s  %s\n", sub.Name(), sub.Short)
		}
	}
	if !cmd.HasAvailableLocalFlags() {
		return
	}
	fmt.Fprint(w, "\nYou may add\n")
	cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
		value, about := pflag.UnquoteUsage(f)
		switch {
		case f.Hidden:
		case f.Name == "help":
			helpRow(w, "--help", "print this", 22)
		case value == "":
			helpRow(w, "--"+f.Name, about, 22)
		default:
			helpRow(w, "--"+f.Name+" "+strings.ToUpper(value), about, 22)
		}
	})
}

// helpRow prints a name and what it is, wrapped in its own column; a name too long for its column has a
// line of its own.
func helpRow(w io.Writer, name, about string, column int) {
	lead := fmt.Sprintf("  %-*s", column, name)
	if len(name) > column-2 {
		fmt.Fprintln(w, strings.TrimRight(lead, " "))
		lead = ""
	}
	wrap(w, fmt.Sprintf("%-*s", column+2, lead), about, helpWidth)
}

// wrap prints a text in lines of so many characters at most, behind its first line's lead, and indents what follows
// by as much.
func wrap(w io.Writer, lead, text string, most int) {
	line, empty := lead, true
	for _, word := range strings.Fields(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > most {
			fmt.Fprintln(w, line)
			line, empty = strings.Repeat(" ", len(lead)), true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	fmt.Fprintln(w, line)
}

// paragraphs wraps a text whose paragraphs have an empty line between them.
func paragraphs(w io.Writer, text string) {
	for i, p := range strings.Split(strings.TrimSpace(text), "\n\n") {
		if i > 0 {
			fmt.Fprintln(w)
		}
		wrap(w, "", p, helpWidth)
	}
}
