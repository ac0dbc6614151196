package page

// Pages that are mostly text: notes, glossary, sources, credits, corrections, cautions, not found.

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
)

func (p *Printer) notes() []guide.Note {
	if p.book.Edition == nil {
		return nil
	}
	return p.book.Edition.Notes
}

// NoteModel is a page of the guide's own.
type NoteModel struct {
	Frame
	Text    Prose
	Members bool
	Others  []Link
}

func (p *Printer) note(n guide.Note) (NoteModel, []content.Problem) {
	at := notePage(n.Address)
	m := NoteModel{Frame: p.frame("note", at, n.Title), Members: n.Members}
	m.Description = p.words.Plain("note.description", "title", n.Title, "guide", p.settings().Name)
	var problems []content.Problem
	m.Text, problems = p.proseWithTitle(at, n.Body, n.Title)
	for _, o := range p.notes() {
		if o.Address != n.Address {
			m.Others = append(m.Others, p.link(at, notePage(o.Address), o.Title))
		}
	}
	return m, problems
}

// GlossaryModel explains the guide's characters and the site's own terms.
type GlossaryModel struct {
	Frame
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
	m := GlossaryModel{Frame: p.frame("glossary", GlossaryPage, w.Plain("glossary.title"))}
	m.Description = w.Plain("glossary.description")
	if p.book.Edition != nil {
		for _, c := range p.book.Edition.Characters {
			g := GlossCharacter{ID: termID(c.Name), Name: c.Name, Needs: w.Or("needs", string(c.Needs)), About: c.About}
			var seen []string
			for _, s := range c.Seen {
				seen = append(seen, p.caseOf(s.Stage, s.Sex, ""))
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
	slices.SortStableFunc(m.Terms, func(a, b GlossTerm) int { return cmp.Compare(strings.ToLower(a.Term), strings.ToLower(b.Term)) })
	return m
}

// SourcesModel lists what the guide cites.
type SourcesModel struct {
	Frame
	Sources []SourceView
}

// SourceView is one source.
type SourceView struct {
	ID      string
	Link    Link // to the list of sources, from other pages
	Cite    string
	Kind    string
	Read    string
	Outside Link // DOI or address
	ISBN    string
	Licence string
}

func (p *Printer) source(s source, key string) SourceView {
	v := SourceView{ID: sourceID(key), Cite: s.cite(key), Kind: p.words.Or("source_kind", s.Kind), ISBN: s.ISBN, Licence: s.Licence}
	if s.Read != "" {
		v.Read = p.words.Or("source_read", s.Read)
	}
	switch {
	case s.DOI != "":
		v.Outside = Link{"doi:" + s.DOI, "https://doi.org/" + s.DOI}
	case strings.HasPrefix(s.URL, "https://"), strings.HasPrefix(s.URL, "http://"):
		v.Outside = Link{s.URL, s.URL}
	case s.URL != "":
		v.Outside = Link{Text: s.URL}
	}
	return v
}

func (p *Printer) sourcesModel() SourcesModel {
	m := SourcesModel{Frame: p.frame("sources", SourcesPage, p.words.Plain("sources.title"))}
	m.Description = p.words.Plain("sources.description", "guide", p.settings().Name)
	for _, k := range sortedKeys(p.sources) {
		m.Sources = append(m.Sources, p.source(p.sources[k], k))
	}
	slices.SortStableFunc(m.Sources, func(a, b SourceView) int { return cmp.Compare(strings.ToLower(a.Cite), strings.ToLower(b.Cite)) })
	return m
}

// CreditsModel says who made the guide, under which licence, and with what.
type CreditsModel struct {
	Frame
	About   string
	Contact string
	Roles   []RoleView
	People  []string
	Photos  []PhotoCredit
	Carried []ScriptView
}

// RoleView is an office of the club.
type RoleView struct {
	Name, Who string
	Until     Date
}

// ScriptView is a script by others.
type ScriptView struct{ Name, Version, Licence string }

func (p *Printer) credits() (CreditsModel, error) {
	s := p.settings()
	m := CreditsModel{Frame: p.frame("credits", CreditsPage, p.words.Plain("credits.title")), About: s.About, Contact: s.Contact}
	m.Description = p.words.Plain("credits.description", "guide", s.Name)
	for _, r := range s.Roles {
		m.Roles = append(m.Roles, RoleView{p.words.Or("role", r.Name), r.Who, p.words.date(r.Until)})
	}
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
	var err error
	m.Carried, err = vendored()
	return m, err
}

// CorrectionsModel lists what was put right.
type CorrectionsModel struct {
	Frame
	Corrections []CorrectionView
}

// CorrectionView is one of them, newest first.
type CorrectionView struct {
	ID                         string
	Date                       Date
	By, What, Before, Now, Why string
	Page                       Link
}

func (p *Printer) corrections() CorrectionsModel {
	m := CorrectionsModel{Frame: p.frame("corrections", CorrectionsPage, p.words.Plain("corrections.title"))}
	m.Description = p.words.Plain("corrections.description", "guide", p.settings().Name)
	if p.book.Edition == nil {
		return m
	}
	list := slices.Clone(p.book.Edition.Corrections)
	slices.SortStableFunc(list, func(a, b guide.Correction) int { return -a.Date.Sub(b.Date) })
	for i, c := range list {
		v := CorrectionView{ID: "c" + strconv.Itoa(len(list)-i), Date: p.words.date(c.Date), By: c.By, What: c.What, Before: c.Before, Now: c.After, Why: c.Why}
		v.Page = Link{Text: c.File}
		if to, ok := p.deps.Site.Page(c.File); ok {
			v.Page = p.link(CorrectionsPage, to, c.File)
		}
		m.Corrections = append(m.Corrections, v)
	}
	return m
}

// CautionsModel is what to mind before any advice on flies.
type CautionsModel struct {
	Frame
	Items  []CautionView
	Waters []WaterHazards
	Notes  []Link
}

// CautionView is one caution with what it rests on.
type CautionView struct {
	ID, Title string
	Text      []string
	Source    string
}

// WaterHazards are one water's own.
type WaterHazards struct {
	Water   Link
	Hazards []string
	Code    string
	Meet    string
	At      string
	Rules   string
	Seasons []SeasonView
}

// cautionKeys are the usual cautions, in order of how fast they can hurt.
var cautionKeys = []string{"right", "wading", "cold", "lines", "storms", "alone", "eyes", "disease", "stock", "clean", "collecting", "heat", "flies", "people"}

func (p *Printer) cautions() CautionsModel {
	w := p.words
	m := CautionsModel{Frame: p.frame("cautions", CautionsPage, w.Plain("cautions.title"))}
	m.Description = w.Plain("cautions.description")
	for _, k := range cautionKeys {
		c := CautionView{ID: "caution-" + k, Title: w.Plain("caution." + k + ".title"), Source: w.Plain("caution." + k + ".source")}
		for i := 1; w.Has("caution." + k + ".p" + strconv.Itoa(i)); i++ {
			c.Text = append(c.Text, w.Plain("caution."+k+".p"+strconv.Itoa(i)))
		}
		m.Items = append(m.Items, c)
	}
	for _, x := range p.book.Waters {
		h := WaterHazards{Water: p.waterLink(CautionsPage, x), Code: x.Code.S, Meet: x.Meet.S, At: meetAt(x), Rules: x.Rules.S, Seasons: p.seasons(x)}
		for _, t := range x.Hazards {
			h.Hazards = append(h.Hazards, t.S)
		}
		m.Waters = append(m.Waters, h)
	}
	for _, n := range p.notes() {
		m.Notes = append(m.Notes, p.link(CautionsPage, notePage(n.Address), n.Title))
	}
	return m
}

// NotFoundModel stands where a page is missing.
type NotFoundModel struct {
	Frame
	Search Link
	Front  Link
	Waters []Link
}

func (p *Printer) notFound() NotFoundModel {
	m := NotFoundModel{Frame: p.frame("notfound", NotFoundPage, p.words.Plain("notfound.title"))}
	m.Description = m.Title
	m.Search = p.link(NotFoundPage, SearchPage, p.words.Plain("notfound.search"))
	m.Front = p.link(NotFoundPage, FrontPage, p.words.Plain("notfound.home"))
	for _, w := range p.book.Waters {
		m.Waters = append(m.Waters, p.waterLink(NotFoundPage, w))
	}
	return m
}

// meetAt is the coordinates of a water's meeting place: a rescue service knows no club's code.
func meetAt(w *figures.Water) string {
	if !w.HasMeetAt {
		return ""
	}
	return w.MeetAt.String()
}
