package view

// Markdown of accounts and notes as safe HTML: no raw HTML, no dangerous links; links to files of
// the guide become links between pages; headings start below the page's own; ids have a prefix,
// so that two texts on one page never clash.

import (
	"bytes"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/gosimple/slug"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/species"
)

// longestText is the most HTML one text may grow to: a table of a few kilobytes of bars can grow
// to megabytes. What is longer is not printed, and the editor is told.
const longestText = 512 << 10

// newMarkdown makes the reader of Markdown; one serves all goroutines. label names the boxes that
// wide tables scroll in.
func newMarkdown(label string) goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignNone)), extension.Strikethrough),
		goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(ourHTML{label}, 100))),
	)
}

// Prose is a text ready to print.
type Prose struct{ HTML template.HTML }

// Prose turns a text into HTML for a page at an address. top is the level of its highest heading,
// 2 under the page's h1; prefix starts its ids.
func (p *Printer) Prose(address string, body species.Body, top int, prefix string) (Prose, []content.Problem) {
	return p.proseShifting(address, body, top, prefix, false)
}

// ProseWithTitle is prose whose first heading, where it repeats the page's title, is left out.
func (p *Printer) ProseWithTitle(address string, body species.Body, title string) (Prose, []content.Problem) {
	return p.proseShifting(address, body, 2, "t", sameTitle(body.Markdown, title))
}

func sameTitle(markdown, title string) bool {
	line, _, _ := strings.Cut(strings.TrimLeft(markdown, " \r\n"), "\n")
	return strings.TrimSpace(strings.TrimLeft(line, "#")) == title && strings.HasPrefix(line, "#")
}

func (p *Printer) proseShifting(address string, body species.Body, top int, prefix string, dropFirst bool) (Prose, []content.Problem) {
	src := []byte(body.Markdown)
	if tooManyCells(src) {
		w := &walker{body: body}
		w.say("text-too-long", content.Error, 0, 0, "split its tables", "the tables of this text have too many columns")
		return Prose{}, w.problems
	}
	w := p.reading(address, body, prefix, dropFirst)
	w.headings(top)
	w.links(w.doc)
	out := &capped{left: longestText}
	err := p.markdown.Renderer().Render(out, src, w.doc)
	if out.left < 0 {
		w.say("text-too-long", content.Error, 0, 0, "split the text or its tables", "this text grows to more than %d kB on its page", longestText>>10)
		return Prose{}, w.problems
	}
	if err != nil {
		w.say("unreadable-text", content.Error, 0, 0, "", "the text can't be printed: %v", err)
		return Prose{}, w.problems
	}
	return Prose{template.HTML(out.Bytes())}, w.problems
}

// reading parses a text and gives its headings their ids.
func (p *Printer) reading(address string, body species.Body, prefix string, dropFirst bool) *walker {
	src := []byte(body.Markdown)
	w := &walker{p: p, address: address, body: body, src: src, prefix: prefix, ids: map[string]bool{}}
	w.doc = p.markdown.Parser().Parse(text.NewReader(src))
	if dropFirst {
		if h, ok := w.doc.FirstChild().(*ast.Heading); ok {
			w.doc.RemoveChild(w.doc, h)
		}
	}
	ast.Walk(w.doc, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && in {
			h.SetAttributeString("id", []byte(w.id(plainText(h, w.src))))
		}
		return ast.WalkContinue, nil
	})
	return w
}

// mostCellsOfText is the most cells that a text's tables may have: goldmark fills every row up to the head's
// number of columns, so a line of bars above many short lines makes millions.
const mostCellsOfText = 50_000

func tooManyCells(src []byte) bool {
	lines, most := 0, 0
	for line := range bytes.Lines(src) {
		lines++
		most = max(most, bytes.Count(line, []byte("|")))
	}
	return most > 20 && lines*most > mostCellsOfText
}

type walker struct {
	p        *Printer
	address  string
	body     species.Body
	src      []byte
	doc      ast.Node
	prefix   string
	ids      map[string]bool
	problems []content.Problem
}

func (w *walker) say(id string, g content.Grade, offset, length int, want, format string, a ...any) {
	w.problems = append(w.problems, content.Problem{ID: id, Grade: g, Want: want, Message: fmt.Sprintf(format, a...),
		At: content.Place{File: w.body.File, Offset: w.body.Offset + offset, Len: length}})
}

// links turns relative links to files of the guide into links between pages. A text is no place
// for pictures: those belong in photos.yaml, with credit and permission.
func (w *walker) links(doc ast.Node) {
	var images []*ast.Image
	var bare []*ast.AutoLink
	ast.Walk(doc, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if !in {
			return ast.WalkContinue, nil
		}
		switch l := n.(type) {
		case *ast.Link:
			w.link(l, l, string(l.Destination))
		case *ast.AutoLink:
			bare = append(bare, l)
		case *ast.Image:
			images = append(images, l)
		}
		return ast.WalkContinue, nil
	})
	for _, b := range bare { // <https://…>: a link like any other
		words := ast.NewString(b.Label(w.src))
		words.SetRaw(true)
		dest := string(b.URL(w.src))
		if b.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(dest), "mailto:") {
			dest = "mailto:" + dest
		}
		l := ast.NewLink()
		l.AppendChild(l, words)
		w.link(l, b, dest)
		b.Parent().ReplaceChild(b.Parent(), b, l)
	}
	for _, i := range images {
		at, n := w.where(i, string(i.Destination))
		w.say("picture-in-text", content.Warning, at, n, "list it in photos.yaml with credit and permission", "a picture in the text is not printed")
		words := ast.NewString([]byte(plainText(i, w.src)))
		i.Parent().ReplaceChild(i.Parent(), i, words)
	}
}

// link sets where a link leads; one that leads nowhere is reported and stands as text.
func (w *walker) link(l *ast.Link, written ast.Node, dest string) {
	l.Destination = nil
	dead := func(id, want, format string, a ...any) {
		at, length := w.where(written, dest)
		w.say(id, content.Error, at, length, want, format, a...)
	}
	u, err := url.Parse(strings.TrimSpace(dest))
	switch {
	case err != nil || u.Scheme == "" && u.Host != "":
		dead("dead-link", "write the whole address, https://example.org/, or a file of the guide", "%q can't be read as an address", dest)
	case u.Scheme == "http" || u.Scheme == "https":
		if u.Host == "" {
			dead("dead-link", "write the whole address: https://example.org/", "%q names no host", dest)
			return
		}
		l.SetAttributeString("rel", []byte("external noopener"))
		l.Destination = []byte(dest)
	case slices.Contains([]string{"mailto", "tel", "sms", "geo"}, u.Scheme):
		l.Destination = []byte(dest)
	case u.Scheme != "":
		dead("dead-link", "links start with https: or mailto:, or name a file of the guide", "a link that starts with %q is not printed", u.Scheme+":")
	case u.Path == "": // an anchor of this text
		l.Destination = []byte(dest)
		if u.Fragment != "" {
			l.Destination = []byte("#" + w.anchor(w.prefix, u.Fragment))
			if !w.ids[w.anchor(w.prefix, u.Fragment)] {
				dead("dead-anchor", noSuchHeading, "no heading of %s gives %q", w.body.File, "#"+u.Fragment)
			}
		}
	default:
		file := path.Join(path.Dir(w.body.File), u.Path)
		if strings.HasPrefix(u.Path, "/") {
			file = strings.TrimPrefix(path.Clean(u.Path), "/")
		}
		to, ok := w.p.Deps.Site.Page(file)
		if !ok {
			dead("dead-link", "link to a file of the guide, such as ../notes/sampling.md", "no file %s becomes a page", strconv.Quote(file))
			return
		}
		if u.Fragment != "" {
			a := w.anchor("t", u.Fragment)
			if to += "#" + a; !w.p.headingsOf(file)[a] {
				dead("dead-anchor", noSuchHeading, "no heading of %s gives %q", file, "#"+u.Fragment)
			}
		}
		l.Destination = []byte(w.p.Deps.Site.Link(w.address, to))
	}
}

const noSuchHeading = "write the heading in small letters, with hyphens for spaces, or link to the page alone"

// headingsOf lists the ids that the headings of another text have on its own page.
func (p *Printer) headingsOf(file string) map[string]bool {
	var body species.Body
	title := ""
	for _, f := range p.book.Flies {
		if f.File == file {
			body = f.Body
		}
	}
	for _, n := range p.book.Edition.Notes {
		if n.Body.File == file {
			body, title = n.Body, n.Title
		}
	}
	if tooManyCells([]byte(body.Markdown)) {
		return nil // its own page reports that
	}
	w := p.reading("", body, "t", title != "" && sameTitle(body.Markdown, title))
	return w.ids
}

// where finds a destination in the source, from the node's own place on.
func (w *walker) where(n ast.Node, dest string) (offset, length int) {
	from := max(0, min(n.Pos(), len(w.src)))
	if i := bytes.Index(w.src[from:], []byte(dest)); i >= 0 && dest != "" {
		return from + i, len(dest)
	}
	return from, 1
}

// headings moves a text's headings below the page's own, without skipping a level.
func (w *walker) headings(top int) {
	var open []int // levels as written, outermost first
	ast.Walk(w.doc, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !in {
			return ast.WalkContinue, nil
		}
		for len(open) > 0 && open[len(open)-1] >= h.Level {
			open = open[:len(open)-1]
		}
		open = append(open, h.Level)
		h.Level = min(6, top+len(open)-1)
		return ast.WalkSkipChildren, nil
	})
}

// anchor is the id of a heading, but for the number of one that stands twice.
func (w *walker) anchor(prefix, words string) string {
	return strings.TrimRight(prefix+"-"+slug.Make(words), "-")
}

func (w *walker) id(words string) string {
	base := w.anchor(w.prefix, words)
	id := base
	for n := 2; w.ids[id]; n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	w.ids[id] = true
	return id
}

func plainText(n ast.Node, src []byte) string {
	var b strings.Builder
	ast.Walk(n, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if in {
			switch t := n.(type) {
			case *ast.Text:
				b.Write(t.Segment.Value(src))
				if t.SoftLineBreak() {
					b.WriteByte(' ')
				}
			case *ast.String:
				b.Write(t.Value)
			}
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}

// ourHTML lets a wide table scroll in a box of its own, and links without a page stand as text.
type ourHTML struct{ label string }

func (o ourHTML) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(extast.KindTable, func(w util.BufWriter, _ []byte, n ast.Node, in bool) (ast.WalkStatus, error) {
		if in {
			w.WriteString(`<div class="scroll" role="group" tabindex="0" aria-label="` + lang.Escape(o.label) + "\">\n<table class=\"plain\">\n")
		} else {
			w.WriteString("</tbody>\n</table>\n</div>\n")
		}
		return ast.WalkContinue, nil
	})
	r.Register(extast.KindTableHeader, func(w util.BufWriter, _ []byte, n ast.Node, in bool) (ast.WalkStatus, error) {
		if in {
			w.WriteString("<thead>\n<tr>\n")
		} else {
			w.WriteString("</tr>\n</thead>\n<tbody>\n")
		}
		return ast.WalkContinue, nil
	})
	r.Register(extast.KindTableRow, func(w util.BufWriter, _ []byte, n ast.Node, in bool) (ast.WalkStatus, error) {
		if in {
			w.WriteString("<tr>\n")
		} else {
			w.WriteString("</tr>\n")
		}
		return ast.WalkContinue, nil
	})
	r.Register(extast.KindTableCell, func(w util.BufWriter, _ []byte, n ast.Node, in bool) (ast.WalkStatus, error) {
		head := n.Parent().Kind() == extast.KindTableHeader
		switch {
		case in && head:
			w.WriteString(`<th scope="col">`)
		case in:
			w.WriteString("<td>")
		case head:
			w.WriteString("</th>\n")
		default:
			w.WriteString("</td>\n")
		}
		return ast.WalkContinue, nil
	})
	r.Register(ast.KindLink, func(w util.BufWriter, _ []byte, n ast.Node, in bool) (ast.WalkStatus, error) {
		l := n.(*ast.Link)
		if l.Destination == nil || html.IsDangerousURL(l.Destination) {
			return ast.WalkContinue, nil
		}
		if !in {
			w.WriteString("</a>")
			return ast.WalkContinue, nil
		}
		w.WriteString(`<a href="`)
		w.Write(util.EscapeHTML(util.URLEscape(l.Destination, true)))
		w.WriteByte('"')
		if l.Title != nil {
			w.WriteString(` title="`)
			w.Write(util.EscapeHTML(l.Title))
			w.WriteByte('"')
		}
		if rel, ok := l.AttributeString("rel"); ok {
			w.WriteString(` rel="`)
			w.Write(rel.([]byte))
			w.WriteByte('"')
		}
		w.WriteByte('>')
		return ast.WalkContinue, nil
	})
}

// capped is a buffer that stops growing.
type capped struct {
	bytes.Buffer
	left int
}

func (c *capped) Write(b []byte) (int, error) {
	if c.left -= len(b); c.left < 0 {
		return 0, fmt.Errorf("too long")
	}
	return c.Buffer.Write(b)
}
