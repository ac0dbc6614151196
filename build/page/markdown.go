package page

// Markdown of accounts and notes as safe HTML: no raw HTML, no dangerous links; links to files of
// the guide become links between pages; headings start below the page's own; ids have a prefix,
// so that two texts on one page never clash.

import (
	"bytes"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"strconv"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"github.com/gosimple/slug"

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

// prose turns a text into HTML for a page at an address. top is the level of its highest heading,
// 2 under the page's h1; prefix starts its ids.
func (p *Printer) prose(address string, body species.Body, top int, prefix string) (Prose, []content.Problem) {
	return p.proseShifting(address, body, top, prefix, false)
}

// proseWithTitle is prose whose first heading, where it repeats the page's title, is left out.
func (p *Printer) proseWithTitle(address string, body species.Body, title string) (Prose, []content.Problem) {
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
	doc := p.markdown.Parser().Parse(text.NewReader(src))
	w := &walker{p: p, address: address, body: body, src: src, prefix: prefix, ids: map[string]bool{}}
	if dropFirst {
		if h, ok := doc.FirstChild().(*ast.Heading); ok {
			doc.RemoveChild(doc, h)
		}
	}
	w.links(doc)
	w.headings(doc, top)
	out := &capped{left: longestText}
	err := p.markdown.Renderer().Render(out, src, doc)
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
	var images []ast.Node
	ast.Walk(doc, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if !in {
			return ast.WalkContinue, nil
		}
		switch l := n.(type) {
		case *ast.Link:
			l.Destination = w.link(l, string(l.Destination))
		case *ast.Image:
			images = append(images, l)
		}
		return ast.WalkContinue, nil
	})
	for _, i := range images {
		at, n := w.where(i, string(i.(*ast.Image).Destination))
		w.say("picture-in-text", content.Warning, at, n, "list it in photos.yaml with credit and permission", "a picture in the text is not printed")
		words := ast.NewString([]byte(plainText(i, w.src)))
		i.Parent().ReplaceChild(i.Parent(), i, words)
	}
}

func (w *walker) link(n *ast.Link, dest string) []byte {
	u, err := url.Parse(dest)
	if err != nil || u.Scheme != "" || u.Host != "" {
		if err == nil && u.Scheme != "" {
			n.SetAttributeString("rel", []byte("external noopener"))
		}
		return []byte(dest)
	}
	if u.Path == "" { // an anchor of this text
		if u.Fragment != "" {
			return []byte("#" + w.prefix + "-" + slug.Make(u.Fragment))
		}
		return []byte(dest)
	}
	file := path.Join(path.Dir(w.body.File), u.Path)
	if strings.HasPrefix(u.Path, "/") {
		file = strings.TrimPrefix(path.Clean(u.Path), "/")
	}
	to, ok := w.p.deps.Site.Page(file)
	if !ok {
		at, length := w.where(n, dest)
		w.say("dead-link", content.Error, at, length, "link to a file of the guide, such as ../notes/sampling.md", "no file %s becomes a page", strconv.Quote(file))
		return nil
	}
	if u.Fragment != "" {
		to += "#t-" + slug.Make(u.Fragment)
	}
	return []byte(w.p.deps.Site.Link(w.address, to))
}

// where finds a destination in the source, from the node's own place on.
func (w *walker) where(n ast.Node, dest string) (offset, length int) {
	from := max(0, min(n.Pos(), len(w.src)))
	if i := bytes.Index(w.src[from:], []byte(dest)); i >= 0 && dest != "" {
		return from + i, len(dest)
	}
	return from, 1
}

// headings moves a text's headings below the page's own, without skipping a level, and gives them ids.
func (w *walker) headings(doc ast.Node, top int) {
	var open []int // levels as written, outermost first
	ast.Walk(doc, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !in {
			return ast.WalkContinue, nil
		}
		for len(open) > 0 && open[len(open)-1] >= h.Level {
			open = open[:len(open)-1]
		}
		open = append(open, h.Level)
		h.Level = min(6, top+len(open)-1)
		h.SetAttributeString("id", []byte(w.id(plainText(h, w.src))))
		return ast.WalkSkipChildren, nil
	})
}

func (w *walker) id(words string) string {
	base := strings.TrimRight(w.prefix+"-"+slug.Make(words), "-")
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
			w.WriteString(`<div class="scroll" role="group" tabindex="0" aria-label="` + escape(o.label) + "\">\n<table class=\"plain\">\n")
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
