// Package view holds what pages on a screen and pages on paper share: the printer of models and templates, the frame
// around a page, figures with what they are based on, and a fly on a water in rows, sizes, dressings and look-alikes.
package view

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"strings"

	"github.com/yuin/goldmark"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/content"
	"guidegen/templates"
)

// Site is what pages need to know of the site they stand in.
type Site interface {
	// Link is the link from one page to another, both given by address; to may end in a fragment.
	Link(from, to string) string
	// Page is the address of the page made of a file of the guide ("notes/sampling.md").
	Page(file string) (address string, ok bool)
}

// Deps is what All needs besides the figures.
type Deps struct {
	Site      Site
	Words     *lang.Words              // nil: the words of the guide's first language
	Album     *draw.Album              // the guide's drawings; nil: drawn again
	Downloads []Download               // data files of the site
	News      []share.News             // what changed, newest first
	PDF       func(page string) string // the PDF of a page made for paper; "" where there is none. Asked as pages are drawn
}

// Sheet is one page to be: its address is known before it is drawn.
type Sheet struct {
	Address string
	Draw    func() (Drawn, error)
	Model   func() any // what Draw prints
}

// Drawn is a page's bytes and what was wrong with the guide's text on it.
type Drawn struct {
	HTML     []byte
	Problems []content.Problem
}

// Printer is the base of the printers of pages. Safe for several goroutines once made.
type Printer struct {
	book      *figures.Book
	Album     *draw.Album
	Deps      Deps
	words     *lang.Words
	markdown  goldmark.Markdown
	marks     *template.Template            // links that aren't plain
	pages     map[string]*template.Template // by kind of page
	foot      footing
	sources   map[string]source
	waters    map[string]*figures.Water    // by name
	terms     map[string]bool              // characters that stand in the glossary
	Dressings map[string]*figures.Dressing // by name and by address
	FlyByName map[string]*figures.Fly      // every name, lower case
}

// NewPrinter reads templates and words.
func NewPrinter(book *figures.Book, deps Deps) (*Printer, error) {
	p := &Printer{book: book, Deps: deps, words: deps.Words, pages: map[string]*template.Template{}}
	if p.words == nil {
		g := &guide.Guide{}
		if book.Edition != nil {
			g = book.Edition.Guide
		}
		var err error
		if p.words, err = lang.WordsOf(g); err != nil {
			return nil, err
		}
	}
	if p.Album = deps.Album; p.Album == nil {
		var err error
		if p.Album, err = draw.New(book, p.words); err != nil {
			return nil, err
		}
	}
	if root := rootOf(p.Settings()); root != "" {
		p.Deps.Site = anywhere{deps.Site, root}
	}
	var err error
	if p.marks, err = template.New("marks").ParseFS(templates.Files, "partials/marks.html"); err != nil {
		return nil, err
	}
	shared, err := template.New("shared").Funcs(p.funcs()).ParseFS(templates.Files, "partials/*.html")
	if err != nil {
		return nil, err
	}
	files, err := fs.Glob(templates.Files, "pages/*.html")
	if err != nil {
		return nil, err
	}
	for _, f := range files {
		t, err := shared.Clone()
		if err != nil {
			return nil, err
		}
		if t, err = t.ParseFS(templates.Files, f); err != nil {
			return nil, err
		}
		p.pages[strings.TrimSuffix(path.Base(f), ".html")] = t
	}
	p.markdown = newMarkdown(p.words.Plain("table.scrolls"))
	p.foot = p.footing()
	p.index()
	return p, nil
}

// Words are the words that the printer prints with.
func (p *Printer) Words() *lang.Words { return p.words }

// Sheet is a page whose model is printed with the template of its kind.
func (p *Printer) Sheet(address, kind string, model func() any) Sheet {
	return p.SheetOfText(address, kind, func() (any, []content.Problem) { return model(), nil })
}

// SheetOfText is a page with text of the guide, whose model comes with what is wrong with that.
func (p *Printer) SheetOfText(address, kind string, model func() (any, []content.Problem)) Sheet {
	return Sheet{address, func() (Drawn, error) {
		m, problems := model()
		html, err := p.Draw(kind, m)
		return Drawn{html, problems}, err
	}, func() any { m, _ := model(); return m }}
}

// Draw prints a model with the template of its kind of page.
func (p *Printer) Draw(kind string, model any) ([]byte, error) {
	t, ok := p.pages[kind]
	if !ok {
		return nil, fmt.Errorf("page: no template for %q", kind)
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, "page", model); err != nil {
		return nil, fmt.Errorf("page: %s: %w", kind, err)
	}
	return squeeze(b.Bytes()), nil
}

// squeeze drops the white space that templates leave at the ends of lines and the lines that are
// then empty. Text within pre and textarea doesn't stand in our pages with such lines.
func squeeze(in []byte) []byte {
	out := make([]byte, 0, len(in))
	for line := range bytes.Lines(in) {
		if line = bytes.TrimSpace(line); len(line) > 0 {
			out = append(append(out, line...), '\n')
		}
	}
	return out
}
