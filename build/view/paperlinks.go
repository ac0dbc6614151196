package view

// Links to the pages made for paper.

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
)

// PaperLinks lead to a water's pages made for paper, or with no water to the guide's, and to their
// PDFs where those were made.
func (p *Printer) PaperLinks(at string, w *figures.Water) []lang.Link {
	words := p.words
	var out []lang.Link
	add := func(page, text string) {
		out = append(out, p.Link(at, page, text))
		if p.Deps.PDF == nil {
			return
		}
		if pdf := p.Deps.PDF(page); pdf != "" {
			out = append(out, p.Link(at, pdf, words.Plain("paper.pdf", "what", text)))
		}
	}
	if w == nil {
		add(WholeBooklet, words.Plain("booklet.whole"))
		return out
	}
	add(PocketPage(w), words.Plain("pocket.title", "water", w.Name.S))
	add(WaterBooklet(w), words.Plain("booklet.of", "water", w.Name.S))
	return out
}
