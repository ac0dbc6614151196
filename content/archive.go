package content

// Darwin Core archives (Darwin Core text guide, TDWG 2009): a core of events or of occurrences and the files that extend it,
// joined to one sheet of CSV, a row for each occurrence and for each measurement. A place in it is named by its file in the
// archive and its line: records.zip!occurrence.txt:12.

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
)

// dwcTable is one file of an archive as its meta.xml describes it.
type dwcTable struct {
	RowType  string     `xml:"rowType,attr"`
	Fields   string     `xml:"fieldsTerminatedBy,attr"`
	Enclosed string     `xml:"fieldsEnclosedBy,attr"`
	Header   int        `xml:"ignoreHeaderLines,attr"`
	File     string     `xml:"files>location"`
	ID       dwcField   `xml:"id"`
	CoreID   dwcField   `xml:"coreid"`
	Field    []dwcField `xml:"field"`
	rows     []dwcRow
}

type dwcField struct {
	Index   *int   `xml:"index,attr"`
	Term    string `xml:"term,attr"`
	Default string `xml:"default,attr"`
}

// dwcRow is a row by the short names of its terms.
type dwcRow struct {
	cells    map[string]string
	id, name string // the core's id; file and line
}

// Archive gives the records of a Darwin Core archive as one file of CSV under the names of the terms; nil, and reported,
// where it can't be read.
func Archive(f *File, ps *Problems) *File {
	ps.Know(f)
	refuse := func(format string, a ...any) *File {
		ps.Unread(f.Path)
		ps.Errorf("bad-archive", Place{File: f.Path}, "a Darwin Core archive holds meta.xml and the files that it names; or put the sheets here as CSV", format, a...)
		return nil
	}
	z, err := zip.NewReader(bytes.NewReader(f.Bytes), int64(len(f.Bytes)))
	if err != nil {
		return refuse("not readable as an archive")
	}
	var meta struct {
		Core       []dwcTable `xml:"core"`
		Extensions []dwcTable `xml:"extension"`
	}
	text, err := unpacked(z, "meta.xml")
	if err != nil || xml.Unmarshal(text, &meta) != nil || len(meta.Core) != 1 {
		return refuse("no meta.xml in it says which file is the core")
	}
	tables := append(meta.Core, meta.Extensions...)
	for i := range tables {
		t := &tables[i]
		if i > 0 && !strings.HasSuffix(t.RowType, "/Occurrence") && !strings.HasSuffix(t.RowType, "MeasurementOrFact") {
			ps.Notef("column-not-read", Place{File: f.Path + "!" + t.File}, "", "this file of the archive is not read")
			continue
		}
		text, err := unpacked(z, t.File)
		if err != nil {
			return refuse("%s, which meta.xml names, can't be read", t.File)
		}
		if err := t.read(text, i == 0); err != nil {
			return refuse("%s: %v", t.File, err)
		}
	}
	return joinedArchive(f.Path, tables, ps)
}

func unpacked(z *zip.Reader, name string) ([]byte, error) {
	r, err := z.Open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	b, err := io.ReadAll(io.LimitReader(r, maxWorkbook+1))
	if len(b) > maxWorkbook {
		err = errors.New("too large")
	}
	return bytes.TrimPrefix(b, bom), err
}

var dwcEscapes = strings.NewReplacer(`\t`, "\t", `\n`, "\n", `\r`, "\r")

// read takes a table's rows from its text. Without a sign that encloses fields, lines are cut where the separator stands.
func (t *dwcTable) read(text []byte, core bool) error {
	separator, id := cmp.Or(dwcEscapes.Replace(t.Fields), ","), t.CoreID.Index
	if core {
		id = t.ID.Index
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = []rune(separator)[0], -1, true
	for n := 1; ; n++ {
		var cells []string
		line := n
		if t.Enclosed == "" {
			if len(text) == 0 {
				return nil
			}
			l, rest, _ := bytes.Cut(text, []byte("\n"))
			cells, text = strings.Split(strings.TrimSuffix(string(l), "\r"), separator), rest
		} else {
			row, err := r.Read()
			if err == io.EOF {
				return nil
			} else if err != nil {
				return err
			}
			cells = row
			line, _ = r.FieldPos(0)
		}
		if n <= t.Header || len(cells) == 1 && cells[0] == "" {
			continue
		}
		row := dwcRow{cells: map[string]string{}, name: t.File + ":" + strconv.Itoa(line)}
		for _, f := range t.Field {
			value := f.Default
			if f.Index != nil && *f.Index >= 0 && *f.Index < len(cells) && cells[*f.Index] != "" {
				value = cells[*f.Index]
			}
			row.cells[f.Term[strings.LastIndexByte(f.Term, '/')+1:]] = value
		}
		if id != nil && *id >= 0 && *id < len(cells) {
			row.id = cells[*id]
		}
		t.rows = append(t.rows, row)
	}
}

// joinedArchive writes the rows of each event, then of its occurrences, then of what was measured, below one row of headings.
// A row of an extension whose core isn't there is said and left out.
func joinedArchive(path string, tables []dwcTable, ps *Problems) *File {
	event := strings.HasSuffix(tables[0].RowType, "/Event")
	var head []string
	of := make([]map[string][]dwcRow, len(tables))
	known := map[string]bool{}
	for _, r := range tables[0].rows {
		known[r.id] = true
	}
	for i, t := range tables {
		of[i] = map[string][]dwcRow{}
		for _, f := range t.Field {
			if n := heading(f.Term); !slices.Contains(head, n) {
				head = append(head, n)
			}
		}
		for _, r := range t.rows {
			if !known[r.id] {
				ps.Warnf("no-visit", Place{File: path + "!" + r.name}, "give its event or occurrence in the core, or take the row out", "this row belongs to %q, which the core doesn't hold, so it is not read", r.id)
				continue
			}
			of[i][r.id] = append(of[i][r.id], r)
		}
	}
	if own := map[bool]string{true: "eventID", false: "occurrenceID"}[event]; !slices.Contains(head, own) {
		head = append([]string{own}, head...)
	}
	var b bytes.Buffer
	var cells []workbookCell
	w := csv.NewWriter(&b)
	put := func(r dwcRow) {
		line := make([]string, len(head))
		for term, v := range r.cells {
			line[slices.Index(head, heading(term))] = strings.Join(strings.Fields(v), " ")
		}
		if i := slices.Index(head, "eventID"); event && line[i] == "" {
			line[i] = r.id
		} else if j := slices.Index(head, "occurrenceID"); !event && line[j] == "" {
			line[j] = r.id
		}
		cells = append(cells, workbookCell{b.Len(), r.name})
		_ = w.Write(line) // a buffer takes all
		w.Flush()
	}
	cells = append(cells, workbookCell{0, "meta.xml"})
	_ = w.Write(head)
	w.Flush()
	for _, core := range tables[0].rows {
		put(core)
		for i := 1; i < len(tables); i++ {
			for _, r := range of[i][core.id] {
				put(r)
			}
		}
	}
	f := NewFile(path, b.Bytes())
	f.Dialect, f.cells = Dialect{Separator: "comma"}, cells
	ps.Know(f)
	return f
}

// heading is the column of a sheet that a term fills: a visit's scope is a term of the Humboldt extension.
func heading(term string) string {
	term = term[strings.LastIndexByte(term, '/')+1:]
	if term == "targetTaxonomicScope" {
		return "scope"
	}
	return term
}
