package main

// guidegen proof --why ID: what a problem means and how to put it right, with an
// example that is checked as it is shown.

import (
	"embed"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"guidegen/build"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/problems"
)

// explanation is one problem explained.
type explanation struct {
	id    string
	words string
	want  string // what the example gives: lines of file:line:column: message
	files map[string][]byte
	names []string // of the files, in order
}

// marks are what an example's lines say to its test.
var wantMark = regexp.MustCompile(`(?m) *# want(?: "[^"]*")+$`)

func explain(id string) (explanation, bool) {
	words, example, ok := problems.Explain(id)
	e := explanation{id: id, words: words, files: map[string][]byte{}}
	for _, f := range txtar.Parse([]byte(example)).Files {
		if f.Name == "want" {
			e.want = strings.TrimSpace(string(f.Data))
			continue
		}
		e.files[f.Name] = wantMark.ReplaceAll(f.Data, nil)
		e.names = append(e.names, f.Name)
	}
	return e, ok
}

// shown checks the example, laid over the starter guide, and finds the problem
// in it. Few problems show only once pages are drawn, or where no starter is.
func (e explanation) shown() (r *build.Report, at int, err error) {
	o := build.Options{Source: &build.Source{Files: overlay{starter(), e.files}}, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}, Edition: build.Members}
	is := func(p content.Problem) bool { return p.ID == e.id }
	if e.id == "no-guide" {
		o.Source = &build.Source{Files: overlay{embed.FS{}, e.files}}
	}
	_, r, err = build.Reckon(o)
	if err != nil || !r.Sound() || slices.ContainsFunc(r.Problems, is) {
		return r, slices.IndexFunc(r.Problems, is), err
	}
	o.Edition = build.AnyEdition
	r, err = build.Proof(o)
	return r, slices.IndexFunc(r.Problems, is), err
}

// everyProblem is what --why means without an id.
const everyProblem = "all"

// whyList lists the problems by the file in which each is found, with the first sentence on it.
func (c *command) whyList() error {
	by := map[string][]string{}
	for _, id := range problems.IDs() {
		e, _ := explain(id)
		subject := "the guide as a whole"
		if len(e.names) > 0 {
			subject = e.names[len(e.names)-1]
			if at := strings.Split(e.want, ":")[0]; e.files[at] != nil {
				subject = at
			}
			if dir, _, inside := strings.Cut(subject, "/"); inside {
				subject = dir + "/"
			}
		}
		said, _, _ := strings.Cut(e.words, ". ")
		by[subject] = append(by[subject], fmt.Sprintf("  %-24s %s\n", id, strings.TrimSuffix(said, ".")))
	}
	for _, subject := range slices.Sorted(maps.Keys(by)) {
		fmt.Fprintf(c.out, "%s\n%s\n", subject, strings.Join(by[subject], ""))
	}
	fmt.Fprintln(c.out, "guidegen proof --why ID explains one, with an example.")
	return nil
}

func (c *command) why(id string) error {
	e, ok := explain(id)
	if !ok {
		return build.Misused("no problem has the id %q%s", id, content.DidYouMean(id, problems.IDs()))
	}
	fmt.Fprintf(c.out, "%s\n\n", e.id)
	wrap(c.out, "", e.words, 90)
	if len(e.names) == 0 {
		return nil
	}
	r, at, err := e.shown()
	if err != nil {
		return err
	}
	for _, n := range e.names {
		fmt.Fprintf(c.out, "\nFor example, %s:\n\n", n)
		for line := range strings.Lines(string(e.files[n])) {
			fmt.Fprintf(c.out, "    %s\n", strings.TrimRight(line, "\n"))
		}
	}
	if at >= 0 {
		fmt.Fprint(c.out, "\ngives:\n\n")
		r.Collector().Print(c.out, r.Problems[at])
	}
	return nil
}
