package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"
)

// scene is a picture whose quarters differ: red, green over blue, yellow.
func scene(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, quarters[2*(2*y/h)+2*x/w])
		}
	}
	return m
}

var quarters = [4]color.RGBA{{200, 30, 30, 255}, {30, 180, 30, 255}, {30, 30, 200, 255}, {220, 220, 30, 255}}

func asJPEG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}))
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

// exif is a TIFF directory with an orientation and the marks of a camera.
func exif(order binary.ByteOrder, orientation int) []byte {
	b := []byte("MM\x00*")
	if order == binary.ByteOrder(binary.LittleEndian) {
		b = []byte("II*\x00")
	}
	put := func(n int, v uint32) {
		x := make([]byte, 4)
		if n == 2 {
			order.PutUint16(x, uint16(v))
		} else {
			order.PutUint32(x, v)
		}
		b = append(b, x[:n]...)
	}
	const camera, owner = "Serial 900412\x00", "Owner Nell Harker, 55.9712 N\x00"
	put(4, 8)
	put(2, 3)
	for _, e := range [][4]uint32{{0x010f, 2, uint32(len(camera)), 50}, {0x0112, 3, 1, 0}, {0x8298, 2, uint32(len(owner)), 50 + uint32(len(camera))}} {
		put(2, e[0])
		put(2, e[1])
		put(4, e[2])
		if e[0] == 0x0112 {
			put(2, uint32(orientation))
			put(2, 0)
			continue
		}
		put(4, e[3])
	}
	put(4, 0)
	return append(append(b, camera...), owner...)
}

// inJPEG puts segments after the start of a JPEG.
func inJPEG(b []byte, segments ...[]byte) []byte {
	out := append([]byte{}, b[:2]...)
	for _, s := range segments {
		out = append(binary.BigEndian.AppendUint16(append(out, 0xff, s[0]), uint16(len(s)+1)), s[1:]...)
	}
	return append(out, b[2:]...)
}

func app1(tiff []byte) []byte { return append([]byte("\xe1Exif\x00\x00"), tiff...) }

// inPNG puts a chunk after the header of a PNG.
func inPNG(b []byte, name string, data []byte) []byte {
	c := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	c = append(append(c, name...), data...)
	c = binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(c[4:]))
	return append(append(append([]byte{}, b[:33]...), c...), b[33:]...)
}

func decoded(t *testing.T, m Made) image.Image {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(m.JPEG))
	require.NoError(t, err)
	require.Equal(t, image.Pt(m.Size.Width, m.Size.Height), img.Bounds().Size())
	return img
}

func near(t *testing.T, want color.RGBA, got color.Color, within int, say string) {
	t.Helper()
	r, g, b, _ := got.RGBA()
	for _, d := range []int{int(r>>8) - int(want.R), int(g>>8) - int(want.G), int(b>>8) - int(want.B)} {
		if d < -within || d > within {
			t.Fatalf("%s: %v, want %v", say, got, want)
		}
	}
}

// The eight ways a picture can lie, from the table of the standard (Exif 2.32,
// CIPA DC-008-2019, tag 274): on which side row 0 and column 0 are to be seen.
func TestOrientation(t *testing.T) {
	sides := [9][2]string{1: {"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"},
		{"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"}}
	opposite := map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
	stored := scene(48, 32)
	for o := 1; o <= 8; o++ {
		files := map[string][]byte{
			"JPEG, big-endian":    inJPEG(asJPEG(t, stored), app1(exif(binary.BigEndian, o))),
			"JPEG, little-endian": inJPEG(asJPEG(t, stored), []byte("\xe0JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00"), app1(exif(binary.LittleEndian, o))),
			"PNG":                 inPNG(asPNG(t, stored), "eXIf", exif(binary.BigEndian, o)),
		}
		for name, b := range files {
			say := fmt.Sprintf("%s, orientation %d", name, o)
			p, err := Inspect(b)
			require.NoError(t, err, say)
			assert.Equal(t, o, p.Orientation, say)
			w, h := 48, 32
			if o > 4 {
				w, h = 32, 48
			}
			assert.Equal(t, [2]int{w, h}, [2]int{p.Width, p.Height}, say)
			made, err := Derive(b)
			require.NoError(t, err, say)
			require.Len(t, made, 1, "not enlarged")
			img := decoded(t, made[0])
			for corner, c := range quarters { // row 0 or the last, column 0 or the last
				row, column := sides[o][0], sides[o][1]
				if corner > 1 {
					row = opposite[row]
				}
				if corner%2 == 1 {
					column = opposite[column]
				}
				x, y := 4, 4
				if row == "right" || column == "right" {
					x = w - 5
				}
				if row == "bottom" || column == "bottom" {
					y = h - 5
				}
				near(t, c, img.At(x, y), 12, fmt.Sprintf("%s, corner %d", say, corner))
			}
		}
	}
}

func TestWebPOrientation(t *testing.T) {
	tiff := exif(binary.LittleEndian, 6)
	chunk := func(name string, data []byte) []byte {
		c := append(binary.LittleEndian.AppendUint32([]byte(name), uint32(len(data))), data...)
		if len(data)%2 == 1 {
			c = append(c, 0)
		}
		return c
	}
	body := append(append([]byte("WEBP"), chunk("XXXX", []byte("odd"))...), chunk("EXIF", tiff)...)
	assert.Equal(t, 6, Orientation(append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)))
}

// What is odd about the metadata means upright.
func TestOddMetadata(t *testing.T) {
	j := asJPEG(t, scene(16, 8))
	for name, tiff := range map[string][]byte{
		"empty": nil, "no order": []byte("XX*\x00\x00\x00\x00\x08"), "short": []byte("MM\x00*"), "directory outside": []byte("MM\x00*\xff\xff\xff\xff"),
		"directory in the head": []byte("MM\x00*\x00\x00\x00\x00\x00\x01"), "entries missing": []byte("MM\x00*\x00\x00\x00\x08\x00\x09"),
		"nine": exif(binary.BigEndian, 9), "nought": exif(binary.BigEndian, 0),
	} {
		assert.Equal(t, 1, Orientation(inJPEG(j, app1(tiff))), name)
	}
}

// Wherever a file ends, and whatever length a part of it claims, the search for
// the orientation ends inside it.
func TestOrientationOfCutFiles(t *testing.T) {
	j := inJPEG(asJPEG(t, scene(16, 8)), app1(exif(binary.BigEndian, 6)))
	p := inPNG(asPNG(t, scene(16, 8)), "eXIf", exif(binary.LittleEndian, 6))
	w := append([]byte("RIFF\x00\x00\x00\x00WEBPEXIF\x7f\x00\x00\x00"), exif(binary.BigEndian, 6)...)
	for _, b := range [][]byte{j, p, w} {
		for n := range b {
			o := Orientation(b[:n])
			assert.True(t, o == 1 || o == 6)
		}
	}
	for _, claim := range []uint16{0, 1, 65535} {
		c := bytes.Clone(j)
		binary.BigEndian.PutUint16(c[4:], claim)
		assert.Equal(t, 1, Orientation(c), claim)
	}
	for _, claim := range []uint32{1 << 31, 1<<32 - 1, uint32(len(p))} {
		c := bytes.Clone(p)
		binary.BigEndian.PutUint32(c[8:], claim)
		assert.Equal(t, 1, Orientation(c), claim)
	}
}

// Nothing of a file's metadata stands in what is made of it.
func TestMetadataIsGone(t *testing.T) {
	marks := []string{"Exif", "Serial 900412", "Nell Harker", "55.9712", "GPS", "http://ns.adobe.com/xap", "ICC_PROFILE", "a remark"}
	tiff := append(exif(binary.BigEndian, 6), "GPS"...)
	icc := []byte("\xe2ICC_PROFILE\x00\x01\x01of somebody's screen")
	xmp := []byte("\xe1http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>Nell Harker</x:xmpmeta>")
	b := inJPEG(asJPEG(t, scene(900, 600)), app1(tiff), xmp, icc, []byte("\xfea remark"))
	p := inPNG(inPNG(asPNG(t, scene(40, 30)), "tEXt", []byte("Author\x00Nell Harker, a remark")), "eXIf", tiff)
	for _, file := range [][]byte{b, append(p, "Nell Harker after the end"...)} {
		made, err := Derive(file)
		require.NoError(t, err)
		for _, m := range made {
			for _, s := range marks {
				assert.False(t, bytes.Contains(m.JPEG, []byte(s)), s)
			}
			for i := 2; m.JPEG[i+1] != 0xda; i += 2 + int(binary.BigEndian.Uint16(m.JPEG[i+2:])) { // no APPn, no comment
				assert.NotContains(t, []byte{0xe1, 0xe2, 0xed, 0xee, 0xfe}, m.JPEG[i+1])
			}
		}
	}
	assert.True(t, bytes.Contains(b, []byte("Nell Harker")), "the file itself holds it")
}

func TestSizes(t *testing.T) {
	for _, c := range []struct {
		w, h int
		want []Size
	}{
		{4000, 3000, []Size{{360, 270}, {720, 540}, {1440, 1080}}},
		{1440, 1000, []Size{{360, 250}, {720, 500}, {1440, 1000}}},
		{1439, 1000, []Size{{360, 250}, {720, 500}, {1439, 1000}}},
		{500, 333, []Size{{360, 240}, {500, 333}}},
		{360, 10, []Size{{360, 10}}},
		{1, 1, []Size{{1, 1}}},
		{12000, 1, []Size{{360, 1}, {720, 1}, {1440, 1}}},
		{1, 12000, []Size{{1, 12000}}},
	} {
		assert.Equal(t, c.want, Picture{Width: c.w, Height: c.h}.Sizes())
	}
	for _, s := range [][2]int{{1, 1}, {2000, 1}, {3, 900}, {1500, 40}} {
		b := asPNG(t, scene(s[0], s[1]))
		p, err := Inspect(b)
		require.NoError(t, err)
		made, err := Derive(b)
		require.NoError(t, err)
		require.Len(t, made, len(p.Sizes()))
		for i, m := range made {
			assert.Equal(t, p.Sizes()[i], m.Size)
			assert.Equal(t, p.Name(m.Size.Width), m.Name)
			decoded(t, m)
		}
	}
}

// Names come from the content, and the same bytes give the same files.
func TestSameBytes(t *testing.T) {
	b := asJPEG(t, scene(800, 500))
	one, err := Derive(b)
	require.NoError(t, err)
	two, err := Derive(bytes.Clone(b))
	require.NoError(t, err)
	assert.Equal(t, one, two)
	other, err := Derive(asJPEG(t, scene(800, 501)))
	require.NoError(t, err)
	assert.NotEqual(t, one[0].Name, other[0].Name)
	assert.Regexp(t, `^[0-9a-f]{20}-360\.jpg$`, one[0].Name)
	p, err := Inspect(b)
	require.NoError(t, err)
	assert.True(t, p.Same(b))
	assert.False(t, p.Same(b[1:]))
}

// Against golang.org/x/image/draw v0.47.0, whose CatmullRom is the same kernel
// in floating point. Its weights aren't rounded, so it may differ by a step.
func TestReduceAgainstLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, c := range [][4]int{{100, 70, 33, 23}, {64, 64, 32, 32}, {97, 41, 96, 40}, {50, 9, 7, 1}, {30, 20, 30, 20}, {1, 50, 1, 9}} {
		src := image.NewRGBA(image.Rect(0, 0, c[0], c[1]))
		for i := range src.Pix {
			src.Pix[i] = uint8(r.IntN(256))
			if i%4 == 3 {
				src.Pix[i] = 255
			}
		}
		want := image.NewRGBA(image.Rect(0, 0, c[2], c[3]))
		draw.CatmullRom.Scale(want, want.Rect, src, src.Rect, draw.Src, nil)
		got := reduce(rows(src), c[0], c[1], Size{c[2], c[3]})
		for i := range want.Pix {
			require.InDelta(t, want.Pix[i], got.Pix[i], 1, "%v at %d", c, i)
		}
		assert.Less(t, meanOff(want.Pix, got.Pix), 0.3, "%v", c)
	}
}

func meanOff(a, b []uint8) float64 {
	sum := 0.0
	for i := range a {
		sum += max(float64(a[i])-float64(b[i]), float64(b[i])-float64(a[i]))
	}
	return sum / float64(len(a))
}

// A plain colour stays what it is at every size.
func TestReduceKeepsPlainColour(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 301, 207))
	draw.Draw(src, src.Rect, image.NewUniform(color.RGBA{17, 141, 255, 255}), image.Point{}, draw.Src)
	for _, s := range []Size{{300, 206}, {150, 103}, {33, 22}, {1, 1}} {
		out := reduce(rows(src), 301, 207, s)
		for i := 0; i < len(out.Pix); i += 4 {
			require.Equal(t, []uint8{17, 141, 255, 255}, out.Pix[i:i+4], "%v", s)
		}
	}
}

func TestTransparencyIsWhite(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 20, 10))
	for y := range 10 {
		for x := range 10 {
			m.SetNRGBA(x, y, color.NRGBA{200, 0, 0, 255})
		}
	}
	made, err := Derive(asPNG(t, m))
	require.NoError(t, err)
	near(t, color.RGBA{255, 255, 255, 255}, decoded(t, made[0]).At(17, 5), 4, "clear")
	near(t, color.RGBA{200, 0, 0, 255}, decoded(t, made[0]).At(2, 5), 16, "opaque")
}

func TestFormats(t *testing.T) {
	read := func(name string) []byte {
		b, err := os.ReadFile("testdata/" + name)
		require.NoError(t, err)
		return b
	}
	for name, want := range map[string]struct {
		format      string
		top, bottom color.RGBA
	}{
		"cmyk.jpg":   {"jpeg", color.RGBA{255, 0, 0, 255}, color.RGBA{0, 0, 255, 255}},
		"lossy.webp": {"webp", color.RGBA{255, 0, 0, 255}, color.RGBA{0, 0, 255, 255}},
		"alpha.webp": {"webp", color.RGBA{255, 0, 0, 255}, color.RGBA{255, 255, 255, 255}},
	} {
		b := read(name)
		p, err := Inspect(b)
		require.NoError(t, err, name)
		assert.Equal(t, want.format, p.Format)
		made, err := Derive(b)
		require.NoError(t, err, name)
		img := decoded(t, made[0])
		near(t, want.top, img.At(img.Bounds().Dx()/2, 0), 40, name)
		near(t, want.bottom, img.At(img.Bounds().Dx()/2, img.Bounds().Dy()-1), 40, name)
	}
	gray := image.NewGray16(image.Rect(0, 0, 9, 9))
	_, err := Derive(asPNG(t, gray))
	require.NoError(t, err)
	_, err = Derive(asPNG(t, image.NewPaletted(image.Rect(0, 0, 9, 9), color.Palette{color.Black, color.Transparent})))
	require.NoError(t, err)
}

func why(t *testing.T, err error) Why {
	t.Helper()
	var r *Refusal
	require.True(t, errors.As(err, &r), "%v", err)
	assert.NotEmpty(t, r.What)
	assert.NotEmpty(t, r.Do)
	return r.Why
}

func TestOtherFormatsAreNamed(t *testing.T) {
	for head, name := range map[string]string{
		"GIF89a\x01\x00": "a GIF", "II*\x00\x08": "TIFF", "MM\x00*": "TIFF", "BM\x36": "BMP", "%PDF-1.7": "PDF",
		"\x00\x00\x00\x20ftypavif": "AVIF", "\x00\x00\x00\x18ftypheic": "HEIC", "\x00\x00\x00\x18ftypmp42": "film",
		"<svg xmlns='http://www.w3.org/2000/svg'>": "SVG", "\xef\xbb\xbf<?xml version='1.0'?>\n<!-- x --><svg/>": "SVG",
		"version https://git-lfs.github.com/spec/v1": "note of where", "hello": "a picture", "RIFF\x00\x00\x00\x00WAVE": "a picture",
	} {
		_, err := Inspect([]byte(head))
		assert.Equal(t, WrongFormat, why(t, err), name)
		assert.Contains(t, err.Error(), name)
		_, err = Derive([]byte(head))
		assert.Equal(t, WrongFormat, why(t, err), name)
	}
}

// A file cut short anywhere, or with any byte changed, is read or refused, never more.
func TestBrokenFiles(t *testing.T) {
	j := inJPEG(asJPEG(t, scene(64, 48)), app1(exif(binary.BigEndian, 6)))
	p := asPNG(t, scene(64, 48))
	w, err := os.ReadFile("testdata/lossy.webp")
	require.NoError(t, err)
	for _, b := range [][]byte{j, p, w} {
		refused := 0
		for n := 0; n < len(b)-2; n += 1 + n/40 {
			if _, err := Derive(b[:n]); err != nil {
				why(t, err)
				refused++
			}
		}
		assert.Greater(t, refused, 20)
		_, err := Derive(b[:len(b)*2/3])
		assert.Equal(t, Broken, why(t, err))
		for n := 0; n < len(b); n += 1 + n/40 {
			c := bytes.Clone(b)
			c[n] ^= 0x55
			if _, err := Derive(c); err != nil {
				why(t, err)
			}
		}
	}
	_, err = Inspect(nil)
	assert.Equal(t, Broken, why(t, err))
}

// A head that claims a size that no memory holds is refused before a pixel is read.
func TestHugeHead(t *testing.T) {
	huge := func(w, h uint32) []byte {
		b := asPNG(t, scene(4, 4))
		binary.BigEndian.PutUint32(b[16:], w)
		binary.BigEndian.PutUint32(b[20:], h)
		binary.BigEndian.PutUint32(b[29:], crc32.ChecksumIEEE(b[12:29]))
		return b
	}
	for _, s := range [][2]uint32{{60000, 60000}, {12001, 10}, {10, 12001}, {8000, 6000}, {1<<31 - 1, 1<<31 - 1}} {
		_, err := Derive(huge(s[0], s[1]))
		if w := why(t, err); w != TooLarge {
			assert.Equal(t, Broken, w, "%v", s) // the decoder refuses what overflows by itself
			assert.Greater(t, s[0], uint32(1<<20))
		}
	}
	_, err := Inspect(huge(12000, 3000))
	assert.NoError(t, err)
	j := asJPEG(t, scene(8, 8))
	i := bytes.Index(j, []byte("\xff\xc0"))
	binary.BigEndian.PutUint16(j[i+5:], 65535)
	binary.BigEndian.PutUint16(j[i+7:], 65535)
	_, err = Inspect(j)
	assert.Equal(t, TooLarge, why(t, err))
	assert.Contains(t, err.Error(), "65535 × 65535")
	_, err = Inspect(huge(0, 5))
	assert.Equal(t, Broken, why(t, err))
}

func TestNamesTellNothing(t *testing.T) {
	p, err := Inspect(asPNG(t, scene(4, 4)))
	require.NoError(t, err)
	assert.False(t, strings.ContainsAny(p.Name(4), "/ ."+"\\") && !strings.HasSuffix(p.Name(4), ".jpg"))
}

func FuzzOrientation(f *testing.F) {
	f.Add(inJPEG(asJPEG(f, scene(8, 8)), app1(exif(binary.BigEndian, 6))))
	f.Add(inPNG(asPNG(f, scene(8, 8)), "eXIf", exif(binary.LittleEndian, 3)))
	f.Add([]byte("RIFF\x04\x00\x00\x00WEBPEXIF\xff\xff\xff\xff"))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x02\xff\xff\xff\xe1\x00\x10Exif\x00\x00MM\x00*\x00\x00\x00\x08"))
	f.Fuzz(func(t *testing.T, b []byte) {
		if o := Orientation(b); o < 1 || o > 8 {
			t.Fatal(o)
		}
		if o := tiffOrientation(b); o < 1 || o > 8 {
			t.Fatal(o)
		}
	})
}

// A photograph of 12 megapixels into three sizes.
func BenchmarkDerive(b *testing.B) {
	m := scene(4000, 3000)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range m.Pix {
		if i%4 != 3 {
			m.Pix[i] += uint8(r.IntN(9))
		}
	}
	file := asJPEG(b, m)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Derive(file); err != nil {
			b.Fatal(err)
		}
	}
}
