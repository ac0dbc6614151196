package demo

// Who went where, how often and with what: the members' habits, and what comes between.

const firstYear, lastYear = 2022, 2026

// demoYears are the seasons of the demo's own records: the spring of 2024 was late. Days.
var demoYears = map[int]float64{2022: -2, 2023: 3, 2024: 11, 2025: -5, 2026: -3}

// habit is how one member visits one water.
type habit struct {
	mark           string // begins the marks of its visits
	who, water     string
	first, last    int // years
	from, to       int // month×100 + day
	visits         int // a year, planned evenly
	method, effort string
	scope          string
	start          int // hour of the day, up to an hour and a half later
	beats          []string
	ruler          float64 // mm that lengths are read to; 0: measures nothing
	unsure         float64 // share of finds that go no further than the genus
	goodDays       bool    // only what was worth writing home about: no effort, no empty net
}

var habits = []habit{
	{"PV", "Ottilie Varnsby", "Pellowbourne", 2022, 2024, 305, 1105, 14, "sweep net", "50 sweeps", "all", 11, []string{"Plank Bridge", "Cress Hatches"}, 0, 0.04, false},
	{"PC", "Hew Callordine", "Pellowbourne", 2022, 2024, 420, 1001, 6, "sweep net", "50 sweeps", "water-bred", 19, []string{"Plank Bridge", "Cress Hatches"}, 0, 0.08, false},
	{"UV", "Ottilie Varnsby", "Ullavane", 2022, 2024, 301, 1101, 9, "sweep net", "50 sweeps", "all", 12, []string{"Mill Pool", "Gorge Foot"}, 0, 0.04, false},
	{"UO", "Brenna Ostlethway", "Ullavane", 2022, 2024, 325, 1020, 6, "hand net", "10 minutes", "upwinged", 12, []string{"Long Shingle", "Gorge Foot"}, 0, 0.06, false},
	{"UL", "Hew Callordine", "Ullavane", 2022, 2024, 601, 920, 2, "light trap", "1 nights", "sedge", 21, []string{"Mill Pool"}, 0, 0, false},
	{"FO", "Brenna Ostlethway", "Fellock Burn", 2022, 2024, 401, 1025, 7, "bank search", "20 minutes", "all", 11, []string{"Sheepfold", "Ford"}, 0.5, 0.05, false},
	{"RQ", "Marrick Quillane", "Harrowsett Reservoir", 2023, 2025, 416, 1015, 9, "sweep net", "50 sweeps", "all", 13, []string{"Dam End", "East Bay"}, 0.5, 0.05, false},
	{"TQ", "Marrick Quillane", "Temmering", 2024, 2026, 320, 1110, 10, "sweep net", "50 sweeps", "all", 11, []string{"Pipe Pool", "Alder Bend"}, 0.5, 0.05, false},
	{"LO", "Tamsin Orrowdale", "Lendlow Mere", 2022, 2026, 405, 1030, 12, "sweep net", "50 sweeps", "all", 11, []string{"Reed Side", "Dune Bay"}, 0.1, 0.03, false},
	{"WH", "Edric Hollinsett", "Wendrake Beck", 2022, 2026, 301, 1110, 11, "sweep net", "50 sweeps", "all", 12, []string{"Scar Foot", "Lime Sike"}, 0.5, 0.05, false},
	{"WK", "Edric Hollinsett", "Wendrake Beck", 2023, 2026, 210, 1201, 2, "kick sample", "3 minutes", "all", 11, []string{"Lime Sike"}, 0, 0.2, false},
	{"G", "Jory Thwaitlow", "Pellowbourne", 2022, 2024, 501, 920, 4, "sweep net", "", "", 14, []string{"Plank Bridge"}, 0, 0, true},
}

// away is when a member made no visit: a broken wrist, a summer abroad.
func away(who string, year, date int) bool {
	return who == "Ottilie Varnsby" && year == 2023 && date >= 410 && date <= 620 ||
		who == "Edric Hollinsett" && year == 2025 && date >= 701 && date <= 901
}

// weather is what stands in remarks of visits.
var weather = []string{"north wind, water cold", "bright and still", "heavy shower half way, went on after", "water coloured and falling", "low and clear",
	"wind got up, stopped early but for the count", "warm, cloud all day", "drizzle", "mist till noon", "gusty, little settled on the bushes",
	"a rise of fish along the far bank", "swallows low over the water", "first frost of the year on the grass", "cattle had been in"}
