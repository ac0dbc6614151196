package share

// The published schema is written from the fields' own tags (-update) and
// held against real files by a library that knows nothing of them.

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the schemas anew")

type schema = map[string]any

type writer struct{ defs schema }

// of is the schema of a type; the tag is that of the field it stands in.
func (w *writer) of(t reflect.Type, tag reflect.StructTag) schema {
	switch t {
	case reflect.TypeFor[date]():
		return schema{"$ref": w.define("date", func() schema {
			return schema{"description": "ISO 8601 date", "type": "string", "format": "date"}
		})}
	case reflect.TypeFor[clock]():
		return schema{"$ref": w.define("clock", func() schema {
			return schema{"description": "local time on the 24-hour clock", "type": "string", "pattern": "^([01][0-9]|2[0-3]):[0-5][0-9]$"}
		})}
	}
	switch t.Kind() {
	case reflect.Pointer:
		s := w.of(t.Elem(), tag)
		if _, ok := s["$ref"]; ok {
			return schema{"anyOf": []any{s, schema{"type": "null"}}}
		}
		s["type"] = []any{s["type"], "null"}
		if l, ok := s["enum"].([]any); ok {
			s["enum"] = append(l, nil)
		}
		return s
	case reflect.Struct:
		return schema{"$ref": w.define(t.Name(), func() schema { return w.object(t) })}
	case reflect.Slice, reflect.Array:
		s := schema{"type": "array", "items": w.of(t.Elem(), tag)}
		if n, err := strconv.Atoi(tag.Get("items")); err == nil {
			s["minItems"], s["maxItems"] = n, n
		}
		return s
	case reflect.Map:
		return schema{"type": "object", "additionalProperties": w.of(t.Elem(), tag),
			"propertyNames": schema{"pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"}}
	case reflect.Bool:
		return schema{"type": "boolean"}
	case reflect.String:
		s := schema{"type": "string"}
		if e := tag.Get("enum"); e != "" {
			var l []any
			for x := range strings.SplitSeq(e, "|") {
				l = append(l, x)
			}
			s["enum"] = l
		} else if p := tag.Get("pattern"); p != "" {
			s["pattern"] = p
		}
		return s
	case reflect.Int, reflect.Float64:
		s := schema{"type": "number"}
		if t.Kind() == reflect.Int {
			s = schema{"type": "integer", "minimum": 0}
		}
		bounds := strings.Fields(tag.Get("range"))
		for i, key := range []string{"minimum", "maximum"} {
			if i < len(bounds) {
				n, err := strconv.Atoi(bounds[i])
				if err != nil {
					panic(err)
				}
				s[key] = n
			}
		}
		if e := tag.Get("enum"); e != "" {
			n, err := strconv.Atoi(e)
			if err != nil {
				panic(err)
			}
			s = schema{"const": n}
		}
		return s
	}
	panic("no schema for " + t.String())
}

func (w *writer) define(name string, make func() schema) string {
	if _, ok := w.defs[name]; !ok {
		w.defs[name] = nil // a type may hold itself
		w.defs[name] = make()
	}
	return "#/$defs/" + name
}

func (w *writer) object(t reflect.Type) schema {
	properties, required := schema{}, []any{}
	var take func(reflect.Type)
	take = func(t reflect.Type) {
		for f := range t.Fields() {
			if f.Anonymous {
				take(f.Type)
				continue
			}
			tag, doc := f.Tag.Get("json"), f.Tag.Get("doc")
			name, _, omitted := strings.Cut(tag, ",")
			if name == "" || doc == "" {
				panic(t.Name() + "." + f.Name + " lacks a name or a description")
			}
			of := f.Type
			if omitted && of.Kind() == reflect.Int && !strings.Contains(doc, "left out for none") {
				panic(t.Name() + "." + f.Name + " is left out for 0, and doesn't say so")
			}
			if omitted && of.Kind() == reflect.Pointer { // left out, it is never null
				of = of.Elem()
			}
			s := w.of(of, f.Tag)
			s["description"] = doc
			properties[name] = s
			if !omitted {
				required = append(required, name)
			}
		}
	}
	take(t)
	return schema{"type": "object", "properties": properties, "required": required, "additionalProperties": false}
}

func written(t *testing.T, title, description string, of reflect.Type) []byte {
	t.Helper()
	w := &writer{schema{}}
	s := w.object(of)
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"], s["description"], s["$defs"] = title, description, w.defs
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	require.NoError(t, e.Encode(s))
	return b.Bytes()
}

var bothSchemas = []struct {
	name, title, about string
	of                 reflect.Type
}{
	{"guide", "Figures of a whole guide", "What holds for every water: settings, constants in force, accounts, hooks, dressings and the key. Numbers are rounded to 1e-9, shares and scores to 1e-6. A key that is left out is not known, not given, false or an empty list; where it may be nought its description says so.", reflect.TypeFor[whole]()},
	{"river", "Figures of one water", "Everything the guide reckons for one water, per fly. Numbers are rounded to 1e-9, shares and scores to 1e-6. A key that is left out is not known, not given, false or an empty list; where it may be nought its description says so.", reflect.TypeFor[river]()},
}

func TestSchemasDescribeTheFields(t *testing.T) {
	for _, s := range bothSchemas {
		file := "schema/" + s.name + ".schema.json"
		want := written(t, s.title, s.about, s.of)
		if *update {
			require.NoError(t, os.WriteFile(file, want, 0o644))
		}
		have, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(have), "run the tests of this package with -update")
	}
}

// compiled compiles a published schema with santhosh-tekuri/jsonschema v6.0.3,
// formats asserted.
func compiled(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	b, err := os.ReadFile("schema/" + name + ".schema.json")
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	require.NoError(t, c.AddResource(name+".json", doc))
	s, err := c.Compile(name + ".json")
	require.NoError(t, err)
	return s
}

func held(t *testing.T, s *jsonschema.Schema, b []byte) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	require.NoError(t, err)
	return s.Validate(doc)
}

func TestFilesHoldToTheirSchema(t *testing.T) {
	guide, river := compiled(t, "guide"), compiled(t, "river")
	for _, files := range [][]File{filesOf(t, demoBook(t, false), nil), filesOf(t, demoBook(t, true), nil), filesOf(t, smallBook(t, nil), nil)} {
		n := 0
		for _, f := range files {
			switch {
			case f.Path == GuideData:
				assert.NoError(t, held(t, guide, f.Bytes), f.Path)
				n++
			case strings.HasPrefix(f.Path, "data/rivers/"):
				assert.NoError(t, held(t, river, f.Bytes), f.Path)
				n++
			}
		}
		assert.Greater(t, n, 1)
	}
}

// Guides of other kinds hold to the schema too.
func TestOddGuidesHoldToTheSchema(t *testing.T) {
	schema := compiled(t, "river")
	for _, c := range []struct{ what, file, old, new string }{
		{"below a dam", "rivers/orua.yaml", "rain-fed", "tailwater"},
		{"on all year", "species/little-fly.md", "{from: 20 Nov, peak: 20 Dec, to: 10 Feb,", "{from: 1 Jan, peak: 1 Jul, to: 31 Dec,"},
		{"moved by a rule that lacks its values", "species/little-fly.md", "abundance: frequent}", "abundance: frequent, moves: warmth}"},
		{"not moved", "species/little-fly.md", "abundance: frequent}", "abundance: frequent, moves: nothing}"},
		{"dates of its own", "rivers/orua.yaml", "Little fly: frequent", "Little fly: {from: 1 Nov, to: 2 Feb}"},
		{"far south", "rivers/orua.yaml", "45.1 S, 168.7 E", "78.2 S, 15.6 E"},
		{"hours against the sun", "species/little-fly.md", "group: upwinged", "group: upwinged\nhours: {dun: sunset-2h to sunset+30min}"},
		{"without a place", "rivers/orua.yaml", "place: 45.1 S, 168.7 E\n", ""},
		{"two months of temperature", "rivers/orua.yaml", "flies:", "temperature: {unit: °C, months: [3, ~, ~, ~, ~, ~, 12, ~, ~, ~, ~, ~]}\nflies:"},
		{"a length and no hooks", "species/little-fly.md", "group: upwinged", "group: upwinged\nlength: {dun: 7.5 to 9 mm}\nbook_size: {dun: 1/0}"},
		{"a month for a date", "samples/a.csv", "2026-01-09", "2026-01"},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := fileNamed(t, filesOf(t, smallBook(t, altered(t, c.file, c.old, c.new)), nil), "data/rivers/orua.json")
			assert.NoError(t, held(t, schema, b))
		})
	}
	hooks := smallBook(t, func(f fstest.MapFS) {
		altered(t, "species/little-fly.md", "group: upwinged", "group: upwinged\nlength: {dun: 30 mm, spinner: 8 mm}\nbook_size: {spinner: 12}")(f)
		f["hooks.csv"] = &fstest.MapFile{Data: []byte("model,size,shank mm,gape mm,shape\nPlain,14,8.4,4,straight\nPlain,16,7.3,3,straight\nBent,14,,4,curved\n")}
	})
	files := filesOf(t, hooks, nil)
	assert.NoError(t, held(t, schema, fileNamed(t, files, "data/rivers/orua.json")))
	assert.NoError(t, held(t, compiled(t, "guide"), fileNamed(t, files, GuideData)))
	for _, s := range at(t, decoded(t, fileNamed(t, files, "data/rivers/orua.json")), "flies", "little-fly", "flights", 0, "sizes").([]any) {
		h := at(t, s, "hook", "models", 0)
		if at(t, s, "stage") == "spinner" {
			assert.Equal(t, []any{"14", "within", 1.0}, []any{at(t, h, "size"), at(t, h, "table"), at(t, h, "book_steps")})
		} else {
			assert.Equal(t, []any{nil, "larger than the table", nil}, []any{at(t, h, "size"), at(t, h, "table"), at(t, h, "shank")})
		}
	}
}

// Each change makes a file that lies, and the schema must see it.
func TestSchemaRefusesAlteredFiles(t *testing.T) {
	files := filesOf(t, demoBook(t, false), nil)
	for _, c := range []struct {
		what, schema, file, old, new string
	}{
		{"a key gone", "river", "data/rivers/pellowbourne.json", `"kind":`, `"kinds":`},
		{"a fourth state", "river", "data/rivers/pellowbourne.json", `"state":"looked"`, `"state":"absent"`},
		{"a count below nought", "river", "data/rivers/pellowbourne.json", `"looked":7`, `"looked":-7`},
		{"a day beyond the year", "river", "data/rivers/pellowbourne.json", `"to":365`, `"to":366`},
		{"a chance above one", "river", "data/rivers/pellowbourne.json", `"days":[0`, `"days":[1`},
		{"a year a day short", "river", "data/rivers/pellowbourne.json", `"days":[0,`, `"days":[`},
		{"a number in words", "river", "data/rivers/pellowbourne.json", `"listed":true`, `"listed":"yes"`},
		{"another format", "guide", GuideData, `"format":2`, `"format":3`},
		{"a date that no year has", "guide", GuideData, `"built":"2026-11-24"`, `"built":"2026-11-31"`},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := fileNamed(t, files, c.file)
			altered := bytes.Replace(b, []byte(c.old), []byte(c.new), 1)
			if c.what == "a chance above one" {
				i := bytes.Index(b, []byte(`"days":[`)) + len(`"days":[`)
				altered = append(append(bytes.Clone(b[:i]), "1.5"...), b[i+bytes.IndexByte(b[i:], ','):]...)
			} else if c.what == "a year a day short" {
				i := bytes.Index(b, []byte(`"days":[`)) + len(`"days":[`)
				altered = append(bytes.Clone(b[:i]), b[i+bytes.IndexByte(b[i:], ',')+1:]...)
			}
			require.NotEqual(t, string(b), string(altered), "nothing was altered")
			assert.Error(t, held(t, compiled(t, c.schema), altered))
		})
	}
}
