// Package rivers holds what the guide knows of waters: river records, samples
// in Darwin Core terms, and water temperature, read from the guide's text and
// checked.
package rivers

import (
	"time"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
	"guidegen/species/tying"
)

// Kind is the kind of a water.
type Kind string

// Kinds is the closed list.
var Kinds = []Kind{"spring-fed", "rain-fed", "limestone", "peaty", "tailwater", "lowland lake", "upland lake", "reservoir"}

// BelowDam reports whether the water's temperature follows a dam, not the season.
func (k Kind) BelowDam() bool { return k == "tailwater" }

// Still reports whether the water stands.
func (k Kind) Still() bool { return k == "lowland lake" || k == "upland lake" || k == "reservoir" }

// Water is one river record: a river, stream, lake or reservoir.
type Water struct {
	Address string // lasting: the slug of the file's name
	File    string
	At      content.Place
	Was     []content.Text

	Name     content.Text
	Also     []content.Text
	Kind     Kind
	Place    measure.Coordinates
	HasPlace bool
	PlaceAt  content.Place
	Altitude measure.Range[measure.Metres]
	Zone     *time.Location
	ZoneName string
	Bed      content.Text
	About    content.Text
	Reach    float64 // km from Place within which records are expected; 0 if not given

	Beats       []Beat
	Temperature MonthlyTemperature
	Regulated   bool // its temperature follows a dam or other works
	Flies       []Listing
	Seasons     []Season
	Rules       content.Text
	Methods     []tying.Method // the kinds of fly that its rules allow; none: all
	Access      content.Text
	Hazards     []content.Text
	Code, Meet  content.Text        // emergency: location code, meeting place
	MeetAt      measure.Coordinates // of the meeting place, where HasMeetAt
	HasMeetAt   bool
	Sensitive   []SensitivePlace

	Basis   content.Basis
	Members bool
}

// HasAltitude reports whether the record gives an altitude.
func (w *Water) HasAltitude() bool { return w.Altitude.Unit.Symbol != "" }

// Beat is a named stretch or site of a water.
type Beat struct {
	Name     content.Text
	At       content.Place
	Place    measure.Coordinates
	HasPlace bool
	Altitude measure.Range[measure.Metres]
	Members  bool // show: members
}

// MonthlyTemperature is twelve mean water temperatures in °C; an unknown
// month is absent, never zero.
type MonthlyTemperature struct {
	Months [12]float64
	Known  [12]bool
	Unit   string // as written
	Basis  content.Basis
	At     content.Place
}

// Count is the number of months known.
func (t MonthlyTemperature) Count() int {
	n := 0
	for _, k := range t.Known {
		if k {
			n++
		}
	}
	return n
}

// Listing is one fly in the water's list.
type Listing struct {
	Fly     content.Text // as written; the guide resolves it
	Account string       // the account's address, filled in by the guide
	Class   species.Class
	Flights []species.Flight // the water's own dates; empty where the account's hold. A single set of own dates has an empty Name
	Basis   content.Basis
	Members bool
}

// Season is the fishing season for one fish.
type Season struct {
	Fish          content.Text
	calendar.Term // both ends are fishing days
	Checked       calendar.Date
	Note          content.Text
	At            content.Place
}

// SensitivePlace is a place that the guide must not betray.
type SensitivePlace struct {
	Place   measure.Coordinates
	Radius  float64 // metres; 0 if not given
	About   content.Text
	Members bool
	At      content.Place
}
