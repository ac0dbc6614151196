package build

// Our own styles and scripts as they go over the wire: without the comments and the indentation that
// stand in lines of their own, styles without the spaces about their signs. Nothing else is touched, so that a reader who
// looks finds the same lines.

import (
	"bytes"
	"path"
	"strings"
)

// lean gives a file of the templates as the site has it.
func lean(file string, text []byte) []byte {
	var begin, end string
	switch kind := path.Ext(file); {
	case path.Dir(file) == "css" && kind == ".css":
		begin, end = "/*", "*/"
	case path.Dir(file) == "js" && kind == ".js":
		begin = "//"
	default:
		return text // by others, or no text
	}
	var out bytes.Buffer
	inside := false
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if inside || strings.HasPrefix(line, begin) {
			// A comment that ends within a line stays: what follows it counts.
			inside = end != "" && !strings.Contains(line, end)
			if inside || end == "" || strings.HasSuffix(line, end) {
				continue
			}
		}
		if begin == "/*" {
			line = tight(line)
		}
		if line != "" {
			out.WriteString(line + "\n")
		}
	}
	return out.Bytes()
}

var signs = strings.NewReplacer(" { ", "{", " {", "{", "; }", "}", " }", "}", "; ", ";", ": ", ":", ", ", ",", " > ", ">")

// tight takes the spaces about the signs of a style out of a line, but for those in quotes.
func tight(line string) string {
	parts := strings.Split(line, `"`)
	for i := 0; i < len(parts); i += 2 {
		parts[i] = signs.Replace(parts[i])
	}
	return strings.Join(parts, `"`)
}
