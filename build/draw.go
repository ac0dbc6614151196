package build

// Drawing: every file of one edition, several at a time, each straight to where
// it goes. What is drawn doesn't depend on how many are drawn at once.

import (
	"fmt"
	"io/fs"
	"path"
	"runtime"
	"sync"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/page"
	"guidegen/build/paper"
	"guidegen/build/share"
	"guidegen/build/site"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/templates"
)

// write takes one file of the site; it may be called from several goroutines.
type write func(address string, data []byte) error

// file is one file of the site to be.
type file struct {
	address string
	page    bool
	draw    func() (view.Drawn, error)
}

// plan is one edition's site before anything of it is drawn.
type plan struct {
	book  *figures.Book
	files []file // but for the drawings and what keeps the site on a device
	album *draw.Album
}

// lay reckons an edition, adds its prompts to the problems, and lays out its site; nil where the guide has errors. old
// is the site as it was, nil where there is none; prints says where to print, nil for nowhere. Where stands is given
// and says so the error is errStands.
func (r *Report) lay(e *guide.Edition, old fs.FS, stands func() bool, prints *printing) (*plan, error) {
	if betrayals(e, r.ps); r.ps.Count(content.Error) > 0 {
		return nil, nil
	}
	book := figures.Reckon(e, r.Date)
	r.prompts(book)
	if stands != nil && stands() {
		return nil, errStands
	}
	words, err := lang.WordsOf(book.Edition.Guide)
	if err != nil {
		return nil, err
	}
	album, err := draw.New(book, words)
	if err != nil {
		return nil, err
	}
	files, err := r.files(book, old, prints, words, album)
	if err != nil {
		return nil, err
	}
	r.Pages, r.Files = 0, len(files)
	for _, f := range files {
		if f.page {
			r.Pages++
		}
	}
	return &plan{book, files, album}, nil
}

// draw draws the whole of a plan.
func (r *Report) draw(p *plan, to write, prints *printing) error {
	told := len(r.ps.All())
	var mu sync.Mutex
	var drawn []page.Named
	figs := &pictures{album: p.album, shown: map[string]bool{}}
	named := func(address string, data []byte) error {
		n := page.NameFile(address, data)
		mu.Lock()
		drawn = append(drawn, n)
		mu.Unlock()
		figs.note(address, data)
		return to(address, data)
	}
	files := p.files
	if prints != nil {
		jobs := paper.ToPrint(p.book)
		var paper []file
		paper, files = forPaper(files, jobs)
		if err := drawAll(paper, named, r.ps); err != nil {
			return err
		}
		if err := figs.write(named); err != nil {
			return err
		}
		if err := r.print(jobs, prints, to); err != nil {
			return err
		}
	}
	if err := drawAll(files, named, r.ps); err != nil {
		return err
	}
	if err := figs.write(named); err != nil {
		return err
	}
	r.Files += figs.written
	// What keeps the site on a device names every file of it, so it comes last.
	kept, err := page.Offline(p.book, drawn)
	if err != nil {
		return err
	}
	for _, f := range kept {
		r.Files++
		if err := to(f.Address, f.Bytes); err != nil {
			return fmt.Errorf("%s: %w", f.Address, err)
		}
	}
	r.quiet = len(r.ps.All()) == told
	return nil
}

// drawAll draws the files. Of several errors the first by the files' order is returned.
func drawAll(files []file, to write, ps *content.Problems) error {
	errs := make([]error, len(files))
	var wg sync.WaitGroup
	work := make(chan int)
	for range max(1, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range work {
				errs[i] = drawOne(files[i], to, ps)
			}
		})
	}
	for i := range files {
		work <- i
	}
	close(work)
	wg.Wait()
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("%s: %w", files[i].address, err)
		}
	}
	return nil
}

func drawOne(f file, to write, ps *content.Problems) (err error) {
	// In a goroutine a panic would end the program with a stack trace, and leave a stage behind.
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("a fault of the program, not of the guide: %v", r)
		}
	}()
	d, err := f.draw()
	if err != nil {
		return err
	}
	for _, p := range d.Problems {
		ps.Add(p)
	}
	return to(f.address, d.HTML)
}

// files lists every file of the site; none is drawn yet.
func (r *Report) files(
	book *figures.Book, old fs.FS, prints *printing, words *lang.Words, album *draw.Album,
) ([]file, error) {
	where := allocate(book.Edition, r.ps)
	shared, news, err := share.Files(book, words, old)
	if err != nil {
		return nil, err
	}
	for _, n := range news {
		if n.Now {
			r.News = append(r.News, n)
		}
	}
	deps := view.Deps{Site: where, Words: words, Album: album, Downloads: downloads(book, shared, words), News: news, PDF: prints.pdf}
	sheets, err := page.All(book, deps)
	if err != nil {
		return nil, err
	}
	var out []file
	var pages []string
	for _, s := range sheets {
		out = append(out, file{s.Address, true, s.Draw})
		if s.Address != view.NotFoundPage { // no search engine is to offer it
			pages = append(pages, s.Address)
		}
	}
	for _, m := range moved(book, where.redirects, words) {
		out = append(out, plain(m.Old, true, m.Page))
	}
	assets, err := assets()
	if err != nil {
		return nil, err
	}
	out = append(out, assets...)
	out = append(out, photos(book.Edition, r.Source.Files, r.made)...)
	generated, err := page.Generated(book, deps)
	if err != nil {
		return nil, err
	}
	for _, f := range generated {
		out = append(out, plain(f.Address, false, func() []byte { return f.Bytes }))
	}
	for _, f := range append(shared, share.Sitemap(book, pages)...) {
		out = append(out, plain(f.Path, false, func() []byte { return f.Bytes }))
	}
	return out, nil
}

// downloads words the files that a reader may take away.
func downloads(book *figures.Book, files []share.File, words *lang.Words) []view.Download {
	what := map[string]string{
		share.Archive: words.Plain("download.archive"), share.ChangesFeed: words.Plain("download.changes"),
		share.GuideData: words.Plain("download.guide"), share.GuideSchema: words.Plain("download.guide_schema"),
		share.RiverSchema: words.Plain("download.river_schema"), share.SeasonPlan: words.Plain("download.plan"),
	}
	for _, w := range book.Waters {
		what[share.RiverData(w)] = words.Plain("download.water", "water", w.Name.S)
		what[share.Calendar(w)] = words.Plain("download.calendar", "water", w.Name.S)
	}
	kind := map[string]string{".json": "JSON", ".zip": "ZIP", ".xml": "Atom", ".ics": "iCalendar"}
	var out []view.Download
	for _, f := range files {
		out = append(out, view.Download{Address: f.Path, What: what[f.Path], Kind: kind[path.Ext(f.Path)]})
	}
	return out
}

func plain(address string, isPage bool, bytes func() []byte) file {
	return file{address, isPage, func() (view.Drawn, error) { return view.Drawn{HTML: bytes()}, nil }}
}

// moved draws the page at each older address.
func moved(book *figures.Book, redirects []site.Redirect, words *lang.Words) []site.Moved {
	titles := map[string]string{}
	for _, r := range records(book.Edition) {
		titles[r.address()] = r.title
	}
	var out []site.Moved
	for _, r := range redirects {
		out = append(out, site.Moved{Redirect: r, Lang: words.Lang, Title: titles[r.To], Sentence: words.Plain("moved"),
			RecordsTo: book.RecordsTo.String(), Built: book.Built.String()})
	}
	return out
}

// assets are the styles and scripts that pages ask for, with the licences of those by others.
func assets() ([]file, error) {
	list, err := view.AssetFiles()
	if err != nil {
		return nil, err
	}
	var out []file
	for _, a := range list {
		b, err := fs.ReadFile(templates.Files, a.File)
		if err != nil {
			return nil, err
		}
		out = append(out, plain(a.Address, false, func() []byte { return lean(a.File, b) }))
	}
	return out, nil
}
