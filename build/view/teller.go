package view

// The pages' own sentences for those who print without pages: commands on a terminal.

import (
	"strings"
	"time"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species/tying"
)

// Teller says figures of a book as its pages do, in the guide's language and units, as text without marks.
type Teller struct {
	*lang.Words
	p *Printer
}

// NewTeller reads the words of a book's guide.
func NewTeller(book *figures.Book) (Teller, error) {
	w, err := lang.WordsOf(book.Edition.Guide)
	return Teller{w, &Printer{book: book, words: w}}, err
}

// About is what kind of water it is, and how high: "spring-fed, 35–110 m".
func (t Teller) About(w *figures.Water) string { return t.p.KindAndAltitude(w) }

// State says how a fly is on a day, with its tendency; "" for one that is off.
func (t Teller) State(state figures.OnState, tendency figures.Tendency) string {
	if i := StateOf(figures.Run{State: state, Tendency: tendency}); i >= 0 {
		return t.Plain("on_state." + OnStates[i].Key)
	}
	return ""
}

// Month says on how many of the month's visits a fly was found, and what its chance there is based on.
func (t Teller) Month(r *figures.Row, month time.Month) []string {
	v := t.p.MonthView(r, int(month)-1)
	says := t.Plain("state.unlooked")
	if m := r.Months[month-1]; m.Looked > 0 {
		says = t.Plain("found_on.years", "found", v.Found, "visits", t.Amount(content.Count(m.Looked, "visits", v.Looked.Basis())),
			"years", t.Plain("count.years", "n", content.Decimal(float64(len(m.Years)), 0)))
	}
	if v.State == "thin" {
		says += t.Plain("list.semicolon") + v.Word
	}
	out := []string{t.Plain("reading.month", "month", v.Month, "says", says)}
	if v.Chance.Known() {
		out = append(out, t.Plain("tell.month", "month", v.Month, "chance", v.Chance, "span", t.Range(v.Range), "rests", t.p.RestsOn(v)))
	}
	return out
}

// Percent is a share as the pages print it.
func (t Teller) Percent(share float64) string { return t.Amount(Percent(share, content.Basis{})) }

// Hours are by the clock, or against the sun in words where there are none.
func (t Teller) Hours(s figures.Stretch) string {
	switch {
	case s.From != calendar.NoClock && s.To != calendar.NoClock:
		return t.Plain("hours_span", "from", s.From.String(), "to", s.To.String())
	case s.SunWord == figures.NoPlace || s.SunWord == figures.NoZone || s.SunWord == "":
		return t.Span(s.Span)
	}
	return t.Or("sun", s.SunWord)
}

// Length is the length that a hook is chosen by, with what it is from, or why none is given; "" where none is known.
func (t Teller) Length(g figures.HookGround) string {
	switch {
	case g.Length == 0:
		return t.p.Torn(g)
	case g.Share > 0:
		return t.p.HookGround(g)
	}
	return t.Plain("tell.length", "length", t.p.Length(g.Length, 1, g.Basis), "from", t.p.lengthFrom(g))
}

// Hook is the size of a model, or that no size measured fits.
func (t Teller) Hook(h figures.HookFor) string {
	return t.Plain("sizes.hook", "model", h.Model, "size", t.p.HookSize(h.Suggestion))
}

// Recipe is the sizes of a dressing's recipe, where no hook of it is known to be near the fly.
func (t Teller) Recipe(name string) string { return t.p.TieHook(name, nil) }

// Ties are the dressings that lists with little room name for a stage.
func (t Teller) Ties(sd figures.StageDressings) []Tie { return t.p.Ties(sd) }

// Untied says why there is no dressing for a stage on a water.
func (t Teller) Untied(w *figures.Water, sd figures.StageDressings) string { return t.p.Untied(w, sd) }

// Reasons are the parts of a dressing's score in words.
func (t Teller) Reasons(o tying.Offer) []string {
	out := []string{}
	for _, part := range t.p.scoreParts(o, Grounded(content.Basis{})) {
		out = append(out, part.Words)
	}
	return out
}

// TripStage is a fly's stage in a list for a trip; by says whether a dressing covers it by its group or kin.
func (t Teller) TripStage(s figures.FlyStage, by tying.By) string {
	what := t.Or("stage", string(s.Stage))
	if by != tying.ByFly {
		what += t.Plain("list.comma") + t.Plain("trip.by_"+string(by))
	}
	return t.Plain("tell.with", "name", s.Row.Fly.Name.S, "what", what)
}

// Joined are parts of a line between semicolons.
func (t Teller) Joined(parts []string) string {
	return strings.Join(Kept(parts...), t.Plain("list.semicolon"))
}
