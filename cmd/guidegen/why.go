package main

// guidegen proof --why ID: what a problem means and how to put it right, with an
// example that is checked as it is shown. One file for each id in why/: the
// explanation, then the files that show it, laid over the starter guide.

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"guidegen/build"
	"guidegen/content"
	"guidegen/content/calendar"
)

//go:embed why/*.txtar
var whyFiles embed.FS

// explanation is one problem explained.
type explanation struct {
	id    string
	words string
	want  string // file:line:column at which the example shows it
	files map[string][]byte
	names []string // of the files, in order
}

// explained lists the ids that are explained.
func explained() []string {
	entries, err := whyFiles.ReadDir("why")
	must(err)
	var l []string
	for _, e := range entries {
		l = append(l, strings.TrimSuffix(e.Name(), ".txtar"))
	}
	return l
}

func explain(id string) (explanation, bool) {
	b, err := whyFiles.ReadFile("why/" + id + ".txtar")
	if err != nil {
		return explanation{}, false
	}
	a := txtar.Parse(b)
	e := explanation{id: id, files: map[string][]byte{}}
	words, want, _ := strings.Cut(string(a.Comment), "\nwant ")
	e.words, e.want = strings.TrimSpace(words), strings.TrimSpace(want)
	for _, f := range a.Files {
		e.files[f.Name] = f.Data
		e.names = append(e.names, f.Name)
	}
	return e, true
}

// shown checks the example and finds the problem in it. Few problems show only
// once pages are drawn.
func (e explanation) shown() (r *build.Report, at int, err error) {
	o := build.Options{Source: &build.Source{Files: overlay{starter(), e.files}}, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}, Edition: build.Members}
	is := func(p content.Problem) bool { return p.ID == e.id }
	_, r, err = build.Reckon(o)
	if err != nil || slices.ContainsFunc(r.Problems, is) {
		return r, slices.IndexFunc(r.Problems, is), err
	}
	o.Edition = build.AnyEdition
	r, err = build.Proof(o)
	return r, slices.IndexFunc(r.Problems, is), err
}

func (c *command) why(id string) error {
	e, ok := explain(id)
	if !ok {
		return build.Misused("no problem has the id %q%s", id, content.DidYouMean(id, explained()))
	}
	r, at, err := e.shown()
	if err != nil {
		return err
	}
	fmt.Fprintf(c.out, "%s\n\n%s\n", e.id, e.words)
	for _, n := range e.names {
		fmt.Fprintf(c.out, "\nFor example, %s:\n\n", n)
		for line := range strings.Lines(string(e.files[n])) {
			fmt.Fprintf(c.out, "    %s", line)
		}
	}
	if at >= 0 {
		fmt.Fprint(c.out, "\ngives:\n\n")
		r.Collector().Print(c.out, r.Problems[at])
	}
	return nil
}
