package guide

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content"
	"guidegen/content/measure"
)

// secrets holds the names that the cases below look for; what the guide shows is beside them.
func secrets(t require.TestingT) *Secrets {
	n := newSecrets([]open{{"Lorrow Brook", content.Place{}, false}, {"Brown spinner", content.Place{}, false},
		{"It may be brown; a stone lay under the bridge, by the ford.", content.Place{}, true},
		{"At a ford or a bridge; once at the zwickelpool.", content.Place{}, true}})
	for _, s := range []string{"Withy Carr", "Smith's Pool", "Zwickelpool", "Bridge", "Up-and-over", "Étang Noir", "Quorx: the deep (left)", "柳の淵", "Ox Bow"} {
		n.add(s, sought{})
	}
	for _, name := range []string{"Nora Grobnik", "Ann O'Dell", "Di May", "Al Ford", "Una Lorrow", "Ed Brown", "Xu Li", "Bo Nane"} {
		for _, v := range variants(name) {
			n.add(v, sought{who: true})
		}
		if s := surname(name); s != "" {
			n.add(s, sought{who: true, alone: true, unsure: name == "Bo Nane"})
		}
	}
	for _, s := range []string{"55.3131 N, 4.7713 W", "41.52 S, 172.81 E"} {
		at, err := measure.ParseCoordinates(s)
		require.NoError(t, err)
		n.places = append(n.places, hiddenPlace{s, at, 1})
	}
	return n
}

// The spellings are common practice, no source; degrees, minutes and seconds by hand: 0.3131° is 18.786′, 18′47.16″.
func TestNamesInOtherSpellings(t *testing.T) {
	n := secrets(t)
	for text, want := range map[string]string{
		"at Withy Carr.": "Withy Carr", "by withy  carr": "Withy Carr", "WITHY\nCARR": "Withy Carr", "Withy-Carr": "Withy Carr", "*Withy* Carr": "Withy Carr",
		"**Withy** _Carr_": "Withy Carr", "Wi*thy* Carr": "Withy Carr", "[Withy](http://a.example/b) Carr": "Withy Carr", "<i>Withy</i> Carr": "Withy Carr",
		"https://club.example/withy-carr.html": "Withy Carr", "see club.example/withycarr": "Withy Carr", "#WithyCarr": "Withy Carr", "Withy&nbsp;Carr": "Withy Carr",
		"a.example/withy%20carr": "Withy Carr", "withy_carr.jpg": "Withy Carr", "the Withycarrs": "", "Withy. Carr": "", "withy\n\ncarr": "", "withy, carr": "",
		"Smith’s Pool": "Smith's Pool", "smiths pool": "Smith's Pool", "Smith's pool": "Smith's Pool", "Smithspool": "Smith's Pool", "Smith Pool": "",
		"up and over": "Up-and-over", "Up–and–over": "Up-and-over", "à l’Étang Noir": "Étang Noir", "etang noir": "", "Quorx: the deep (left)": "Quorx: the deep (left)",
		"柳の淵で": "柳の淵", "Zwickelpool's": "Zwickelpool", "the zwickelpool": "Zwickelpool", "zwickelpools": "",
		"under the bridge": "", "Bridge was up": "", "below Bridge": "Bridge", "oxbow": "", "ox bow": "Ox Bow",
		"N. Grobnik": "N. Grobnik", "Grobnik, N.": "Grobnik, N.", "Nora Grobnik’s net": "Nora Grobnik", "N Grobnik": "N. Grobnik", "a n. grobnik": "",
		"n.grobnik@club.example": "N. Grobnik", "club.example/nora-grobnik": "Nora Grobnik", "noragrobnik@x.example": "Nora Grobnik", "with Grobnik": "Grobnik", "a grobnik": "",
		"O'Dell": "O'Dell", "O’Dell was there": "O'Dell", "ODell": "O'Dell", "odell": "", "ann o’dell": "",
		"brown, may and ford": "", "Brown duns. May was cold. Ford the stream": "", "with May": "", "a brown May": "", "D. May": "D. May", "a d. may": "",
		"Lorrow rose": "", "Xu Li": "Xu Li", "with Li": "", "with Nane": "Nane?", "nane": "",
		"55.3131, -4.7713": "55.3131 N, 4.7713 W", "55°18.79'N 4°46.28'W": "55.3131 N, 4.7713 W", "N 55° 18′ 47″, W 4° 46′ 17″": "55.3131 N, 4.7713 W",
		"4,7713 W, 55,3131 N": "55.3131 N, 4.7713 W", "55.31 N, 4.77 W": "55.3131 N, 4.7713 W", "55.3 N, 4.8 W": "", "55.3131 N, 4.7713 E": "", "55°18'N 4°46'W": "",
		"41°31'12\"S 172°48'36\"E": "41.52 S, 172.81 E", "55.33 N, 4.77 W": "", "12 20 duns, 55 18": "", "55 deg 18.79 min N, 4 deg 46.28 min W": "55.3131 N, 4.7713 W",
	} {
		var got []string
		for _, x := range n.In(text) {
			s := x.Text
			if x.Unsure {
				s += "?"
			}
			got = append(got, s)
		}
		assert.Equal(t, want, strings.Join(got, " + "), text)
	}
	assert.Equal(t, "*Withy* Carr", func() string {
		const s = "at *Withy* Carr, there"
		x := n.In(s)[0]
		return "*" + s[x.From:x.To]
	}(), "its place")
}

// Whatever stands before and after, a name as given is found, and no text breaks the search.
func TestNamesAreFoundInAnyText(t *testing.T) {
	n := secrets(t)
	rapid.Check(t, func(t *rapid.T) {
		before, after := rapid.String().Draw(t, "before"), rapid.String().Draw(t, "after")
		if tagsAndAims.MatchString(before + "x" + after) {
			return
		}
		text := before + " Withy Carr " + after
		for _, x := range n.In(text) {
			if x.Text == "Withy Carr" && strings.Contains(text[x.From:x.To], "Carr") {
				return
			}
		}
		t.Fatalf("not found in %q", text)
	})
}
