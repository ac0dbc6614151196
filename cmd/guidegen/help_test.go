package main

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// Every command explains itself within a terminal of 80 columns, and the list names every command once.
func TestHelpFitsATerminal(t *testing.T) {
	for _, args := range [][]string{{"--help"}, {"publish"}, {"proof"}, {"desk"}, {"blank"}, {"visit"}, {"tell"}, {"figures"}} {
		if len(args) == 1 && args[0] != "--help" {
			args = append(args, "--help")
		}
		var out, errs bytes.Buffer
		require.Equal(t, fine, run(args, strings.NewReader(""), &out, &errs), "%v: %s", args, &errs)
		for line := range strings.Lines(out.String()) {
			line = strings.TrimRight(line, "\n")
			require.LessOrEqual(t, utf8.RuneCountInString(line), helpWidth, "%v: %q", args, line)
			require.NotContains(t, line, "Usage:")
		}
	}
}

func TestHelpListsEachCommandOnce(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, fine, run([]string{"--help"}, strings.NewReader(""), &out, &out))
	c := &command{out: &out}
	for _, sub := range c.root().Commands() {
		if sub.Name() == "completion" || sub.Name() == "help" {
			continue
		}
		require.Equal(t, 1, strings.Count(out.String(), "\n  "+sub.Name()+" "), sub.Name())
	}
}
