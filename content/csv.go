package content

// The CSV reader: comma-separated text (RFC 4180) in which every cell knows
// its place. Rows are handed out one at a time; nothing is kept of them.

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
)

const (
	maxCSV     = 64 << 20
	maxColumns = 500
)

// Sheet is a CSV file opened at its headings.
type Sheet struct {
	Headings []Text // trimmed; as many as cells stand in the first line
	f        *File
	r        *csv.Reader
	base     int // bytes before the text: a byte-order mark
}

// Row is one line of a sheet below its headings. It is good until the next
// one is asked for; the texts taken from it stay good.
type Row struct {
	s     *Sheet
	cells []string
	At    Place // its first cell
}

// OpenCSV reads the headings. It returns nil where the file can't be read as
// comma-separated UTF-8 at all.
func OpenCSV(f *File, ps *Problems) *Sheet {
	s := openCSV(f, ps)
	if s == nil {
		ps.Unread(f.Path)
	}
	return s
}

func openCSV(f *File, ps *Problems) *Sheet {
	ps.Know(f)
	if len(f.Bytes) > maxCSV {
		ps.Errorf("file-too-large", f.At(0, 0), "split it, say by year", "%d MB is more than one file may hold", len(f.Bytes)>>20)
		return nil
	}
	if b, err := f.Dialect.decoded(f.Bytes); err != nil {
		ps.Errorf("not-utf8", f.At(0, 0), "save the file as CSV UTF-8", "the file isn't written in %s: %v", f.Dialect.Encoding, err)
		return nil
	} else if len(b) != len(f.Bytes) || f.Dialect.Encoding != "" {
		f.hold(b)
	}
	s := &Sheet{f: f}
	text := f.Bytes
	if bytes.HasPrefix(text, bom) {
		s.base = len(bom)
		text = text[s.base:]
	}
	if f.notText(s.base, text, "save the file as CSV UTF-8; or, if all sheets are written so, write in guide.yaml: sheets: {encoding: windows-1252}", ps) {
		return nil
	}
	s.r = s.reader(text)
	s.r.ReuseRecord = true
	row, ok := s.next(ps)
	if !ok {
		ps.Errorf("no-headings", f.At(s.base, s.base), "the first line names the columns", "the file is empty")
		return nil
	}
	if n := len(row.cells); n > maxColumns {
		ps.Errorf("unknown-heading", f.At(s.base, s.base), "take out the columns that the guide doesn't know", "%d columns are more than a sheet may have", n)
		return nil
	}
	for i := range row.cells {
		s.Headings = append(s.Headings, row.Text(i))
	}
	if first := s.Headings[0].S; f.Dialect.Separator == "" {
		for _, sep := range []struct{ sign, name, key string }{{";", "semicolons", "semicolon"}, {"\t", "tabs", "tab"}} {
			if n := strings.Count(first, sep.sign); n > 0 && n >= len(row.cells) {
				ps.Errorf("csv-separator", s.Headings[0].At, "write in guide.yaml: sheets: {separator: "+sep.key+"}; or save the file as comma-separated CSV",
					"the columns are parted by %s, not commas", sep.name)
				return nil
			}
		}
	}
	for n := len(s.Headings); n > 1 && s.Headings[n-1].S == ""; n-- {
		s.Headings = s.Headings[:n-1] // a spreadsheet saves columns that were once used
	}
	if s.dateOrder(text, ps) {
		return nil
	}
	return s
}

// reader reads as the sheet's dialect says. Headings without its separator that commas part prove commas: a guide may hold
// sheets from before, or from elsewhere.
func (s *Sheet) reader(text []byte) *csv.Reader {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord = s.f.Dialect.Comma(), -1
	if line, _ := cutLine(text); !strings.ContainsRune(line, r.Comma) && strings.Contains(line, ",") {
		r.Comma = ','
	}
	return r
}

var bom = []byte("\xef\xbb\xbf")

// next reads on to a line that can be read, reporting those that can't.
func (s *Sheet) next(ps *Problems) (Row, bool) {
	for {
		cells, err := s.r.Read()
		if err == nil {
			row := Row{s: s, cells: cells}
			row.At = row.Text(0).At
			return row, true
		}
		if errors.Is(err, io.EOF) {
			return Row{}, false
		}
		var bad *csv.ParseError
		if !errors.As(err, &bad) {
			ps.Errorf("csv-quotes", s.f.At(s.base, s.base), "", "not readable as CSV: %v", err)
			return Row{}, false
		}
		at := s.offset(bad.Line, bad.Column)
		want := `a text with quotes in it stands in quotes, each inner quote doubled: "the ""big"" pool"`
		if bad.Line != bad.StartLine {
			at = s.offset(bad.StartLine, 1)
			want = "close the quotes: a cell opened with a quote in this line runs on to line " + strconv.Itoa(bad.Line)
		}
		ps.Errorf("csv-quotes", s.f.At(at, at+1), want, "the quotes of this line don't match")
	}
}

// offset turns the CSV reader's line and column (from 1, in bytes) into an offset.
func (s *Sheet) offset(line, column int) int {
	if line < 1 || line > len(s.f.lines) {
		return len(s.f.Bytes)
	}
	at := s.f.lines[line-1] + column - 1
	if line == 1 {
		at += s.base
	}
	return at
}

// Rows hands out the lines below the headings. A line with too many cells is
// reported and left out; missing cells at its end are reported and empty.
func (s *Sheet) Rows(ps *Problems) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for {
			row, ok := s.next(ps)
			if !ok {
				return
			}
			if row.blank() {
				continue
			}
			switch n, want := len(row.cells), len(s.Headings); {
			case n > want && slices.ContainsFunc(row.cells[want:], func(c string) bool { return strings.TrimSpace(c) != "" }):
				ps.Errorf("ragged-row", row.Text(want).At, "put quotes round a text that holds a comma; write decimals with a point",
					"this line has %s, but there are %s", Several(n, "cell"), Several(want, "heading"))
				continue
			case n < want:
				ps.Errorf("ragged-row", row.Text(n-1).At, "end it with commas for the cells that are empty",
					"this line has %s, but there are %s", Several(n, "cell"), Several(want, "heading"))
			}
			if !yield(row) {
				return
			}
		}
	}
}

func (r Row) blank() bool {
	return !slices.ContainsFunc(r.cells, func(c string) bool { return strings.TrimSpace(c) != "" })
}

// String is the trimmed content of a cell; "" where the line ends before it
// or i is negative.
func (r Row) String(i int) string {
	if i < 0 || i >= len(r.cells) {
		return ""
	}
	return r.s.f.Dialect.plain(strings.TrimSpace(r.cells[i]))
}

// Text is a trimmed cell with its place: the content without its quotes. An
// empty cell has a place of length 0; a cell that isn't there is the zero Text.
func (r Row) Text(i int) Text {
	if i < 0 || i >= len(r.cells) {
		return Text{}
	}
	c := r.cells[i]
	off := r.s.offset(r.s.r.FieldPos(i))
	b := r.s.f.Bytes
	if off < len(b) && b[off] == '"' {
		off++
	}
	plain := off+len(c) <= len(b) && string(b[off:off+len(c)]) == c
	at := Place{r.s.f.Path, off, len(c)}
	if !plain {
		at = r.s.f.At(off, off+len(c))
	}
	t := Text{c, at, plain}.Trim()
	if p := r.s.f.Dialect.plain(t.S); p != t.S {
		t.S, t.Plain = p, false
	}
	return t
}

// Column is one column that a kind of sheet may have.
type Column struct {
	Name     string
	Units    []string // the unit stands in the heading: "shank mm"; nil for a column without one
	Required bool
	Doc      string // one sentence for the editor
	Example  string
}

// names lists the headings that a column may have.
func (c Column) names() []string {
	if c.Units == nil {
		return []string{c.Name}
	}
	var l []string
	for _, u := range c.Units {
		l = append(l, c.Name+" "+u)
	}
	return l
}

// Found is where a column stands in a sheet.
type Found struct {
	Index int    // -1 where it doesn't
	Unit  string // as the column's table has it
}

// Match finds the columns by their headings; case doesn't count. Unknown,
// repeated, missing and unitless headings are reported. ignored are headings
// that may stand there and aren't read.
func (s *Sheet) Match(columns []Column, ignored []string, ps *Problems) map[string]Found {
	found := map[string]Found{}
	var known []string
	for _, c := range columns {
		known = append(known, c.names()...)
		found[c.Name] = Found{Index: -1}
	}
	at := map[string]Text{}
	unitless := map[string]bool{}
headings:
	for i, h := range s.Headings {
		if first, ok := at[Fold(h.S)]; ok && h.S != "" {
			ps.Clash("duplicate-heading", h.At, first.At, "first here", "keep one of the two", "the heading %q stands twice", h.S)
			continue
		}
		at[Fold(h.S)] = h
		for _, c := range columns {
			for j, n := range c.names() {
				if Fold(n) != Fold(h.S) {
					continue
				}
				if f := found[c.Name]; f.Index >= 0 {
					ps.Clash("duplicate-heading", h.At, s.Headings[f.Index].At, "first here", "keep one of the two", "%q stands twice, in two units", c.Name)
					continue headings
				}
				found[c.Name] = Found{Index: i}
				if c.Units != nil {
					found[c.Name] = Found{i, c.Units[j]}
				}
				continue headings
			}
			if c.Units != nil && Fold(c.Name) == Fold(h.S) {
				ps.Errorf("missing-unit", h.At, "write "+strings.Join(c.names(), " or "), "the heading %q names no unit", h.S)
				unitless[c.Name] = true
				continue headings
			}
		}
		switch {
		case slices.ContainsFunc(ignored, func(x string) bool { return Fold(x) == Fold(h.S) }):
			ps.Notef("column-not-read", h.At, "", "the column %q is not read", h.S)
		case h.S == "":
			ps.Warnf("unknown-heading", h.At, "give the column a heading, or take it out", "a column has no heading and is not read")
		default:
			ps.Errorf("unknown-heading", h.At, "headings: "+strings.Join(known, ", "), "unknown heading %q%s", h.S, DidYouMean(h.S, known))
		}
	}
	for _, c := range columns {
		if c.Required && found[c.Name].Index < 0 && !unitless[c.Name] {
			ps.Errorf("missing-heading", s.Headings[0].At, "headings: "+strings.Join(known, ", "), "there is no column %q", c.names()[0])
		}
	}
	return found
}
