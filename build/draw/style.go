package draw

// Styles: colours and line weights stand in templates/figures/*.css; a file takes the rules that it
// needs.

import (
	"io/fs"
	"regexp"
	"strings"
	"sync"

	"guidegen/templates"
)

const statesFile = "states.svg"

var (
	blocks   = regexp.MustCompile(`(?m)^(@media[^{]*)\{(.*)\}$|^([^@{]+)\{([^}]*)\}$`)
	rules    = regexp.MustCompile(`([^{}]+)\{([^}]*)\}`)
	selector = regexp.MustCompile(`^\.(\w+)`)
)

// sheets are the style sheets by name, read once.
var sheets = sync.OnceValues(func() (map[string]string, error) {
	out := map[string]string{}
	for _, name := range []string{"lines", "small", "states"} {
		b, err := fs.ReadFile(templates.Files, "figures/"+name+".css")
		if err != nil {
			return nil, err
		}
		out[name] = string(b)
	}
	return out, nil
})

// needed is what of a sheet such classes need, rule by rule.
func needed(sheet string, classes map[string]bool) string {
	var out strings.Builder
	for _, b := range blocks.FindAllStringSubmatch(sheet, -1) {
		if b[1] == "" {
			out.WriteString(rule(b[3], b[4], classes))
			continue
		}
		var inner strings.Builder
		for _, r := range rules.FindAllStringSubmatch(b[2], -1) {
			inner.WriteString(rule(r[1], r[2], classes))
		}
		if inner.Len() > 0 {
			out.WriteString(b[1] + "{" + inner.String() + "}")
		}
	}
	return out.String()
}

// rule keeps the selectors that are used; what isn't a class is always kept.
func rule(selectors, body string, classes map[string]bool) string {
	var kept []string
	for s := range strings.SplitSeq(selectors, ",") {
		if c := selector.FindStringSubmatch(s); c == nil || classes[c[1]] {
			kept = append(kept, s)
		}
	}
	if kept == nil {
		return ""
	}
	return strings.Join(kept, ",") + "{" + body + "}"
}
