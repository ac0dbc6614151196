package share

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"

	"guidegen/build/figures"
	"guidegen/rivers"
)

// findsAsRead tells each visit and each find of a book that the archive hands on.
func findsAsRead(book *figures.Book) (l []string) {
	for _, v := range book.Edition.Visits {
		l = append(l, fmt.Sprint(v.ID, v.When, v.Start, v.End, v.Water.Name.S, v.Protocol, v.Effort, v.LooksForAny()))
		for _, f := range v.Finds {
			if f.Absent || f.Checked == rivers.Rejected {
				continue
			}
			name := ""
			if f.Fly != nil {
				name = f.Fly.Name.S
			}
			var mm []float64
			for _, x := range f.Lengths {
				mm = append(mm, x.Millimetres)
			}
			l = append(l, fmt.Sprint(v.ID, name, f.Stage, f.Sex, f.Count, f.Counted, f.Checked, mm))
		}
	}
	slices.Sort(l)
	return l
}

// The archive that a site hands out reads in again, in place of the sheets it was made from, with the same finds.
func TestArchiveReadsInAgain(t *testing.T) {
	f := small()
	delete(f, "rivers/secret-water.yaml")
	delete(f, "corrections.yaml")
	a := string(f["samples/a.csv"].Data)
	lines := strings.SplitAfter(a, "\n")
	f["samples/a.csv"] = &fstest.MapFile{Data: []byte(lines[0] + strings.Join(lines[2:], ""))}
	before := bookOf(t, f, true)
	zip := fileNamed(t, filesOf(t, before, nil), Archive)
	delete(f, "samples/a.csv")
	f["samples/records.zip"] = &fstest.MapFile{Data: zip}
	after := bookOf(t, f, true)
	assert.Equal(t, findsAsRead(before), findsAsRead(after))
	assert.NotEmpty(t, findsAsRead(after))
}
