// Package build leads a guide through the whole way: read and checked, cut to
// an edition, reckoned, drawn, verified, and swapped into place.
package build

import (
	"context"
	"errors"
	"io/fs"
	"os"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/press"
	"guidegen/build/share"
	"guidegen/build/site"
	"guidegen/content"
	"guidegen/content/calendar"
)

// Generator names the program in what it writes.
const Generator = "guidegen"

// Version is the program's version.
const Version = "1.0.0"

// Edition is the audience that a site is made for.
type Edition string

// The editions. AnyEdition means both where a guide is only checked, and the
// public one where a site is written.
const (
	AnyEdition Edition = ""
	Public     Edition = "public"
	Members    Edition = "members"
)

// Editions is the closed list.
var Editions = []Edition{Public, Members}

// Out is the folder that an edition is written to if none is named.
func (e Edition) Out() string {
	if e == Members {
		return "published-members"
	}
	return "published"
}

// Options are what a run is asked for.
type Options struct {
	Source  *Source
	Edition Edition
	Date    calendar.Date   // the day the guide is built for
	Preview bool            // what is dated later than Date is left out
	Out     string          // Publish only: the folder to write
	Stop    context.Context // Publish only: ends a run before it is done; nil for never
	Print   bool            // Publish only: cards and booklets as PDF too, where the machine has a Chromium
}

// Report is what a run found and did.
type Report struct {
	Source       *Source
	Name         string // the guide's
	Edition      Edition
	Date         calendar.Date
	Problems     []content.Problem // in the order they are printed, without those acknowledged
	Acknowledged int               // warnings that the guide lets stand
	Later        string            // in words, what a preview left out; "" for nothing
	Pages, Files int               // of the site; files include the pages
	Anew         bool              // a site stood there before
	Changed      int               // files that are new or other since
	ToMove       int64             // their bytes: what an upload has to move
	Gone         int               // files that are no longer there
	News         []share.News      // what a reader would call changed since the site that stood there
	Out          string            // where the site was written; "" if it was not
	PDFs         int               // of the files, PDFs printed
	NotPrinted   string            // why PDFs that were asked for are missing; "" if none is

	ps    *content.Problems
	quiet bool                        // drawing found no problems
	made  func(address string) []byte // files of photos that need not be made again, nil for the others
}

// Count is how many problems have a grade.
func (r *Report) Count(g content.Grade) int {
	n := 0
	for _, p := range r.Problems {
		if p.Grade == g {
			n++
		}
	}
	return n
}

// Sound reports whether the guide has no errors.
func (r *Report) Sound() bool { return r.Count(content.Error) == 0 }

// Collector knows the files, for printing problems with their lines.
func (r *Report) Collector() *content.Problems { return r.ps }

// Read reads and checks a guide. Where ps then holds an error, the guide is
// not fit to be reckoned with. The error is ours alone.
func Read(s *Source, today calendar.Date, ps *content.Problems) (*guide.Guide, error) {
	g, err := guide.Read(s.Files, today, ps)
	if err == nil {
		err = lang.CheckWords(g, ps)
	}
	return g, err
}

// read reads the guide that a run works on, as of its day in a preview.
func (r *Report) read(o Options) (g *guide.Guide, err error) {
	if !o.Preview {
		return Read(o.Source, o.Date, r.ps)
	}
	if g, r.Later, err = guide.ReadAsOf(o.Source.Files, o.Date, r.ps); err == nil {
		err = lang.CheckWords(g, r.ps)
	}
	return g, err
}

// Guide says which guide was read, and what a preview left out of it.
func (r *Report) Guide() string {
	if r.Later == "" {
		return r.Source.String()
	}
	return r.Source.String() + " as of " + r.Date.String() + "; left out as later: " + r.Later
}

// begin reads the guide that a run works on; it is nil where it has errors.
func (o Options) begin() (*Report, *guide.Guide, error) {
	r := &Report{Source: o.Source, Edition: o.Edition, Date: o.Date, ps: &content.Problems{}}
	g, err := r.read(o)
	if err != nil {
		return r, nil, err
	}
	r.Name = g.Settings.Name
	if r.settle(g, false); !r.Sound() {
		return r, nil, nil
	}
	return r, g, nil
}

// Reckon reads a guide and reckons one edition of it, for commands that print
// figures without a site. The book is nil where the guide has errors.
func Reckon(o Options) (*figures.Book, *Report, error) {
	r, g, err := o.begin()
	if g == nil {
		return nil, r, err
	}
	book := figures.Reckon(guide.Cut(g, o.Edition == Members), o.Date)
	r.prompts(book)
	r.settle(g, false)
	return book, r, nil
}

// Publish writes a site. Where the guide has errors nothing is written, and
// the report is not sound. The error is ours: it is a *site.Refusal where the
// place can't be written to, site.Failures where a page is wrong, and else of
// the disk. In every case but success the old site stays as it was.
func Publish(o Options) (*Report, error) {
	if o.Edition == AnyEdition {
		o.Edition = Public
	}
	from := o.madeFrom()
	r, g, err := o.begin()
	if g == nil {
		return r, err
	}
	edition := guide.Cut(g, o.Edition == Members)
	stage, err := site.Open(site.Plan{
		Target: o.Out, Guide: o.Source.Dir, Own: []string{Public.Out(), Members.Out()}, Withheld: searchable(edition.Withheld),
		Generator: Generator + " " + Version, Name: g.Settings.Name, Edition: string(o.Edition), Date: o.Date.String(),
	})
	if err != nil {
		return r, err
	}
	defer stage.Close()
	var prints *printing
	if o.Print {
		prints = &printing{stage, press.Browser(), map[string]string{}}
	}
	before, missing := site.ReadManifest(o.Out)
	r.made = standing(published(o.Out))
	stands := func() bool { return from != "" && missing == nil && before.From == from && before.Stands(o.Out) }
	plan, err := r.lay(edition, published(o.Out), stands, prints)
	if plan != nil {
		err = r.draw(plan, func(address string, data []byte) error {
			if err := stopped(o.Stop); err != nil {
				return err
			}
			return stage.Write(address, data)
		}, prints)
	}
	if r.settle(g, false); errors.Is(err, errStands) {
		r.Out, r.Anew, r.Pages, r.Files = o.Out, true, before.Pages(), len(before.Files)
		return r, nil
	} else if err != nil || !r.Sound() {
		return r, err
	}
	if err := stopped(o.Stop); err != nil {
		return r, err
	}
	if r.quiet { // else it is drawn again, to say again what drawing found
		stage.MadeFrom(from)
	}
	if err := stage.Swap(); err != nil {
		return r, err
	}
	r.Out = o.Out
	if after, err := site.ReadManifest(o.Out); err == nil {
		r.Anew = missing == nil
		r.Changed, r.ToMove, r.Gone = after.Since(before)
	}
	return r, nil
}

// stopped is the error of a run that was ended before it was done.
func stopped(stop context.Context) error {
	if stop == nil {
		return nil
	}
	return stop.Err()
}

// published is the site that stands in a folder, nil where none does.
func published(dir string) fs.FS {
	if _, err := site.ReadManifest(dir); err != nil {
		return nil
	}
	return os.DirFS(dir)
}

// Proof does what Publish does up to the verification, for both editions or
// the one asked for, and writes nothing.
func Proof(o Options) (*Report, error) {
	r, g, err := o.begin()
	if g == nil {
		return r, err
	}
	r.made = standing(nil)
	editions := Editions
	if o.Edition != AnyEdition {
		editions = []Edition{o.Edition}
	}
	for _, e := range editions {
		edition := guide.Cut(g, e == Members)
		plan, err := r.lay(edition, nil, nil, nil)
		if err != nil {
			return r, err
		}
		if plan != nil {
			err = r.check(plan, nil, func(string, []byte) {})
		}
		if r.settle(g, false); err != nil {
			return r, err
		}
	}
	// What only one edition knows may be acknowledged: only who looked at both
	// can say that nothing answers to an acknowledgement any longer.
	r.settle(g, o.Edition == AnyEdition)
	return r, nil
}

// prompts adds what the reckoning found odd about the records.
func (r *Report) prompts(book *figures.Book) {
	for _, p := range book.Prompts {
		r.ps.Add(p)
	}
	for _, w := range book.Waters {
		for _, p := range w.Prompts {
			r.ps.Add(p.Problem)
		}
	}
}

// settle brings the list of problems up to date, leaving out what the guide lets stand.
func (r *Report) settle(g *guide.Guide, lapses bool) {
	all := r.ps.Told()
	r.Problems = nil
	for _, p := range g.Acknowledge(all, r.ps) {
		if p.ID != lapsed || lapses {
			r.Problems = append(r.Problems, p)
		}
	}
	r.Acknowledged = len(all) - len(r.Problems)
	if lapses {
		for _, p := range r.Problems {
			if p.ID == lapsed {
				r.Acknowledged++
			}
		}
	}
}

const lapsed = "lapsed-acknowledgement"
