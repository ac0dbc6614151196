package page

// What the pages that work on the reader's device have in common: the words that their scripts
// print, handed over in the page.

import (
	"encoding/json"
	"html/template"
	"maps"
	"slices"
	"strings"
)

// toolStyle is the style sheet of these pages alone.
const toolStyle = "tools.css"

// forms lists the patterns whose key is one of these or stands under one of them: a text, or a
// text for each plural form. What a language lacks is taken from the one behind it.
func (w *Words) forms(keys ...string) map[string]any {
	out := map[string]any{}
	if w.behind != nil {
		out = w.behind.forms(keys...)
	}
	for key, forms := range w.patterns {
		if !slices.ContainsFunc(keys, func(k string) bool { return key == k || strings.HasPrefix(key, k+".") }) {
			continue
		}
		if other, ok := forms["other"]; ok && len(forms) == 1 {
			out[key] = other
		} else {
			out[key] = maps.Clone(forms)
		}
	}
	return out
}

// wordBlock hands words to a page's scripts.
func (p *Printer) wordBlock(keys ...string) template.HTML {
	text, err := json.Marshal(p.words.forms(keys...))
	if err != nil {
		panic(err) // texts only
	}
	return jsonBlock("words", text)
}
