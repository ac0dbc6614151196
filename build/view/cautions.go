package view

// What to mind before any advice, and who to turn to.

import (
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
)

// Notes are the guide's own pages of the edition.
func (p *Printer) Notes() []guide.Note {
	if p.book.Edition == nil {
		return nil
	}
	return p.book.Edition.Notes
}

// RoleView is an office of the club.
type RoleView struct {
	Name, Who string
	Until     lang.Date
}

// CautionsModel is what to mind before any advice on flies.
type CautionsModel struct {
	Frame
	Items  []CautionView
	Waters []WaterHazards
	Notes  []lang.Link
}

// CautionView is one caution with what it rests on.
type CautionView struct {
	ID, Title string
	Text      []string
	Source    string
}

// WaterHazards are one water's own.
type WaterHazards struct {
	Water   lang.Link
	Hazards []string
	Code    string
	Meet    string
	At      string
	Rules   string
	Seasons []SeasonView
}

// cautionKeys are the usual cautions, in order of how fast they can hurt.
var cautionKeys = []string{"right", "wading", "cold", "lines", "storms", "alone", "eyes", "disease", "stock", "clean", "collecting", "heat", "flies", "people"}

// Cautions are the usual cautions, the waters' own hazards and what to do in an emergency.
func (p *Printer) Cautions() CautionsModel {
	w := p.words
	m := CautionsModel{Frame: p.Frame("cautions", CautionsPage, w.Plain("cautions.title"))}
	m.Description = w.Plain("cautions.description")
	for _, k := range cautionKeys {
		c := CautionView{ID: "caution-" + k, Title: w.Plain("caution." + k + ".title"), Source: w.Plain("caution." + k + ".source")}
		for i := 1; w.Has("caution." + k + ".p" + strconv.Itoa(i)); i++ {
			c.Text = append(c.Text, w.Plain("caution."+k+".p"+strconv.Itoa(i)))
		}
		m.Items = append(m.Items, c)
	}
	for _, x := range p.book.Waters {
		h := WaterHazards{Water: p.WaterLink(CautionsPage, x), Code: x.Code.S, Meet: x.Meet.S, At: MeetAt(x), Rules: x.Rules.S, Seasons: p.Seasons(x)}
		for _, t := range x.Hazards {
			h.Hazards = append(h.Hazards, t.S)
		}
		m.Waters = append(m.Waters, h)
	}
	for _, n := range p.Notes() {
		m.Notes = append(m.Notes, p.Link(CautionsPage, NotePage(n.Address), n.Title))
	}
	return m
}

// MeetAt is the coordinates of a water's meeting place: a rescue service knows no club's code.
func MeetAt(w *figures.Water) string {
	if !w.HasMeetAt {
		return ""
	}
	return strings.TrimPrefix(w.MeetAt.Grid+"; "+w.MeetAt.String(), "; ")
}

// Roles are the offices of the club.
func (p *Printer) Roles() (out []RoleView) {
	for _, r := range p.Settings().Roles {
		out = append(out, RoleView{p.words.Or("role", r.Name), r.Who, p.words.DateOf(r.Until)})
	}
	return out
}
