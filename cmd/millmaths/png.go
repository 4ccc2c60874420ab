package main

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// pixels is the number of pixels per point.
const pixels = 2

// A pngCanvas paints on a picture.
type pngCanvas struct {
	picture *image.RGBA
	face    font.Face
}

func newPNG(width, height int) *pngCanvas {
	c := &pngCanvas{picture: image.NewRGBA(image.Rect(0, 0, width*pixels, height*pixels))}
	draw.Draw(c.picture, c.picture.Bounds(), image.White, image.Point{}, draw.Src)
	// The font is part of its module, so reading it depends on no data.
	if f, err := opentype.Parse(goregular.TTF); err == nil {
		c.face, _ = opentype.NewFace(f, &opentype.FaceOptions{Size: fontSize * pixels, DPI: 72})
	}
	return c
}

// line paints each stretch as a rectangle, slightly longer at a corner so that the
// corner closes.
func (c *pngCanvas) line(points []point, width, grey float64) {
	size := c.picture.Bounds().Size()
	r := vector.NewRasterizer(size.X, size.Y)
	half := width / 2
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if length == 0 {
			continue
		}
		dx, dy := (b.x-a.x)/length*half, (b.y-a.y)/length*half
		corner := func(p point, along, across float64) (x, y float32) {
			return float32(pixels * (p.x + along*dx - across*dy)), float32(pixels * (p.y + along*dy + across*dx))
		}
		before, after := 0.0, 0.0
		if i > 1 {
			before = -1
		}
		if i < len(points)-1 {
			after = 1
		}
		r.MoveTo(corner(a, before, -1))
		r.LineTo(corner(a, before, 1))
		r.LineTo(corner(b, after, 1))
		r.LineTo(corner(b, after, -1))
		r.ClosePath()
	}
	r.Draw(c.picture, c.picture.Bounds(), image.NewUniform(color.Gray{Y: uint8(255 * grey)}), image.Point{})
}

func (c *pngCanvas) text(at point, text string, a anchor) {
	width := font.MeasureString(c.face, text)
	if a == upwards {
		c.upwards(at, text, width)
		return
	}
	dot := fixed.P(int(at.x*pixels), int(at.y*pixels))
	dot.X -= [...]fixed.Int26_6{0, width / 2, width}[a]
	d := font.Drawer{Dst: c.picture, Src: image.Black, Face: c.face, Dot: dot}
	d.DrawString(text)
}

// upwards paints a text horizontally and turns it.
func (c *pngCanvas) upwards(at point, text string, width fixed.Int26_6) {
	w, h := width.Ceil(), 2*fontSize*pixels
	lying := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(lying, lying.Bounds(), image.White, image.Point{}, draw.Src)
	base := h * 3 / 4
	d := font.Drawer{Dst: lying, Src: image.Black, Face: c.face, Dot: fixed.P(0, base)}
	d.DrawString(text)
	left, bottom := int(at.x*pixels)-base, int(at.y*pixels)+w/2
	for x := range w {
		for y := range h {
			c.picture.Set(left+y, bottom-x, lying.At(x, y))
		}
	}
}

func (c *pngCanvas) encode(out io.Writer) error { return png.Encode(out, c.picture) }
