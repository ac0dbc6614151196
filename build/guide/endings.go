package guide

import (
	"path"
	"slices"

	"guidegen/content/calendar"
)

// Ending is a role or a photo's permission that ends.
type Ending struct {
	Role, Photo string // one of them
	Who         string // "" for no name
	On          calendar.Date
	Past        bool
}

// Endings lists the roles and the photos' permissions that end, by date; past are those before a day.
func (e *Edition) Endings(today calendar.Date) []Ending {
	var out []Ending
	add := func(x Ending) {
		if x.Past = x.On.Before(today); !x.On.IsZero() {
			out = append(out, x)
		}
	}
	for _, r := range e.Settings.Roles {
		add(Ending{Role: r.Name, Who: r.Who, On: r.Until})
	}
	for _, p := range e.Photos {
		add(Ending{Photo: path.Base(p.File), On: p.Permission.Until})
	}
	slices.SortStableFunc(out, func(a, b Ending) int { return a.On.Sub(b.On) })
	return out
}
