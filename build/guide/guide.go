// Package guide joins what the readers found into one guide, checks it as a
// whole, and cuts it to one edition. Only Read makes a Guide and only Cut an
// Edition, so a page can see neither unchecked nor withheld text.
package guide

import (
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
	"guidegen/species/hook"
)

// Guide is a whole guide, checked.
type Guide struct {
	Settings     Settings
	Constants    Constants
	Accounts     []*species.Account // by address
	Waters       []*rivers.Water    // by name, then address
	Dressings    []*species.Dressing
	Characters   []species.Character
	Hooks        hook.Table
	HookRows     []species.MeasuredHook
	Sources      []species.Source
	Notes        []Note
	Photos       []*Photo // as photos.yaml lists them; an edition has only those that it shows
	Corrections  []Correction
	Visits       []*Visit // by date, water, id
	Series       []rivers.TemperatureSeries
	Words        map[string]*content.File // the guide's own words, by language tag
	Acknowledged []Acknowledgement
}

// Settings is what guide.yaml says.
type Settings struct {
	Name, Publisher, Licence, Region, About, Contact string
	Address                                          string   // base address of the published site, "" where none is given
	Languages                                        []string // first is the guide's own
	LanguageAt                                       content.Place
	Units                                            Units
	Sheets                                           content.Dialect            // how sheets are written
	SheetFiles                                       map[string]content.Dialect // where one differs, by its path
	Reference                                        Reference
	People                                           map[string]Naming // how each wishes to be named; others: initials
	Roles                                            []Role
	Basis                                            content.Basis
	Alphabet                                         *content.Alphabet // of the guide's own language
}

// Units are what pages show; records keep the unit they were written in.
type Units struct{ Length, Temperature, Altitude string }

// Reference is the water that the accounts describe.
type Reference struct {
	Altitude                 measure.Range[measure.Metres]
	Latitude                 measure.Angle
	HasAltitude, HasLatitude bool
	South                    bool // the guide lies south of the equator
	Temperature              rivers.MonthlyTemperature
}

// Naming is how a person wishes to be named.
type Naming string

// The ways of naming a person.
const (
	FullName Naming = "full"
	Initials Naming = "initials"
	NoName   Naming = "none"
)

// Role is an office of the club and who holds it until when.
type Role struct {
	Name, Who string
	Until     calendar.Date
	At        content.Place
}

// Note is any other page.
type Note struct {
	Address string // slug of the file's name
	Title   string
	InFront bool // the front page links to it
	At      content.Place
	Members bool
	Body    species.Body
	Was     []content.Text
}

// Correction is one thing that was put right.
type Correction struct {
	Date               calendar.Date
	By, File, What     string
	Before, After, Why string
	At                 content.Place
}

// Acknowledgement lets one warning stand.
type Acknowledgement struct {
	Problem, File, Text, By, Why string
	On                           calendar.Date
	At                           content.Place
}
