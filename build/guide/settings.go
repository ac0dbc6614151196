package guide

// guide.yaml: the guide's name, units, reference conditions, people, roles
// and the constants that differ.

import (
	"strconv"
	"strings"

	"golang.org/x/text/language"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
)

// Format is the version of the guide folder's format that this program writes.
const Format = 1

var referenceFields = &content.Record{Name: "reference", Doc: "The water that the accounts describe.", Fields: []content.Field{
	{Key: "altitude", Shape: content.Line, Doc: "Altitude of the reference water.", Example: "90 m"},
	{Key: "latitude", Shape: content.Line, Doc: "Latitude of the reference water.", Example: "55.2 N"},
	{Key: "longitude", Shape: content.Line, Doc: "Longitude of the reference water; no figure uses it.", Example: "4.9 W"},
	{Key: "water_temperature", Shape: content.Block, Of: rivers.MonthsRecord, Doc: "Monthly mean water temperature of the reference water."},
}}

var roleFields = &content.Record{Name: "role", Doc: "An office of the club.", Fields: []content.Field{
	{Key: "who", Shape: content.Line, Required: true, Doc: "Who holds it.", Example: "A. Name"},
	{Key: "until", Shape: content.Line, Doc: "Until when.", Example: "2027-03-31"},
}}

// SettingsRecord is the table of guide.yaml.
var SettingsRecord = &content.Record{Name: "guide", Doc: "What holds for the whole guide.", Fields: []content.Field{
	{Key: "format", Shape: content.Line, Required: true, Doc: "The version of this format.", Example: "1"},
	{Key: "name", Shape: content.Line, Required: true, Doc: "The guide's name.", Example: "Flies of our waters"},
	{Key: "publisher", Shape: content.Line, Doc: "Who publishes it.", Example: "Our fly fishers' club"},
	{Key: "licence", Shape: content.Line, Doc: "Licence of the text and data.", Example: "CC BY 4.0"},
	{Key: "region", Shape: content.Line, Doc: "The region it is for."},
	{Key: "about", Shape: content.Line, Doc: "One sentence about the guide."},
	{Key: "contact", Shape: content.Line, Doc: "How to reach the editors."},
	{Key: "address", Shape: content.Line, Doc: "The base address of the published site.", Example: "https://guide.example/"},
	{Key: "languages", Shape: content.Texts, Doc: "Language tags; the first is the guide's own.", Example: "[en]"},
	{Key: "units", Shape: content.Block, Doc: "What pages show.", Of: unitFields},
	{Key: "reference", Shape: content.Block, Doc: "The water that the accounts describe.", Of: referenceFields},
	{Key: "people", Shape: content.Named, Doc: "How each wishes to be named: full, initials or none. Nobody listed: initials."},
	{Key: "roles", Shape: content.Named, Of: roleFields, Doc: "Who holds which office until when."},
	{Key: "sheets", Shape: content.Block, Of: content.DialectRecord, Doc: content.DialectRecord.Doc},
	{Key: "basis", Shape: content.Line, Doc: "What the guide's statements rest on where none is written.", Example: "common practice"},
	{Key: "figures", Shape: content.Block, Of: constantsRecord(), Doc: "Constants that differ from the defaults, in their groups.", Example: "{season: {thin_visits: 3}}"},
}}

var unitFields = &content.Record{Name: "units", Doc: "What pages show.", Fields: []content.Field{
	{Key: "length", Shape: content.Choice, Choices: []string{"mm", "in"}, Doc: "Lengths of flies."},
	{Key: "temperature", Shape: content.Line, Doc: "°C or °F.", Example: "°C"},
	{Key: "altitude", Shape: content.Choice, Choices: []string{"m", "ft"}, Doc: "Heights above the sea."},
}}

func readSettings(f *content.File, g content.Grounds, ps *content.Problems) (Settings, Constants, content.Grounds) {
	s := Settings{Languages: []string{"en"}, Units: Units{"mm", "°C", "m"}, People: map[string]Naming{}, SheetFiles: map[string]content.Dialect{}}
	v := content.ReadYAML(f, ps)
	o := SettingsRecord.Open(v, ps)
	if t := o.Text("format"); !t.IsZero() {
		if n, err := strconv.Atoi(strings.TrimSpace(t.S)); err != nil || n < 1 || strconv.Itoa(n) != strings.TrimSpace(t.S) {
			ps.Errorf("bad-format", t.At, "write format: 1", "%q isn't a format number", t.S)
		} else if n > Format {
			ps.Errorf("newer-format", t.At, "use a newer guidegen", "the guide is written for format %d and this program reads up to %d", n, Format)
		}
	}
	g = g.Under(o.Text("basis"), ps)
	s.Basis = g.Basis
	s.Name, s.Publisher, s.Licence = o.Text("name").S, o.Text("publisher").S, o.Text("licence").S
	if v.Kind == content.Map && strings.TrimSpace(s.Licence) == "" {
		ps.Warnf("no-licence", v.At, "write it like licence: CC BY 4.0", "the guide names no licence, so nobody knows what they may do with its text and data")
	}
	s.Region, s.About, s.Contact = o.Text("region").S, o.Text("about").S, o.Text("contact").S
	if t := o.Text("address"); !t.IsZero() {
		if !strings.HasPrefix(t.S, "https://") && !strings.HasPrefix(t.S, "http://") || strings.ContainsAny(t.S, " \"<>") {
			ps.Errorf("bad-address", t.At, "write the whole address: https://guide.example/", "%q isn't an address of a site", t.S)
		} else {
			s.Address = strings.TrimSuffix(t.S, "/") + "/"
		}
	}
	if o.Has("languages") {
		s.Languages = nil
		for _, t := range o.Texts("languages", ps) {
			if _, err := language.Parse(t.S); err != nil {
				ps.Errorf("unknown-language", t.At, "write a BCP 47 tag such as en, cy or mi", "%q isn't a language tag", t.S)
				continue
			}
			s.Languages = append(s.Languages, t.S)
			if len(s.Languages) == 1 {
				s.LanguageAt = t.At
			}
		}
		if len(s.Languages) == 0 {
			s.Languages = []string{"en"}
		}
	}
	s.Alphabet = content.AlphabetOf(s.Languages[0])
	if o.Has("sheets") {
		d := content.DialectRecord.Open(o.Value("sheets"), ps)
		s.Sheets = content.ReadDialect(d, content.Dialect{})
		for _, e := range d.Value("files").Entries {
			s.SheetFiles[e.Key.S] = content.ReadDialect(content.DialectRecord.Open(e.Value, ps), s.Sheets)
		}
	}
	if o.Has("units") {
		u := unitFields.Open(o.Value("units"), ps)
		if u.Has("length") {
			s.Units.Length = u.Choice("length")
		}
		if u.Has("altitude") {
			s.Units.Altitude = u.Choice("altitude")
		}
		if t := u.Text("temperature"); !t.IsZero() {
			if unit, err := measure.TemperatureUnit(t.S); err != nil {
				ps.Refuse("unknown-unit", t, err)
			} else {
				s.Units.Temperature = unit.Symbol
			}
		}
	}
	s.readReference(o, g, ps)
	s.readPeople(o, ps)
	return s, readConstants(o.Value("figures"), ps), g
}

func (s *Settings) readReference(o content.Opened, g content.Grounds, ps *content.Problems) {
	if !o.Has("reference") {
		return
	}
	r := referenceFields.Open(o.Value("reference"), ps)
	ref := &s.Reference
	if t := r.Text("altitude"); !t.IsZero() {
		a, err := measure.ParseAltitude(t.S)
		if err != nil {
			ps.Refuse("bad-altitude", t, err)
		} else {
			ref.Altitude, ref.HasAltitude = a, true
		}
	}
	if t := r.Text("latitude"); !t.IsZero() {
		a, err := measure.ParseLatitude(t.S)
		if err != nil {
			ps.Refuse("bad-place", t, err)
		} else {
			ref.Latitude, ref.HasLatitude, ref.South = a, true, a.Degrees < 0
		}
	}
	if t := r.Text("longitude"); !t.IsZero() {
		if _, err := measure.ParseLongitude(t.S); err != nil {
			ps.Refuse("bad-place", t, err)
		}
	}
	if r.Has("water_temperature") {
		ref.Temperature = rivers.ReadMonths(r.Value("water_temperature"), g, ps)
	}
}

func (s *Settings) readPeople(o content.Opened, ps *content.Problems) {
	ways := []string{string(FullName), string(Initials), string(NoName)}
	for _, e := range o.Value("people").Entries {
		if e.Value.Kind == content.Absent {
			continue
		}
		how := Naming(content.Fold(e.Value.Text.S))
		if e.Value.Kind != content.Scalar || how != FullName && how != Initials && how != NoName {
			ps.Errorf("unknown-choice", e.Value.At, "one of: "+strings.Join(ways, ", "), "%q isn't a way to be named%s",
				e.Value.Text.S, content.DidYouMean(e.Value.Text.S, ways))
			continue
		}
		s.People[content.Fold(e.Key.S)] = how
	}
	for _, e := range o.Value("roles").Entries {
		r := roleFields.Open(e.Value, ps)
		role := Role{Name: e.Key.S, Who: r.Text("who").S, At: e.Key.At}
		if t := r.Text("until"); !t.IsZero() {
			d, err := calendar.ParseDate(t.S)
			if err != nil {
				ps.Refuse("bad-date", t, err)
			}
			role.Until = d
		}
		s.Roles = append(s.Roles, role)
	}
}
