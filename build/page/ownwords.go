package page

// A guide's own words: words/TAG.yaml in the guide folder, laid over the site's. What it lacks stands in English.

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
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
	own := &Words{Lang: lang, tag: language.Make(lang), patterns: map[string]map[string]string{}, behind: w}
	each(content.ReadYAML(f, &content.Problems{}), "", func(key, form string, v content.Value) {
		if own.patterns[key] == nil {
			own.patterns[key] = map[string]string{}
		}
		own.patterns[key][form] = v.Text.S
	})
	return own, nil
}

// each visits the texts of a file of words: its key, and the plural form or "other".
func each(v content.Value, key string, do func(key, form string, v content.Value)) {
	isPlural := len(v.Entries) > 0 && !slices.ContainsFunc(v.Entries, func(e content.Entry) bool { return !slices.Contains(pluralForms, e.Key.S) })
	for _, e := range v.Entries {
		name := strings.TrimPrefix(key+"."+e.Key.S, ".")
		switch {
		case e.Value.Kind == content.Map:
			each(e.Value, name, do)
		case isPlural:
			do(key, e.Key.S, e.Value)
		default:
			do(name, "other", e.Value)
		}
	}
}

// CheckWords looks at a guide's files of words: keys that the site doesn't know, {names} that it can't fill in, plural
// forms that the language hasn't, and how many words are missing.
func CheckWords(g *guide.Guide, ps *content.Problems) error {
	english, err := readWords(templates.Files, "en")
	if err != nil {
		return err
	}
	var keys []string
	for k := range english.patterns {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for tag, f := range g.Words {
		forms := formsOf(language.Make(tag))
		given := map[string]bool{}
		v := content.ReadYAML(f, ps)
		each(v, "", func(key, form string, v content.Value) {
			known := english.patterns[key]
			given[key] = true
			switch {
			case known == nil:
				ps.Errorf("unknown-word-key", v.At, "the keys are those that guidegen blank words writes", "the site has no words %q%s", key, content.DidYouMean(key, keys))
			case v.Kind != content.Scalar:
				ps.Errorf("wrong-shape", v.At, "write a text", "%s isn't a text", key)
			case len(known) == 1 && form != "other" || len(known) > 1 && !slices.Contains(forms, form):
				ps.Errorf("plural-form", v.At, "forms: "+strings.Join(forms, ", "), "%s has no form %q in this language", key, form)
			default:
				for _, m := range hole.FindAllStringSubmatch(v.Text.S, -1) {
					if !hasHole(known, m[1]) {
						ps.Errorf("unknown-hole", v.At, "the English has: "+known["other"], "nothing is filled in for {%s}", m[1])
					}
				}
			}
		})
		missing := 0
		for _, k := range keys {
			if !given[k] {
				missing++
			}
		}
		if missing > 0 && v.Kind == content.Map {
			ps.Notef("words-missing", f.At(0, 0), "guidegen blank words "+tag+" writes them all", "%s of %d are missing, and stand in English", content.Several(missing, "word"), len(keys))
		}
	}
	return nil
}

func hasHole(forms map[string]string, name string) bool {
	for _, p := range forms {
		if strings.Contains(strings.ToLower(p), "{"+strings.ToLower(name)+"}") {
			return true
		}
	}
	return false
}

// formsOf are the plural forms that a language tells apart (CLDR), in their order.
func formsOf(tag language.Tag) []string {
	found := map[plural.Form]bool{plural.Other: true}
	for n := range 201 {
		found[plural.Cardinal.MatchPlural(tag, n, 0, 0, 0, 0)] = true
		found[plural.Cardinal.MatchPlural(tag, n, 1, 1, 5, 5)] = true // 1.5
	}
	var out []string
	for i, f := range []plural.Form{plural.Zero, plural.One, plural.Two, plural.Few, plural.Many, plural.Other} {
		if found[f] {
			out = append(out, pluralForms[i])
		}
	}
	return out
}

// BlankWords is a file of words to be put into a language: the English, with its remarks and the plural forms of the
// language.
func BlankWords(tag language.Tag) ([]byte, error) {
	text, err := templates.Files.ReadFile(wordsFile("en"))
	if err != nil {
		return nil, err
	}
	var tree yaml.Node
	if err := yaml.Unmarshal(text, &tree); err != nil {
		return nil, err
	}
	forms := formsOf(tag)
	spread(&tree, forms)
	tree.HeadComment = "# The site's words in " + tag.String() + ". Put each text into the language; {names} are filled in when a page is printed,\n" +
		"# {Names} with a capital. A key with plural forms takes the one that fits {n}: " + strings.Join(forms, ", ") + ".\n# Lines that you leave out stand in English; guidegen proof counts them.\n"
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(&tree); err != nil {
		return nil, err
	}
	return firstRemark.ReplaceAll(b.Bytes(), nil), e.Close()
}

// firstRemark is what the English file says of itself.
var firstRemark = regexp.MustCompile(`(?m)^# The site's own words\.(?:.*\n)(?:#.*\n)*\n?`)

// spread gives each text with plural forms those of a language.
func spread(n *yaml.Node, forms []string) {
	if n.Kind == yaml.MappingNode {
		var other *yaml.Node
		isPlural := true
		for i := 0; i < len(n.Content); i += 2 {
			isPlural = isPlural && slices.Contains(pluralForms, n.Content[i].Value)
			if n.Content[i].Value == "other" {
				other = n.Content[i+1]
			}
		}
		if isPlural && other != nil {
			was := map[string]*yaml.Node{}
			for i := 0; i < len(n.Content); i += 2 {
				was[n.Content[i].Value] = n.Content[i+1]
			}
			n.Content = nil
			for _, f := range forms {
				text := was[f]
				if text == nil {
					text = other
				}
				n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: f}, text)
			}
			return
		}
	}
	for _, c := range n.Content {
		spread(c, forms)
	}
}

// rightToLeft are the scripts that are written so (Unicode Standard, chapter 9; the common ones).
var rightToLeft = []string{"Arab", "Hebr", "Syrc", "Thaa", "Nkoo", "Adlm"}

// Dir is the direction of a page's writing for its dir attribute; "" from left to right.
func (w *Words) Dir() string {
	if script, _ := w.tag.Script(); slices.Contains(rightToLeft, script.String()) {
		return "rtl"
	}
	return ""
}
