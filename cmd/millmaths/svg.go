package main

import (
	"bytes"
	"fmt"
	"html"
	"io"
)

// An svgCanvas writes SVG.
type svgCanvas struct {
	width, height int
	b             bytes.Buffer
}

func newSVG(width, height int) *svgCanvas { return &svgCanvas{width: width, height: height} }

func (c *svgCanvas) line(points []point, width, grey float64) {
	g := int(255 * grey)
	fmt.Fprintf(&c.b, `<polyline fill="none" stroke="rgb(%d,%d,%d)" stroke-width="%.4g" points="`, g, g, g, width)
	for i, p := range points {
		if i > 0 {
			c.b.WriteByte(' ')
		}
		fmt.Fprintf(&c.b, "%.2f,%.2f", p.x, p.y)
	}
	c.b.WriteString("\"/>\n")
}

func (c *svgCanvas) text(at point, text string, a anchor) {
	turn := ""
	if a == upwards {
		turn = fmt.Sprintf(` transform="rotate(-90 %.2f %.2f)"`, at.x, at.y)
		a = middle
	}
	fmt.Fprintf(&c.b, `<text x="%.2f" y="%.2f" text-anchor="%s"%s>`, at.x, at.y, [...]string{"start", "middle", "end"}[a], turn)
	c.b.WriteString(html.EscapeString(text))
	c.b.WriteString("</text>\n")
}

func (c *svgCanvas) encode(out io.Writer) error {
	_, err := fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" width="%dpt" height="%dpt" viewBox="0 0 %[1]d %[2]d" font-family="sans-serif" font-size="%d">
<rect width="100%%" height="100%%" fill="white"/>
%s</svg>
`, c.width, c.height, fontSize, c.b.Bytes())
	return err
}

// inline returns the picture as part of a page: as wide as there is room, with a
// text for those who do not see it.
func (c *svgCanvas) inline(alternative string) markup {
	return ownLine(fmt.Sprintf(`svg role="img" viewBox="0 0 %d %d" font-size="%d"%s`, c.width, c.height, fontSize,
		attribute("aria-label", alternative)), "\n", markup(c.b.String()))
}
