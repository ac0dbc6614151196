package content

// JSON Schema (draft 2020-12) from the tables of fields, for editors that
// check and complete YAML while it is typed.

import (
	"encoding/json"
	"maps"
)

type schema = map[string]any

// Schema writes the JSON Schema of files that hold one block of the record.
// It says what a key may be called and what shape its value has; the reader
// says the rest.
func Schema(title string, r *Record) []byte {
	return encode(title, r.schema(), r.Doc)
}

// SchemaOfNamed writes the schema of files whose keys are the guide's own
// words, each with the fields of the record.
func SchemaOfNamed(title string, r *Record) []byte {
	return encode(title, schema{"type": "object", "additionalProperties": r.schema()}, r.Doc)
}

// SchemaOfList writes the schema of files that hold a list of the record's blocks.
func SchemaOfList(title string, r *Record) []byte {
	return encode(title, schema{"type": "array", "items": r.schema()}, r.Doc)
}

func encode(title string, s schema, doc string) []byte {
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = title
	s["description"] = doc
	s["$defs"] = schema{
		// an editor's YAML reader may take 14 or yes for no text; ours takes all for text
		"text":      schema{"type": []string{"string", "number", "boolean"}},
		"texts":     schema{"anyOf": []any{ref("text"), schema{"type": "array", "items": schema{"type": []string{"string", "number", "boolean", "null"}}}}},
		"statement": schema{"description": "a text that may end in its basis in brackets, or a list of such claims", "anyOf": []any{ref("text"), schema{"type": "array", "items": ref("text")}}},
		"cases":     schema{"description": "a statement, or a block of them by words of stage, sex and flight", "anyOf": []any{ref("statement"), schema{"type": "object", "additionalProperties": ref("cases")}}},
	}
	b, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // only values of this file are in it
	}
	return append(b, '\n')
}

func ref(name string) schema { return schema{"$ref": "#/$defs/" + name} }

func (r *Record) schema() schema {
	if r == nil {
		return schema{}
	}
	properties := schema{}
	var required []string
	for _, f := range r.Fields {
		properties[f.Key] = f.schema()
		if f.Required {
			required = append(required, f.Key)
		}
	}
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if required != nil {
		s["required"] = required
	}
	return s
}

func (f Field) schema() schema {
	var s schema
	switch f.Shape {
	case Line:
		s = ref("text")
	case Statement:
		s = ref("statement")
	case Cases:
		s = ref("cases")
	case Choice:
		s = schema{"enum": choices(f.Choices)}
	case Texts:
		s = ref("texts")
	case Block:
		s = f.Of.schema()
	case Blocks:
		s = schema{"anyOf": []any{f.Of.schema(), schema{"type": "array", "items": f.Of.schema()}}}
	case Named:
		s = schema{"type": "object"}
		if f.Of != nil {
			s["additionalProperties"] = schema{"anyOf": []any{f.Of.schema(), ref("texts"), schema{"type": "null"}}}
		}
	default:
		s = schema{}
	}
	s = maps.Clone(s)
	s["description"] = f.Doc
	if f.Example != "" {
		s["examples"] = []string{f.Example}
	}
	return schema{"anyOf": []any{s, schema{"type": "null"}}}
}

// choices adds what an editor's YAML reader makes of yes and no.
func choices(l []string) []any {
	var out []any
	for _, c := range l {
		out = append(out, c)
		switch c {
		case "yes":
			out = append(out, true)
		case "no":
			out = append(out, false)
		}
	}
	return out
}
