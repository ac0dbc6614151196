package build

// A withheld name in each field of the format, one field at a time. The tables of fields are walked, so that a new
// field is tried by itself.

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/species"
)

// betraying names a withheld fly, place and water and a person who wants no name.
const betraying = "Quorxfly at Zwickelpool by Hazzlemere with W. Grobnik"

// tried is a file in which one field betrays.
type tried struct{ field, file, text string }

// needed are fields that an account has in practice; a block of the guide's own words has one of the keys.
var (
	needed = map[string]bool{"flights": true}
	keys   = map[string]string{"parts": "body", "roles": "editor", "files": "a.csv", "flies": "Open olive", "beats": "Lower", "flights": "spring"}
)

// blocks writes a record once for each text in it, and in the records within: {required: …, field: betraying}.
func blocks(r *content.Record, path string, depth int) (out [][2]string) {
	block := func(key, value string) string {
		var l []string
		for _, f := range r.Fields {
			if f.Key != key && (f.Required || needed[f.Key] && r == species.AccountRecord) {
				l = append(l, f.Key+": "+example(f))
			}
		}
		return "{" + strings.Join(append(l, key+": "+value), ", ") + "}"
	}
	quoted := func(s string) string { return fmt.Sprintf("%q", s) }
	for _, f := range r.Fields {
		add := func(how, value string) { out = append(out, [2]string{path + "." + f.Key + how, block(f.Key, value)}) }
		inside := func(key, value string) string {
			switch f.Shape {
			case content.Blocks:
				return "[" + value + "]"
			case content.Named, content.Anything:
				return "{" + key + ": " + value + "}"
			}
			return value
		}
		if f.Of != nil && f.Key != "figures" && depth < 3 { // its constants are numbers
			for _, x := range blocks(f.Of, path+"."+f.Key, depth+1) {
				out = append(out, [2]string{x[0], block(f.Key, inside(keys[f.Key], x[1]))})
			}
			if f.Shape == content.Named || f.Shape == content.Anything {
				var l []string
				for _, x := range f.Of.Fields {
					if x.Required {
						l = append(l, x.Key+": "+example(x))
					}
				}
				add(" as key", "{"+quoted(betraying)+": {"+strings.Join(l, ", ")+"}}")
			}
		}
		text := strings.Trim(f.Example, `"`)
		switch f.Shape {
		case content.Choice, content.Block, content.Blocks:
		case content.Named, content.Anything:
			add("", "{"+quoted(betraying)+": "+quoted(betraying)+"}")
		case content.Texts:
			add("", "["+quoted(betraying)+"]")
		case content.Cases:
			add("", "{dun: "+quoted(betraying)+"}")
			add(", source", "{dun: "+quoted(strings.TrimRight(strings.TrimPrefix(text, "{dun: "), "}")+" ("+betraying+")")+"}")
		case content.Statement:
			add(", source", quoted(text+" ("+betraying+")"))
			fallthrough
		case content.Line:
			add("", quoted(betraying))
			add(", after", quoted(text+", "+betraying))
		}
	}
	return out
}

func example(f content.Field) string {
	switch {
	case f.Shape == content.Choice:
		return f.Choices[0]
	case f.Example == "":
		return "something"
	}
	return f.Example
}

// sheets writes a row of a sheet once for each column.
func sheets(file string, heads, row []string) (out []tried) {
	for i, head := range heads {
		cells := slices.Clone(row)
		cells[i] = betraying
		out = append(out, tried{file + ": " + head, file, strings.Join(heads, ",") + "\n" + strings.Join(cells, ",") + "\n"})
	}
	return out
}

func triedFields() (out []tried) {
	for _, f := range []struct {
		r          *content.Record
		file, form string
	}{
		{species.AccountRecord, "species/tried.md", "---\n%s\n---\nText.\n"}, {rivers.WaterRecord, "rivers/tried.yaml", "%s\n"},
		{species.DressingRecord, "dressings/tried.yaml", "%s\n"}, {guide.NoteRecord, "notes/tried.md", "---\n%s\n---\nText.\n"},
		{guide.CorrectionRecord, "corrections.yaml", "[%s]\n"}, {guide.AcknowledgementRecord, "acknowledged.yaml", "[%s]\n"},
		{species.SourceRecord, "sources.yaml", "handbook: %s\n"}, {species.CharacterRecord, "characters.yaml", "tails: %s\n"},
		{guide.SettingsRecord, "guide.yaml", "%s\n"},
	} {
		for _, x := range blocks(f.r, f.r.Name, 0) {
			out = append(out, tried{x[0], f.file, fmt.Sprintf(f.form, x[1])})
		}
	}
	for _, x := range []tried{ // what is read by its own code
		{"a colour's words", "species/tried.md", "---\nname: Tried dun\ngroup: upwinged\ncolours: {dun: {body: \"%s\"}}\n---\n"},
		{"a colour's words, after", "species/tried.md", "---\nname: Tried dun\ngroup: upwinged\ncolours: {dun: {body: \"Dark Olive, %s\"}}\n---\n"},
		{"a feature's name", "characters.yaml", "\"%s\": {states: [two, three]}\n"},
		{"a state's name", "characters.yaml", "tails: {states: [two, \"%s\"]}\n"},
		{"what a state looks like", "characters.yaml", "tails: {states: {two: {about: \"%s\"}, three: {}}}\n"},
		{"an account's text", "species/tried.md", "---\nname: Tried dun\ngroup: upwinged\n---\n%s\n"},
		{"a note's text", "notes/tried.md", "---\ntitle: Tried\n---\n%s\n"},
		{"a note's first heading", "notes/tried.md", "# %s\n\nText.\n"},
	} {
		out = append(out, tried{x.field, x.file, fmt.Sprintf(x.text, betraying)})
	}
	var heads, row []string
	for _, c := range rivers.SampleColumns {
		if c.Plain != "" {
			heads = append(heads, c.Plain+map[bool]string{true: " mm"}[c.Units != nil])
			row = append(row, map[string]string{"water": "Brook", "beat": "", "fly": "Open olive", "by": "U. Xandrel", "named by": "U. Xandrel"}[c.Plain])
			if i := len(row) - 1; row[i] == "" && c.Plain != "beat" {
				row[i] = c.Example
			}
		}
	}
	out = append(out, sheets("samples/tried.csv", heads, row)...)
	out = append(out, sheets("samples/terms.csv", strings.Split("eventID,eventDate,waterBody,samplingProtocol,samplingEffort,occurrenceID,scientificName,vernacularName,taxonRank,identificationQualifier,lifeStage,organismQuantity,organismQuantityType,recordedBy,occurrenceRemarks", ","),
		strings.Split("E1,2025-05-12,Brook,sweep net,two people,O1,Aus bus,,species,,dun,few,words,U. Xandrel,", ","))...)
	return append(out, sheets("temperature/tried.csv", strings.Split("water,date,time,kind,temperature °C,place,by,remarks", ","), strings.Split("Brook,2025-03-21,11:40,spot,7.1,,U. Xandrel,", ","))...)
}

// Whatever field names what is withheld, the editor is told where, or it is cut: the search of the finished site is for
// faults of the program alone.
func TestAWithheldNameInEveryField(t *testing.T) {
	t.Parallel()
	told, drawn := 0, map[string]bool{}
	for _, c := range triedFields() {
		field, _, _ := strings.Cut(c.field, ",")
		if drawn[field] {
			continue // it has been read and shown, or cut
		}
		fsys := secretive()
		if c.file == "guide.yaml" {
			c.text = strings.Replace(c.text, "{", "{people: {W. Grobnik: none, U. Xandrel: full}, ", 1)
		}
		fsys[c.file] = &fstest.MapFile{Data: []byte(c.text)}
		r, err := Proof(Options{Source: &Source{Files: fsys}, Edition: Public, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}})
		if !assert.NoError(t, err, "%s:\n%s", c.field, c.text) {
			continue
		}
		drawn[field] = true
		for _, p := range r.Problems {
			drawn[field] = drawn[field] && (p.Grade != content.Error || p.ID == "names-withheld")
			if strings.HasSuffix(p.ID, "names-withheld") {
				assert.Equal(t, c.file, p.At.File, c.field)
				assert.NotEmpty(t, r.Collector().Where(p.At), c.field)
				told++
			}
		}
	}
	require.Greater(t, told, 200)
	require.Greater(t, len(drawn), 150)
	t.Log(told, len(drawn))
}
