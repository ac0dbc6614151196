package species

// The flies that an account warns of: what it links to under its heading "Easily confused with".

import (
	"path"
	"regexp"
	"slices"
	"strings"

	"guidegen/content"
)

var (
	heading  = regexp.MustCompile(`^(#+)\s+(.*?)\s*#*$`)
	linkedMD = regexp.MustCompile(`\]\(\s*<?([^)>\s]+?\.md)(?:#[^)\s]*)?>?[^)]*\)`)
)

// ConfusedWith lists the addresses of the accounts that a text links to under the heading "Easily confused with", each
// once, in the order written. A deeper heading goes on with it; the next of its own level or above ends it.
func ConfusedWith(markdown string) []string {
	var out []string
	level := 0
	for line := range strings.Lines(markdown) {
		if m := heading.FindStringSubmatch(strings.TrimRight(line, "\r\n")); m != nil {
			switch {
			case content.Fold(m[2]) == "easily confused with":
				level = len(m[1])
			case level > 0 && len(m[1]) <= level:
				level = 0
			}
			continue
		}
		if level == 0 {
			continue
		}
		for _, m := range linkedMD.FindAllStringSubmatch(line, -1) {
			address := strings.TrimSuffix(path.Base(m[1]), ".md")
			if dir := path.Dir(m[1]); (dir == "." || strings.HasSuffix(dir, "species")) && !slices.Contains(out, address) {
				out = append(out, address)
			}
		}
	}
	return out
}
