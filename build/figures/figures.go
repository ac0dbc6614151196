// Package figures reckons everything the guide prints, once, from one
// edition. Pages, data files, feeds and the command line read only this.
package figures

import (
	"sync"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/daylight"
	"guidegen/rivers/season"
	"guidegen/rivers/survey"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/key"
	"guidegen/species/tying"
)

// Book is everything reckoned.
type Book struct {
	Edition    *guide.Edition
	Built      calendar.Date     // the date the guide was built for
	RecordsTo  calendar.Date     // last dated visit; zero where there is none
	Waters     []*Water          // in page order; withheld waters are not among them
	Flies      []*Fly            // in page order: group, then name
	Dressings  []*Dressing       // by name
	Alphabet   []NameEntry       // every name anyone may search for, sorted
	Vocabulary key.Vocabulary    // the guide's characters, for keys and the sieve
	Key        func() *Key       // the whole guide's
	Recorders  []Recorder        // over all waters, by number of visits
	Unnamed    int               // visits of people who wish no name
	Due        []Prompt          // what should be looked at again, in the order of DueOrder
	Prompts    []content.Problem // about accounts, dressings and visits as a whole
	Trust      float64           // m, the accounts' worth in visits, as this guide's records bear it out (section 5)
	byDressing map[string]*Dressing
}

// Water is one water's figures.
type Water struct {
	*rivers.Water
	Rows      []*Row // flies listed for or found on the water, by group then name
	Visits    int    // visits that count for some fly
	Years     []int  // years with visits
	RecordsTo calendar.Date
	Sun       [12]daylight.Day // on the 15th of each month; zero where the water has no place or no time zone
	suns      sync.Map         // calendar.Date → daylight.Day
	Groups    []GroupMonths    // flies to expect per group and month
	place     season.Place
	visits    []*guide.Visit
	Coverage  Coverage
	Rightness Rightness
	Warmth    Warmth
	Ahead     []Ahead // ahead or behind per logger year and threshold; newest last
	Prompts   []Prompt
	ToName    []ToName        // finds still to be named, by date
	Key       func() *Key     // over its year
	MonthKeys [12]func() *Key // an empty month has an empty key
	keyed     [12][]*Fly      // the flies of MonthKeys
}

// Fly is one account's figures that hold on every water.
type Fly struct {
	*species.Account
	Rows      []*Row      // by water, in page order
	InVain    []LookedFor // waters without a row where it was looked for, in page order
	Compared  *Comparison // dun against spinner, pupa against adult …; nil for land-bred flies
	Sizes     []Size      // the account's lengths beside all waters' records together
	Alike     []Alike     // over the whole guide
	MoreAlike int         // look-alikes beyond the guide's limit
	Pairs     []WaterPair
	Described *key.Fly        // form by form, for keys, look-alikes and the sieve
	curve     *season.Curve   // the account's own, softened, at the reference
	named     map[string]bool // addresses of the flies that its account warns of
}

// ToName is a find that nobody could name yet.
type ToName struct {
	Visit *guide.Visit
	Find  guide.Found
}

// Row is one fly on one water.
type Row struct {
	Water        *Water
	Fly          *Fly
	Listed       bool          // in the water's list; else found there but not listed
	Far          bool          // a flight lies further from the reference than the rule reaches: dates uncertain by weeks
	Year         calendar.Day  // on which the fly's year begins; seasons are counted from it
	Class        species.Class // the class that holds here
	Flights      []FlightHere
	Account      [calendar.Year]float64 // moved and softened curve, index day-1
	Chance       [calendar.Year]float64 // index day-1
	Months       [12]MonthHere
	Cells        [calendar.Cells]CellHere
	Runs         []Run                // the year as states, for the device to look up
	OnCells      [calendar.Cells]bool // on on at least one day of the cell
	OnMonths     [12]bool
	Largest      calendar.Day     // the day of the largest chance outside the time between flights; 0 if none
	ShortFlights []ShortFlight    // flights that also stand in words
	Years        []int            // years of the visits that looked for it
	Prompts      []Prompt         // about its records
	Coming       []season.Stretch // the flights, and runs of finds outside them, in which the fly is on at some time
	due          [calendar.Year]bool
	stand        *stand
	Looked       int             // visits that looked for the fly
	FoundOn      int             // of them, found
	Never        bool            // no counted record of an adult here, dated or not
	Borrows      bool            // other waters' visits lend to it
	ThisYear     []calendar.Date // days of the build year with finds, for marks on the bars
	Hours        []HoursHere
	Sizes        []Size
	Compared     *Comparison // with this water's sizes
	Dressings    []StageDressings
	Alike        []Alike
	MoreAlike    int       // look-alikes beyond the guide's limit
	Against      []Against // what the records say against the account
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
	Limited        bool            // cut to the largest shift allowed
	Warmer         float64         // °C, water less reference, over the days before the peak
	HasWarmer      bool
	WhyNot         string // why it was not moved: "no temperature", "below a dam", …; "" where moved
	Class          species.Class
	Share          float64 // of standard visits that find the fly at its peak
	Basis          content.Basis
	Dates          FlightDates
}

// FlightDates is what records say of one flight on one water (section 6).
type FlightDates struct {
	Protocol      string          // the one used; "" where no find has a known effort
	Visits        int             // visits that found it by that protocol
	Seasons       []string        // of these visits, in order: "2023", or "2023/24" where the fly's year crosses New Year
	P10, P50, P90 calendar.Day    // 0 where records are too few, torn or of two flights
	GiveOrTake    int             // days, beside P50
	Torn          int             // days between two neighbouring finds, where six weeks or more: nothing is pooled; else 0
	Two           bool            // the records show two flights: nothing is pooled
	First, Last   calendar.Date   // first and last seen, with their year; zero where never seen
	Finds         []calendar.Date // every find, in order
	BySeason      []SeasonMiddle  // each season's own middle, where it has the finds for one
	Thin          bool
}

// SeasonMiddle is one season's middle date on a water.
type SeasonMiddle struct {
	Season     string // "2023", or "2023/24"
	P50        calendar.Day
	GiveOrTake int // days
}

// LookedFor is a water that doesn't list a fly and where it was looked for in vain.
type LookedFor struct {
	Water  *Water
	Visits int
	Years  []int
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
	Held              int  // of Found, finds drawn but kept out of the chance until reviewed
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

// Lender is a water that lent visits. A withheld water has no name: pages say
// "a water of the club".
type Lender struct {
	Water  *Water
	Visits int
	Years  int
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
	BetweenTwo Tendency = "between flights" // on, though after one flight's end and before the next one's start
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

// HoursHere is the hours of one stage in one month, or on one date, in the
// water's time zone.
type HoursHere struct {
	Stage  species.Stage
	Sex    species.Sex
	Flight string
	Month  int // 1..12; months in which the fly is on
	Stretch
	Others []Stretch // what others say of the same hours
}

// Stretch is one stretch of the day: as stated, and by the clock.
type Stretch struct {
	Written    string // as the account gives them: "sunset-2h to sunset+30min"
	Span       calendar.Span
	From, To   calendar.Clock // as printed: in five minutes where the sun gives them; NoClock where it gives none
	Start, End calendar.Clock // the same to the minute, for data files
	SunWord    string         // "the sun does not set" …, NoPlace, NoZone; "" where times are given
	Basis      content.Basis
}

// Why hours against the sun can't be told on a water.
const (
	NoPlace = "no place"
	NoZone  = "no time zone"
)

// BySun reports whether the stretch hangs on the sun, so that its clock times
// differ from day to day.
func (s Stretch) BySun() bool {
	return s.Span.From.Sun != calendar.NoSun || s.Span.To.Sun != calendar.NoSun
}

// Size is the lengths of one stage × sex × flight (section 9), never pooled.
type Size struct {
	Stage             species.Stage
	Sex               species.Sex
	Flight            string  // "" with measured flies: outside every flight, or no day known
	N                 int     // flies measured here; 0: none
	Median, Low, High float64 // millimetres, of the N
	Digits            int     // decimals as measured
	Part              species.Part
	What              string // BodyLength or OverallLength
	Torn              bool   // the flight's finds lie in two runs: nothing is pooled
	Unmet             bool   // fish don't meet this stage or sex: no hook is suggested
	SetAside          int    // lengths taken with tails, or of another part
	Account           species.Claims[species.Length]
	Basis             content.Basis // of the measured figures
	// Hook is what the hook rests on.
	Hook HookGround
	Book species.Claims[hook.Range]
}

// What a length measures.
const (
	BodyLength    = "body, head to tip of abdomen, without tails or antennae"
	OverallLength = "overall at rest, head to wing tip, without antennae"
)

// HookGround is the length a hook suggestion rests on.
type HookGround struct {
	From           string   // FromWater, FromAll, FromAccount, or "" where nothing is known
	Torn           bool     // only the account's length is used, since the flight's finds here lie in two runs
	Length         float64  // the body, millimetres: it is what goes on the shank
	Overall, Share float64  // where the body is a share of a length overall; else 0
	N              int      // flies measured; 0 from an account
	Waters         []string // FromAll: whose records, by name
	Basis          content.Basis
	Hooks          []HookFor
}

// The lengths a hook may rest on.
const (
	FromWater   = "this water"
	FromAll     = "all waters together"
	FromAccount = "the account"
)

// HookFor is the suggestion in one straight model.
type HookFor struct {
	hook.Suggestion
	Steps   hook.Steps // the book's size from the suggestion: positive where the book's hook is larger
	Off     float64    // mm by which its shank is longer than the body; 0: as long
	HasBook bool       // a book size is known and the suggestion lies within the table
}

// StageDressings is what to tie on for one stage, sex and flight (section 13).
type StageDressings struct {
	Stage   species.Stage
	Sex     species.Sex
	Flight  string
	Length  HookGround    // what the sizes are held against
	Natural []tying.Level // where fish meet it; a dressing's own levels are where the dressing fishes
	Advice  tying.Advice
	Serve   tying.Aim // what would serve; pages print it where nothing is offered
	Months  [12]bool  // months in which the flight is on here
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
	Sex    species.Sex
	Flight string
	Offer  tying.Offer
}

// Comparison is two stages side by side (section 11), differing rows first.
type Comparison struct {
	First, Second species.Stage
	Rows          []CompareRow
}

// CompareRow is one character, size, colour or habit in both stages.
type CompareRow struct {
	Kind          string      // "feature", "size", "colour", "level", "hours"
	Of            string      // the feature's name, or the part that has the colour
	Flight        string      // of sizes and hours, where the fly has several
	Sex           species.Sex // of sizes
	Needs         string      // what it takes to see it; "" for habits
	First, Second []SexSaid   // nothing where it is not known, and of sizes and hours always
	Sizes         [2]Size
	Hours         [2][]SexHours
	Differs       bool
	Ratio         float64 // sizes: second over first; 0 where either is not known
	DeltaE        float64 // colours, where HasDeltaE
	HasDeltaE     bool
	Basis         content.Basis
}

// SexSaid is what the account says of one sex, or of both: the states of a feature, levels, or a colour.
type SexSaid struct {
	Sex    species.Sex
	States []string
	Shade  species.Shade
}

// SexHours is a stretch of the day for one sex, or for both.
type SexHours struct {
	Sex  species.Sex
	Span calendar.Span
}

// Alike is one look-alike.
type Alike struct {
	key.LookAlike
	Fly *Fly
}

// Key is the key for one set of flies; it is built when it is first asked for.
type Key struct {
	key.Key
	Water    *Water // nil: the whole guide
	Month    int    // 0: the whole year
	Flies    []*Fly
	Wingless []*Fly                   // in no key: they have no form to be keyed by
	Lengths  map[string][]key.Measure // by address: the lengths that it was keyed by
}

// GroupMonths is flies to expect of one group per month: the sum of chances.
type GroupMonths struct {
	Group species.Group
	Sum   [12]float64
	Basis [12]content.Basis
}

// Coverage is how well a water is known (section 14).
type Coverage struct {
	Cells     [calendar.Cells]map[int]int // dated visits that looked for some fly, per cell and year
	Recorders []Recorder
	Withheld  int // visits whose people are not for this edition
	Under     []survey.UnderRow
	Expected  survey.Richness // species found against species expected
	Best      []Next          // where one more visit would help most, best first
}

// Looked reports whether anybody looked for flies in a half-month, in any year.
func (c *Coverage) Looked(cell calendar.Cell) bool { return len(c.Cells[cell]) > 0 }

// Rightness is how right this guide was (section 16); Tell is false with
// fewer than three years of visits.
type Rightness struct {
	season.Right
	Years []int
}

// Warmth is a water's temperature curve (section 10).
type Warmth struct {
	Known                      bool
	M, A, B                    float64
	Residual                   float64
	From                       string // FromMonths, FromLogger
	N                          int    // readings in the fit
	Regulated                  bool
	SpotN                      int
	SpotMin, SpotMean, SpotMax float64
	Basis                      content.Basis
}

// What a temperature curve is fitted to.
const (
	FromMonths = "monthly means"
	FromLogger = "logger"
	FromYears  = "earlier years" // no curve: the mean of a logger's earlier years
)

// Ahead is ahead or behind on the last day of a logger year (section 10), by a
// rule of thumb.
type Ahead struct {
	On        calendar.Date
	Threshold float64 // °C
	season.Progress
	Against     string // what a normal year is: FromMonths, FromLogger (smooth curves) or FromYears; "" for none
	NormalYears int    // logger years in it; 0 where they aren't on record
	Thin        bool   // fewer than three years in it, or none on record
	Withheld    string // why the days are not printed: FarAhead, NoCurve; "" where they are
	Stale       bool   // the newest reading is too old on the date the guide is built for: nothing is printed of it
	Basis       content.Basis
}

// Why the days ahead or behind are not printed, though they can be reckoned.
const (
	FarAhead = "far"       // more than the guide moves any flight by
	NoCurve  = "regulated" // a smooth curve does not fit the water
)

// WaterPair compares one flight of a fly on two waters (section 6).
type WaterPair struct {
	A, B   *Water
	Flight string
	season.Comparison
	Thin bool         // in fewer seasons than a middle date needs
	Year calendar.Day // on which the fly's year begins
}

// NameEntry is one name a person may search for.
type NameEntry struct {
	Name string
	Fly  *Fly
	Kind string      // name, also, old, scientific, synonym, language tag
	Of   species.Met // the stage that bears the name; zero where all do
}
