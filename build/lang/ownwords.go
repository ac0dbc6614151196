package lang

// A guide's own words: words/TAG.yaml in the guide folder, laid over the site's. What it lacks stands in English.

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"
	"gopkg.in/yaml.v3"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/templates"
)

// WordsOf are the words of a guide's first language: its own file, else the site's, and English behind.
func WordsOf(g *guide.Guide) (*Words, error) {
	lang := "en"
	if len(g.Settings.Languages) > 0 {
		lang = g.Settings.Languages[0]
	}
	w, err := LoadWords(lang)
	f := g.Words[lang]
	if err != nil || f == nil {
		return w, err
	}
	english, err := readWords(templates.Files, "en")
	if err != nil {
		return nil, err
	}
	own := readOwn(f, language.Make(lang), english, &content.Problems{})
	own.over(w)
	return own, nil
}

// over lays a guide's own words over the site's: English ones give them no numbers of another language.
func (w *Words) over(site *Words) {
	if base, _ := w.Tag.Base(); base.String() != site.Lang {
		w.numbers()
	}
	w.behind = site
}

// CheckWords looks at a guide's files of words: keys that the site doesn't know, {names} that it can't fill in or that
// are left out, plural forms that the language hasn't or wants, and how many words are missing.
func CheckWords(g *guide.Guide, ps *content.Problems) error {
	english, err := readWords(templates.Files, "en")
	if err != nil {
		return err
	}
	for tag, f := range g.Words {
		own := readOwn(f, language.Make(tag), english, ps)
		if len(g.Settings.Languages) > 0 && tag != g.Settings.Languages[0] {
			ps.Warnf("other-words", f.At(0, 0), "put the language first in languages: of guide.yaml, or name the file words/"+
				g.Settings.Languages[0]+".yaml",
				"these words are not used: the guide is in %q", g.Settings.Languages[0])
			continue
		}
		builtin, err := LoadWords(tag)
		if err != nil {
			return err
		}
		own.over(builtin)
		missing := 0
		base, _ := own.Tag.Base()
		for key := range english.patterns {
			if own.patterns[key] == nil && (builtin.Lang != base.String() || builtin.patterns[key] == nil) {
				missing++
			}
		}
		if missing > 0 {
			ps.Notef("words-missing", f.At(0, 0), "they are in English until then; guidegen blank words "+tag+" --out - prints all there are",
				"%s of %d are missing", content.Several(missing, "word"), len(english.patterns))
		}
	}
	return nil
}

// ownWords reads a guide's file of words against the English.
type ownWords struct {
	*Words
	english *Words
	blocks  map[string][]string // what each block of the English holds, by its key
	ps      *content.Problems
}

func readOwn(f *content.File, tag language.Tag, english *Words, ps *content.Problems) *Words {
	own := &Words{Lang: tag.String(), Tag: tag, patterns: map[string]map[string]pattern{}}
	o := ownWords{own, english, map[string][]string{}, ps}
	for key := range english.patterns {
		for key != "" {
			block, name := "", key
			if i := strings.LastIndex(key, "."); i >= 0 {
				block, name = key[:i], key[i+1:]
			}
			if !slices.Contains(o.blocks[block], name) {
				o.blocks[block] = append(o.blocks[block], name)
			}
			key = block
		}
	}
	o.block("", content.ReadYAML(f, ps))
	return own
}

func (o *ownWords) block(key string, v content.Value) {
	if v.Kind == content.Absent || v.Broken {
		return
	}
	inside := slices.Sorted(slices.Values(o.blocks[key]))
	if v.Kind != content.Map {
		o.ps.Errorf("wrong-shape", v.At, "the keys here are: "+strings.Join(inside, ", "),
			"%s is a block of words, and this is %s", cmp.Or(key, "the file"), v.Kind)
		return
	}
	for _, e := range v.Entries {
		inner := strings.TrimPrefix(key+"."+e.Key.S, ".")
		switch {
		case o.english.patterns[inner] != nil:
			o.word(inner, e)
		case o.blocks[inner] != nil:
			o.block(inner, e.Value)
		default:
			o.ps.Errorf("unknown-word-key", e.Key.At, "the keys here are: "+strings.Join(inside, ", "),
				"the site has no words %q%s", inner, content.DidYouMean(e.Key.S, inside))
		}
	}
}

// word takes a text that does for all numbers, or a form for each kind of them. What is left empty is missing.
func (o *ownWords) word(key string, e content.Entry) {
	forms := o.english.patterns[key]
	switch {
	case e.Value.Kind == content.Scalar:
		o.take(key, "other", e.Value.Text, false)
	case e.Value.Kind == content.Map && len(forms) > 1:
		o.forms(key, e)
	case e.Value.Kind != content.Absent:
		o.ps.Errorf("wrong-shape", e.Value.At, "write a text, in quotes where it starts with {: "+strconv.Quote(forms["other"].Text),
			"%s is a text, and this is %s", key, e.Value.Kind)
	}
}

func (o *ownWords) forms(key string, e content.Entry) {
	known := formsOf(o.Tag)
	want := "forms: " + strings.Join(known, ", ")
	given := map[string]bool{}
	for _, f := range e.Value.Entries {
		form, v := f.Key.S, f.Value
		switch {
		case !slices.Contains(known, form) && o.form("1000000") != form: // a form of millions may be given
			o.ps.Errorf("plural-form", f.Key.At, want,
				"%s has no form %q in this language%s", key, form, content.DidYouMean(form, known))
		case v.Kind == content.Scalar:
			given[form] = true
			o.take(key, form, v.Text, true)
		case v.Kind != content.Absent:
			o.ps.Errorf("wrong-shape", v.At, "write a text", "a form is a text, and this is %s", v.Kind)
		}
	}
	missing := slices.DeleteFunc(known, func(f string) bool { return given[f] })
	if len(given) > 0 && len(missing) > 0 {
		delete(o.patterns, key)
		o.ps.Errorf("plural-form", e.Key.At, want+"; a word that is the same for all numbers is one text",
			"%s lacks the form %s", key, strings.Join(missing, " and the form "))
	}
}

// take keeps a text that has the {names} of the English; a form may do without the number, as "an hour" does.
func (o *ownWords) take(key, form string, t content.Text, isForm bool) {
	english := o.english.patterns[key]
	if strings.Trim(t.S, " \t\n") == "" { // a space that doesn't break may part thousands
		return
	}
	want := "the English is " + strconv.Quote(english["other"].Text)
	sound := true
	for _, m := range holes.FindAllStringSubmatchIndex(t.S, -1) {
		if name := t.S[m[2]:m[3]]; !hasHole(english, name) {
			o.ps.Errorf("unknown-hole", t.Sub(m[0], m[1]).At, want, "nothing is filled in for {%s}", name)
			sound = false
		}
	}
	given := newPattern(t.S)
	for _, h := range english["other"].holes {
		if !given.has(h.small) && !(isForm && h.small == "n") {
			o.ps.Errorf("missing-hole", t.At, want, "%s leaves out {%s}", key, h.small)
			sound = false
		}
	}
	if sound {
		if o.patterns[key] == nil {
			o.patterns[key] = map[string]pattern{}
		}
		o.patterns[key][form] = given
	}
}

func hasHole(forms map[string]pattern, name string) bool {
	for _, p := range forms {
		if p.has(name) {
			return true
		}
	}
	return false
}

// has reports whether a hole of that name is there, with a capital or without.
func (p pattern) has(name string) bool {
	return slices.ContainsFunc(p.holes, func(h hole) bool { return h.small == strings.ToLower(name) })
}

// formsOf are the plural forms that a language tells apart (CLDR), in their order.
func formsOf(tag language.Tag) (out []string) {
	numbers := numbersOf(tag)
	for _, f := range pluralForms {
		if numbers[f] != nil {
			out = append(out, f)
		}
	}
	return out
}

// numbersOf are the first few numbers of each plural form, as a guide prints them: up to some hundreds, and tenths.
// The library tells a number's form and lists none, so they are tried.
func numbersOf(tag language.Tag) map[string][]string {
	w := &Words{Tag: tag}
	out := map[string][]string{"other": {}}
	try := func(number string) {
		if f := w.form(number); len(out[f]) < 4 {
			out[f] = append(out[f], number)
		}
	}
	for n := range 201 {
		try(strconv.Itoa(n))
	}
	for n := range 30 {
		try(strconv.Itoa(n/10) + "." + strconv.Itoa(n%10))
	}
	return out
}

// BlankWords is a form for the words of a language: over each place the English, the remarks on each block, and the
// plural forms of the language with numbers that take them.
func BlankWords(tag language.Tag) ([]byte, error) {
	text, err := templates.Files.ReadFile(wordsFile("en"))
	if err != nil {
		return nil, err
	}
	var tree yaml.Node
	if err := yaml.Unmarshal(append(text, wordsInCode()...), &tree); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	name := ""
	if n := display.English.Tags().Name(tag); n != "" {
		name = n + ", "
	}
	fmt.Fprintf(&b, `# The words of the site in %s%s. Write each behind its colon; the English is above it.
# What is left empty is printed in English, and guidegen proof counts it. {names} are filled in when a page is
# printed: keep their spelling, put them where the language wants them; {Names} print with a capital.
# Write a text in quotes where it starts with { or holds ": " or " #". One text does for all numbers where
# the language has the same word for them.
`, name, tag)
	blankBlock(&b, tree.Content[0], "", numbersOf(tag))
	return b.Bytes(), nil
}

func blankBlock(b *bytes.Buffer, n *yaml.Node, indent string, numbers map[string][]string) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, v := n.Content[i], n.Content[i+1]
		if indent == "" {
			b.WriteByte('\n')
		}
		if key.HeadComment != "" && (indent != "" || i > 0) { // the first is on the English file
			fmt.Fprintf(b, "%s%s\n", indent, strings.ReplaceAll(key.HeadComment, "\n", "\n"+indent))
		}
		forms := pluralOf(v)
		switch {
		case v.Kind == yaml.ScalarNode:
			fmt.Fprintf(b, "%s# %s\n%s%s:\n", indent, v.Value, indent, key.Value)
		case forms != nil:
			fmt.Fprintf(b, "%s# %s\n%s%s:\n", indent, strings.Join(forms, " | "), indent, key.Value)
			for _, f := range pluralForms {
				if numbers[f] != nil {
					fmt.Fprintf(b, "%s  %s: # %s\n", indent, f, strings.Join(append(numbers[f], "…"), ", "))
				}
			}
		default:
			fmt.Fprintf(b, "%s%s:\n", indent, key.Value)
			blankBlock(b, v, indent+"  ", numbers)
		}
	}
}

// pluralOf are the texts of a word with plural forms, nil of anything else.
func pluralOf(n *yaml.Node) (texts []string) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if !slices.Contains(pluralForms, n.Content[i].Value) {
			return nil
		}
		texts = append(texts, n.Content[i+1].Value)
	}
	return texts
}

// rightToLeft are the scripts that are written so (Unicode Standard, chapter 9; the common ones).
var rightToLeft = []string{"Arab", "Hebr", "Syrc", "Thaa", "Nkoo", "Adlm"}

// Dir is the direction of a page's writing for its dir attribute; "" from left to right.
func (w *Words) Dir() string {
	if script, _ := w.Tag.Script(); slices.Contains(rightToLeft, script.String()) {
		return "rtl"
	}
	return ""
}
