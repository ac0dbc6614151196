package rivers_test

// The schemas are checked with an outside validator (santhosh-tekuri/jsonschema
// v6): the small guide's files pass, and slips that a schema can see don't.

import (
	"bytes"
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"guidegen/content"
	"guidegen/rivers"
	"guidegen/species"
)

func compile(t *testing.T, b []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("x.json", doc))
	s, err := c.Compile("x.json")
	require.NoError(t, err)
	return s
}

func decode(t *testing.T, b []byte) any {
	t.Helper()
	var v any
	require.NoError(t, yaml.Unmarshal(b, &v))
	return dates(v)
}

// dates turns what a YAML reader took for a date back into text, as an
// editor's checker does.
func dates(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case []any:
		for i := range v {
			v[i] = dates(v[i])
		}
	case map[string]any:
		for k := range v {
			v[k] = dates(v[k])
		}
	}
	return v
}

var head = regexp.MustCompile(`(?s)^---\n(.*?)\n---\n`)

func TestSchemas(t *testing.T) {
	account := compile(t, content.Schema("account", species.AccountRecord))
	water := compile(t, content.Schema("river record", rivers.WaterRecord))
	box := compile(t, content.Schema("box", species.BoxRecord))
	list := compile(t, content.SchemaOfList("dressings", species.DressingRecord))
	characters := compile(t, content.SchemaOfNamed("features", species.CharacterRecord))
	sources := compile(t, content.SchemaOfNamed("sources", species.SourceRecord))

	quoted := regexp.MustCompile(`(place|body): ([^"{,}]+, [^{}]*?)(, (radius|show|wing)|})`) // a plain YAML reader cuts at the comma; ours does not
	for _, p := range []string{"species/speckled-dun.md", "species/purse-sedge.md"} {
		b := head.FindSubmatch(smallFile(t, p).Bytes)[1]
		assert.NoError(t, account.Validate(decode(t, quoted.ReplaceAll(b, []byte(`$1: "$2"$3`)))), p)
	}
	b := smallFile(t, "rivers/quarnock.yaml").Bytes
	assert.NoError(t, water.Validate(decode(t, quoted.ReplaceAll(b, []byte(`$1: "$2"$3`)))))
	assert.NoError(t, box.Validate(decode(t, smallFile(t, "dressings/box.yaml").Bytes)))
	assert.NoError(t, characters.Validate(decode(t, smallFile(t, "characters.yaml").Bytes)))
	assert.NoError(t, sources.Validate(decode(t, smallFile(t, "sources.yaml").Bytes)))

	for text, s := range map[string]*jsonschema.Schema{
		"{name: X}":                                     account, // no group
		"{name: X, group: mayfly}":                      account,
		"{name: X, group: sedge, famly: Y}":             account,
		"{name: X, group: sedge, length: [[1]]}":        account,
		"{name: X, kind: peaty, beats: {a: {plce: b}}}": water,
		"{name: X, kind: bog}":                          water,
		"[{sizes: 14}]":                                 list,
		"{a: {kind: book}}":                             sources,
	} {
		assert.Error(t, s.Validate(decode(t, []byte(text))), text)
	}
}

// Every field says what it is for, and its example reads without a problem.
func TestExamplesOfFieldsRead(t *testing.T) {
	for _, f := range species.AccountRecord.Fields {
		assert.NotEmpty(t, f.Doc, f.Key)
		assert.NotEmpty(t, f.Example, f.Key)
		text := "---\nname: X\ngroup: upwinged\nbasis: own\nflights: {spring: {from: Feb, to: Apr, abundance: rare}}\n"
		if slices.Contains([]string{"name", "group", "basis", "flights"}, f.Key) {
			continue
		}
		ps := &content.Problems{}
		in := species.Context{Grounds: content.Grounds{Sources: []string{"handbook"}}, Characters: []species.Character{{Name: "tails", States: []species.State{{Name: "two"}, {Name: "three"}}}}}
		species.ReadAccount(content.NewFile("species/x.md", []byte(text+f.Key+": "+f.Example+"\n---\n")), in, ps)
		clean(t, ps)
	}
	for _, f := range rivers.WaterRecord.Fields {
		assert.NotEmpty(t, f.Doc, f.Key)
		assert.NotEmpty(t, f.Example, f.Key)
		if slices.Contains([]string{"name", "kind"}, f.Key) {
			continue
		}
		ps := &content.Problems{}
		rivers.ReadWater(content.NewFile("rivers/x.yaml", []byte("name: X\nkind: peaty\n"+f.Key+": "+f.Example+"\n")), content.Grounds{}, ps)
		clean(t, ps)
	}
}
