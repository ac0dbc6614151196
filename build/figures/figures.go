// Package figures reckons everything the guide prints, once, from one
// edition. Pages, data files, feeds and the command line read only this.
package figures

import (
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/species"
)

// Book is everything reckoned.
type Book struct {
	Edition   *guide.Edition
	Built     calendar.Date // the date the guide was built for
	RecordsTo calendar.Date // last dated visit; zero where there is none
	Waters    []*Water      // in page order; withheld waters are not among them
	Flies     []*Fly        // in page order: group, then name
	Months    [12]Month
	Dressings []*Dressing // by name
	Alphabet  []NameEntry // every name anyone may search for, sorted
}

// Water is one water's figures.
type Water struct {
	*rivers.Water
	Rows      []*Row // flies listed for or found on the water, by group then name
	Visits    int    // visits that count for some fly
	Years     []int  // years with visits
	RecordsTo calendar.Date
	Sun       [12]SunTimes // on the 15th of each month; zero value where the water has no place
	HasPlace  bool
	Groups    []GroupMonths // flies to expect per group and month
	Coverage  Coverage
	Rightness Rightness
	Warmth    Warmth
	Ahead     []Ahead // ahead or behind per logger year and threshold; newest last
	Prompts   []content.Problem
}

// Fly is one account's figures that hold on every water.
type Fly struct {
	*species.Account
	Rows      []*Row // by water, in page order
	Flights   []species.Flight
	Compared  *Comparison      // dun against spinner, pupa against adult …; nil for land-bred flies
	Sizes     []Size           // account's lengths and all waters' records, per stage × sex × flight
	Dressings []StageDressings // without a water: all waters together
	Alike     []Alike
	Compare   []WaterPair
}

// Row is one fly on one water.
type Row struct {
	Water       *Water
	Fly         *Fly
	Listed      bool          // in the water's list; else found there but not listed
	Class       species.Class // the class that holds here
	Flights     []FlightHere
	Account     [calendar.Year]float64 // moved and softened curve, index day-1
	Chance      [calendar.Year]float64 // index day-1
	Months      [12]MonthHere
	Cells       [calendar.Cells]CellHere
	Runs        []Run                // the year as states, for the device to look up
	OnCells     [calendar.Cells]bool // on now on at least one day of the cell
	Short       string               // short-flight sentence's data; see ShortFlight
	ShortFlight *ShortFlight
	Looked      int             // visits that looked for the fly
	FoundOn     int             // of them, found
	ThisYear    []calendar.Date // finds of the build year, for marks on the bars
	Hours       []HoursHere
	Sizes       []Size
	Dressings   []StageDressings
	Alike       []Alike
	TwoFlights  string // prompt of section 6, "" where none
}

// FlightHere is one flight moved to one water.
type FlightHere struct {
	Name           string
	From, Peak, To calendar.Day    // moved
	Account        [3]calendar.Day // from, peak, to as the account (or the water's own record) gives them; peak filled in
	Own            bool            // the water's own dates
	Shift          int             // days, later is positive
	Rule           string          // warmth, altitude, nothing, own dates, all year
	Default        bool            // the rule was taken by default
	WhyNot         string          // why it was not moved: "no temperature", "below a dam", …; "" where moved
	Class          species.Class
	Share          float64 // of standard visits that find the fly at its peak
	Basis          content.Basis
	Dates          FlightDates
}

// FlightDates is what records say of one flight on one water (section 6).
type FlightDates struct {
	Protocol      string // the one used; "" where no find has a known effort
	Visits        int    // visits that found it by that protocol
	Years         []int
	P10, P50, P90 calendar.Day    // 0 where records are too few
	First, Last   calendar.Date   // first and last seen, with their year; zero where never seen
	Finds         []calendar.Date // every find, in order
	Thin          bool
}

// MonthHere is one month's bar (section 5).
type MonthHere struct {
	Chance, Low, High float64
	Looked, Found     int
	Years             []int    // years with own visits in the month
	Own, Lent, Rest   float64  // basis shares; Rest is the account's or, not listed, assumed
	Lenders           []Lender // waters that lent, by name
	State             MonthState
	Thin              bool // fewer than 3 own visits, or all in one year
	Assumed           bool // Rest is assumed, not the account's
	Unreviewed        int  // of Found, visits whose finds are all unreviewed
	Basis             content.Basis
}

// MonthState is how a month's bar is drawn.
type MonthState string

// The states of a month.
const (
	Visited     MonthState = "visited"      // at least one own visit looked for the fly
	Unlooked    MonthState = "unlooked"     // nobody looked; the bar rests on the account, neighbours and other waters
	NotExpected MonthState = "not expected" // nobody looked and the account doesn't expect it: no number
)

// Lender is a water that lent visits.
type Lender struct {
	Water    string // its name; "a water of the club" where withheld
	Kind     string
	Altitude string
	Visits   int
	Years    int
}

// CellHere is one half-month in its three states.
type CellHere struct {
	State         CellState
	Looked, Found int
	Years         []int
}

// CellState is one of three, never two.
type CellState string

// The three states.
const (
	CellFound    CellState = "found"
	CellLooked   CellState = "looked"
	CellUnlooked CellState = "unlooked"
)

// Run is a stretch of days with one state.
type Run struct {
	From, To calendar.Day // inclusive; runs don't cross New Year
	State    OnState
	Tendency Tendency
}

// OnState is what is on around a date (section 7).
type OnState string

// The states around a date; Off is none of the others.
const (
	Off            OnState = ""
	On             OnState = "on"
	Starting       OnState = "starting"
	JustOver       OnState = "just over"
	BetweenFlights OnState = "between flights"
)

// Tendency is only given for flies that are on.
type Tendency string

// The tendencies.
const (
	NoTendency Tendency = ""
	Rising     Tendency = "rising"
	Steady     Tendency = "steady"
	Fading     Tendency = "fading"
)

// ShortFlight is "about N days, some time between A and B; then found on share of visits".
type ShortFlight struct {
	Flight  string
	Days    int
	Between calendar.Day
	And     calendar.Day
	Share   float64
	Basis   content.Basis
}

// HoursHere is the hours of one stage in one month, in the water's time zone.
type HoursHere struct {
	Stage    species.Stage
	Sex      species.Sex
	Flight   string
	Month    int            // 1..12; months in which the fly is on
	Written  string         // as the account gives them: "sunset-2h to sunset+30min"
	From, To calendar.Clock // NoClock where the sun gives none
	SunWord  string         // "the sun does not set" …; "" where times are given
	Basis    content.Basis
}

// SunTimes is one date's sun at a water, local clock times; NoClock where there is none.
type SunTimes struct {
	Rise, Set, Dusk calendar.Clock
	Zone            string // abbreviation in force that day: "BST"
	Polar           string // "polar day", "polar night", "" else
}

// Size is measured lengths of one stage × sex × flight (section 9).
type Size struct {
	Stage             species.Stage
	Sex               species.Sex
	Flight            string
	Water             string  // whose records; "" means all waters together
	N                 int     // 0: the account's length only
	Median, Low, High float64 // millimetres
	Digits            int
	What              string     // "body, without tails" or "overall at rest, head to wing tip"
	SetAside          int        // lengths taken with tails
	Account           [2]float64 // the account's range, mm; zero if not given
	Basis             content.Basis
	From              string // what the hook rests on: "this water", "all waters", "account", "" if nothing
	Hooks             []HookFor
	Book              string // book size as written, "" if none
	BookBasis         content.Basis
	BookSteps         string // worded data: per first straight model; see HookFor
}

// HookFor is the suggestion in one measured model.
type HookFor struct {
	Model   string
	Size    string  // "16"; "" where outside the table
	Outside string  // "smaller than the table", "larger than the table", ""
	Shank   float64 // mm of the suggested row
	Steps   float64 // book size minus suggestion in catalogue steps; positive: the book is larger
	HasBook bool
}

// StageDressings is what to tie on for one stage (section 13).
type StageDressings struct {
	Stage    species.Stage
	Sex      species.Sex
	Offered  []Offer
	Named    []Offer // named, not scored
	RuledOut []RuledOut
	Habit    string // "unknown" where a habit that rules is not known: which
	Instead  string // what would serve, where the fly has no dressing
}

// Offer is one dressing offered.
type Offer struct {
	Dressing *Dressing
	Score    float64 // 0 … 100
	Parts    []ScorePart
	Hook     string // best of its sizes: "18"
	Model    string
	Basis    content.Basis
}

// ScorePart is one part of a score in words a person reads.
type ScorePart struct {
	Name   string  // size, colour, place, named
	Value  float64 // 0 … 1
	Weight float64 // share after rescaling
	Words  string  // "18 is 0.3 mm long"
}

// RuledOut is one dressing ruled out and why.
type RuledOut struct {
	Dressing *Dressing
	Code     string // another-stage, goes-under, crawls-out, size
	Reason   string
	Basis    content.Basis
}

// Dressing is a dressing and every fly and water it is offered for.
type Dressing struct {
	*species.Dressing
	For []DressingUse
}

// DressingUse is one place where a dressing is offered.
type DressingUse struct {
	Fly    *Fly
	Water  *Water
	Stage  species.Stage
	Score  float64
	Months []int
}

// Comparison is two stages side by side (section 11).
type Comparison struct {
	First, Second species.Stage
	Rows          []CompareRow
}

// CompareRow is one character in both stages.
type CompareRow struct {
	Character     string
	Needs         string
	First, Second string // words; "not known" where nothing is given
	Differs       bool
	Ratio         float64 // sizes: second median / first; 0 where none
	DeltaE        float64 // colours; -1 where none
	Basis         content.Basis
}

// Alike is one look-alike.
type Alike struct {
	Fly        *Fly
	Similarity float64 // Gower, 0 … 1
	Known      int     // characters known for both
	Separating []Separator
	InTheHand  bool   // something separates without a microscope
	Note       string // "only males", "only under a microscope", …
}

// Separator is one character that tells two flies apart.
type Separator struct {
	Character, Mine, Theirs, Needs, Where string
}

// Month is what is on where.
type Month struct {
	Number int
	Waters []MonthWater
}

// MonthWater is one water's flies in a month, by chance.
type MonthWater struct {
	Water *Water
	Rows  []*Row
}

// GroupMonths is flies to expect of one group per month: the sum of chances.
type GroupMonths struct {
	Group species.Group
	Sum   [12]float64
	Basis content.Basis
}

// Coverage is how well a water is known (section 14).
type Coverage struct {
	Cells     [calendar.Cells]map[int]int // visits per cell and year
	Recorders []Recorder
	Observed  int
	Chao2     float64
	StdErr    float64
	HasChao   bool
	Best      []calendar.Cell // where one more visit would tell most
}

// Recorder is one person's share of empty visits.
type Recorder struct {
	Name   string // as they wish to be named
	Visits int
	Empty  int
}

// Rightness is how right this guide was (section 16).
type Rightness struct {
	CannotTell   string // why not; "" where the table is given
	Years        []int
	Bands        []Band
	Brier        float64
	BrierAccount float64
	N            int
}

// Band is one line of the table of chance said against share found.
type Band struct {
	From, To float64
	Said     float64 // mean chance said
	Found    int
	N        int
}

// Warmth is a water's temperature curve (section 10).
type Warmth struct {
	Known                      bool
	M, A, B                    float64
	Residual                   float64
	From                       string // "monthly means", "logger"
	Regulated                  bool
	SpotN                      int
	SpotMin, SpotMean, SpotMax float64
	Basis                      content.Basis
}

// Ahead is ahead or behind on a date of a logger year.
type Ahead struct {
	Year       int
	On         calendar.Date
	Threshold  float64 // °C
	Days       int     // positive: ahead
	CannotTell string
	Basis      content.Basis
}

// WaterPair compares one fly's flight on two waters (section 6).
type WaterPair struct {
	A, B    *Water
	Flight  string
	Years   []int
	LeftOut []int
	Each    []int // difference of p50 per year, B - A
	Median  float64
	Known   bool
}

// NameEntry is one name a person may search for.
type NameEntry struct {
	Name string
	Fly  *Fly
	Kind string // name, also, old, scientific, synonym, language tag
}
