package season

// The constants a guide may change, with what each rests on. The same table
// reads a guide's settings and prints the page on figures.

import (
	"reflect"
	"slices"
)

// Constants are the defaults of the guide's rules on figures, sections 2–7.
// All are float64 so that one table can set them; those in days or visits are
// whole numbers.
type Constants struct {
	StandardSweeps  float64 // section 2, sweeps: the standard effort of a net; our judgement
	StandardMinutes float64 // section 2, minutes: the standard effort of a timed search; our judgement

	Dominant   float64 // section 3, share of standard visits that find the fly at its peak; DAFOR scale, the share our judgement
	Abundant   float64 // section 3, likewise
	Frequent   float64 // section 3, likewise
	Occasional float64 // section 3, likewise
	Rare       float64 // section 3, likewise
	// LongestUnpeaked: section 3, days a flight without a peak may last; our judgement.
	LongestUnpeaked float64

	// WarmthWindow: section 4, days of water temperature that end with the peak; our judgement.
	WarmthWindow float64
	// DaysPerDegree: section 4, days earlier per °C warmer. 3.1 to 6.9: Villalobos-Jiménez &
	// Hassall 2017, PMC5486733; about 10: Gregory, Beesley & Van Kirk 2000, Freshwater Biology 45:75.
	DaysPerDegree float64
	LargestShift  float64 // section 4, days a flight is moved at most; our judgement
	Softening     float64 // section 4, τ in days, the spread of a water's unknown date; tried by simulation
	FarSoftening  float64 // section 4, the same for a flight further off than the rule reaches; tried by simulation

	Bandwidth   float64 // section 5, h in days, the reach of a visit; tried by simulation
	Trust       float64 // section 5, m†, the account's worth in visits at most; tried by simulation
	LeastTrust  float64 // section 5, m at least; tried by simulation
	TrustPrior  float64 // section 5, holds a small guide's m near m†; tried by simulation
	YearVisits  float64 // section 5, n_y, visits' worth that one season can say on a day; tried by simulation
	Lift        float64 // section 5, added to a range's upper end, in visits; tried by simulation
	LendWithin  float64 // section 5, days from a flight's moved limits within which a visit is lent; our judgement
	LentWeight  float64 // section 5, q, what a lent visit weighs beside an own one; our judgement
	Unlisted    float64 // section 5, chance assumed for a fly found but not listed; our judgement
	NotExpected float64 // section 5, bar below which an unvisited month prints no number; our judgement
	ThinVisits  float64 // section 5, own visits in a month below which evidence is thin; our judgement

	AssignWithin float64 // section 6, days from a flight's limit within which a record belongs to it; our judgement
	MedianVisits float64 // section 6, visits that found the fly, for a middle date; our judgement
	MedianYears  float64 // section 6, seasons of those visits; our judgement
	DateSpread   float64 // section 6, widens give or take; tried by simulation
	YearSpread   float64 // section 6, days² by which seasons differ; tried by simulation
	SpreadFinds  float64 // section 6, finds that the account's length counts as in the spread of finds; tried by simulation
	SpreadVisits float64 // section 6, visits that must be exceeded for p10 and p90; our judgement
	GapDays      float64 // section 6, days between two runs of finds that suggest two flights; our judgement
	GapVisits    float64 // section 6, empty visits in that gap; our judgement

	OnNow       float64 // section 7, chance from which a fly is on; our judgement
	OnScarce    float64 // section 7, the same for a fly at half its largest chance or more; our judgement
	ShortFlight float64 // section 7, days below which a flight is also put in words; our judgement
}

// Defaults returns the constants of a guide that changes none.
func Defaults() Constants {
	var c Constants
	for _, s := range settings {
		s.Set(&c, s.Default)
	}
	return c
}

// Setting describes one constant: how a guide names it and what it rests on.
type Setting struct {
	Key       string // the guide's word for it, under figures: season
	Section   int    // of the rules on figures
	Unit      string // "days", "visits", "share", …
	Whole     bool   // a whole number is wanted
	Default   float64
	Low, High float64 // what a guide may set, ends included
	Basis     string  // a source, or "our judgement"
	What      string
}

// at is the field of c that holds a setting: that of the same place in Constants.
func at(c *Constants, key string) reflect.Value {
	i := slices.IndexFunc(settings, func(s Setting) bool { return s.Key == key })
	return reflect.ValueOf(c).Elem().Field(i)
}

// Get reads the setting out of c.
func (s Setting) Get(c Constants) float64 { return at(&c, s.Key).Float() }

// Set writes the setting into c; the caller keeps to Low, High and Whole.
func (s Setting) Set(c *Constants, v float64) { at(c, s.Key).SetFloat(v) }

// Settings lists every constant in the order of the rules.
func Settings() []Setting { return slices.Clone(settings) }

const (
	judged    = "our judgement"
	simulated = "our judgement, tried by simulation"
	dafor     = "DAFOR scale; the share our judgement"
)

// settings has a row for each field of Constants, in their order.
var settings = []Setting{
	{"standard_sweeps", 2, "sweeps", true, 50, 1, 1000, judged, "standard effort of a net"},
	{"standard_minutes", 2, "minutes", true, 10, 1, 600, judged, "standard effort of a timed search"},
	{"dominant", 3, "share", false, 0.95, 0, 1, dafor, "visits that find a dominant fly at its peak"},
	{"abundant", 3, "share", false, 0.80, 0, 1, dafor, "visits that find an abundant fly at its peak"},
	{"frequent", 3, "share", false, 0.50, 0, 1, dafor, "visits that find a frequent fly at its peak"},
	{"occasional", 3, "share", false, 0.20, 0, 1, dafor, "visits that find an occasional fly at its peak"},
	{"rare", 3, "share", false, 0.05, 0, 1, dafor, "visits that find a rare fly at its peak"},
	{"longest_unpeaked", 3, "days", true, 200, 1, 365, judged, "longest flight that needs no peak"},
	{"warmth_window", 4, "days", true, 60, 1, 365, judged,
		"water temperature is compared over so many days before the peak"},
	{"days_per_degree", 4, "days per °C", false, 5, 0, 20,
		"a rule of thumb: 3.1 to 6.9 (Villalobos-Jiménez & Hassall 2017, PMC5486733), about 10 (Gregory, Beesley & Van Kirk 2000, Freshwater Biology 45:75)",
		"earlier per degree warmer"},
	{"largest_shift", 4, "days", true, 30, 0, 90, judged, "a flight is moved by no more"},
	{"softening", 4, "days", false, 10, 0, 40, simulated, "spread of a water's unknown date"},
	{"far_softening", 4, "days", false, 20, 0, 40, simulated, "the same for a flight further off than the rule reaches"},
	{"bandwidth", 5, "days", false, 7, 1, 60, simulated, "reach of a visit in days"},
	{"trust", 5, "visits", false, 3, 0.1, 100, simulated, "the account's worth in visits, at most"},
	{"least_trust", 5, "visits", false, 1, 0.1, 100, simulated, "the account's worth in visits, at least"},
	{"trust_prior", 5, "visits", false, 50, 1, 100000, simulated, "holds a small guide's worth of accounts near the most"},
	{"year_visits", 5, "visits", false, 4, 0.1, 1000, simulated, "visits' worth that one season can say"},
	{"lift", 5, "visits", false, 0.05, 0, 10, simulated, "added to the upper end of a range"},
	{"lend_within", 5, "days", true, 30, 0, 90, judged, "a visit is lent within so many days of a flight"},
	{"lent_weight", 5, "share", false, 0.25, 0, 1, judged, "a lent visit beside an own one"},
	{"unlisted", 5, "chance", false, 0.02, 0, 1, judged, "assumed for a fly found but not listed"},
	{"not_expected", 5, "chance", false, 0.02, 0, 1, judged, "an unvisited month below this prints no number"},
	{"thin_visits", 5, "visits", true, 3, 0, 1000, judged, "fewer own visits in a month are thin evidence"},
	{"assign_within", 6, "days", true, 30, 0, 90, judged, "a record belongs to a flight within so many days of it"},
	{"median_visits", 6, "visits", true, 3, 1, 1000, judged, "visits that found the fly, needed for a middle date"},
	{"median_years", 6, "years", true, 2, 1, 100, judged, "seasons of those visits"},
	{"date_spread", 6, "factor", false, 1.28, 0.1, 10, simulated, "widens what a middle date may be off by"},
	{"year_spread", 6, "days²", false, 49, 0, 10000, simulated, "seven days, squared, by which seasons differ"},
	{"spread_finds", 6, "visits", false, 4, 0, 1000, simulated,
		"the length of the account's flight counts as so many, in how far finds spread"},
	{"spread_visits", 6, "visits", true, 10, 1, 1000, judged, "more visits than this are needed for p10 and p90"},
	{"gap_days", 6, "days", true, 42, 1, 182, judged, "gap between finds that suggests two flights"},
	{"gap_visits", 6, "visits", true, 3, 1, 1000, judged, "empty visits needed in that gap"},
	{"on_now", 7, "chance", false, 0.10, 0, 1, judged, "a fly is on from this chance"},
	{"on_scarce", 7, "chance", false, 0.03, 0, 1, judged, "or from this at half its largest chance"},
	{"short_flight", 7, "days", true, 28, 1, 365, judged, "a shorter flight is also put in words"},
}

// Share returns A, the share of standard visits that find a fly of this class
// at its peak; 0 for no class.
func (c Constants) Share(k Class) float64 {
	switch k {
	case Dominant:
		return c.Dominant
	case Abundant:
		return c.Abundant
	case Frequent:
		return c.Frequent
	case Occasional:
		return c.Occasional
	case Rare:
		return c.Rare
	}
	return 0
}
