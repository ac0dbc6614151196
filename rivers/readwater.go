package rivers

// Reading a river record.

import (
	"cmp"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // not every machine has time zones

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
	"guidegen/species/tying"
)

// ReadWater reads one river record. A statement that names no basis, in a
// file and guide that name none, rests on the club's own word: the record is
// the club's. It returns nil where the file holds no record.
func ReadWater(f *content.File, g content.Grounds, ps *content.Problems) *Water {
	v := content.ReadYAML(f, ps)
	if v.Kind != content.Map {
		if ps.Errors(f.Path) == 0 {
			ps.Errorf("wrong-shape", v.At, "start it with name: … and kind: …", "this file holds no river record")
		}
		return nil
	}
	o := WaterRecord.Open(v, ps)
	g = g.Under(o.Text("basis"), ps)
	if g.Basis.IsZero() {
		g.Basis = content.On(content.Part{Ground: content.OwnStatement, At: v.At})
	}
	w := &Water{Address: content.FileAddress(f, ps), File: f.Path, At: v.At, Was: texts(o, "was", ps),
		Name: o.Text("name").Trim(), Also: texts(o, "also", ps), Kind: Kind(o.Choice("kind")),
		Bed: o.Text("bed"), About: o.Text("about"), Rules: o.Text("rules"), Access: o.Text("access"),
		Hazards: texts(o, "hazards", ps), Basis: g.Basis, Members: o.Choice("show") == "members"}
	w.Place, w.HasPlace = place(o.Text("place"), ps)
	w.PlaceAt = o.Text("place").At
	w.Altitude = altitude(o.Text("altitude"), ps)
	w.Zone, w.ZoneName = zone(o.Text("time_zone"), ps)
	if t := o.Text("reach"); t.S != "" {
		w.Reach = distance(t, ps) / 1000
	}
	if t := o.Text("regulated"); t.S != "" {
		w.Regulated = yes(t, ps)
	}
	w.Regulated = w.Regulated || w.Kind.BelowDam()
	if o.Has("temperature") {
		w.Temperature = ReadMonths(o.Value("temperature"), g, ps)
	}
	for _, e := range o.Value("beats").Entries {
		w.Beats = append(w.Beats, beat(e, ps))
	}
	w.Flies = listings(o.Value("flies"), g, ps)
	w.Methods = methods(o, ps)
	for _, b := range o.Blocks("seasons") {
		s, ok := season(b, ps)
		same := func(o Season) bool { return content.Fold(o.Fish.S) == content.Fold(s.Fish.S) }
		switch {
		case !ok:
		case slices.ContainsFunc(w.Seasons, same): // a page would say open and closed, one below the other
			ps.Errorf("two-seasons", s.Fish.At, "one season for each name: call them \"trout, spring\" and \"trout, late\", so that each says what it is for",
				"%s has two seasons", s.Fish.S)
		default:
			w.Seasons = append(w.Seasons, s)
		}
	}
	e := EmergencyRecord.Open(o.Value("emergency"), ps)
	w.Code, w.Meet = e.Text("code"), e.Text("meet")
	w.MeetAt, w.HasMeetAt = place(e.Text("place"), ps)
	for _, b := range o.Blocks("sensitive") {
		s := SensitiveRecord.Open(b, ps)
		p := SensitivePlace{About: s.Text("about"), Members: s.Choice("show") != "everyone", At: b.At}
		if t := s.Text("radius"); t.S != "" {
			p.Radius = distance(t, ps)
		}
		var ok bool
		if p.Place, ok = place(s.Text("place"), ps); ok {
			w.Sensitive = append(w.Sensitive, p)
		}
	}
	return w
}

func texts(o content.Opened, key string, ps *content.Problems) []content.Text {
	var l []content.Text
	for _, t := range o.Texts(key, ps) {
		if t = t.Trim(); t.S != "" {
			l = append(l, t)
		}
	}
	return l
}

// methods reads the kinds of fly that the rules allow.
func methods(o content.Opened, ps *content.Problems) []tying.Method {
	var l []tying.Method
	for _, t := range texts(o, "methods", ps) {
		m := tying.Method(content.Fold(t.S))
		if !slices.Contains(tying.Methods, m) {
			ps.Errorf("unknown-choice", t.At, "one of: "+strings.Join(list(tying.Methods), ", "), "%q isn't a kind of fly%s", t.S, content.DidYouMean(t.S, list(tying.Methods)))
			continue
		}
		if !slices.Contains(l, m) {
			l = append(l, m)
		}
	}
	return l
}

func place(t content.Text, ps *content.Problems) (measure.Coordinates, bool) {
	if t.S == "" {
		return measure.Coordinates{}, false
	}
	c, err := measure.ParseCoordinates(t.S)
	if err != nil {
		ps.Refuse("bad-place", t, err)
		return measure.Coordinates{}, false
	}
	return c, true
}

func altitude(t content.Text, ps *content.Problems) measure.Range[measure.Metres] {
	if t.S == "" {
		return measure.Range[measure.Metres]{}
	}
	r, err := measure.ParseAltitude(t.S)
	if err != nil {
		refuse("bad-altitude", t, err, ps)
		return measure.Range[measure.Metres]{}
	}
	return r
}

// refuse reports a parser's refusal, a missing unit under an id of its own.
func refuse(id string, t content.Text, err error, ps *content.Problems) {
	if e, ok := err.(*calendar.Error); ok && e.Reason == "has no unit" {
		id = "missing-unit"
	}
	ps.Refuse(id, t, err)
}

var metres = map[string]float64{"m": 1, "metre": 1, "metres": 1, "km": 1000, "ft": 0.3048, "feet": 0.3048, "mile": 1609.344, "miles": 1609.344}

// distance reads "8 km" as metres; 0 where it can't.
func distance(t content.Text, ps *content.Problems) float64 {
	number, unit := t.S, ""
	if i := strings.IndexFunc(t.S, func(r rune) bool { return (r >= 'A' && r <= 'Z') || (r >= 'a' && r <= 'z') }); i >= 0 {
		number, unit = strings.TrimSpace(t.S[:i]), content.Fold(t.S[i:])
	}
	v, _, err := measure.ParseNumber(number)
	switch per, ok := metres[unit]; {
	case unit == "":
		ps.Errorf("missing-unit", t.At, "write m, km, ft or miles behind it", "%q has no unit", t.S)
	case err != nil:
		ps.Refuse("bad-distance", t, err)
	case !ok:
		ps.Errorf("bad-distance", t.At, "use m, km, ft or miles", "%q has %q for a unit", t.S, unit)
	case v <= 0 || v*per > 500_000:
		ps.Errorf("bad-distance", t.At, "check the number and its unit", "%q isn't a distance on a water", t.S)
	default:
		return v * per
	}
	return 0
}

// zone finds a time zone. The machine's own zone ("Local") is not one: the
// same guide must read alike everywhere.
func zone(t content.Text, ps *content.Problems) (*time.Location, string) {
	if t.S == "" {
		return nil, ""
	}
	name := strings.TrimSpace(t.S)
	z, err := time.LoadLocation(name)
	if err == nil && name != "Local" && (name == "UTC" || strings.Contains(name, "/") || z.String() == name) && properCase(name) {
		return z, name
	}
	want := "write an IANA name: Europe/London, Pacific/Auckland"
	parts := strings.FieldsFunc(name, func(r rune) bool { return r == '/' || r == '\\' })
	for i, p := range parts {
		words := strings.FieldsFunc(p, func(r rune) bool { return r == ' ' || r == '_' })
		for j, w := range words {
			words[j] = strings.ToUpper(w[:1]) + strings.ToLower(w[1:])
		}
		parts[i] = strings.Join(words, "_")
	}
	if near := strings.Join(parts, "/"); near != name && near != "Local" && len(parts) > 1 {
		if _, err := time.LoadLocation(near); err == nil {
			want = "write " + near
		}
	}
	ps.Errorf("bad-time-zone", t.At, want, "%q isn't a time zone", t.S)
	return nil, ""
}

// properCase guards against file systems on which case doesn't count: every
// zone's name starts with a capital.
func properCase(name string) bool { return name != "" && name[0] >= 'A' && name[0] <= 'Z' }

// yes reads "yes" or "no" at the start of a text.
func yes(t content.Text, ps *content.Problems) bool {
	word, _, _ := strings.Cut(strings.Map(func(r rune) rune {
		if strings.ContainsRune(",;:.", r) {
			return ' '
		}
		return r
	}, content.Fold(t.S)), " ")
	switch word {
	case "yes":
		return true
	case "no":
		return false
	}
	ps.Errorf("unknown-choice", t.At, "start it with yes or no: yes, by the dam above the mill", "%q says neither yes nor no", t.S)
	return false
}

// ReadMonths reads a block of twelve monthly temperatures: of a water, or of
// the reference water of guide.yaml.
func ReadMonths(v content.Value, g content.Grounds, ps *content.Problems) MonthlyTemperature {
	o := MonthsRecord.Open(v, ps)
	m := MonthlyTemperature{Unit: o.Text("unit").S, Basis: g.Under(o.Text("basis"), ps).Basis, At: v.At}
	months := o.Value("months").Items
	if !o.Has("unit") || !o.Has("months") {
		return MonthlyTemperature{At: v.At}
	}
	if _, err := measure.TemperatureUnit(m.Unit); err != nil {
		ps.Refuse("bad-unit", o.Text("unit"), err)
		return MonthlyTemperature{At: v.At}
	}
	if len(months) != 12 {
		want := "write January to December; ~ where a month is not known"
		if len(months) == 24 {
			want = "write decimals with a point: a comma starts the next month"
		}
		ps.Errorf("twelve-months", o.Value("months").At, want, "found %s for 12 months", content.Several(len(months), "value"))
		return MonthlyTemperature{At: v.At}
	}
	for i, x := range months {
		if x.Kind == content.Absent || x.Kind == content.Scalar && x.Text.Trim().S == "" {
			continue
		}
		if x.Kind != content.Scalar {
			ps.Errorf("wrong-shape", x.At, "", "found %s where a temperature is wanted", x.Kind)
			continue
		}
		if c, ok := celsius(x.Text, m.Unit, ps); ok {
			m.Months[i], m.Known[i] = c, true
		}
	}
	return m
}

// celsius reads a number in a unit given elsewhere, or with its own.
func celsius(t content.Text, unit string, ps *content.Problems) (float64, bool) {
	r, err := measure.ParseTemperature(t.S)
	if e, ok := err.(*calendar.Error); ok && e.Reason == "has no unit" && unit != "" {
		r, err = measure.ParseTemperature(t.S + " " + unit)
	}
	if err != nil {
		refuse("bad-temperature", t, err, ps)
		return 0, false
	}
	if c := measure.Round9(float64(r.Low)); c < -1 || c > 35 {
		want := "check the number and its unit"
		if c > 32 && c <= 100 && r.Unit == measure.DegC {
			want += ": as °F it would be " + content.Decimal(float64(measure.DegF.Value(c)), 1) + " °C"
		}
		ps.Warnf("odd-temperature", t.At, want, "%s is hardly the temperature of a water", r)
	}
	return float64(r.Low), true
}

func beat(e content.Entry, ps *content.Problems) Beat {
	b := Beat{Name: e.Key, At: e.Key.At}
	b.Name.S = content.NFC(e.Key.S)
	if e.Value.Kind == content.Scalar {
		b.Place, b.HasPlace = place(e.Value.Text, ps)
		return b
	}
	o := BeatRecord.Open(e.Value, ps)
	b.Place, b.HasPlace = place(o.Text("place"), ps)
	b.Altitude = altitude(o.Text("altitude"), ps)
	b.Members = o.Choice("show") == "members"
	return b
}

func season(v content.Value, ps *content.Problems) (Season, bool) {
	o := SeasonRecord.Open(v, ps)
	s := Season{Fish: o.Text("fish").Trim(), Note: o.Text("note"), At: v.At}
	ok := o.Has("fish") && o.Has("open") && o.Has("close")
	day := func(key string, role calendar.Role) (d calendar.MonthDay) {
		if !o.Has(key) {
			return d
		}
		d, err := calendar.ParseMonthDay(o.Text(key).S, role)
		if err != nil {
			ps.Refuse("bad-day", o.Text(key), err)
			ok = false
		}
		return d
	}
	s.Open, s.Close = day("open", calendar.From), day("close", calendar.To)
	if t := o.Text("checked"); t.S != "" {
		d, err := calendar.ParseDate(t.S)
		if err != nil {
			ps.Refuse("bad-date", t, err)
		}
		s.Checked = d
	}
	return s, ok
}

// listings reads the water's flies: a block, or a plain list of names.
func listings(v content.Value, g content.Grounds, ps *content.Problems) []Listing {
	var l []Listing
	seen := map[string]content.Text{}
	once := func(t content.Text) bool {
		first, twice := seen[content.Fold(t.S)]
		if twice {
			ps.Clash("listed-twice", t.At, first.At, "first listed here", "keep one of the two", "%q is listed twice", t.S)
		}
		seen[content.Fold(t.S)] = t
		return !twice && content.Fold(t.S) != ""
	}
	if v.Kind != content.Map {
		for _, t := range v.Texts(ps) {
			if once(t) {
				l = append(l, Listing{Fly: t.Trim(), Basis: g.Basis})
			}
		}
		return l
	}
	for _, e := range v.Entries {
		if !once(e.Key) {
			continue
		}
		fly := Listing{Fly: e.Key.Trim(), Basis: g.Basis}
		switch e.Value.Kind {
		case content.Absent:
		case content.Scalar:
			s := g.State(e.Value.Text, ps)
			fly.Basis = s.Basis
			fly.Class = class(s.Text, ps)
		default:
			own(&fly, e.Value, g, ps)
		}
		l = append(l, fly)
	}
	return l
}

func class(t content.Text, ps *content.Problems) species.Class {
	c := species.Class(content.Fold(t.S))
	if c == "listed" || slices.Contains(species.Classes, c) && c != "" {
		return species.Class(strings.TrimSuffix(string(c), "listed"))
	}
	known := append(list(species.Classes), "listed")
	ps.Errorf("unknown-class", t.At, "one of: "+strings.Join(known, ", "), "%q isn't a class of abundance%s", t.S, content.DidYouMean(t.S, known))
	return species.NoClass
}

// own reads a fly with dates of its own on this water.
func own(fly *Listing, v content.Value, g content.Grounds, ps *content.Problems) {
	o := ListingRecord.Open(v, ps)
	g = g.Under(o.Text("basis"), ps)
	fly.Basis, fly.Members = g.Basis, o.Choice("show") == "members"
	fly.Class = species.Class(strings.TrimSuffix(o.Choice("abundance"), "listed"))
	single := o.Has("from") || o.Has("peak") || o.Has("to")
	if single && o.Has("flights") {
		ps.Clash("dates-twice", cmp.Or(o.Text("from"), o.Text("peak"), o.Text("to")).At, o.Value("flights").At, "and dates by flight stand here",
			"keep one of the two", "this fly has dates of its own twice")
		return
	}
	if single {
		for _, key := range []string{"from", "to"} {
			if !o.Has(key) {
				ps.Errorf("missing-key", v.At, "give from and to, and a peak if it is known", "dates of a water's own have no %q", key)
			}
		}
		if f, ok := species.ReadDates(o, "", v.At, g, ps); ok {
			fly.Flights = append(fly.Flights, f)
		}
	}
	for _, e := range o.Value("flights").Entries {
		if f, ok := species.ReadDates(species.DatesRecord.Open(e.Value, ps), content.NFC(e.Key.S), e.Key.At, g, ps); ok {
			fly.Flights = append(fly.Flights, f)
		}
	}
}
