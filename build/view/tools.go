package view

// What the pages that work on the reader's device have in common: the words that their scripts
// print, handed over in the page.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strconv"
)

// JsonBlock is data for a script, in an attribute of an element that shows nothing: a block of data
// in a script element counts as an inline script, which the site's policy forbids. v holds texts and numbers only.
func JsonBlock(id string, v any) template.HTML {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // a fault of the program
	}
	return template.HTML(fmt.Sprintf(`<template id="%s" data-json='%s'></template>`, id, bytes.ReplaceAll(data, []byte("'"), []byte(`\u0027`))))
}

// Steps packs numbers for a script: a letter for each from −26 to 26, any other with its sign.
func Steps(list []int) string {
	var b []byte
	for _, s := range list {
		switch {
		case s == 0:
			b = append(b, '_')
		case 0 < s && s <= 26:
			b = append(b, 'a'+byte(s-1))
		case -26 <= s && s < 0:
			b = append(b, 'A'+byte(-s-1))
		default:
			b = fmt.Appendf(b, "%+d", s)
		}
	}
	return string(b)
}

// ToolStyle is the style sheet of these pages alone.
const ToolStyle = "tools.css"

// ListStyle is that of keys, of the index of flies, of lanes and months and of the table of constants.
const ListStyle = "lists.css"

// WordBlock hands words to a page's scripts; "dates" is all that a day in words takes.
func (p *Printer) WordBlock(keys ...string) template.HTML {
	if slices.Contains(keys, "dates") {
		keys = append(slices.Clip(keys), "date.day", "date.first", "date.range")
		for m := 1; m <= 12; m++ {
			keys = append(keys, "month.m"+strconv.Itoa(m))
		}
	}
	return JsonBlock("words", p.words.Forms(keys...))
}
