package species

import (
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species/colour"
	"guidegen/species/hook"
)

// Account is one fly, as its file tells and checked against itself. What it
// says of other files (sources, characters) is checked there too.
type Account struct {
	Address string // lasting: the slug of the file's name
	File    string // slash path in the guide
	At      content.Place
	Was     []content.Text // older addresses

	Name       content.Text
	Also       []content.Text
	Called     map[string]Met            // the names of Also that are of one stage alone: "sherry spinner", the female spinner
	Old        []content.Text            // names no longer used
	ByLanguage map[string][]content.Text // names by language tag
	Scientific Scientific
	Synonyms   []content.Text // older scientific names
	Family     content.Text
	Group      Group
	Form       string         // one of Forms, "" where the group says enough
	Water      []content.Text // kinds of water, in the guide's words

	Flights  []Flight // in the order written
	FishMeet []Met    // replaces the group's; empty where the account doesn't say
	Emerges  Claims[Emergence]
	Lays     Claims[Laying]
	Level    Property[[]Level]
	Hours    Property[calendar.Span]
	Length   Property[Length]     // what is measured follows from the group
	Wing     Property[Length]     // fore wing
	Books    Property[hook.Range] // book sizes
	Colours  []PartColour
	Features []Feature

	Highest    Claims[measure.Range[measure.Metres]] // known range of altitude; from 0 m for "up to 600 m"
	Protected  []Protection
	Reviewed   calendar.Date
	ReviewedBy string
	Basis      content.Basis // inherited by statements that name none; zero if none
	Members    bool          // show: members
	Body       Body
}

// Length is a length in millimetres, one value or a range, and what was measured.
type Length struct {
	measure.Range[measure.Millimetres]
	Part Part // "" where the account leaves it to the group's habit
}

// Part is what a length measures.
type Part string

// The parts: the body from head to tip of abdomen, without tails or antennae; or overall at rest, from head to
// wing tip without antennae.
const (
	OfBody  Part = "body"
	Overall Part = "overall"
)

// Habit is what a length of a stage measures where nobody says: the body, and of the winged stage of sedges,
// stoneflies and alders overall. Source for the habit: insect field guides; caddis "tip of the head to wing apex"
// (Souza, Santos & Takiya 2016, Zootaxa 4078:337).
func (g Group) Habit(s Stage) Part {
	if s == Adult && (g == Sedge || g == Stonefly || g == Alder) {
		return Overall
	}
	return OfBody
}

// ParseLength reads a length, with what was measured after it: "9 to 12 mm", "9 to 12 mm body".
func ParseLength(s string) (Length, error) {
	var l Length
	var rest []string
	for _, word := range strings.Fields(s) {
		if p := Part(content.Fold(word)); l.Part == "" && (p == OfBody || p == Overall) {
			l.Part = p
			continue
		}
		rest = append(rest, word)
	}
	if l.Part == "" {
		rest = []string{s}
	}
	var err error
	l.Range, err = measure.ParseLength(strings.Join(rest, " "))
	return l, err
}

// Scientific is a name and its authority, "Baetis rhodani" and "(Pictet, 1843)".
type Scientific struct {
	Name      content.Text
	Authority string
}

// Flight is one generation on the wing.
type Flight struct {
	Name           string
	At             content.Place
	From, Peak, To calendar.Day // Peak is 0 where the account gives none
	DatesText      [3]string    // as written: "mid Feb"
	Class          Class
	Moves          Rule
	DaysPerDegree  Claims[measure.DaysPerDegree] // days per °C; empty where the default holds
	Basis          content.Basis
}

// PartColour is the colour of one part of a fly in one case.
type PartColour struct {
	Part  string
	Cases Property[Shade]
}

// Shade is a colour as given: words first, a value where one is known, and
// how it was seen.
type Shade struct {
	Colour colour.Colour
	Wet    Wetness
	Light  string // "against the light", "" if not said
}

// Wetness is wet, dry or not said.
type Wetness string

// The states of wetness.
const (
	NotSaid Wetness = ""
	Wet     Wetness = "wet"
	Dry     Wetness = "dry"
)

// Feature is what an account says of one character: states by case. A case
// not given is not known, never a mismatch.
type Feature struct {
	Name  string // as in characters.yaml
	At    content.Place
	Cases Property[[]string]
}

// Protection is a legal status in one country, dated.
type Protection struct {
	Country string
	Status  string
	Date    calendar.When
	At      content.Place
}

// Body is a file's Markdown and where it starts.
type Body struct {
	Markdown string
	File     string
	Offset   int
}

// Names lists every name a person may call the fly by: the name first, then
// others, older ones, other languages' and scientific ones.
func (a *Account) Names() []content.Text {
	l := append([]content.Text{a.Name}, a.Also...)
	l = append(l, a.Old...)
	for _, lang := range sortedKeys(a.ByLanguage) {
		l = append(l, a.ByLanguage[lang]...)
	}
	return append(append(l, a.Scientific.Name), a.Synonyms...)
}

// Feature returns what the account says of a character in a case; empty means not known.
func (a *Account) Feature(name string, c Words) (Claim[[]string], bool) {
	for _, f := range a.Features {
		if f.Name == name {
			return f.Cases.First(c)
		}
	}
	return Claim[[]string]{}, false
}

// Flight finds a flight by name.
func (a *Account) Flight(name string) (Flight, bool) {
	for _, f := range a.Flights {
		if f.Name == name {
			return f, true
		}
	}
	return Flight{}, false
}
