package guide

// The constants of the rules on figures that a guide may change. One table
// reads the block `figures:` of guide.yaml, describes it in the schema, and
// prints the page on figures.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/rivers/season"
	"guidegen/species/key"
	"guidegen/species/tying"
)

// Constants are those in force in one guide.
type Constants struct {
	Season                                season.Constants
	OwnMeasured                           float64           // section 9: measured flies needed before a hook goes by this water's own
	StoneflyShare, AlderShare, SedgeShare float64           // section 9: the body's share of a length overall
	ShareBodies                           float64           // section 9: measured bodies of a fly that replace its group's share
	Alike                                 key.AlikeSettings // section 11
	Key                                   key.Settings
	Tying                                 tying.Weights
	Cover                                 float64 // section 17: a tying list stops when this share is covered
	ReviewYears                           float64 // section 14: an account reviewed longer ago is due
}

// DefaultConstants are those of a guide that changes none.
func DefaultConstants() Constants {
	return Constants{Season: season.Defaults(), OwnMeasured: 5, StoneflyShare: 0.75, AlderShare: 0.70, SedgeShare: 0.70, ShareBodies: 10, Alike: key.DefaultAlike(),
		Key: key.Defaults(), Tying: tying.Defaults(), Cover: tying.Enough, ReviewYears: 5}
}

// Constant is one line of the table.
type Constant struct {
	Group   string // the block under figures: in guide.yaml
	Key     string
	Section int // of the guide's rules on figures
	Unit    string
	Whole   bool
	Low     float64
	High    float64
	What    string
	Basis   string // a source, or "our judgement"
	Value   float64
	Default float64
	at      func(*Constants) *float64
}

// Changed reports whether the guide sets another value than the default.
func (c Constant) Changed() bool { return c.Value != c.Default }

const judged = "our judgement"

// List returns every constant with the value in force, in the order of the rules.
func (c Constants) List() []Constant {
	var l []Constant
	for _, s := range season.Settings() {
		l = append(l, Constant{"season", s.Key, s.Section, s.Unit, s.Whole, s.Low, s.High, s.What, s.Basis,
			s.Get(c.Season), s.Default, nil})
	}
	for _, k := range otherConstants {
		def := DefaultConstants()
		k.Value, k.Default = *k.at(&c), *k.at(&def)
		l = append(l, k)
	}
	slices.SortStableFunc(l, func(a, b Constant) int { return a.Section - b.Section })
	return l
}

var otherConstants = []Constant{
	{Group: "sizes", Key: "own_measured", Section: 9, Unit: "flies", Whole: true, Low: 1, High: 1000, Basis: judged,
		What: "measured flies needed before a hook goes by this water's own", at: func(c *Constants) *float64 { return &c.OwnMeasured }},
	{Group: "sizes", Key: "stonefly_share", Section: 9, Unit: "share", Low: 0.1, High: 1,
		Basis: "forewing and body: Murányi & Vinçon 2017, Zootaxa 4243(2); Vinçon & Graf 2011, Illiesia 7:92",
		What:  "a stonefly's body as a share of its length overall", at: func(c *Constants) *float64 { return &c.StoneflyShare }},
	{Group: "sizes", Key: "alder_share", Section: 9, Unit: "share", Low: 0.1, High: 1,
		Basis: "one species: Liu, Hayashi & Yang 2009, Zootaxa 2230:64",
		What:  "an alder's body as a share of its length overall", at: func(c *Constants) *float64 { return &c.AlderShare }},
	{Group: "sizes", Key: "sedge_share", Section: 9, Unit: "share", Low: 0.1, High: 1,
		Basis: "common practice: the wing overhangs by a quarter to a third",
		What:  "a sedge's body as a share of its length overall", at: func(c *Constants) *float64 { return &c.SedgeShare }},
	{Group: "sizes", Key: "share_bodies", Section: 9, Unit: "flies", Whole: true, Low: 1, High: 1000, Basis: judged,
		What: "measured bodies of a fly that replace its group's share", at: func(c *Constants) *float64 { return &c.ShareBodies }},
	{Group: "alike", Key: "overlap", Section: 11, Unit: "share", Low: 0, High: 1, Basis: judged,
		What: "share of the shorter season in common, by which look-alikes meet", at: func(c *Constants) *float64 { return &c.Alike.Overlap }},
	{Group: "alike", Key: "likeness", Section: 11, Unit: "share", Low: 0, High: 1, Basis: judged,
		What: "least likeness of a look-alike that no account warns of", at: func(c *Constants) *float64 { return &c.Alike.Likeness }},
	{Group: "alike", Key: "times", Section: 11, Unit: "factor", Low: 1, High: 10, Basis: judged,
		What: "a length so many times the other is told at a glance", at: func(c *Constants) *float64 { return &c.Alike.Times }},
	{Group: "alike", Key: "glance", Section: 11, Unit: "ΔE₀₀", Low: 0, High: 100, Basis: judged,
		What: "a body colour so far off is told at a glance", at: func(c *Constants) *float64 { return &c.Alike.Glance }},
	{Group: "alike", Key: "apart", Section: 11, Unit: "mm", Low: 0, High: 10, Basis: judged,
		What: "lengths so far apart separate", at: func(c *Constants) *float64 { return &c.Alike.Apart }},
	{Group: "alike", Key: "most", Section: 11, Unit: "flies", Whole: true, Low: 0, High: 1000, Basis: judged,
		What: "look-alikes listed beside those that an account names", at: func(c *Constants) *float64 { return &c.Alike.Most }},
	{Group: "alike", Key: "meet_within", Section: 11, Unit: "days", Whole: true, Low: 0, High: 90, Basis: judged,
		What: "flights so near to each other meet", at: func(c *Constants) *float64 { return &c.Alike.MeetWithin }},
	{Group: "alike", Key: "telling", Section: 11, Unit: "characters", Whole: true, Low: 0, High: 100, Basis: judged,
		What: "fewer known for both are not enough to say", at: func(c *Constants) *float64 { return &c.Alike.Telling }},
	{Group: "key", Key: "floor", Section: 11, Unit: "chance", Low: 0, High: 1, Basis: judged,
		What: "added to every fly's chance, so that none weighs nothing", at: func(c *Constants) *float64 { return &c.Key.Base }},
	{Group: "key", Key: "easy", Section: 11, Unit: "share", Low: 0, High: 1, Basis: judged,
		What: "share of the best gain from which an easier way of seeing is asked for", at: func(c *Constants) *float64 { return &c.Key.Easy }},
	{Group: "key", Key: "near", Section: 11, Unit: "share", Low: 0, High: 1, Basis: judged,
		What: "share of the best score from which the order of looking decides", at: func(c *Constants) *float64 { return &c.Key.Near }},
	{Group: "key", Key: "memory", Section: 11, Unit: "share", Low: 0, High: 1, Basis: judged,
		What: "what is from memory alone lowers a couplet's score by so much", at: func(c *Constants) *float64 { return &c.Key.Memory }},
	{Group: "key", Key: "pale", Section: 11, Unit: "L*", Low: 0, High: 100, Basis: judged,
		What: "a body from this lightness is pale", at: func(c *Constants) *float64 { return &c.Key.Pale }},
	{Group: "key", Key: "dark", Section: 11, Unit: "L*", Low: 0, High: 100, Basis: judged,
		What: "a body below this lightness is dark", at: func(c *Constants) *float64 { return &c.Key.Dark }},
	{Group: "key", Key: "margin", Section: 11, Unit: "mm", Low: 0, High: 5, Basis: judged,
		What: "a length so near to a couplet's limit goes both ways", at: func(c *Constants) *float64 { return &c.Key.Margin }},
	{Group: "due", Key: "review_years", Section: 14, Unit: "years", Whole: true, Low: 1, High: 100, Basis: judged,
		What: "an account reviewed longer ago is due for a review", at: func(c *Constants) *float64 { return &c.ReviewYears }},
	{Group: "tying", Key: "size", Section: 13, Unit: "weight", Low: 0, High: 1, Basis: judged,
		What: "size in a dressing's score", at: func(c *Constants) *float64 { return &c.Tying.Size }},
	{Group: "tying", Key: "colour", Section: 13, Unit: "weight", Low: 0, High: 1, Basis: judged,
		What: "colour in a dressing's score", at: func(c *Constants) *float64 { return &c.Tying.Colour }},
	{Group: "tying", Key: "place", Section: 13, Unit: "weight", Low: 0, High: 1, Basis: judged,
		What: "place in the water in a dressing's score", at: func(c *Constants) *float64 { return &c.Tying.Place }},
	{Group: "tying", Key: "named", Section: 13, Unit: "weight", Low: 0, High: 1, Basis: judged,
		What: "being named for the fly, in a dressing's score", at: func(c *Constants) *float64 { return &c.Tying.Named }},
	{Group: "tying", Key: "own_ratio", Section: 13, Unit: "factor", Low: 1, High: 10, Basis: judged,
		What: "shank to body at most, either way, of a dressing tied for the fly", at: func(c *Constants) *float64 { return &c.Tying.OwnRatio }},
	{Group: "tying", Key: "other_ratio", Section: 13, Unit: "factor", Low: 1, High: 10, Basis: judged,
		What: "the same of a dressing for its group or another fly of it", at: func(c *Constants) *float64 { return &c.Tying.OtherRatio }},
	{Group: "tying", Key: "most_delta", Section: 13, Unit: "ΔE₀₀", Low: 0, High: 100, Basis: judged,
		What: "colour difference of the bodies at most, of a dressing for its group or another fly of it", at: func(c *Constants) *float64 { return &c.Tying.MostDelta }},
	{Group: "tying", Key: "kin_score", Section: 13, Unit: "points", Low: 0, High: 100, Basis: judged,
		What: "least score of a dressing tied for another fly of the group", at: func(c *Constants) *float64 { return &c.Tying.KinScore }},
	{Group: "tying", Key: "cover", Section: 17, Unit: "share", Low: 0.01, High: 1, Basis: judged,
		What: "a tying list for a trip stops at this share", at: func(c *Constants) *float64 { return &c.Cover }},
}

// retired are constants of earlier editions of the rules: a guide that sets one still reads.
var retired = []string{"key.naked_eye", "key.hand_lens", "key.microscope"}

// readConstants reads the block `figures:`. A value out of its bounds is
// reported and the default stays.
func readConstants(v content.Value, ps *content.Problems) Constants {
	c := DefaultConstants()
	if v.Kind == content.Absent {
		return c
	}
	groups := map[string][]Constant{}
	var names []string
	for _, k := range c.List() {
		if !slices.Contains(names, k.Group) {
			names = append(names, k.Group)
		}
		groups[k.Group] = append(groups[k.Group], k)
	}
	slices.Sort(names)
	for _, g := range v.Entries {
		known, ok := groups[g.Key.S]
		if !ok {
			ps.Errorf("unknown-key", g.Key.At, "groups of constants: "+strings.Join(names, ", "),
				"unknown group of constants %q%s", g.Key.S, content.DidYouMean(g.Key.S, names))
			continue
		}
		if g.Value.Kind != content.Map {
			ps.Errorf("wrong-shape", g.Value.At, "write it like season: {thin_visits: 3}", "a group of constants is a block")
			continue
		}
		for _, e := range g.Value.Entries {
			readConstant(&c, known, e, ps)
		}
	}
	c.inOrder(v, ps)
	return c
}

// Share is a group's body as a share of its length overall; 0 where none is known.
func (c Constants) Share(group string) float64 {
	switch group {
	case "stonefly":
		return c.StoneflyShare
	case "alder":
		return c.AlderShare
	case "sedge":
		return c.SedgeShare
	}
	return 0
}

// inOrder finds constants that contradict each other.
func (c Constants) inOrder(v content.Value, ps *content.Problems) {
	s := c.Season
	for _, x := range []struct {
		ok   bool
		what string
	}{
		{s.Dominant >= s.Abundant && s.Abundant >= s.Frequent && s.Frequent >= s.Occasional && s.Occasional >= s.Rare,
			"the shares of the classes must fall from dominant to rare"},
		{s.OnNow >= s.OnScarce, "on_scarce can't be above on_now"},
		{s.SpreadVisits >= s.MedianVisits, "spread_visits can't be below median_visits"},
	} {
		if !x.ok {
			ps.Errorf("constants-contradict", v.At, "put them in order, or leave the defaults", "%s", x.what)
		}
	}
}

// constantsRecord describes the block `figures:` for the schema.
func constantsRecord() *content.Record {
	r := &content.Record{Name: "figures", Doc: "Constants that differ from the defaults."}
	for _, k := range DefaultConstants().List() {
		i := slices.IndexFunc(r.Fields, func(f content.Field) bool { return f.Key == k.Group })
		if i < 0 {
			i = len(r.Fields)
			r.Fields = append(r.Fields, content.Field{Key: k.Group, Shape: content.Block, Doc: "Constants of " + k.Group + ".",
				Of: &content.Record{Name: k.Group}})
		}
		group := r.Fields[i].Of
		group.Fields = append(group.Fields, content.Field{Key: k.Key, Shape: content.Line, Example: number(k.Default),
			Doc: fmt.Sprintf("%s, in %s, from %s to %s.", k.What, k.Unit, number(k.Low), number(k.High))})
	}
	return r
}

func readConstant(c *Constants, known []Constant, e content.Entry, ps *content.Problems) {
	keys := make([]string, len(known))
	for i, k := range known {
		keys[i] = k.Key
	}
	i := slices.Index(keys, e.Key.S)
	if i < 0 && slices.Contains(retired, known[0].Group+"."+e.Key.S) {
		ps.Warnf("constant-not-used", e.Key.At, "take it out", "the figures no longer use %s", e.Key.S)
		return
	}
	if i < 0 {
		ps.Errorf("unknown-key", e.Key.At, "constants here: "+strings.Join(keys, ", "),
			"unknown constant %q%s", e.Key.S, content.DidYouMean(e.Key.S, keys))
		return
	}
	k := known[i]
	value, _, err := measure.ParseNumber(e.Value.Text.S)
	if e.Value.Kind != content.Scalar || err != nil {
		ps.Errorf("not-a-number", e.Value.At, fmt.Sprintf("the default is %s", number(k.Default)), "%s is a number of %s", k.Key, k.Unit)
		return
	}
	if value < k.Low || value > k.High || k.Whole && value != float64(int(value)) {
		whole := ""
		if k.Whole {
			whole = " whole"
		}
		ps.Errorf("constant-out-of-bounds", e.Value.At, fmt.Sprintf("a%s number from %s to %s; the default is %s", whole,
			number(k.Low), number(k.High), number(k.Default)), "%s can't be %s", k.Key, e.Value.Text.S)
		return
	}
	if k.at != nil {
		*k.at(c) = value
		return
	}
	for _, s := range season.Settings() {
		if s.Key == k.Key {
			s.Set(&c.Season, value)
		}
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
