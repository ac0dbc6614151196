package photo

// What a file is by its first bytes, whatever it is called.

import "bytes"

// refused names a file that is none of the formats read, and what to do; nil
// for those that are.
func refused(b []byte) *Refusal {
	head := b[:min(len(b), 512)]
	is := func(s string) bool { return bytes.HasPrefix(head, []byte(s)) }
	box := "" // the brand of a box file (ISO/IEC 14496-12, section 4.3)
	if len(head) >= 12 && string(head[4:8]) == "ftyp" {
		box = string(head[8:12])
	}
	const save = "save it as JPEG (photographs) or PNG (drawings)"
	no := func(what, do string) *Refusal { return &Refusal{WrongFormat, what, do} }
	text := bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\xef\xbb\xbf")), " \t\r\n")
	switch {
	case is("\xff\xd8\xff"), is("\x89PNG\r\n\x1a\n"), len(head) >= 12 && is("RIFF") && string(head[8:12]) == "WEBP":
		return nil
	case len(b) == 0:
		return &Refusal{Broken, "is empty", "put the picture there again"}
	case is("GIF8"):
		return no("is a GIF", save)
	case is("II*\x00"), is("MM\x00*"):
		return no("is a TIFF or a camera's raw file", save)
	case is("BM"):
		return no("is a BMP", save)
	case is("%PDF"):
		return no("is a PDF", save)
	case box == "avif" || box == "avis":
		return no("is an AVIF", save)
	case box == "heic" || box == "heix" || box == "hevc" || box == "heim" || box == "heis" || box == "mif1" || box == "msf1":
		return no("is a HEIC, as telephones save it", "export it as JPEG, or set the camera to the most compatible format")
	case box != "":
		return no("is a film, or a picture in a box that is not read", save)
	case bytes.HasPrefix(text, []byte("<svg")), bytes.HasPrefix(text, []byte("<?xml")) && bytes.Contains(b[:min(len(b), 4096)], []byte("<svg")):
		return no("is an SVG", "an SVG may hold scripts and links to other places; export it as PNG")
	case bytes.HasPrefix(text, []byte("version https://git-lfs")):
		return no("is a note of where the picture is kept, not the picture", "fetch the picture itself")
	}
	return no("isn't a picture", save)
}
