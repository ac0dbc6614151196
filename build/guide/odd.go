package guide

// Figures that nobody could mean: slips of the hand which every reader lets pass, since each is well formed (the
// guide's rules on figures, section 15). All are warnings or notes; nothing is rejected by them.

import (
	"math"
	"slices"
	"strings"
	"time"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
	"guidegen/species/hook"
)

// odd looks for them all. files are the paths that the guide holds.
func (g *Guide) odd(files []string, today calendar.Date, ps *content.Problems) {
	g.lengthsOfNoFly(ps)
	for _, a := range g.Accounts {
		for _, c := range a.Hours {
			for _, h := range c.Claims {
				if backwards(h.Value) {
					ps.Warnf("hours-backwards", h.At, "write the earlier hour first", "%s would be %d hours, across midnight", h.Text, wrapped(h.Value)/60)
				}
			}
		}
		if !today.IsZero() && today.Before(a.Reviewed) {
			ps.Warnf("future-date", a.Name.At, "check the year", "the account of %s was reviewed in the future: %s", a.Name.S, a.Reviewed)
		}
	}
	for _, w := range g.Waters {
		for _, s := range w.Seasons {
			if !today.IsZero() && today.Before(s.Checked) {
				ps.Warnf("future-date", s.At, "check the year", "this season of %s was checked in the future: %s", w.Name.S, s.Checked)
			}
		}
	}
	shanksInLine(g.HookRows, ps)
	g.models(ps)
	for _, c := range g.Corrections {
		if c.File != "" && !slices.Contains(files, c.File) {
			ps.Warnf("no-such-file", c.At, "name the file as it is called now", "the guide has no file %q%s", c.File, content.DidYouMean(c.File, files))
		}
	}
	g.signs(ps)
	g.formulas(ps)
}

// timesTheGroup is how many times longer than every other fly of its group, or shorter, a fly can't be: a point
// was lost, or the unit is wrong.
const timesTheGroup = 5

// Lengths that accounts give to flies of one group, in mm; ok is false where none does. Without is left out of it.
func (g *Guide) groupLengths(group species.Group, without *species.Account) (low, high float64, ok bool) {
	low, high = math.Inf(1), 0
	for _, a := range g.Accounts {
		if a == without || a.Group != group {
			continue
		}
		for _, c := range a.Length {
			if l, given := c.Claims.First(); given {
				low, high = min(low, float64(l.Value.Low)), max(high, float64(l.Value.High))
			}
		}
	}
	return low, high, high > 0
}

func ofNoFly(mm, low, high float64) bool {
	mm = content.Round9(mm)
	return mm > content.Round9(timesTheGroup*high) || mm < content.Round9(low/timesTheGroup)
}

// slipped reports lengths which all lie beyond those of their group, and a tenth of them or ten times as much within: cm
// stands for mm, or a point was lost.
func slipped(from, to, low, high float64) bool {
	within := func(times float64) bool {
		return content.Round9(from*times) >= content.Round9(low) && content.Round9(to*times) <= content.Round9(high)
	}
	return from > high && within(0.1) || to < low && within(10)
}

func (g *Guide) lengthsOfNoFly(ps *content.Problems) {
	warn := func(at content.Place, mm string, group species.Group, low, high float64) {
		ps.Warnf("length-of-no-fly", at, "check the point and the unit", "%s mm is hardly the length of a fly of this group (%s): the others are %s to %s mm", mm, group,
			content.Decimal(low, 1), content.Decimal(high, 1))
	}
	for _, a := range g.Accounts {
		low, high, ok := g.groupLengths(a.Group, a)
		for _, c := range a.Length {
			l, given := c.Claims.First()
			if !ok || !given {
				continue
			}
			if from, to := float64(l.Value.Low), float64(l.Value.High); ofNoFly(from, low, high) || ofNoFly(to, low, high) || slipped(from, to, low, high) {
				warn(l.At, content.Decimal(to, l.Value.Digits), a.Group, low, high)
			}
		}
	}
	type span struct {
		low, high float64
		ok        bool
	}
	groups := map[species.Group]span{}
	for _, v := range g.Visits {
		for _, f := range v.Finds {
			if len(f.Lengths) == 0 || f.Fly != nil && len(f.Fly.Length) > 0 {
				continue // its own account tells more
			}
			s, known := groups[f.Group]
			if !known {
				s.low, s.high, s.ok = g.groupLengths(f.Group, nil)
				groups[f.Group] = s
			}
			low, high, ok := s.low, s.high, s.ok
			for _, x := range f.Lengths {
				if ok && (ofNoFly(x.Millimetres, low, high) || slipped(x.Millimetres, x.Millimetres, low, high)) {
					warn(x.At, content.Decimal(x.Millimetres, x.Digits), f.Group, low, high)
				}
			}
		}
	}
}

// wrapped is how many minutes a stretch of clock times lasts, across midnight where it ends before it starts.
func wrapped(s calendar.Span) int { return (s.To.Minutes - s.From.Minutes + 24*60) % (24 * 60) }

// backwards reports clock times of which the later seems to stand first: across midnight they would last for more
// than half a day.
func backwards(s calendar.Span) bool {
	return s.From.Sun == calendar.NoSun && s.To.Sun == calendar.NoSun && s.To.Minutes < s.From.Minutes && wrapped(s) > 12*60
}

// shanksInLine warns of a shank that lies more than a third off the line through its neighbours in its model: one
// size to either side, or two to one side at an end. Steps are those of the catalogue.
func shanksInLine(l []species.MeasuredHook, ps *content.Problems) {
	models := map[string][]species.MeasuredHook{}
	var names []string
	for _, h := range l {
		if h.Curved || h.Shank <= 0 {
			continue
		}
		k := content.Fold(h.Model)
		if models[k] == nil {
			names = append(names, k)
		}
		if !slices.ContainsFunc(models[k], func(o species.MeasuredHook) bool { return o.Size == h.Size }) {
			models[k] = append(models[k], h)
		}
	}
	for _, k := range names {
		m := models[k]
		slices.SortFunc(m, func(a, b species.MeasuredHook) int { return hook.Compare(a.Size, b.Size) })
		worst, beside, line, most := -1, 0, 0.0, content.Round9(1.0/3)
		judge := func(i, a, b int) {
			x := shankOn(m[a], m[b], m[i].Size)
			if off := content.Round9(math.Abs(float64(m[i].Shank)/x - 1)); x > 0 && off > most {
				worst, beside, line, most = i, a, x, off
			}
		}
		for i := 1; i < len(m)-1; i++ {
			judge(i, i-1, i+1)
		}
		if n := len(m) - 1; worst < 0 && n > 2 { // an end is judged only by neighbours that make a line
			for _, e := range [][4]int{{0, 1, 2, 3}, {n, n - 1, n - 2, n - 3}} {
				if x := shankOn(m[e[1]], m[e[2]], m[e[3]].Size); math.Abs(float64(m[e[3]].Shank)/x-1) < 0.15 {
					judge(e[0], e[1], e[2])
				}
			}
		}
		if worst >= 0 {
			h := m[worst]
			ps.Add(content.Problem{ID: "shank-off", Grade: content.Warning, At: h.At, Also: m[beside].At, AlsoSay: "one of the two beside it", Want: "measure it again",
				Message: "the shank of size " + h.Size.String() + " of " + h.Model + " is more than a third off the line of the sizes beside it, which is " + content.Decimal(line, 1) + " mm there"})
		}
	}
}

// shankOn is the shank in mm of a size on the straight line through two others, over the catalogue's steps.
func shankOn(a, b species.MeasuredHook, size hook.Size) float64 {
	t := (size.Step() - a.Size.Step()) / (b.Size.Step() - a.Size.Step())
	return float64(a.Shank) + float64(t*float64(b.Shank-a.Shank))
}

// models notes hooks of recipes that the club hasn't measured; a near miss of one that it has is a warning.
func (g *Guide) models(ps *content.Problems) {
	var known []string
	for _, h := range g.Hooks {
		if !slices.Contains(known, h.Model) {
			known = append(known, h.Model)
		}
	}
	if len(known) == 0 || ps.Errors("hooks.csv") > 0 {
		return // what can't be read there isn't unmeasured
	}
	for _, d := range g.Dressings {
		for _, p := range d.Parts {
			if p.Part != "hook" || p.Of.S == "" || slices.ContainsFunc(known, func(m string) bool { return content.Fold(m) == content.Fold(p.Of.S) }) {
				continue
			}
			problem := content.Problem{ID: "hook-not-measured", Grade: content.Note, At: p.Of.At, Want: "a row of hooks.csv makes its shank known; measured: " + strings.Join(known, ", "),
				Message: "the hook of " + d.Name.S + " is not in hooks.csv, so no size of it can be held against a fly"}
			if meant := content.DidYouMean(p.Of.S, known); meant != "" {
				problem.Grade, problem.Message = content.Warning, `no hook is named "`+p.Of.S+`" in hooks.csv`+meant
			}
			ps.Add(problem)
		}
	}
}

// farApart is how far, in km, waters of one guide may lie from the nearest other before a sign is suspected.
const farApart = 300

// formulas names texts of records that a spreadsheet would take for a formula: they go into the archive as they are.
func (g *Guide) formulas(ps *content.Problems) {
	look := func(at content.Place, text string) {
		if isFormula(text) {
			ps.Warnf("like-a-formula", at, "begin it with another sign", "a spreadsheet that opens the archive takes this for a formula: %s", text)
		}
	}
	for _, w := range g.Waters {
		look(w.Name.At, w.Name.S)
	}
	for _, v := range g.Visits {
		for _, text := range append([]string{v.ID, v.Beat.S, v.EffortText, v.Remarks}, v.By...) {
			look(v.At, text)
		}
		for _, f := range v.Finds {
			for _, text := range []string{f.ID, f.Find.Fly.S, f.Qualifier, f.Find.By, f.Find.Remarks} {
				look(f.At, text)
			}
		}
	}
}

// isFormula reports a text that begins as a formula does, and is no number.
func isFormula(text string) bool {
	if text == "" || !strings.ContainsRune("=+-@", rune(text[0])) {
		return false
	}
	_, _, err := measure.ParseNumber(text)
	return err != nil
}

// signs looks for a longitude with its sign turned round: it lies far from what it belongs to, and would be near with
// the other sign; or its zone keeps the clock of another part of the world.
func (g *Guide) signs(ps *content.Problems) {
	turned := func(p measure.Coordinates) measure.Coordinates { p.Longitude.Degrees = -p.Longitude.Degrees; return p }
	warn := func(at content.Place, format string, a ...any) {
		ps.Warnf("sign-of-longitude", at, "check E and W", format, a...)
	}
	near := func(p measure.Coordinates, of []measure.Coordinates, km float64) bool {
		return slices.ContainsFunc(of, func(q measure.Coordinates) bool { return Kilometres(p, q) <= km })
	}
	for i, w := range g.Waters {
		if !w.HasPlace {
			continue
		}
		var others []measure.Coordinates
		for j, o := range g.Waters {
			if j != i && o.HasPlace {
				others = append(others, o.Place)
			}
		}
		agree := 0 // of the others, how many lie near the turned place
		for _, o := range others {
			if Kilometres(turned(w.Place), o) <= farApart {
				agree++
			}
		}
		switch {
		case len(others) > 0 && !near(w.Place, others, farApart) && 2*agree >= len(others):
			warn(w.PlaceAt, "%s lies far from the guide's other waters, and with the other sign of its longitude near them", w.Name.S)
		case w.Zone != nil && !inZone(w.Place.Longitude.Degrees, w.Zone):
			warn(w.PlaceAt, "%s lies at %s, where nobody keeps the time of %s", w.Name.S, w.Place, w.Zone)
		}
		for _, b := range w.Beats {
			here := []measure.Coordinates{w.Place}
			if b.HasPlace && !near(b.Place, here, max(w.Reach, DefaultReach)) && near(turned(b.Place), here, max(w.Reach, DefaultReach)) {
				warn(b.At, "%s lies far from %s, and with the other sign of its longitude on it", b.Name.S, w.Name.S)
			}
		}
	}
}

// DefaultReach is how far, in km, a place may lie from its water where the water says nothing of its reach: our judgement.
const DefaultReach = 25

// inZone reports whether a longitude lies where a zone's clock can be kept: an hour is 15 degrees, and no zone is kept
// further than 50 degrees west or 35 east of its meridian (the widest, western China and Greenland, from memory).
func inZone(longitude float64, zone *time.Location) bool {
	_, offset := time.Date(2026, 1, 15, 12, 0, 0, 0, zone).Zone()
	if _, july := time.Date(2026, 7, 15, 12, 0, 0, 0, zone).Zone(); july < offset {
		offset = july // the standard time is the earlier clock
	}
	east := math.Mod(longitude-float64(offset)/240+540, 360) - 180 // degrees east of the zone's meridian
	return east >= -50 && east <= 35
}
