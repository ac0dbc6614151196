package species

import "guidegen/content"

// Source is one entry of sources.yaml.
type Source struct {
	Key     string
	At      content.Place
	Cite    content.Text
	Kind    string // book, paper, web, person, measurement
	DOI     string
	ISBN    string
	URL     string
	Read    string // yes, no, part; "" if not said
	Licence string
}

// SourceKinds is the closed list.
var SourceKinds = []string{"book", "paper", "web", "person", "measurement"}
