package rivers

// The fields of a visit and of a find, read from their cells.

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
)

func (r *sampleReader) visitFields(v *visit) *Event {
	e := &Event{ID: v.cells[visitID].S, File: v.at.File, At: v.at, Water: v.cells[visitWater], Beat: v.cells[visitBeat],
		EffortText: v.cells[visitEffortText].S, Start: calendar.NoClock, End: calendar.NoClock}
	for _, k := range []sampleKey{visitDate, visitWater} {
		if v.cells[k].S == "" {
			r.ps.Errorf("missing-cell", v.at, "fill it in", "visit %q has no %s", e.ID, r.heading[k])
		}
	}
	e.Place, e.HasPlace = r.place(v)
	e.Uncertainty = e.Place.Off
	if t := v.cells[visitUncertainty]; t.S != "" {
		m, _, err := measure.ParseNumber(t.S)
		switch {
		case err != nil:
			r.ps.Refuse("bad-number", t, err)
		case m <= 0:
			r.ps.Errorf("bad-number", t.At, "leave it empty where it is not known", "an uncertainty is more than 0 metres")
		default:
			e.Uncertainty = m
		}
	}
	e.Protocol = r.protocol(v)
	r.when(e, v)
	e.Effort = r.effort(v)
	e.Scope = r.scope(v.cells[visitScope])
	for _, t := range v.cells[visitBy].Split("|;") {
		e.By = append(e.By, t.S)
	}
	return e
}

func (r *sampleReader) place(v *visit) (measure.Coordinates, bool) {
	lat, lon := v.cells[visitLatitude], v.cells[visitLongitude]
	if lat.S == "" && lon.S == "" { // else they were read from the reference, or from other words beside them
		return place(v.cells[visitGrid], r.ps)
	}
	if lat.S == "" || lon.S == "" {
		given := lat
		if lat.S == "" {
			given = lon
		}
		r.ps.Errorf("half-place", given.At, "give both the latitude and the longitude", "visit %q gives only one of its coordinates", v.cells[visitID].S)
		return measure.Coordinates{}, false
	}
	a, err := measure.ParseLatitude(lat.S)
	if err != nil {
		r.ps.Refuse("bad-place", lat, err)
	}
	b, berr := measure.ParseLongitude(lon.S)
	if berr != nil {
		r.ps.Refuse("bad-place", lon, berr)
	}
	return measure.Coordinates{Latitude: a, Longitude: b}, err == nil && berr == nil
}

func (r *sampleReader) protocol(v *visit) Protocol {
	t := v.cells[visitProtocol]
	p := Protocol(content.Fold(t.S))
	switch {
	case t.S == "":
		r.ps.Warnf("no-method", v.at, "one of: "+strings.Join(list(Protocols), ", "), "visit %q names no method, so it counts for no fly", v.cells[visitID].S)
	case slices.Contains(Protocols, p):
		return p
	default:
		r.ps.Errorf("unknown-method", t.At, "one of: "+strings.Join(list(Protocols), ", "), "%q isn't a method of sampling%s", t.S, content.DidYouMean(t.S, list(Protocols)))
	}
	return ""
}

var nights = regexp.MustCompile(`(?i)^\s*(\S+)\s+nights?\s*$`)

// effort joins the amount and its unit. Nights are those of one trap.
func (r *sampleReader) effort(v *visit) measure.Effort {
	t := v.cells[visitEffort]
	s := t.S
	if r.darwinCore {
		amount, unit := v.cells[visitAmount], v.cells[visitAmountUnit]
		switch {
		case amount.S == "" && unit.S == "":
			return measure.Effort{}
		case amount.S == "":
			r.ps.Errorf("half-effort", unit.At, "give the amount too: 50", "visit %q has a unit of effort but no amount", v.cells[visitID].S)
			return measure.Effort{}
		case unit.S == "":
			r.ps.Errorf("missing-unit", amount.At, "give the unit too: sweeps, minutes, hours or trap nights", "visit %q has an amount of effort but no unit", v.cells[visitID].S)
			return measure.Effort{}
		}
		t, s = amount, amount.S+" "+unit.S
		if _, _, err := measure.ParseNumber(amount.S); err == nil {
			t = unit // the number is right, so what is refused is the unit
		}
	}
	if s == "" {
		return measure.Effort{}
	}
	e, err := measure.ParseEffort(nights.ReplaceAllString(s, "$1 trap nights"))
	if err != nil {
		refuse("bad-effort", t, err, r.ps)
		return measure.Effort{}
	}
	return e
}

func (r *sampleReader) scope(t content.Text) Scope {
	s := Scope{Given: t.S != "", At: t.At}
	parts := t.Split(";|,")
	for _, p := range parts {
		word := content.Fold(p.S)
		if word == "none" && len(parts) > 1 {
			r.ps.Errorf("scope-contradiction", p.At, "write none alone, or the groups that were looked for", "%q says both that nothing was looked for and what was", t.S)
			return Scope{Given: true, At: t.At}
		}
		var l []species.Group
		switch {
		case word == "none":
		case word == "all":
			l = species.Groups
		case word == "water-bred":
			l = waterBred()
		case slices.Contains(species.Groups, species.Group(word)):
			l = []species.Group{species.Group(word)}
		default:
			known := append(list(species.Groups), "water-bred", "all", "none")
			r.ps.Errorf("unknown-scope", p.At, "groups parted by ;, or one of water-bred, land-bred, all, none: "+strings.Join(list(species.Groups), ", "),
				"%q isn't a group that can be looked for%s", p.S, content.DidYouMean(p.S, known))
		}
		for _, g := range l {
			if !s.Has(g) {
				s.Groups = append(s.Groups, g)
			}
		}
	}
	return s
}

func (r *sampleReader) findFields(f *find) Find {
	c := &f.cells
	x := Find{ID: c[findID].S, At: f.row, Fly: c[findFly], Rank: c[findRank].S, Qualifier: c[findQualifier].S,
		StageText: c[findStage], By: c[findBy].S, Lengths: f.lengths, Remarks: strings.Join(f.remarks, "; ")}
	if called := c[findCalled]; called.S != c[findFly].S {
		x.Called = called
	}
	if t := c[findStage]; t.S != "" && !(strings.Contains(t.S, "|") && content.Fold(c[findStatus].S) == "absent") { // of what was looked for and not found, several
		var ok bool
		if x.Stage, ok = species.StageNamed(t.S); !ok {
			r.unknown("unknown-stage", t, "stage", stageNames())
		}
	}
	switch t := c[findSex]; content.Fold(t.S) {
	case "":
	case "male":
		x.Sex = species.Male
	case "female":
		x.Sex = species.Female
	default:
		r.unknown("unknown-sex", t, "sex", []string{"male", "female"})
	}
	r.count(&x, f)
	x.Depth = r.depth(f)
	if t := c[findIdentified]; t.S != "" {
		w, err := calendar.ParseWhen(t.S)
		if err != nil {
			r.ps.Refuse("bad-date", t, err)
		}
		x.Identified = w
	}
	x.Checked = Unreviewed
	if t := c[findChecked]; t.S != "" {
		if v := Verification(content.Fold(t.S)); slices.Contains(verifications, v) {
			x.Checked = v
		} else {
			r.unknown("unknown-choice", t, "state of verification", list(verifications))
		}
	}
	switch t := c[findReared]; content.Fold(t.S) {
	case "", "no":
	case "yes":
		x.Reared = true
	default:
		r.unknown("unknown-choice", t, "answer to whether it was reared", []string{"yes", "no"})
	}
	return x
}

func (r *sampleReader) unknown(id string, t content.Text, what string, known []string) {
	r.ps.Errorf(id, t.At, "one of: "+strings.Join(known, ", ")+"; or leave it empty", "%q isn't %s%s", t.S, content.A(what), content.DidYouMean(t.S, known))
}

// depth reads the depth of water of a find: written as one or a range, or in two columns.
func (r *sampleReader) depth(f *find) string {
	at, parts := f.cells[findDepth], []string{f.cells[findDepthLow].S, f.cells[findDepthHigh].S}
	if at.S != "" {
		parts = strings.Split(strings.NewReplacer("–", "-", " to ", "-").Replace(at.S), "-")
	} else if at = f.cells[findDepthHigh]; at.S == "" {
		at = f.cells[findDepthLow]
	}
	var said []string
	last := 0.0
	for _, t := range parts {
		if t = strings.TrimSpace(t); t == "" && f.cells[findDepth].S == "" {
			continue
		}
		v, _, err := measure.ParseNumber(t)
		if err != nil || v < last || v > deepest || len(parts) > 2 {
			r.ps.Errorf("bad-depth", at.At, "write metres below the surface, the lesser first: 1.5, or 1-2", "%q isn't a depth of water", at.S)
			return ""
		}
		last, said = v, append(said, strconv.FormatFloat(v, 'f', -1, 64))
	}
	return strings.Join(slices.Compact(said), "–")
}

// deepest is a depth of water, in metres, at which nobody counts larvae: a larger one is in another unit.
const deepest = 100

// count reads the count and whether the fly was there at all.
func (r *sampleReader) count(x *Find, f *find) {
	c := &f.cells
	x.Count = 1
	t := c[findCount]
	if q := c[findQuantity]; q.S != "" {
		if kind := c[findQuantityType].S; t.S == "" && content.Fold(kind) == "individuals" {
			t = q
		} else {
			x.Quantity = strings.TrimSpace(q.S + " " + kind)
		}
	}
	if t.S != "" {
		n, want := whole(t.S)
		if want != "" {
			r.ps.Errorf("bad-count", t.At, want, "%q isn't a count: a count is a whole number", t.S)
		} else {
			x.Count, x.Counted = n, true
		}
	}
	zero := x.Counted && x.Count == 0
	switch s := c[findStatus]; content.Fold(s.S) {
	case "absent":
		if x.Counted && !zero {
			r.ps.Clash("status-contradiction", s.At, t.At, "but a count stands here", "write present, or a count of 0", "the fly is said to be absent")
		}
		x.Absent, x.Count = true, 0
	case "present":
		if zero {
			r.ps.Clash("status-contradiction", s.At, t.At, "but the count is 0", "write absent, or the count", "the fly is said to be present")
		}
	case "":
		x.Absent = zero
		if zero && r.darwinCore {
			r.ps.Warnf("zero-needs-status", t.At, "write absent under occurrenceStatus", "a count of 0 stands without a status; it is taken as absent")
		}
	default:
		r.unknown("unknown-choice", s, "status of an occurrence", []string{"present", "absent"})
	}
}

var (
	digits   = regexp.MustCompile(`^\d+$`)
	exponent = regexp.MustCompile(`^(\d)[eE]\+?([0-6])$`)
)

// whole reads a count; want says what would be right where it is none.
func whole(s string) (n int, want string) {
	if stem, _, _ := strings.Cut(s, "."); strings.Trim(s[len(stem):], ".0") == "" && s != stem && digits.MatchString(stem) {
		s = stem // 3.0, as some programs save a 3
	}
	switch {
	case !digits.MatchString(s):
		want = "write digits only; leave it empty where only presence was noted, and put doubts into the remarks"
		if m := exponent.FindStringSubmatch(s); m != nil {
			zeros, _ := strconv.Atoi(m[2])
			want = "write " + m[1] + strings.Repeat("0", zeros)
		} else if bare := strings.NewReplacer("_", "", " ", "", "'", "").Replace(s); digits.MatchString(bare) {
			want = "write " + bare
		}
		return 0, want
	case len(s) > 1 && s[0] == '0':
		return 0, "write " + strings.TrimLeft(s[:len(s)-1], "0") + s[len(s)-1:]
	case len(s) > 7:
		return 0, "check it: so many flies were never counted"
	}
	n, _ = strconv.Atoi(s)
	return n, ""
}
