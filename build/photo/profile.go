package photo

// The other thing read of a picture's metadata: whether its colours are those of
// sRGB, which browsers take the site's pictures for (ICC.1:2022, IEC 61966-2-1).
// Whatever is odd about a profile means that they are.

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"encoding/binary"
	"io"
	"math"
	"strings"
	"unicode/utf16"
)

// mostProfile is in bytes, unpacked; profiles of cameras and screens have a few kilobytes.
const mostProfile = 4 << 20

// otherColours is what a file's colour profile calls itself where its colours are not those
// of sRGB; "" where they are, or where no profile says otherwise.
func otherColours(b []byte) string {
	var icc []byte
	metadata(b, func(name string, data []byte) bool {
		switch name {
		case "\xe2": // in several segments, in order (ICC.1:2022, annex B.4)
			if part, ok := bytes.CutPrefix(data, []byte("ICC_PROFILE\x00")); ok && len(part) > 2 {
				icc = append(icc, part[2:]...)
			}
		case "ICCP":
			icc = data
		case "iCCP": // a name, a method, packed data (PNG, third edition, section 11.3.2.3)
			if _, packed, ok := bytes.Cut(data, []byte{0}); ok && len(packed) > 1 {
				if r, err := zlib.NewReader(bytes.NewReader(packed[1:])); err == nil {
					icc, _ = io.ReadAll(io.LimitReader(r, mostProfile)) // as far as it goes
				}
			}
		case "IDAT":
			return false
		}
		return true
	})
	return profile(icc).otherColours()
}

// srgb is what the three primaries of sRGB are under a profile's white, D50.
var srgb = []struct {
	tag string
	xyz [3]float64
}{{"rXYZ", [3]float64{0.4361, 0.2225, 0.0139}}, {"gXYZ", [3]float64{0.3851, 0.7169, 0.0971}}, {"bXYZ", [3]float64{0.1431, 0.0606, 0.7141}}}

// profile is a colour profile; it may hold anything.
type profile []byte

func (p profile) otherColours() string {
	if len(p) < 132 || string(p[36:40]) != "acsp" || string(p[16:20]) == "GRAY" {
		return ""
	}
	name := p.name()
	for _, primary := range srgb {
		b := p.tag(primary.tag)
		if len(b) < 20 { // by tables, or of printing inks
			if strings.Contains(strings.ToLower(name), "srgb") {
				return ""
			}
			return cmp.Or(name, "without a name")
		}
		for i, x := range primary.xyz {
			got := float64(int32(binary.BigEndian.Uint32(b[8+4*i:]))) / 65536
			if math.Abs(got-x) > 0.005 {
				return cmp.Or(name, "without a name")
			}
		}
	}
	return ""
}

func (p profile) tag(name string) []byte {
	n := min(int64(binary.BigEndian.Uint32(p[128:])), int64(len(p)-132)/12)
	for i := range n {
		e := p[132+12*i:]
		from, size := int64(binary.BigEndian.Uint32(e[4:])), int64(binary.BigEndian.Uint32(e[8:]))
		if string(e[:4]) == name && from+size <= int64(len(p)) {
			return p[from : from+size]
		}
	}
	return nil
}

// name is the profile's description, of version 2 or 4.
func (p profile) name() string {
	b := p.tag("desc")
	switch {
	case len(b) >= 12 && string(b[:4]) == "desc":
		n := min(int64(binary.BigEndian.Uint32(b[8:])), int64(len(b)-12))
		text, _, _ := strings.Cut(string(b[12:12+n]), "\x00")
		return strings.TrimSpace(text)
	case len(b) >= 28 && string(b[:4]) == "mluc":
		n, from := int64(binary.BigEndian.Uint32(b[20:])), int64(binary.BigEndian.Uint32(b[24:]))
		if from+n > int64(len(b)) {
			return ""
		}
		var letters []uint16
		for i := from; i+1 < from+n; i += 2 {
			letters = append(letters, binary.BigEndian.Uint16(b[i:]))
		}
		return strings.Trim(string(utf16.Decode(letters)), "\x00 ")
	}
	return ""
}
