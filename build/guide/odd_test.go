package guide

import (
	"fmt"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
	"guidegen/species/hook"
)

func TestBackwards(t *testing.T) {
	for text, want := range map[string]bool{
		"11:00 to 15:30": false, "15:30 to 11:00": true, "21:00 to 01:00": false, "18:00 to 06:00": false, "18:00 to 06:01": true,
		"23:30 to 00:10": false, "sunset-1h to sunset+1h": false, "20:00 to dusk": false, "dusk to 01:00": false,
	} {
		s, err := calendar.ParseSpan(text)
		require.NoError(t, err)
		assert.Equal(t, want, backwards(s), text)
	}
}

// The group's others give 6 to 10 mm: a fifth of 6 is 1.2, five times 10 is 50.
func TestLengthsOfNoFly(t *testing.T) {
	for mm, want := range map[float64]bool{8: false, 50: false, 50.1: true, 80: true, 1.2: false, 1.1: true, 0.8: true} {
		assert.Equal(t, want, ofNoFly(mm, 6, 10), mm)
	}
}

// The group's others give 5 to 24 mm.
func TestSlippedLengths(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		want     bool
	}{
		{70, 98, true}, {7, 9.8, false}, {0.7, 0.98, true}, {26, 33, false}, {20, 98, false}, {50, 240, true}, {50, 241, false}, {49, 98, false},
		{0.5, 2.4, true}, {0.4, 2.4, false}, {0.5, 2.5, false}, {2.4, 5, false},
	} {
		assert.Equal(t, c.want, slipped(c.from, c.to, 5, 24), c)
	}
}

// Shanks of the demo's kind: 9.8, 8.5, 7.2, 6.1 for 12, 14, 16, 18. A third off 8.5 is 5.67 or 11.33.
func TestShanksInLine(t *testing.T) {
	for _, c := range []struct {
		shanks []measure.Millimetres // of 12, 14, 16, 18; 0 leaves one out
		want   string                // the size that is off
	}{
		{[]measure.Millimetres{9.8, 8.5, 7.2, 6.1}, ""},
		{[]measure.Millimetres{9.8, 3.4, 7.2, 6.1}, "14"},
		{[]measure.Millimetres{9.8, 5.7, 7.2, 6.1}, ""},
		{[]measure.Millimetres{9.8, 11.5, 7.2, 0}, "14"},
		{[]measure.Millimetres{9.8, 8.5, 7.2, 3.9}, "18"}, // the line of 14 and 16 goes to 5.9: 3.93 is a third off
		{[]measure.Millimetres{9.8, 8.5, 7.2, 4}, ""},
		{[]measure.Millimetres{9.8, 3.4, 0, 0}, ""}, // two sizes make no line for either
	} {
		var l []species.MeasuredHook
		for i, mm := range c.shanks {
			if size, err := hook.ParseSize(fmt.Sprint(12 + 2*i)); err == nil && mm > 0 {
				l = append(l, species.MeasuredHook{Measured: hook.Measured{Model: "dry", Size: size, Shank: mm}})
			}
		}
		ps := &content.Problems{}
		shanksInLine(l, ps)
		if c.want == "" {
			assert.Empty(t, ps.All(), c.shanks)
			continue
		}
		require.Len(t, ps.All(), 1, c.shanks)
		assert.Contains(t, ps.All()[0].Message, "size "+c.want+" of dry", c.shanks)
	}
}

func TestInZone(t *testing.T) {
	for _, c := range []struct {
		longitude float64
		zone      string
		want      bool
	}{
		{-3, "Europe/London", true}, {3, "Europe/London", true}, {36, "Europe/London", false}, {-100, "Europe/London", false},
		{-9, "Europe/Madrid", true}, {75, "Asia/Shanghai", true}, {-75, "Asia/Shanghai", false}, {172, "Pacific/Auckland", true},
		{-71, "America/Argentina/Buenos_Aires", true}, {71, "America/Argentina/Buenos_Aires", false}, {-72, "America/New_York", true}, {72, "America/New_York", false},
		{146, "Australia/Hobart", true}, {-146, "Australia/Hobart", false}, {-22, "Atlantic/Reykjavik", true}, {-157, "Pacific/Kiritimati", true},
	} {
		zone, err := time.LoadLocation(c.zone)
		require.NoError(t, err)
		assert.Equal(t, c.want, inZone(c.longitude, zone), "%v %s", c.longitude, c.zone)
	}
}

// A sign turned round shows where the place would fit with the other one, and not where it is merely far.
func TestSignsOfLongitude(t *testing.T) {
	at := func(lat, lon float64) measure.Coordinates {
		return measure.Coordinates{Latitude: measure.Angle{Degrees: lat, Digits: 1}, Longitude: measure.Angle{Degrees: lon, Digits: 1}}
	}
	water := func(name string, lon float64, beats ...float64) *rivers.Water {
		w := &rivers.Water{Name: content.Text{S: name}, Place: at(55, lon), HasPlace: true}
		for _, b := range beats {
			w.Beats = append(w.Beats, rivers.Beat{Name: content.Text{S: "beat"}, Place: at(55, b), HasPlace: true})
		}
		return w
	}
	for name, c := range map[string]struct {
		waters []*rivers.Water
		want   []string
	}{
		"all near":        {[]*rivers.Water{water("A", -4.8), water("B", -4.5), water("C", -5)}, nil},
		"one turned":      {[]*rivers.Water{water("A", -4.8), water("B", 4.5), water("C", -5)}, []string{"B lies far from the guide's other waters"}},
		"far, no sign":    {[]*rivers.Water{water("A", -4.8), water("B", -14.5), water("C", -5)}, nil},
		"beat turned":     {[]*rivers.Water{water("A", -4.8, -4.7, 4.7)}, []string{"beat lies far from A"}},
		"beat merely far": {[]*rivers.Water{water("A", -4.8, -9)}, nil},
		"by Greenwich":    {[]*rivers.Water{water("A", -0.1, 0.1)}, nil},
	} {
		ps := &content.Problems{}
		(&Guide{Waters: c.waters}).signs(ps)
		require.Len(t, ps.All(), len(c.want), name)
		for i, p := range ps.All() {
			assert.Contains(t, p.Message, c.want[i], name)
		}
	}
}

// Each of the rules speaks of a guide as it is read.
func TestFiguresNobodyMeans(t *testing.T) {
	fsys := small("V1,2026-05-03,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\nV2,2025,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n")
	fsys["corrections.yaml"] = &fstest.MapFile{Data: []byte("- {date: 2025-05-03, by: A. B, file: species/oliv.md, what: a, why: d}\n")}
	fsys["hooks.csv"] = &fstest.MapFile{Data: []byte("model,size,shank mm,shape\nPlain dry,14,8.4,straight\n")}
	fsys["dressings/a.yaml"] = &fstest.MapFile{Data: []byte("name: A\nbasis: own\nstands_for: [{groups: [upwinged]}]\nsizes: \"14\"\nparts: {hook: plain  dry, body: fur}\n")}
	fsys["dressings/b.yaml"] = &fstest.MapFile{Data: []byte("name: B\nbasis: own\nstands_for: [{groups: [upwinged]}]\nsizes: \"14\"\nparts: {hook: Plain dyr, body: fur}\n")}
	fsys["dressings/c.yaml"] = &fstest.MapFile{Data: []byte("name: C\nbasis: own\nstands_for: [{groups: [upwinged]}]\nsizes: \"14\"\nparts: {hook: grub, body: fur}\n")}
	fsys["species/late.md"] = &fstest.MapFile{Data: []byte("---\nname: Late\ngroup: alder\nreviewed: 2031-01-01, A. B\nhours: {adult: 16:00 to 11:00}\n---\n")}
	fsys["rivers/other.yaml"] = &fstest.MapFile{Data: []byte("name: Other\nkind: rain-fed\nseasons:\n  - {fish: trout, open: 1 Apr, close: 30 Sep, checked: 2031-01-01}\n")}
	_, ps := read(t, fsys)
	got := map[string]int{}
	for _, p := range ps.All() {
		got[p.ID+" "+p.At.File]++
	}
	for _, want := range []string{"vague-date samples/brook.csv", "no-such-file corrections.yaml", "hook-not-measured dressings/b.yaml", "hook-not-measured dressings/c.yaml",
		"future-date species/late.md", "hours-backwards species/late.md", "future-date rivers/other.yaml"} {
		assert.Equal(t, 1, got[want], want)
	}
	assert.Zero(t, got["hook-not-measured dressings/a.yaml"])
	for _, p := range ps.All() {
		if p.ID == "hook-not-measured" {
			assert.Equal(t, map[string]content.Grade{"dressings/b.yaml": content.Warning, "dressings/c.yaml": content.Note}[p.At.File], p.Grade)
		}
	}
}

func TestFormulas(t *testing.T) {
	for text, want := range map[string]bool{"=1+1": true, "+44": false, "-3.5": false, "@SUM(A1)": true, "-cold": true, "+ wind": true, "cold": false, "": false, "a=b": false} {
		assert.Equal(t, want, isFormula(text), text)
	}
	_, ps := read(t, small("V1,2026-05-03,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,=HYPERLINK(1)\n"))
	found := 0
	for _, p := range ps.All() {
		if p.ID == "like-a-formula" {
			found++
			assert.Equal(t, content.Warning, p.Grade)
		}
	}
	assert.Equal(t, 1, found)
}
