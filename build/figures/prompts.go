package figures

// Prompts about records: things an editor should look at. Nothing is ever
// rejected by them (the guide's rules on figures, section 15).

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/key"
	"guidegen/species/tying"
)

// Prompt is a thing to look at in a water's records: a problem, and the {names} of its text, for a site in another
// language.
type Prompt struct {
	content.Problem
	Args []any // name, value, …: texts and days of the year
}

// PromptTexts are the texts of prompts about records, by id.
var PromptTexts = map[string]string{
	"no-empty-visits":      "{who} logged {n} visits on {water} and none was empty: are empty visits being left out?",
	"not-in-list":          "{fly} is not in the list of {water}",
	"outside-every-flight": "{fly} on {date} lies more than {n} days outside every flight",
	"odd-length":           "{length} mm is more than a fifth outside the range of {fly}",
	"too-high":             "{fly} is known up to {limit}, and {water} lies at {altitude}",
	"off-the-water":        "visit {visit} lies {n} km from {water}",
	"two-flights":          inGap + ", though {n} visits looked for it: the records show two flights",
	"gap-unvisited":        inGap + ": nobody looked, so it may be one flight or two",
	"gap-thin":             inGap + ": too few visits looked for it ({n}) to tell one flight from two",
}

const inGap = "{fly} on {water}, flight “{flight}”: no find between {after} and {before} ({days} days)"

func newPrompt(id string, grade content.Grade, at content.Place, want string, args ...any) Prompt {
	var l []string
	for i := 0; i+1 < len(args); i += 2 {
		text := args[i+1]
		if d, ok := text.(calendar.Day); ok {
			text = dayWords(d)
		}
		l = append(l, "{"+args[i].(string)+"}", fmt.Sprint(text))
	}
	message := strings.NewReplacer(l...).Replace(PromptTexts[id])
	return Prompt{content.Problem{ID: id, Grade: grade, At: at, Want: want, Message: message}, args}
}

// prompts lists what is odd about a water's records, as warnings at their place.
func (r *reckoner) prompts(w *Water) []Prompt {
	var out []Prompt
	warn := func(id string, at content.Place, want string, args ...any) {
		out = append(out, newPrompt(id, content.Warning, at, want, args...))
	}
	rows := map[*species.Account]*Row{}
	for _, row := range w.Rows {
		rows[row.Fly.Account] = row
		out = append(out, row.Prompts...)
	}
	for _, v := range w.visits {
		r.offTheWater(w, v, warn)
		for _, f := range v.Finds {
			if f.Fly == nil || f.Checked == rivers.Rejected || f.Absent {
				continue
			}
			if row := rows[f.Fly]; row != nil && f.Counts() {
				r.oddDate(row, v, f, warn)
			}
			oddLength(f, warn)
			r.tooHigh(w, f, warn)
		}
	}
	for _, p := range w.Coverage.Recorders {
		if p.Looked >= 10 && p.Empty == 0 && p.Shown != "" {
			out = append(out, newPrompt("no-empty-visits", content.Note, w.At, "",
				"who", p.Shown, "n", strconv.Itoa(p.Looked), "water", w.Name.S))
		}
	}
	return out
}

type warner func(id string, at content.Place, want string, args ...any)

func (r *reckoner) oddDate(row *Row, v *guide.Visit, f guide.Found, warn warner) {
	if !row.Listed {
		warn("not-in-list", f.At, "add it to the water's flies if it belongs there",
			"fly", f.Fly.Name.S, "water", row.Water.Name.S)
		return
	}
	if !v.When.Exact() || len(row.stand.moved) == 0 {
		return
	}
	d := v.When.From.OfYear()
	if season.Assign(d, row.stand.moved, r.c.Season) < 0 {
		var l []string
		for _, m := range row.Flights {
			l = append(l, dayWords(m.From)+" to "+dayWords(m.To))
		}
		warn("outside-every-flight", f.At, "expected here: "+strings.Join(l, "; "),
			"fly", f.Fly.Name.S, "date", d, "n", strconv.Itoa(int(r.c.Season.AssignWithin)))
	}
}

// Lengths is the range in mm of all that the account says of one part of a stage, and of a
// sex where one is given; ok is false where it says nothing.
func Lengths(a *species.Account, st species.Stage, sex species.Sex, part species.Part) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, w := range casesOf(a, st) {
		if sex != species.NoSex && w.Sex != sex {
			continue
		}
		if c, ok := lengthsOf(a, w, part).First(); ok {
			low, high = min(low, float64(c.Value.Low)), max(high, float64(c.Value.High))
		}
	}
	return low, high, !math.IsInf(low, 1)
}

// OddLength reports a length more than a fifth outside a range; all in mm.
func OddLength(mm, low, high float64) bool {
	mm = content.Round9(mm)
	return mm < content.Round9(0.8*low) || mm > content.Round9(1.2*high)
}

func oddLength(f guide.Found, warn warner) {
	a := f.Fly
	for _, x := range f.Lengths {
		part, fits := partOf(x, a.Group.Habit(f.Stage))
		low, high, known := Lengths(a, f.Stage, f.Sex, part)
		if !fits || !known {
			continue
		}
		if mm := x.Millimetres; OddLength(mm, low, high) {
			warn("odd-length", x.At, fmt.Sprintf("the account gives %s to %s mm", content.Decimal(low, 1), content.Decimal(high, 1)),
				"length", content.Decimal(mm, x.Digits), "fly", a.Name.S)
		}
	}
}

func (r *reckoner) tooHigh(w *Water, f guide.Found, warn warner) {
	c, ok := f.Fly.Highest.First()
	if !ok || !w.HasAltitude() {
		return
	}
	if w.Altitude.Low > c.Value.High {
		warn("too-high", f.At, "check the fly or the water's altitude", "fly", f.Fly.Name.S, "limit",
			measure.Range[measure.Metres]{Low: c.Value.High, High: c.Value.High, Unit: c.Value.Unit, Digits: c.Value.Digits}.String(), "water", w.Name.S, "altitude", w.Altitude.String())
	}
}

func (r *reckoner) offTheWater(w *Water, v *guide.Visit, warn warner) {
	if !v.HasPlace || !w.HasPlace {
		return
	}
	reach := w.Reach
	if reach == 0 {
		reach = guide.DefaultReach
	}
	near := guide.Kilometres(v.Place, w.Place)
	for _, b := range w.Beats {
		if b.HasPlace {
			near = min(near, guide.Kilometres(v.Place, b.Place))
		}
	}
	if content.Round9(near) > reach {
		warn("off-the-water", v.At, "check the coordinates, or give the water a larger reach",
			"visit", v.ID, "n", content.Decimal(near, 0), "water", w.Name.S)
	}
}

// bookPrompts looks at accounts and dressings as a whole.
func (r *reckoner) bookPrompts() []content.Problem {
	var out []content.Problem
	add := func(id string, grade content.Grade, at content.Place, want, format string, a ...any) {
		out = append(out, content.Problem{ID: id, Grade: grade, At: at, Want: want, Message: fmt.Sprintf(format, a...)})
	}
	for _, f := range r.book.Flies {
		kin := func(o *Fly) bool { return o != f && o.Group == f.Group }
		if len(f.named) == 0 && len(f.Described.Forms) > 0 && slices.ContainsFunc(r.book.Flies, kin) {
			add("no-look-alikes", content.Note, f.Name.At, "link to them under a heading: ## Easily confused with",
				"the account of %s warns of no fly that it may be mistaken for", f.Name.S)
		}
		r.contradictions(f, add)
	}
	for _, d := range r.book.Dressings {
		r.nowhere(d, add)
	}
	r.differences(add)
	for _, w := range r.book.Waters {
		for _, v := range w.visits {
			found := 0
			for _, f := range v.Finds {
				if f.Counts() {
					found++
				}
			}
			if found > 0 && v.Effort.Amount == 0 && v.When.Exact() {
				add("find-without-effort", content.Note, v.At, "write the effort, as 50 sweeps or 10 minutes",
					"visit %s found %s, but has no effort: they count for no catch rate and no middle date", v.ID, content.Several(found, "fly"))
			}
		}
	}
	return out
}

type adder func(id string, grade content.Grade, at content.Place, want, format string, a ...any)

// contradictions finds an account that calls the legs plain and gives them a colour that is nearly black.
func (r *reckoner) contradictions(f *Fly, add adder) {
	const nearlyBlack = 20
	for _, form := range f.Described.Forms {
		tint, ok := f.Described.Colours[form][key.Legs]
		if !ok || content.Round9(tint.Lab.L) >= nearlyBlack || !slices.Equal(f.Described.States[form]["legs"], []string{"plain"}) {
			continue
		}
		at := f.Name.At
		for _, x := range f.Features {
			if content.Fold(x.Name) == "legs" {
				at = x.At
			}
		}
		add("contradicts-itself", content.Warning, at, "put one of the two right",
			"the legs of %s are plain as a feature and %s as a colour", f.Name.S, tint.Words)
		return
	}
}

// nowhere tells why a dressing is offered for nothing: no stage that fish meet calls for it, or what speaks against it.
func (r *reckoner) nowhere(d *Dressing, add adder) {
	if len(d.For) > 0 || len(d.Dressing.For) == 0 {
		return
	}
	met, reasons := false, map[tying.Code]bool{}
	var only []string
	for _, s := range d.Dressing.For {
		for _, a := range s.Accounts {
			f := r.flies[a]
			if f == nil {
				continue
			}
			only = append(only, f.Name.S)
			for _, m := range f.Meets() {
				met = met || len(s.Stages) == 0 || slices.Contains(s.Stages, m.Stage)
			}
		}
		for _, g := range s.Groups {
			for _, f := range r.book.Flies {
				if f.Group != g {
					continue
				}
				for _, m := range f.Meets() {
					met = met || len(s.Stages) == 0 || slices.Contains(s.Stages, m.Stage)
				}
			}
		}
	}
	for _, w := range r.book.Waters {
		for _, row := range w.Rows {
			for _, s := range row.Dressings {
				if slices.ContainsFunc(s.Advice.NotScored, func(n tying.NamedOnly) bool { return n.Name == d.Name.S }) {
					return // tied for it, no score: it stands in the lists
				}
				for _, o := range s.Advice.RuledOut {
					if o.Name == d.Name.S {
						for _, why := range o.Reasons {
							reasons[why.Code] = true
						}
					}
				}
			}
		}
	}
	delete(reasons, tying.NotAllowed) // elsewhere it may be
	delete(reasons, tying.OtherStage) // it is so of every dressing for the stages that it isn't for
	switch {
	case !met:
		add("dressing-not-called-for", content.Warning, d.Name.At, "name a stage that fish meet, or take it out",
			"no stage that fish meet calls for %s", d.Name.S)
	case len(reasons) > 0:
		words := []string{}
		for code, text := range map[tying.Code]string{tying.OtherSize: "its hooks are far from the body", tying.LaysUnderWater: "the female lays under water",
			tying.CrawlsOut: "the fly crawls out to emerge", tying.OtherSex: "it imitates the other sex"} {
			if reasons[code] {
				words = append(words, text)
			}
		}
		slices.Sort(words)
		what := "the flies that it names"
		if len(slices.Compact(only)) == 1 {
			what = only[0] + ", the only fly that it names"
		}
		add("dressing-ruled-out", content.Warning, d.Name.At, "look at its hooks, levels and stages", "%s is ruled out for %s: %s", d.Name.S, what, strings.Join(words, "; "))
	}
}
