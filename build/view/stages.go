package view

// Stages of a fly in a row, what they ask for, and the states that a fly can be in on a day.

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// CellState is a half-month in a letter for scripts: found, looked for or nobody looked.
func CellState(c figures.CellHere) string {
	switch c.State {
	case figures.CellFound:
		return "f"
	case figures.CellLooked:
		return "l"
	}
	return "u"
}

// UnlookedCells names the half-months in which nobody looked on a water.
func UnlookedCells(w *figures.Water) string {
	var out []string
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		if !w.Coverage.Looked(c) {
			out = append(out, c.String())
		}
	}
	return strings.Join(out, " ")
}

// OnStates are the states a run can have, in the order they are shown.
var OnStates = []struct {
	state    figures.OnState
	tendency figures.Tendency
	Key      string
}{
	{figures.On, figures.NoTendency, "on"}, {figures.On, figures.Rising, "on_rising"}, {figures.On, figures.Steady, "on_steady"},
	{figures.On, figures.Fading, "on_fading"}, {figures.On, figures.BetweenTwo, "on_between"},
	{figures.Starting, "", "starting"}, {figures.JustOver, "", "just_over"},
	{figures.BetweenFlights, "", "between"},
}

// StateOf is the place of a run's state among OnStates; -1 where nothing is to be said. A pair that the list
// lacks would lose a fly from the page: that is a fault of the program, and no page is made.
func StateOf(r figures.Run) int {
	if r.State == figures.Off {
		return -1
	}
	for i, s := range OnStates {
		if s.state == r.State && (s.tendency == r.Tendency || r.State != figures.On) {
			return i
		}
	}
	panic(fmt.Sprintf("no words for a fly that is %q, %q", r.State, r.Tendency))
}

// FlightPlace is the place of a flight among those of its fly, whether the water lists the fly or not; -1 for none.
func FlightPlace(r *figures.Row, name string) int {
	return slices.IndexFunc(r.Fly.Flights, func(f species.Flight) bool { return f.Name == name })
}

// Counted is a month's plain count, in one of the three states.
func (p *Printer) Counted(m *figures.MonthHere) string {
	switch {
	case m.Looked == 0:
		return p.words.Plain("state.unlooked")
	case m.Found == 0:
		return p.words.Plain("state.looked_on", "n", strconv.Itoa(m.Looked))
	}
	return p.words.Plain("state.found_on", "found", strconv.Itoa(m.Found), "n", strconv.Itoa(m.Looked))
}

// BasisMark is what a month's figure is based on: "3" mostly own visits, "2" half of them the account or other
// waters, "1" thin evidence, "0" nobody looked.
func BasisMark(m *figures.MonthHere) string {
	switch {
	case m.Looked == 0:
		return "0"
	case m.Thin:
		return "1"
	case content.Round9(m.Own) < mostlyOwn:
		return "2"
	}
	return "3"
}

// mostlyOwn is the share of own visits from which a figure is said to be based mostly on them; judgement.
const mostlyOwn = 2.0 / 3

// ShortCase names a stage and sex in a narrow column: "spinner f.".
func (p *Printer) ShortCase(st StageSex) string {
	stage := p.words.Or("stage", string(st.Stage))
	if st.Sex == "" {
		return stage
	}
	return p.words.Plain("case_short."+string(st.Sex), "stage", stage)
}

// ShortSex is a sex in a narrow column; "" for both.
func (p *Printer) ShortSex(st StageSex) string {
	if st.Sex == "" {
		return ""
	}
	return p.words.Or("sex_short", string(st.Sex))
}

// HookAsked is the hook that a stage asks for, in the first model that has one; "" where none is known.
func (p *Printer) HookAsked(sd figures.StageDressings) string {
	for _, h := range sd.Length.Hooks {
		if h.Beyond == hook.Within {
			return p.words.Plain("sizes.hook", "model", h.Model, "size", h.Size.String())
		}
	}
	return ""
}

// Untied says why there is no dressing for a stage on a water.
func (p *Printer) Untied(w *figures.Water, sd figures.StageDressings) string {
	if !sd.Advice.Barred() {
		return p.words.Plain("card.nothing_in_the_box")
	}
	var l []string
	for _, m := range tying.Methods {
		if slices.Contains(w.Methods, m) {
			l = append(l, p.words.Or("method", string(m)))
		}
	}
	return p.words.Plain("not_allowed", "methods", p.words.List(l))
}

// Tie is a dressing to put on; Offer is nil for one that can't be scored.
type Tie struct {
	Name  string
	Offer *tying.Offer
}

// Size is how near its best hook is; nil where that isn't known.
func (t Tie) Size() *tying.SizePart {
	if t.Offer == nil {
		return nil
	}
	return t.Offer.Size
}

// Ties are the dressings that every list with little room names for a stage, two at most: the best, and the next; of a
// fly on the wing the next that is fished otherwise, below the film or on top, where the box has one.
func (p *Printer) Ties(sd figures.StageDressings) []Tie {
	var all []Tie
	for _, o := range sd.Named() {
		all = append(all, Tie{o.Name, &o})
	}
	for _, n := range sd.Advice.NotScored {
		all = append(all, Tie{Name: n.Name})
	}
	if len(all) < 3 {
		return all
	}
	other := 1
	if sd.Stage.OnTheWing() {
		other = max(1, slices.IndexFunc(all, func(t Tie) bool { return p.Sunk(t.Name) != p.Sunk(all[0].Name) }))
	}
	return []Tie{all[0], all[other]}
}

// Sunk reports whether a dressing is fished below the film and not on top.
func (p *Printer) Sunk(dressing string) bool {
	d := p.book.Dressing(dressing)
	return d != nil && !slices.Contains(d.Fishes, species.Surface) &&
		slices.ContainsFunc(d.Fishes, func(l species.Level) bool { return l.Rank() < species.Film.Rank() })
}

// TieHook is the hook to tie a dressing on: the one nearest to the fly, else the sizes of its recipe, which is said.
func (p *Printer) TieHook(name string, near *tying.SizePart) string {
	if near != nil {
		return p.HookText(near.Hook)
	}
	if d := p.book.Dressing(name); d != nil && len(d.Sizes) > 0 {
		return p.words.Plain("hook_recipe", "sizes", strings.ReplaceAll(d.SizesText.S, "-", "–"))
	}
	return ""
}

type StageSex struct {
	Stage species.Stage
	Sex   species.Sex
}

// StagesOf lists the stages of a card, those on the wing first: with advice where there is some,
// else those that have hours.
func StagesOf(r *figures.Row) []StageSex {
	var list []StageSex
	add := func(s species.Stage, x species.Sex) {
		if s != "" && !slices.Contains(list, StageSex{s, x}) {
			list = append(list, StageSex{s, x})
		}
	}
	for _, d := range r.Dressings {
		add(d.Stage, d.Sex)
	}
	for _, h := range r.Hours {
		if !slices.ContainsFunc(list, func(s StageSex) bool { return s.Stage == h.Stage }) {
			add(h.Stage, h.Sex)
		}
	}
	slices.SortStableFunc(list, func(a, b StageSex) int {
		return cmp.Or(cmp.Compare(BoolInt(!a.Stage.OnTheWing()), BoolInt(!b.Stage.OnTheWing())),
			cmp.Compare(slices.Index(species.AllStages, a.Stage), slices.Index(species.AllStages, b.Stage)))
	})
	return list
}

// WithOthers is a stage's hours followed by what others say of them.
func (p *Printer) WithOthers(h figures.HoursHere, say func(figures.Stretch) string) string {
	text := say(h.Stretch)
	if len(h.Others) == 0 {
		return text
	}
	var others []string
	for _, o := range h.Others {
		others = append(others, say(o))
	}
	return p.words.Plain("hours_others", "hours", text, "others", strings.Join(others, p.words.Plain("list.or")))
}
