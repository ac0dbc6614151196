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

// proof checks the example.
func (e explanation) proof() (*build.Report, error) {
	return build.Proof(build.Options{
		Source: &build.Source{Files: overlay{starter(), e.files}},
		Date:   calendar.Date{Year: 2026, Month: 12, Day: 1},
	})
}

func (c *command) why(id string) error {
	e, ok := explain(id)
	if !ok {
		return build.Misused("no problem has the id %q%s", id, content.DidYouMean(id, explained()))
	}
	r, err := e.proof()
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
	fmt.Fprintln(c.out, "\ngives:")
	fmt.Fprintln(c.out)
	i := slices.IndexFunc(r.Problems, func(p content.Problem) bool { return p.ID == id })
	if i >= 0 {
		r.Collector().Print(c.out, r.Problems[i])
	}
	return nil
}
