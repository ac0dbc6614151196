package page

// Pages that are mostly text: notes, glossary, sources, credits, corrections, cautions, not found.

import (
	"slices"
	"strconv"

	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
)

// NoteModel is a page of the guide's own.
type NoteModel struct {
	view.Frame
	Text    view.Prose
	Members bool
	Others  []lang.Link
}

func (p *Printer) note(n guide.Note) (NoteModel, []content.Problem) {
	at := view.NotePage(n.Address)
	m := NoteModel{Frame: p.Frame("note", at, n.Title), Members: n.Members}
	m.Description = p.words.Plain("note.description", "title", n.Title, "guide", p.Settings().Name)
	var problems []content.Problem
	m.Text, problems = p.ProseWithTitle(at, n.Body, n.Title)
	for _, o := range p.Notes() {
		if o.Address != n.Address {
			m.Others = append(m.Others, p.Link(at, view.NotePage(o.Address), o.Title))
		}
	}
	return m, problems
}

// GlossaryModel explains the guide's characters and the site's own terms.
type GlossaryModel struct {
	view.Frame
	Characters []GlossCharacter
	Terms      []GlossTerm
}

// GlossCharacter is one character of the vocabulary.
type GlossCharacter struct {
	ID, Name string
	Needs    string
	Seen     string
	About    string
	States   []GlossTerm
}

// GlossTerm is a term and what it means.
type GlossTerm struct{ ID, Term, Text string }

// glossTerms are the site's own terms.
var glossTerms = []string{"upwinged", "dun", "spinner", "spent", "nymph", "pupa", "adult", "emergence", "fall", "land_bred", "water_bred", "flight",
	"half_month", "visit", "effort", "scope", "chance", "range", "lent", "account", "thin", "shank", "gape", "level", "look_alike", "couplet",
	"sieve", "dafor", "spring_fed", "rain_fed", "tailwater"}

func (p *Printer) glossary() GlossaryModel {
	w := p.words
	m := GlossaryModel{Frame: p.Frame("glossary", view.GlossaryPage, w.Plain("glossary.title"))}
	m.Description = w.Plain("glossary.description")
	if p.book.Edition != nil {
		for _, c := range p.book.Edition.Characters {
			g := GlossCharacter{ID: view.TermID(c.Name), Name: c.Name, Needs: w.Or("needs", string(c.Needs)), About: c.About}
			var seen []string
			for _, s := range c.Seen {
				seen = append(seen, p.CaseOf(s.Stage, s.Sex, ""))
			}
			g.Seen = w.List(seen)
			for _, s := range c.States {
				g.States = append(g.States, GlossTerm{Term: s.Name, Text: s.About})
			}
			m.Characters = append(m.Characters, g)
		}
	}
	for _, t := range glossTerms {
		m.Terms = append(m.Terms, GlossTerm{"t-" + t, w.Plain("gloss." + t + ".term"), w.Plain("gloss." + t + ".text")})
	}
	slices.SortStableFunc(m.Terms, func(a, b GlossTerm) int { return p.Settings().Alphabet.Compare(a.Term, b.Term) })
	return m
}

// CreditsModel says who made the guide, under which licence, and with what.
type CreditsModel struct {
	view.Frame
	About   string
	Contact string
	Roles   []view.RoleView
	People  []string
	Photos  []PhotoCredit
	Carried []view.ScriptView
}

func (p *Printer) credits() CreditsModel {
	s := p.Settings()
	m := CreditsModel{Frame: p.Frame("credits", view.CreditsPage, p.words.Plain("credits.title")), About: s.About, Contact: s.Contact}
	m.Description = p.words.Plain("credits.description", "guide", s.Name)
	m.Roles = p.Roles()
	for _, w := range p.book.Waters {
		for _, r := range w.Coverage.Recorders {
			if r.Shown != "" {
				m.People = append(m.People, r.Shown)
			}
		}
	}
	slices.Sort(m.People)
	m.People = slices.Compact(m.People)
	m.Photos = p.photoCredits()
	m.Carried = view.Vendored()
	return m
}

// CorrectionsModel lists what was put right.
type CorrectionsModel struct {
	view.Frame
	Corrections []CorrectionView
}

// CorrectionView is one of them, newest first.
type CorrectionView struct {
	ID                         string
	Date                       lang.Date
	By, What, Before, Now, Why string
	Page                       lang.Link
}

func (p *Printer) corrections() CorrectionsModel {
	m := CorrectionsModel{Frame: p.Frame("corrections", view.CorrectionsPage, p.words.Plain("corrections.title"))}
	m.Description = p.words.Plain("corrections.description", "guide", p.Settings().Name)
	if p.book.Edition == nil {
		return m
	}
	list := slices.Clone(p.book.Edition.Corrections)
	slices.SortStableFunc(list, func(a, b guide.Correction) int { return -a.Date.Sub(b.Date) })
	for i, c := range list {
		v := CorrectionView{ID: "c" + strconv.Itoa(len(list)-i), Date: p.words.DateOf(c.Date), By: c.By, What: c.What, Before: c.Before, Now: c.After, Why: c.Why}
		v.Page = lang.Link{Text: c.File}
		if to, ok := p.Deps.Site.Page(c.File); ok {
			v.Page = p.Link(view.CorrectionsPage, to, c.File)
		}
		m.Corrections = append(m.Corrections, v)
	}
	return m
}

// ChangesModel is what changed, newest first.
type ChangesModel struct {
	view.Frame
	Changes     []ChangeView
	Feed        lang.Link
	Corrections lang.Link
}

// ChangeView is what changed on one page on one day.
type ChangeView struct {
	ID    string
	On    lang.Date
	Title lang.Link
	Lines []string
}

func (p *Printer) changes() ChangesModel {
	m := ChangesModel{Frame: p.Frame("changes", view.ChangesPage, p.words.Plain("changes.title"))}
	m.Description = p.words.Plain("changes.description", "guide", p.Settings().Name)
	m.Corrections = p.Link(view.ChangesPage, view.CorrectionsPage, p.words.Plain("foot.corrections"))
	for _, d := range p.Deps.Downloads {
		if d.Address == share.ChangesFeed {
			m.Feed = p.Link(view.ChangesPage, d.Address, p.words.Plain("changes.feed"))
		}
	}
	for i, n := range p.Deps.News {
		v := ChangeView{ID: "n" + strconv.Itoa(len(p.Deps.News)-i), Title: p.Link(view.ChangesPage, n.Page, n.Title), Lines: n.Lines}
		if d, err := calendar.ParseDate(n.On); err == nil {
			v.On = p.words.DateOf(d)
		}
		m.Changes = append(m.Changes, v)
	}
	return m
}

// NotFoundModel stands where a page is missing.
type NotFoundModel struct {
	view.Frame
	Search lang.Link
	Front  lang.Link
	Waters []lang.Link
}

func (p *Printer) notFound() NotFoundModel {
	m := NotFoundModel{Frame: p.Frame("notfound", view.NotFoundPage, p.words.Plain("notfound.title"))}
	m.Description = m.Title
	m.Search = p.Link(view.NotFoundPage, view.SearchPage, p.words.Plain("notfound.search"))
	m.Front = p.Link(view.NotFoundPage, view.FrontPage, p.words.Plain("notfound.home"))
	for _, w := range p.book.Waters {
		m.Waters = append(m.Waters, p.WaterLink(view.NotFoundPage, w))
	}
	return m
}
