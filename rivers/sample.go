package rivers

import (
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
)

// Event is one sampling event as its file tells, its rows together. Names
// are as written; the guide resolves waters and flies and joins duplicates.
type Event struct {
	ID          string
	File        string
	At          content.Place // first row
	When        calendar.When
	Start       calendar.Clock
	End         calendar.Clock
	Water       content.Text
	Beat        content.Text
	Place       measure.Coordinates
	HasPlace    bool
	Uncertainty float64 // metres; 0 if not given
	Protocol    Protocol
	Effort      measure.Effort // zero if not given
	EffortText  string         // samplingEffort, kept as text
	Scope       Scope
	By          []string // recordedBy
	Finds       []Find
	Readings    []Reading
	Remarks     string
}

// Protocol is a way of sampling.
type Protocol string

// Protocols is the closed list; the first seven can meet flies on the wing.
var Protocols = []Protocol{"sweep net", "hand net", "bank search", "light trap", "emergence trap", "sticky trap",
	"beating tray", "kick sample", "exuviae", "drift net", "stomach contents", "temperature only", "fishing only"}

// OnTheWing reports whether the protocol can meet flies on the wing.
func (p Protocol) OnTheWing() bool {
	for _, q := range Protocols[:7] {
		if p == q {
			return true
		}
	}
	return false
}

// Under reports whether the protocol counts larvae, pupae or the skins they shed, which say nothing of flies on the wing.
func (p Protocol) Under() bool { return slices.Contains(Protocols[7:11], p) }

// Scope is which groups were looked for.
type Scope struct {
	Given  bool // something was written
	Groups []species.Group
	At     content.Place
}

// LookedFor lists the groups that the event looked for on the wing: those of
// its scope; without a scope all water-bred ones where it has an effort, else
// none. A protocol that can't meet flies on the wing looks for none.
func (e *Event) LookedFor() []species.Group {
	switch {
	case !e.Protocol.OnTheWing():
		return nil
	case e.Scope.Given:
		return e.Scope.Groups
	case e.Effort.Amount > 0:
		return waterBred()
	}
	return nil
}

func waterBred() []species.Group {
	var l []species.Group
	for _, g := range species.Groups {
		if g.WaterBred() {
			l = append(l, g)
		}
	}
	return l
}

// Has reports whether a group was looked for.
func (s Scope) Has(g species.Group) bool {
	for _, x := range s.Groups {
		if x == g {
			return true
		}
	}
	return false
}

// Find is one occurrence: a fly, stage and sex with a count and measurements.
type Find struct {
	ID         string
	At         content.Place
	Fly        content.Text // as written: the scientific name where one is given
	Called     content.Text // vernacularName, where there is a scientific name too
	Rank       string       // taxonRank as written, "" if not given
	Qualifier  string       // identificationQualifier: "cf.", "agg."
	Stage      species.Stage
	StageText  content.Text // as written; see StageOf
	Sex        species.Sex
	Depth      string // of water in metres, "1" or "1–2"; "" if not given
	Quantity   string // organismQuantity and its type, as written; "" if not given
	Count      int    // 1 where only presence was noted
	Counted    bool   // a number was written
	Absent     bool   // occurrenceStatus absent: looked for and not found, by name
	Lengths    []Length
	By         string // identifiedBy
	Identified calendar.When
	Checked    Verification
	Reared     bool
	Remarks    string
}

// StageOf is the stage for a fly of a group: what was written as imago is the
// spinner of an upwinged fly and the adult of any other.
func (f *Find) StageOf(g species.Group) species.Stage {
	if content.Fold(f.StageText.S) == "imago" && g != "" {
		return g.Imago()
	}
	return f.Stage
}

// Length is one measured length.
type Length struct {
	Millimetres float64
	Digits      int    // decimals as measured, in millimetres
	Method      string // "without tails", "head to wing tip", as written
	WithTails   bool   // set aside
	Part        string // "body length", "overall length", "wing length"; "" for what the group is measured by
	At          content.Place
}

// Verification is how far a determination has been checked.
type Verification string

// The states of verification; what is not said is unreviewed.
const (
	Verified   Verification = "verified"
	Unreviewed Verification = "unreviewed"
	Rejected   Verification = "rejected"
)

// Reading is a measurement of the water made on an event.
type Reading struct {
	What    string // "water temperature"
	Celsius float64
	Method  string // as written: "spot reading"
	At      content.Place
}

// TemperatureSeries is the temperature records of one file row by row; spot
// readings and logger days are kept apart.
type TemperatureSeries struct {
	File   string
	Spots  []Spot
	Logger []LoggerDay
}

// Spot is one reading of a thermometer.
type Spot struct {
	Water        content.Text
	WaterAddress string // filled in by the guide
	Place        content.Text
	Date         calendar.Date
	Time         calendar.Clock
	Celsius      float64
	By           string
	At           content.Place
}

// LoggerDay is one day of a logger; a value not given is absent.
type LoggerDay struct {
	WaterAddress       string // filled in by the guide
	Water              content.Text
	Place              content.Text // tells two loggers of one water apart
	Date               calendar.Date
	Min, Max, Mean     float64 // °C
	HasMinMax, HasMean bool
	At                 content.Place
}
