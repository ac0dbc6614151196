package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// where gives each problem as id@line:column, in order.
func where(ps *Problems) []string {
	var l []string
	for _, p := range ps.All() {
		w := ps.Where(p.At)
		l = append(l, p.ID+"@"+w[strings.IndexByte(w, ':')+1:])
	}
	return l
}

func at(f *File, p Place) string { return string(f.Bytes[p.Offset : p.Offset+p.Len]) }

// A token's line and column are right with more than one byte to a character
// before it, with a byte-order mark, and with lines that end as on Windows.
func TestPlacesInYAML(t *testing.T) {
	for name, text := range map[string]string{
		"plain":    "# né à Ōtākou\nname: Mānuka\nwater: {ō: [é, wrong]}\n",
		"bom":      "\ufeff# né à Ōtākou\nname: Mānuka\nwater: {ō: [é, wrong]}\n",
		"crlf":     "# né à Ōtākou\r\nname: Mānuka\r\nwater: {ō: [é, wrong]}\r\n",
		"bom crlf": "\ufeff# né à Ōtākou\r\nname: Mānuka\r\nwater: {ō: [é, wrong]}\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			f := NewFile("rivers/x.yaml", []byte(text))
			ps := &Problems{}
			v := ReadYAML(f, ps)
			require.Empty(t, ps.All())
			n, _ := v.Get("name")
			assert.Equal(t, "Mānuka", at(f, n.Text.At))
			w, _ := v.Get("water")
			item := w.Entries[0].Value.Items[1].Text
			assert.Equal(t, "wrong", at(f, item.At))
			line, col := f.LineColumn(item.At.Offset)
			assert.Equal(t, []int{3, 16}, []int{line, col})
		})
	}
}

func TestPlacesOnTheFirstLineAfterAByteOrderMark(t *testing.T) {
	f := NewFile("x.yaml", []byte("\ufeffnäme: {a: b}\n"))
	v := ReadYAML(f, &Problems{})
	require.Len(t, v.Entries, 1)
	assert.Equal(t, "näme", at(f, v.Entries[0].Key.At))
	assert.Equal(t, "b", at(f, v.Entries[0].Value.Entries[0].Value.At))
}

func TestPlacesInAHead(t *testing.T) {
	f := NewFile("species/x.md", []byte("---\r\nname: é\r\nwater: x\r\n---\r\nBody é.\r\n"))
	v, body, off := Front(f, &Problems{})
	w, _ := v.Get("water")
	assert.Equal(t, "x", at(f, w.At))
	assert.Equal(t, "Body é.\r\n", body)
	assert.Equal(t, body, string(f.Bytes[off:]))
}

func TestPlacesInCSV(t *testing.T) {
	for name, text := range map[string]string{
		"plain":    "näme,size\n\"Māori, the\",x\né,y\n",
		"bom":      "\ufeffnäme,size\n\"Māori, the\",x\né,y\n",
		"crlf":     "näme,size\r\n\"Māori, the\",x\r\né,y\r\n",
		"bom crlf": "\ufeffnäme,size\r\n\"Māori, the\",x\r\né,y\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			f := NewFile("hooks.csv", []byte(text))
			ps := &Problems{}
			s := OpenCSV(f, ps)
			require.NotNil(t, s)
			assert.Equal(t, "näme", s.Headings[0].S)
			assert.Equal(t, "size", at(f, s.Headings[1].At))
			var got []string
			for row := range s.Rows(ps) {
				for i := range 2 {
					c := row.Text(i)
					assert.Equal(t, c.S, at(f, c.At))
					got = append(got, c.S)
				}
			}
			assert.Equal(t, []string{"Māori, the", "x", "é", "y"}, got)
			assert.Empty(t, ps.All())
		})
	}
}

func TestPartsOfAPlainTextHavePlaces(t *testing.T) {
	f := NewFile("x.yaml", []byte("a: é, bb ; c\nq: 'b''b, c'\n"))
	v := ReadYAML(f, &Problems{})
	a, _ := v.Get("a")
	parts := a.Text.Split(",;")
	require.Len(t, parts, 3)
	assert.Equal(t, "bb", at(f, parts[1].At))
	q, _ := v.Get("q")
	parts = q.Text.Split(",")
	assert.Equal(t, "c", parts[1].S)
	assert.Equal(t, q.At, parts[1].At, "a quoted text's parts point to the whole")
}

// Many problems that say the same of one unknown name are one, with the count of the others and their files; any others
// are told each.
func TestTheSameNameIsToldOnce(t *testing.T) {
	ps := &Problems{}
	for i := range 5 {
		ps.Errorf("unknown-water", Place{File: "samples/a.csv", Offset: i}, "", "no water is named %q", "Brok")
		ps.Errorf("missing-cell", Place{File: "samples/a.csv", Offset: i}, "", "this row lacks its date")
	}
	ps.Errorf("unknown-water", Place{File: "samples/b.csv"}, "", "no water is named %q", "Brok")
	for i := range 3 {
		ps.Errorf("unknown-fly", Place{File: "samples/c.csv", Offset: i}, "", "no account is named %q", "Olvie")
	}
	count, more := map[string]int{}, ""
	for _, p := range ps.Told() {
		count[p.ID]++
		more += p.More
	}
	assert.Equal(t, map[string]int{"unknown-water": 1, "missing-cell": 5, "unknown-fly": 3}, count)
	assert.Equal(t, "5 more times, in samples/a.csv, samples/b.csv", more)
}

// Where all errors only follow from a file that isn't read, their one line is an error too.
func TestFollowUpsKeepTheirGrade(t *testing.T) {
	for _, c := range []struct {
		cause, follows, want Grade
	}{{Warning, Error, Error}, {Error, Error, Note}, {Warning, Warning, Note}} {
		ps := &Problems{}
		ps.Add(Problem{ID: "wrong-extension", Grade: c.cause, At: Place{File: "rivers/a.yml"}})
		ps.Unread("rivers/a.yml", "unknown-water")
		ps.Add(Problem{ID: "unknown-water", Grade: c.follows, At: Place{File: "samples/a.csv"}})
		told := ps.Told()
		require.Len(t, told, 2)
		assert.Equal(t, NotShown, told[1].ID)
		assert.Equal(t, c.want, told[1].Grade)
	}
}

// Notes of one id in a file have one cause: the first is told and says where the others are. They come last.
func TestNotesOfOneCauseAreTold(t *testing.T) {
	rivers := NewFile("rivers/beck.yaml", []byte("a\nb\nc\nd\n"))
	sheet := NewFile("samples/a.csv", []byte("a\nb\nc\nd\n"))
	told := func(add func(ps *Problems)) (out []string) {
		var ps Problems
		ps.Know(rivers)
		ps.Know(sheet)
		add(&ps)
		for _, p := range ps.Told() {
			out = append(out, strings.TrimSpace(ps.Where(p.At)+" "+p.ID+" "+p.More))
		}
		return out
	}
	line := func(f *File, n int) Place { return Place{File: f.Path, Offset: 2 * (n - 1)} }
	notes := func(f *File, id string, lines ...int) func(ps *Problems) {
		return func(ps *Problems) {
			for _, n := range lines {
				ps.Notef(id, line(f, n), "", "on line %d", n)
			}
		}
	}
	assert.Equal(t, []string{"rivers/beck.yaml:1:1 x", "rivers/beck.yaml:2:1 x"}, told(notes(rivers, "x", 1, 2)), "two are few enough")
	assert.Equal(t, []string{"rivers/beck.yaml:1:1 x 2 more notes like it in this file: lines 2, 4"}, told(notes(rivers, "x", 1, 2, 4)))
	assert.Equal(t, []string{"samples/a.csv:3:1 w", "rivers/beck.yaml:1:1 x 2 more notes like it in this file: lines 2, 3", "rivers/beck.yaml:4:1 y", "samples/a.csv:2:1 x"},
		told(func(ps *Problems) {
			notes(rivers, "x", 1, 2, 3)(ps)
			notes(rivers, "y", 4)(ps)
			notes(sheet, "x", 2)(ps)
			ps.Warnf("w", line(sheet, 3), "", "a warning")
		}), "another id and another file are another cause")
	assert.Len(t, told(func(ps *Problems) {
		for n := range 4 {
			ps.Warnf("w", line(sheet, n+1), "", "on line %d", n+1)
		}
	}), 4, "warnings are acknowledged one by one, so each is told")
}
