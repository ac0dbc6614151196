package main

// The forms that `blank` writes, made from the tables of fields that the readers
// use: a form can't name a key that the reader doesn't know.

import (
	"bytes"
	"fmt"
	"strings"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/rivers"
	"guidegen/species"
)

// form is one kind of empty form.
type form struct {
	folder, ending string
	name           string // where none is given
	text           func(name string) []byte
}

var forms = map[string]form{
	"account":  {"species", ".md", "New fly", accountForm},
	"water":    {"rivers", ".yaml", "New water", waterForm},
	"sheet":    {"samples", ".csv", "New sheet", sheetForm},
	"dressing": {"dressings", ".yaml", "New dressing", dressingForm},
}

func accountForm(name string) []byte {
	var b bytes.Buffer
	b.WriteString("---\n")
	fields(&b, species.AccountRecord, name)
	b.WriteString("---\n\nWrite here what cannot be put into a table.\n")
	return b.Bytes()
}

func waterForm(name string) []byte {
	var b bytes.Buffer
	fields(&b, rivers.WaterRecord, name)
	return b.Bytes()
}

func dressingForm(name string) []byte {
	var b bytes.Buffer
	fields(&b, species.DressingRecord, name)
	return b.Bytes()
}

// fields writes a line for each field: those needed as they stand, the others
// behind a #, to be taken away where the field is wanted.
func fields(b *bytes.Buffer, r *content.Record, name string) {
	fmt.Fprintf(b, "# %s\n# Take the # away from a line to use it; what is left out is not known.\n", r.Doc)
	for _, f := range r.Fields {
		example := f.Example
		if f.Key == "name" {
			example = scalar(name)
		}
		doc := f.Doc
		if f.Shape == content.Choice && len(f.Choices) > 2 {
			doc += ": " + strings.Join(f.Choices, ", ")
		}
		mark := "#"
		if f.Required {
			mark = ""
		}
		fmt.Fprintf(b, "\n# %s\n%s%s: %s\n", doc, mark, f.Key, example)
	}
}

// scalar is a text as YAML takes it back as it was.
func scalar(s string) string { return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"` }

// sheetHeadings are the plain headings of a sheet, in the order of the form.
func sheetHeadings() []string {
	var l []string
	for _, c := range rivers.SampleColumns {
		switch {
		case c.Plain == "", c.Rare:
		case c.Units != nil:
			l = append(l, c.Plain+" "+c.Units[0])
		default:
			l = append(l, c.Plain)
		}
	}
	return l
}

func sheetForm(string) []byte { return []byte(strings.Join(sheetHeadings(), ",") + "\n") }

// schemaFolder begins with a dot, so that a guide doesn't take it for one of its own folders.
const schemaFolder = ".schema"

func schemaTree() (map[string][]byte, error) {
	one, list, named := content.Schema, content.SchemaOfList, content.SchemaOfNamed
	return map[string][]byte{
		"account.schema.json":      one("The head of species/*.md", species.AccountRecord),
		"water.schema.json":        one("rivers/*.yaml", rivers.WaterRecord),
		"dressing.schema.json":     one("dressings/*.yaml with one dressing", species.DressingRecord),
		"box.schema.json":          one("dressings/*.yaml with a box of them", species.BoxRecord),
		"guide.schema.json":        one("guide.yaml", guide.SettingsRecord),
		"note.schema.json":         one("The head of notes/*.md", guide.NoteRecord),
		"characters.schema.json":   named("characters.yaml", species.CharacterRecord),
		"sources.schema.json":      named("sources.yaml", species.SourceRecord),
		"corrections.schema.json":  list("corrections.yaml", guide.CorrectionRecord),
		"acknowledged.schema.json": list("acknowledged.yaml", guide.AcknowledgementRecord),
		"photos.schema.json":       list("photos/photos.yaml", guide.PhotoRecord),
	}, nil
}
