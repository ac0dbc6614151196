package main

// How problems and reports are printed, for people and as JSON.

import (
	"encoding/json"
	"io"
	"strings"

	"guidegen/build"
	"guidegen/content"
)

// printProblems prints each problem with its line. Of a command that goes no further only what stops it is printed:
// the errors, and the note on problems that follow from them.
func printProblems(w io.Writer, r *build.Report, stopped bool) {
	for _, p := range r.Problems {
		if !stopped || p.Grade == content.Error || p.ID == content.NotShown {
			r.Collector().Print(w, p)
		}
	}
}

// counts words how many problems there are: "2 errors, 1 warning".
func counts(r *build.Report) string {
	var s []string
	for _, g := range []content.Grade{content.Error, content.Warning, content.Note} {
		if n := r.Count(g); n > 0 {
			s = append(s, several(n, g.String()))
		}
	}
	if r.Acknowledged > 0 {
		s = append(s, several(r.Acknowledged, "acknowledged warning"))
	}
	if len(s) == 0 {
		return "no problems"
	}
	return strings.Join(s, ", ")
}

var several = content.Several

// of words an edition.
func of(e build.Edition) string {
	if e == build.AnyEdition {
		return "both editions"
	}
	return string(e) + " edition"
}

// reportJSON is a report as JSON.
type reportJSON struct {
	Guide        guideJSON     `json:"guide"`
	Edition      string        `json:"edition,omitempty"` // absent: both
	Date         string        `json:"date"`
	Out          string        `json:"out,omitempty"` // absent: nothing was written
	Pages        int           `json:"pages"`
	Files        int           `json:"files"`
	Changed      int           `json:"changed"`               // files new or other since the site that stood there before
	ToMove       int64         `json:"bytes_to_move"`         // of these, for an upload
	PDFs         int           `json:"pdfs,omitempty"`        // of the files
	NotPrinted   string        `json:"not_printed,omitempty"` // why PDFs asked for are missing
	Errors       int           `json:"errors"`
	Warnings     int           `json:"warnings"`
	Notes        int           `json:"notes"`
	Acknowledged int           `json:"acknowledged"`
	Problems     []problemJSON `json:"problems"`
}

type guideJSON struct {
	Name   string `json:"name"`
	Chosen string `json:"chosen"` // named, here, demo
	Folder string `json:"folder,omitempty"`
}

type problemJSON struct {
	placeJSON
	ID      string    `json:"id"`
	Grade   string    `json:"grade"`
	Message string    `json:"message"`
	Want    string    `json:"want,omitempty"`
	More    string    `json:"more,omitempty"` // where the same stands again, in words
	Also    *alsoJSON `json:"also,omitempty"`
}

type placeJSON struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Length int    `json:"length,omitempty"` // bytes of the text meant
	Text   string `json:"text,omitempty"`   // the whole line
}

type alsoJSON struct {
	placeJSON
	Message string `json:"message,omitempty"`
}

func placeOf(ps *content.Problems, at content.Place) placeJSON {
	p := placeJSON{File: at.File, Length: at.Len}
	if f := ps.File(at.File); f != nil {
		p.Line, p.Column = f.LineColumn(at.Offset)
		p.Text = f.Line(p.Line)
	}
	return p
}

func chosen(r *build.Report) guideJSON {
	how := map[build.How]string{build.Named: "named", build.Here: "here", build.Demo: "demo"}
	return guideJSON{Name: r.Name, Chosen: how[r.Source.How], Folder: r.Source.Dir}
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func asJSON(r *build.Report) reportJSON {
	j := reportJSON{Guide: chosen(r), Edition: string(r.Edition), Date: r.Date.String(), Out: r.Out, Pages: r.Pages, Files: r.Files, PDFs: r.PDFs, NotPrinted: r.NotPrinted,
		Errors: r.Count(content.Error), Warnings: r.Count(content.Warning), Notes: r.Count(content.Note),
		Changed: r.Changed, ToMove: r.ToMove,
		Acknowledged: r.Acknowledged, Problems: []problemJSON{}}
	for _, p := range r.Problems {
		q := problemJSON{placeJSON: placeOf(r.Collector(), p.At), ID: p.ID, Grade: p.Grade.String(), Message: p.Message, Want: p.Want, More: p.More}
		if !p.Also.IsZero() {
			q.Also = &alsoJSON{placeOf(r.Collector(), p.Also), p.AlsoSay}
		}
		j.Problems = append(j.Problems, q)
	}
	return j
}
