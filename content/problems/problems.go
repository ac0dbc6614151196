// Package problems explains each problem by its id. An explanation is the
// text at the head of <id>.txtar; below it stands a small guide that has the
// problem, which a test reads.
package problems

import (
	"embed"
	"slices"
	"strings"
)

//go:embed *.txtar
var files embed.FS

// Explain returns the explanation of a problem and the example below it. ok
// is false for an id that doesn't exist.
func Explain(id string) (text, example string, ok bool) {
	b, err := files.ReadFile(id + ".txtar")
	if err != nil {
		return "", "", false
	}
	text, example = string(b), ""
	if i := strings.Index(text, "\n-- "); i >= 0 {
		text, example = text[:i+1], text[i+1:]
	}
	return strings.TrimSpace(text), example, true
}

// IDs lists every id, sorted.
func IDs() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic(err) // embedded
	}
	var l []string
	for _, e := range entries {
		l = append(l, strings.TrimSuffix(e.Name(), ".txtar"))
	}
	slices.Sort(l)
	return l
}
