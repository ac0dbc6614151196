package figures

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

// demoBook reckons the demo guide once for several tests.
func demoBook(t *testing.T) *Book {
	t.Helper()
	ps := &content.Problems{}
	g, err := guide.Read(demo.FS, calendar.Date{Year: 2026, Month: 11, Day: 24}, ps)
	require.NoError(t, err)
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			ps.Print(os.Stderr, p)
		}
	}
	require.Zero(t, ps.Count(content.Error))
	return Reckon(guide.Cut(g, false), calendar.Date{Year: 2026, Month: 11, Day: 24})
}

func TestDemoReckons(t *testing.T) {
	start := time.Now()
	b := demoBook(t)
	t.Log(time.Since(start), len(b.Waters), len(b.Flies))
	for _, w := range b.Waters {
		t.Log(w.Name.S, len(w.Rows), w.Visits, w.Years, w.Rightness.Tell, w.Coverage.Expected)
		for _, r := range w.Rows {
			t.Log("  ", r.Fly.Name.S, r.Listed, r.Class, r.Looked, r.FoundOn, len(r.Runs), len(r.Sizes), len(r.Dressings))
		}
		for _, p := range w.Prompts {
			t.Log("   !", p.ID, p.Message)
		}
	}
}
