package photo

// Whether a file's colours are those of sRGB, told from profiles written by hand by the rules of ICC.1:2022,
// with the primaries of published colour spaces.

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Primaries under D50, by columns. sRGB: IEC 61966-2-1, as in the profile of the International Color
// Consortium. Display P3 and Adobe RGB (1998): as in the profiles of their makers, from memory.
var (
	sRGB      = [][3]float64{{0.4361, 0.2225, 0.0139}, {0.3851, 0.7169, 0.0971}, {0.1431, 0.0606, 0.7141}}
	displayP3 = [][3]float64{{0.5151, 0.2412, -0.0011}, {0.2920, 0.6922, 0.0419}, {0.1571, 0.0666, 0.7841}}
	adobeRGB  = [][3]float64{{0.6097, 0.3111, 0.0195}, {0.2053, 0.6257, 0.0609}, {0.1492, 0.0632, 0.7446}}
)

func iccOf(space, name string, newer bool, primaries [][3]float64) []byte {
	word := func(n int) []byte { return binary.BigEndian.AppendUint32(nil, uint32(n)) }
	tags := map[string][]byte{}
	for i, p := range primaries {
		b := []byte("XYZ \x00\x00\x00\x00")
		for _, x := range p {
			b = append(b, word(int(math.Round(x*65536)))...)
		}
		tags[string("rgb"[i])+"XYZ"] = b
	}
	tags["desc"] = slices.Concat([]byte("desc\x00\x00\x00\x00"), word(len(name)+1), []byte(name), []byte{0})
	if newer {
		b := slices.Concat([]byte("mluc\x00\x00\x00\x00"), word(1), word(12), []byte("enGB"), word(2*len(name)), word(28))
		for _, r := range name {
			b = append(b, 0, byte(r))
		}
		tags["desc"] = b
	}
	head := make([]byte, 128)
	copy(head[16:], space)
	copy(head[36:], "acsp")
	out := append(head, word(len(tags))...)
	var data []byte
	for _, tag := range []string{"desc", "rXYZ", "gXYZ", "bXYZ"} {
		if b := tags[tag]; b != nil {
			out = slices.Concat(out, []byte(tag), word(132+12*len(tags)+len(data)), word(len(b)))
			data = append(data, b...)
		}
	}
	return append(out, data...)
}

// inEach is a picture of each format with a profile in it.
func inEach(t *testing.T, icc []byte) map[string][]byte {
	t.Helper()
	half := len(icc) / 2 // a long profile stands in several segments
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	_, err := w.Write(icc)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	plain, err := os.ReadFile("testdata/lossy.webp")
	require.NoError(t, err)
	chunk := slices.Concat([]byte("ICCP"), binary.LittleEndian.AppendUint32(nil, uint32(len(icc))), icc, make([]byte, len(icc)%2))
	// The library reads the head of a plain WebP only; here the way through the chunks is what counts.
	return map[string][]byte{
		"jpeg": inJPEG(asJPEG(t, scene(8, 8)), app1(exif(binary.BigEndian, 6)), slices.Concat([]byte("\xe2ICC_PROFILE\x00\x01\x02"), icc[:half]), slices.Concat([]byte("\xe2ICC_PROFILE\x00\x02\x02"), icc[half:])),
		"png":  inPNG(asPNG(t, scene(8, 8)), "iCCP", slices.Concat([]byte("a name\x00\x00"), packed.Bytes())),
		"webp": slices.Concat(plain[:12], chunk, plain[12:]),
	}
}

func TestOtherColoursAreTold(t *testing.T) {
	for _, c := range []struct {
		icc  []byte
		want string
	}{
		{iccOf("RGB ", "sRGB IEC61966-2.1", false, sRGB), ""},
		{iccOf("RGB ", "c2", true, sRGB), ""}, // told by its primaries, whatever it is called
		{iccOf("RGB ", "Display P3", true, displayP3), "Display P3"},
		{iccOf("RGB ", "Adobe RGB (1998)", false, adobeRGB), "Adobe RGB (1998)"},
		{iccOf("RGB ", "", false, adobeRGB), "without a name"},
		{iccOf("RGB ", "sRGB v4 ICC preference", true, nil), ""}, // by tables
		{iccOf("CMYK", "Coated paper", true, nil), "Coated paper"},
		{iccOf("GRAY", "Dot gain", true, nil), ""},
	} {
		for format, b := range inEach(t, c.icc) {
			assert.Equal(t, c.want, otherColours(b), "%s of %s", c.want, format)
			if format != "webp" {
				p, err := Inspect(b)
				require.NoError(t, err)
				assert.Equal(t, c.want, p.Colours)
			}
		}
	}
	for name, b := range map[string][]byte{"none": asJPEG(t, scene(8, 8)), "none in PNG": asPNG(t, scene(8, 8)), "nothing": nil} {
		assert.Empty(t, otherColours(b), name)
	}
}

// A profile cut anywhere, or with any byte changed, does no harm.
func TestOddProfiles(t *testing.T) {
	for _, newer := range []bool{false, true} {
		icc := iccOf("RGB ", "Display P3", newer, displayP3)
		for n := range icc {
			assert.NotPanics(t, func() { profile(icc[:n]).otherColours() }, fmt.Sprint(n))
			for _, v := range []byte{0, 0x7f, 0xff} {
				odd := bytes.Clone(icc)
				odd[n] = v
				assert.NotPanics(t, func() { profile(odd).otherColours() }, fmt.Sprint(n))
			}
		}
	}
}
