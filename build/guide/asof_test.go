package guide

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
)

// A preview holds nothing later than its day, warns of nothing that it leaves out, and says in words what it was.
func TestAsOf(t *testing.T) {
	fsys := small("V1,2025-05-03,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n" +
		"V2,2025-05-04,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n" +
		"V3,2025-05,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n" + // may be later: its last day decides
		"V4,2026-05-04,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n")
	fsys["temperature/brook.csv"] = &fstest.MapFile{Data: []byte("water,date,time,kind,temperature °C,mean °C\nBrook,2025-05-03,10:00,spot,9,\nBrook,2025-05-04,10:00,spot,9,\nBrook,2025-05-05,,logger,,9\n")}
	fsys["corrections.yaml"] = &fstest.MapFile{Data: []byte("- {date: 2025-05-03, by: A. B, file: guide.yaml, what: a, was: b, now: c, why: d}\n- {date: 2025-05-04, by: A. B, file: guide.yaml, what: a, was: b, now: c, why: d}\n")}
	day := func(d int) calendar.Date { return calendar.Date{Year: 2025, Month: 5, Day: d} }
	for _, c := range []struct {
		day                          calendar.Date
		visits, spots, logger, fixes int
		later                        string
	}{
		{day(2), 0, 0, 0, 0, "4 visits, 3 readings, 2 corrections"},
		{day(3), 1, 1, 0, 1, "3 visits, 2 readings, 1 correction"},
		{day(5), 2, 2, 1, 2, "2 visits"},
		{day(31), 3, 2, 1, 2, "1 visit"},
		{calendar.Date{Year: 2026, Month: 5, Day: 4}, 4, 2, 1, 2, ""},
	} {
		ps := &content.Problems{}
		g, later, err := ReadAsOf(fsys, c.day, ps)
		require.NoError(t, err)
		for _, p := range ps.All() {
			assert.NotEqual(t, content.Error, p.Grade, p.Message)
			assert.NotEqual(t, "future-date", p.ID)
		}
		assert.Equal(t, c.later, later)
		assert.Len(t, g.Visits, c.visits, later)
		assert.Len(t, g.Series[0].Spots, c.spots, later)
		assert.Len(t, g.Series[0].Logger, c.logger, later)
		assert.Len(t, g.Corrections, c.fixes, later)
	}
}
