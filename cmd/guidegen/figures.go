package main

// guidegen figures: how many figures each page prints and what they rest on; and
// for one page, each figure with the lines of the guide behind it.

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/species"
)

func (c *command) figures() *cobra.Command {
	var s shared
	var river, fly, page string
	cmd := &cobra.Command{
		Use:   "figures [GUIDE]",
		Short: "count the printed figures by page and what they rest on",
		Long: `Counts the figures that each page prints, by what they rest on. With --water,
--fly or --page: lists each figure of that page with the file and line behind it.`,
		Example: `  guidegen figures our-guide
  guidegen figures --water "Lorrow Brook"
  guidegen figures --page records.html`,
		Args: most(0, "GUIDE"),
		RunE: func(_ *cobra.Command, args []string) error {
			book, r, err := c.book(&s, first(args))
			if err != nil {
				return err
			}
			pages, err := pagesOf(book, river, fly, page)
			if err != nil {
				return err
			}
			list, known, err := build.PrintedFigures(book, func(p string) bool { return pages == nil || slices.Contains(pages, p) })
			if err != nil {
				return err
			}
			for _, p := range pages {
				if !slices.Contains(known, p) {
					return build.Misused("the guide has no page %q%s", p, content.DidYouMean(p, known))
				}
			}
			counted, total := count(list)
			switch {
			case pages == nil && s.format == "json":
				return printJSON(c.out, countsJSON{chosen(r), counted, total})
			case pages == nil:
				fmt.Fprintf(c.out, "read %s\n\n", r.Guide())
				return printCounts(c.out, counted, total)
			case s.format == "json":
				return printJSON(c.out, listJSON(book, r, list))
			}
			fmt.Fprintf(c.out, "read %s\n\n", r.Guide())
			printFigures(c.out, listJSON(book, r, list).Figures)
			return nil
		},
	}
	s.flags(cmd, "guide", "edition", "date", "format")
	f := cmd.Flags()
	f.StringVar(&river, "water", "", "list the figures of the page of this `water`")
	f.StringVar(&fly, "fly", "", "list the figures of the page of this `fly`")
	f.StringVar(&page, "page", "", "list the figures of the page at this `address`")
	return cmd
}

// pagesOf gives the addresses asked for; nil asks for none in particular.
func pagesOf(book *figures.Book, river, fly, page string) ([]string, error) {
	var out []string
	if river != "" {
		w, err := water(book, river)
		if err != nil {
			return nil, err
		}
		out = append(out, "rivers/"+w.Address+".html")
	}
	if fly != "" {
		a, err := flyNamed(book, fly)
		if err != nil {
			return nil, err
		}
		out = append(out, "species/"+a.Address+".html")
	}
	if page != "" {
		out = append(out, strings.TrimPrefix(page, "./"))
	}
	return out, nil
}

func flyNamed(book *figures.Book, name string) (*figures.Fly, error) {
	var known []string
	var found []*figures.Fly
	for _, f := range book.Flies {
		hit := content.Fold(f.Address) == content.Fold(name)
		for _, t := range f.Names() {
			known = append(known, t.S)
			hit = hit || content.Fold(t.S) == content.Fold(name)
		}
		if hit {
			found = append(found, f)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, build.Misused("no account is named %q%s", name, content.DidYouMean(name, known))
	}
	var sci []string
	for _, f := range found {
		sci = append(sci, f.Scientific.Name.S)
	}
	return nil, build.Misused("%q is the name of %d flies; write one of: %s", name, len(found), strings.Join(sci, ", "))
}

// grounds in the order of the columns.
var grounds = []content.Ground{content.OwnRecords, content.LentRecords, content.Published, content.OwnStatement, content.Common, content.Memory, content.Assumed}

type countsJSON struct {
	Guide guideJSON   `json:"guide"`
	Pages []pageCount `json:"pages"`
	Total pageCount   `json:"total"`
}

// pageCount counts a page's figures. A figure with several grounds counts under each.
type pageCount struct {
	Page    string         `json:"page,omitempty"`
	Figures int            `json:"figures"`
	Basis   map[string]int `json:"basis"`
}

func (p *pageCount) add(f content.Figure) {
	if p.Basis == nil {
		p.Basis = map[string]int{}
	}
	p.Figures++
	for _, g := range f.Basis().Grounds() {
		p.Basis[g.String()]++
	}
}

func count(list []build.Printed) (pages []pageCount, total pageCount) {
	for _, f := range list {
		if n := len(pages); n == 0 || pages[n-1].Page != f.Page {
			pages = append(pages, pageCount{Page: f.Page})
		}
		pages[len(pages)-1].add(f.Figure)
		total.add(f.Figure)
	}
	return pages, total
}

func printCounts(out io.Writer, pages []pageCount, total pageCount) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(w, "figures\t")
	for _, g := range grounds {
		fmt.Fprintf(w, "%s\t", g)
	}
	fmt.Fprint(w, "  page\n")
	line := func(p pageCount, name string) {
		fmt.Fprintf(w, "%d\t", p.Figures)
		for _, g := range grounds {
			n := "."
			if p.Basis[g.String()] > 0 {
				n = strconv.Itoa(p.Basis[g.String()])
			}
			fmt.Fprintf(w, "%s\t", n)
		}
		fmt.Fprintf(w, "  %s\n", name)
	}
	for _, p := range pages {
		line(p, p.Page)
	}
	line(total, "in all; a figure with several grounds counts under each")
	return w.Flush()
}

type listedJSON struct {
	Guide   guideJSON    `json:"guide"`
	Figures []figureJSON `json:"figures"`
}

type figureJSON struct {
	Page  string     `json:"page"`
	What  string     `json:"what"` // the parts of the page that it belongs to, outermost first
	Value float64    `json:"value"`
	Shown string     `json:"shown"`
	Basis []restJSON `json:"basis"`
}

type restJSON struct {
	Ground string      `json:"ground"`
	Source string      `json:"source,omitempty"`
	Water  string      `json:"water,omitempty"`
	Visits int         `json:"visits,omitempty"`
	Years  int         `json:"years,omitempty"`
	Share  float64     `json:"share,omitempty"`
	At     []placeLine `json:"at"` // the statement, or the visits behind a record
}

type placeLine struct {
	File string `json:"file"`
	Line int    `json:"line"`
}

// listJSON finds again what is behind each figure: a statement's own place, or
// the visits that a record's figure comes from. On a fly's page these are the
// visits that looked for the fly, on others all of the water.
func listJSON(book *figures.Book, r *build.Report, list []build.Printed) listedJSON {
	j := listedJSON{Guide: chosen(r), Figures: []figureJSON{}}
	line := func(at content.Place) (placeLine, bool) {
		f := r.Collector().File(at.File)
		if f == nil {
			return placeLine{}, false
		}
		n, _ := f.LineColumn(at.Offset)
		return placeLine{at.File, n}, true
	}
	type who struct{ page, water string }
	visits := map[who][]placeLine{}
	visitsOf := func(page, name string) []placeLine {
		k := who{page, name}
		if l, ok := visits[k]; ok {
			return l
		}
		l := []placeLine{}
		fly := flyOf(book, page)
		for _, v := range book.Edition.Visits {
			if v.Water == nil || v.Water.Name.S != name || !v.LooksForAny() || fly != nil && !says(v, fly) {
				continue
			}
			if p, ok := line(v.At); ok {
				l = append(l, p)
			}
		}
		visits[k] = l
		return l
	}
	for _, f := range list {
		shown := f.Figure.Number()
		if u := f.Figure.Unit(); u != "" {
			shown += " " + u
		}
		x := figureJSON{Page: f.Page, What: f.What, Value: content.Round9(f.Figure.Value()), Shown: shown, Basis: []restJSON{}}
		for _, p := range f.Figure.Basis().Parts() {
			b := restJSON{Ground: p.Ground.String(), Source: p.Source, Water: p.Water, Visits: p.Visits, Years: p.Years, Share: content.Round9(p.Share), At: []placeLine{}}
			switch p.Ground {
			case content.OwnRecords, content.LentRecords:
				b.At = visitsOf(f.Page, p.Water)
			default:
				if at, ok := line(p.At); ok {
					b.At = append(b.At, at)
				}
			}
			x.Basis = append(x.Basis, b)
		}
		j.Figures = append(j.Figures, x)
	}
	return j
}

func says(v *guide.Visit, a *species.Account) bool {
	what, _, _ := v.Of(a)
	return what != guide.Nothing
}

func flyOf(book *figures.Book, page string) *species.Account {
	for _, f := range book.Flies {
		if page == "species/"+f.Address+".html" {
			return f.Account
		}
	}
	return nil
}

// printFigures lists each figure once, and how often a page prints it under the
// same words on the same ground: "found on 3 of 3" is one line.
func printFigures(w io.Writer, list []figureJSON) {
	var lines []string
	times := map[string]int{}
	for _, f := range list {
		line := f.text()
		if times[line] == 0 {
			lines = append(lines, line)
		}
		times[line]++
	}
	for _, line := range lines {
		head, rest, _ := strings.Cut(line, "\n")
		if n := times[line]; n > 1 {
			head += fmt.Sprintf(" (%d times)", n)
		}
		fmt.Fprintf(w, "%s\n%s", head, rest)
	}
}

func (f figureJSON) text() string {
	var w strings.Builder
	fmt.Fprintf(&w, "%s: %s: %s\n", f.Page, cmp.Or(f.What, "on the page"), f.Shown)
	for _, b := range f.Basis {
		what := b.Ground
		if b.Source != "" {
			what += " (" + b.Source + ")"
		}
		if b.Water != "" {
			in := b.Water // a sum over flies says which waters, not how many visits
			if b.Visits > 0 {
				in += ", " + several(b.Visits, "visit")
			}
			if b.Years > 0 {
				in += ", " + several(b.Years, "year")
			}
			what += " (" + in + ")"
		}
		if at := lines(b.At); at != "" {
			what += ": " + at
		}
		fmt.Fprintf(&w, "    %s\n", what)
	}
	return w.String()
}

// lines writes places with each file's name once: "a.csv:2,5,9; b.csv:3".
func lines(l []placeLine) string {
	var s []string
	for i, p := range l {
		if i > 0 && l[i-1].File == p.File {
			s[len(s)-1] += "," + strconv.Itoa(p.Line)
			continue
		}
		s = append(s, p.File+":"+strconv.Itoa(p.Line))
	}
	return strings.Join(s, "; ")
}
