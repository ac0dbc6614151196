package page

// What is due, and how the guide is handed over: for those who look after it, in the members' edition.

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// DueModel is the page of what is due.
type DueModel struct {
	view.Frame
	About string
	Kinds []DueKind
	Ends  []EndView
}

// DueKind is all that is due of one kind.
type DueKind struct {
	ID, Heading string
	Lines       []string
}

// EndView is something that ends.
type EndView struct {
	What string
	On   lang.Date
	Past bool
}

func (p *Printer) due() DueModel {
	w := p.words
	m := DueModel{Frame: p.Frame("due", view.DuePage, w.Plain("due.title")), About: w.Plain("due.about", "date", w.DateOf(p.book.Built)), Ends: p.ends()}
	m.Description = m.About
	m.Way = []lang.Link{p.Link(view.DuePage, view.RecordsPage, w.Plain("foot.records"))}
	for _, id := range figures.DueOrder {
		var of []figures.Prompt
		for _, d := range p.book.Due {
			if d.ID == id {
				of = append(of, d)
			}
		}
		if len(of) > 0 {
			m.Kinds = append(m.Kinds, DueKind{id, w.Plain("due_kind." + id), p.promptsOf(of)})
		}
	}
	return m
}

func (p *Printer) ends() []EndView {
	var out []EndView
	for _, e := range p.book.Edition.Endings(p.book.Built) {
		v := EndView{On: p.words.DateOf(e.On), Past: e.Past}
		switch {
		case e.Photo != "":
			v.What = p.words.Plain("due.photo", "photo", e.Photo)
		case e.Who == "":
			v.What = p.words.Or("role", e.Role)
		default:
			v.What = p.words.Plain("due.role", "role", p.words.Or("role", e.Role), "who", e.Who)
		}
		out = append(out, v)
	}
	return out
}

// HandoverModel is the page for whoever takes the guide on.
type HandoverModel struct {
	view.Frame
	About  string
	Holds  []HeldView
	Upload string
	Roles  []view.RoleView
	Ends   []EndView
	Due    lang.Link
}

// HeldView is how many of a kind the guide's folder holds.
type HeldView struct {
	What string
	N    content.Figure
}

func (p *Printer) handover() HandoverModel {
	w, e := p.words, p.book.Edition
	m := HandoverModel{Frame: p.Frame("handover", view.HandoverPage, w.Plain("handover.title")), About: w.Plain("handover.about", "guide", e.Settings.Name),
		Roles: p.Roles(), Ends: p.ends(), Due: p.Link(view.HandoverPage, view.DuePage, w.Plain("due.title"))}
	m.Description = m.About
	m.Way = []lang.Link{p.Link(view.HandoverPage, view.RecordsPage, w.Plain("foot.records"))}
	for _, x := range []struct {
		word string
		n    int
	}{{"accounts", len(e.Accounts)}, {"waters", len(e.Waters)}, {"dressings", len(e.Dressings)}, {"visits", len(e.Visits)}, {"photos", len(e.Photos)}} {
		m.Holds = append(m.Holds, HeldView{w.Plain("handover." + x.word), view.Count(x.n, content.Basis{})})
	}
	m.Upload = w.Plain("handover.upload_anywhere")
	if e.Settings.Address != "" {
		m.Upload = w.Plain("handover.upload", "address", e.Settings.Address)
	}
	return m
}
