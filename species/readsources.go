package species

// Reading sources.yaml.

import (
	"net/url"
	"regexp"
	"slices"
	"strings"

	"guidegen/content"
)

var (
	sourceKey = regexp.MustCompile(`^[^\s()][^()]*$`)
	doi       = regexp.MustCompile(`^10\.\d{4,9}/\S+$`)
)

// ReadSources reads the sources, in the order written.
func ReadSources(f *content.File, ps *content.Problems) []Source {
	v := content.ReadYAML(f, ps)
	if v.Kind != content.Map && v.Kind != content.Absent {
		ps.Errorf("wrong-shape", v.At, "write a row for each source: handbook: {cite: …, kind: book}", "found %s where a block of sources is wanted", v.Kind)
	}
	var l []Source
	for _, e := range v.Entries {
		o := SourceRecord.Open(e.Value, ps)
		s := Source{Key: strings.TrimSpace(e.Key.S), At: e.Key.At, Cite: o.Text("cite").Trim(), Kind: o.Choice("kind"), Read: o.Choice("read"), Licence: o.Text("licence").S}
		switch content.Fold(s.Key) {
		case "own", "memory", "from memory", "common practice":
			ps.Errorf("source-key", e.Key.At, "choose another key", "%q is a basis of its own and can't be a source's key", e.Key.S)
			continue
		}
		if !sourceKey.MatchString(s.Key) {
			ps.Errorf("source-key", e.Key.At, "write a short word without brackets", "%q can't be the key of a source", e.Key.S)
			continue
		}
		identifier := func(key string, sound func(string) bool, want, wrong string) string {
			t := o.Text(key).Trim()
			if t.S == "" || sound(t.S) {
				return t.S
			}
			ps.Errorf("bad-identifier", t.At, want, "%q "+wrong, t.S)
			return ""
		}
		s.DOI = identifier("doi", doi.MatchString, "write the bare DOI: 10.1000/182", "isn't a DOI")
		s.ISBN = identifier("isbn", isbn, "check each digit against the book", "isn't an ISBN: its check digit is wrong")
		s.URL = identifier("url", onTheWeb, "write the whole address: https://example.org/page", "isn't a web address")
		l = append(l, s)
	}
	return l
}

func onTheWeb(address string) bool {
	u, err := url.Parse(address)
	return err == nil && (u.Scheme == "https" || u.Scheme == "http") && u.Host != ""
}

// SourceKeys lists the keys, sorted, for content.Grounds.
func SourceKeys(l []Source) []string {
	var k []string
	for _, s := range l {
		k = append(k, s.Key)
	}
	slices.Sort(k)
	return k
}

// isbn checks the check digit of an ISBN of 10 or 13 digits (ISO 2108).
func isbn(s string) bool {
	s = strings.NewReplacer("-", "", " ", "").Replace(strings.ToUpper(s))
	sum := 0
	for i, c := range s {
		d := int(c - '0')
		if len(s) == 10 && i == 9 && c == 'X' {
			d = 10
		} else if d < 0 || d > 9 {
			return false
		}
		if len(s) == 10 {
			sum += (10 - i) * d
		} else {
			sum += d * (1 + 2*(i%2))
		}
	}
	return len(s) == 10 && sum%11 == 0 || len(s) == 13 && sum%10 == 0
}
