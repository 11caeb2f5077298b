package canvas

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// Dots to an inch of a PNG: 96 on a screen.
const (
	Screen = vgimg.DefaultDPI
	Print  = 300
)

// afterHeader is where the second chunk of a PNG begins: behind its signature of 8 bytes and
// the header, whose 13 bytes stand between length, name and check sum of 4 each (ISO/IEC
// 15948, 5.2, 5.3 and 11.2.2, from memory).
const afterHeader = 8 + 4 + 4 + 13 + 4

// writePNG writes a page as a PNG that tells how large it is.
func writePNG(w io.Writer, width, height vg.Length, dots int, fill func(vg.Canvas)) error {
	c := vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dots))
	fill(c)
	var b bytes.Buffer
	if err := png.Encode(&b, c.Image()); err != nil {
		return err
	}
	for _, part := range [][]byte{b.Bytes()[:afterHeader], density(dots), b.Bytes()[afterHeader:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// density is the chunk that tells the dots to the metre, along and across (ISO/IEC 15948,
// 11.3.5.3, from memory).
func density(dots int) []byte {
	const metre = 1 // the unit
	perMetre := uint32(math.Round(float64(dots) / 0.0254))
	chunk := binary.BigEndian.AppendUint32(nil, 9) // bytes between name and check sum
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, metre)
	return binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
}
