package build

// Printing: the pages made for paper as PDF, by a Chromium that the machine has. They are printed
// from the stage, before the pages that link to them are drawn, so that a link stands only where a
// file does. A site without them is whole: whoever reads it prints the pages from a browser.

import (
	"errors"
	"fmt"

	"guidegen/build/paper"
	"guidegen/build/press"
	"guidegen/build/site"
	"guidegen/build/view"
)

// printing is a stage whose paper pages are to be printed. A nil one prints nothing.
type printing struct {
	stage   *site.Stage
	browser string
	made    map[string]string // page → PDF
}

// pdf is the PDF of a page, "" where none was made.
func (p *printing) pdf(page string) string {
	if p == nil {
		return ""
	}
	return p.made[page]
}

// print writes the PDFs. What keeps the browser from its work is no error: the report says so.
func (r *Report) print(jobs []paper.ForPrint, p *printing, to write) error {
	b, err := press.Open(p.browser, p.stage.Dir(), r.Date)
	if err != nil {
		r.NotPrinted = err.Error()
		if errors.Is(err, press.ErrNoBrowser) {
			r.NotPrinted = press.ErrNoBrowser.Error()
		}
		return nil
	}
	defer b.Close()
	for _, j := range jobs {
		pdf, err := b.Print(press.Job{Page: j.Page, Booklet: j.Booklet})
		if err != nil {
			r.NotPrinted = err.Error()
			return nil // what was printed so far is sound, and stands
		}
		if err := to(j.PDF, pdf); err != nil {
			return fmt.Errorf("%s: %w", j.PDF, err)
		}
		p.made[j.Page] = j.PDF
		r.PDFs++
		r.Files++
	}
	return nil
}

// forPaper parts the files that the press needs, with the styles they ask for, from the rest.
func forPaper(files []file, jobs []paper.ForPrint) (paper, rest []file) {
	wanted := map[string]bool{}
	for _, j := range jobs {
		wanted[j.Page] = true
	}
	for _, f := range files {
		if wanted[f.address] || view.IsAsset(f.address) {
			paper = append(paper, f)
		} else {
			rest = append(rest, f)
		}
	}
	return paper, rest
}
