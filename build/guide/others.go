package guide

// The smaller files of a guide: notes, corrections, acknowledgements.

import (
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// NoteRecord is the table of a note's head.
var NoteRecord = &content.Record{Name: "note", Doc: "Any other page.", Fields: []content.Field{
	{Key: "title", Shape: content.Line, Required: true, Doc: "The page's title.", Example: "How to sample"},
	{Key: "show", Shape: content.Choice, Choices: []string{"everyone", "members"}, Doc: "Who may see it."},
	{Key: "in_front", Shape: content.Choice, Choices: []string{"yes", "no"}, Doc: "Whether the front page links to it."},
	{Key: "was", Shape: content.Texts, Doc: "Older addresses that still lead here."},
}}

func readNote(f *content.File, ps *content.Problems) (Note, bool) {
	head, body, offset := content.Front(f, ps)
	n := Note{Address: content.FileAddress(f, ps), At: f.At(0, 0), Body: species.Body{Markdown: body, File: f.Path, Offset: offset}}
	if head.Broken {
		return n, false
	}
	if head.Kind == content.Absent && len(head.Entries) == 0 {
		// A note without a head takes its first heading for its title.
		for line := range strings.Lines(body) {
			if t, ok := strings.CutPrefix(strings.TrimSpace(line), "# "); ok {
				n.Title = strings.TrimSpace(t)
				n.Body.Markdown = strings.Replace(body, line, "\n", 1)
				return n, n.Address != ""
			}
		}
		ps.Errorf("missing-key", f.At(0, 0), "start the file with a head: a line ---, title: …, a line ---", "this note has no title")
		return n, false
	}
	o := NoteRecord.Open(head, ps)
	n.Title, n.Members, n.Was = o.Text("title").S, o.Choice("show") == "members", o.Texts("was", ps)
	n.InFront = o.Choice("in_front") == "yes"
	return n, n.Address != "" && n.Title != ""
}

// CorrectionRecord is the table of one entry of corrections.yaml.
var CorrectionRecord = &content.Record{Name: "correction", Doc: "One thing that was put right.", Fields: []content.Field{
	{Key: "date", Shape: content.Line, Required: true, Doc: "The day it was put right.", Example: "2026-03-02"},
	{Key: "by", Shape: content.Line, Doc: "Who put it right."},
	{Key: "file", Shape: content.Line, Doc: "The file it stood in.", Example: "species/large-dark-olive.md"},
	{Key: "what", Shape: content.Line, Required: true, Doc: "What was put right."},
	{Key: "was", Shape: content.Line, Doc: "What stood there."},
	{Key: "now", Shape: content.Line, Doc: "What stands there now."},
	{Key: "why", Shape: content.Line, Required: true, Doc: "Why."},
}}

// AcknowledgementRecord is the table of one entry of acknowledged.yaml.
var AcknowledgementRecord = &content.Record{Name: "acknowledgement", Doc: "One warning that may stand.", Fields: []content.Field{
	{Key: "problem", Shape: content.Line, Required: true, Doc: "The warning's id.", Example: "outside-every-flight"},
	{Key: "file", Shape: content.Line, Required: true, Doc: "The file it is about."},
	{Key: "text", Shape: content.Line, Required: true, Doc: "The words of the line it is about; it lapses when they no longer stand there."},
	{Key: "by", Shape: content.Line, Required: true, Doc: "Who says so."},
	{Key: "on", Shape: content.Line, Required: true, Doc: "On which day.", Example: "2026-03-02"},
	{Key: "why", Shape: content.Line, Required: true, Doc: "Why it may stand."},
}}

// entries reads a file that is a list of blocks.
func entries(f *content.File, r *content.Record, ps *content.Problems) []content.Opened {
	v := content.ReadYAML(f, ps)
	switch v.Kind {
	case content.Absent:
		return nil
	case content.List:
		var l []content.Opened
		for _, i := range v.Items {
			l = append(l, r.Open(i, ps))
		}
		return l
	}
	ps.Errorf("wrong-shape", v.At, "start each entry with a hyphen", "found %s where a list of entries is wanted", v.Kind)
	return nil
}

func readCorrections(f *content.File, ps *content.Problems) (out []Correction) {
	for _, o := range entries(f, CorrectionRecord, ps) {
		out = append(out, Correction{Date: dateOf(o, "date", ps), By: o.Text("by").S, File: o.Text("file").S, What: o.Text("what").S,
			Before: o.Text("was").S, After: o.Text("now").S, Why: o.Text("why").S, At: o.At})
	}
	return out
}

func readAcknowledgements(f *content.File, ps *content.Problems) (out []Acknowledgement) {
	for _, o := range entries(f, AcknowledgementRecord, ps) {
		out = append(out, Acknowledgement{Problem: o.Text("problem").S, File: o.Text("file").S, Text: o.Text("text").S,
			By: o.Text("by").S, Why: o.Text("why").S, On: dateOf(o, "on", ps), At: o.At})
	}
	return out
}

func dateOf(o content.Opened, key string, ps *content.Problems) calendar.Date {
	t := o.Text(key)
	if t.IsZero() {
		return calendar.Date{}
	}
	d, err := calendar.ParseDate(t.S)
	if err != nil {
		ps.Refuse("bad-date", t, err)
	}
	return d
}

// Acknowledge drops the warnings that the guide lets stand, and reports
// acknowledgements that no longer meet one.
func (g *Guide) Acknowledge(problems []content.Problem, ps *content.Problems) []content.Problem {
	used := make([]bool, len(g.Acknowledged))
	var out []content.Problem
	for _, p := range problems {
		stands := false
		for i, a := range g.Acknowledged {
			if p.Grade == content.Warning && a.Problem == p.ID && a.File == p.At.File && a.By != "" && a.Why != "" && strings.Contains(lineOf(ps, p.At), a.Text) {
				used[i], stands = true, true
			}
		}
		if !stands {
			out = append(out, p)
		}
	}
	for i, a := range g.Acknowledged {
		if !used[i] {
			out = append(out, content.Problem{ID: "lapsed-acknowledgement", Grade: content.Warning, At: a.At,
				Message: "this acknowledges " + a.Problem + " in " + a.File + ", and no such warning stands there any longer",
				Want:    "remove it, or check what changed"})
		}
	}
	return out
}

func lineOf(ps *content.Problems, at content.Place) string {
	f := ps.File(at.File)
	if f == nil {
		return ""
	}
	n, _ := f.LineColumn(at.Offset)
	return f.Line(n)
}
