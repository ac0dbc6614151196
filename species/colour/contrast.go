package colour

// Luminance is the relative luminance of WCAG 2.2, 0 (black) to 1 (white).
func (c RGB) Luminance() float64 {
	return float64(0.2126*linear(c.R)) + float64(0.7152*linear(c.G)) + float64(0.0722*linear(c.B))
}

// Contrast is the contrast ratio of WCAG 2.2 between a text and its ground, 1
// to 21. Ordinary text needs 4.5 and large text or a shape 3 for level AA; it
// is never rounded up before comparing: 4.478 fails.
func Contrast(a, b RGB) float64 {
	la, lb := a.Luminance(), b.Luminance()
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}
