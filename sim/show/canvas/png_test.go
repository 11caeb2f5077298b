package canvas

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A PNG tells its dots to the metre in a chunk of nine bytes before its pixels (ISO/IEC
// 15948, 11.3.5.3, from memory), and has as many as its size asks for: 127 mm are 5 inches.
func TestPixelDensity(t *testing.T) {
	for dots, perMetre := range map[int]uint32{Screen: 3780, Print: 11811, 254: 10000} {
		var b bytes.Buffer
		if err := (Form{Format: "png", Dots: dots}).Write(&b, 127*vg.Millimeter, 50.8*vg.Millimeter, func(draw.Canvas) {}); err != nil {
			t.Fatal(err)
		}
		data := b.Bytes()
		found := false
		for at := 8; at < len(data); {
			size := int(binary.BigEndian.Uint32(data[at:]))
			name, body := string(data[at+4:at+8]), data[at+8:at+8+size]
			if sum := binary.BigEndian.Uint32(data[at+8+size:]); sum != crc32.ChecksumIEEE(data[at+4:at+8+size]) {
				t.Errorf("%s: check sum %x", name, sum)
			}
			if name == "IDAT" && !found {
				t.Errorf("%d dots: pixels before their density", dots)
			}
			if name == "pHYs" {
				found = true
				if x, y := binary.BigEndian.Uint32(body), binary.BigEndian.Uint32(body[4:]); size != 9 || x != perMetre || y != perMetre || body[8] != 1 {
					t.Errorf("%d dots: %v", dots, body)
				}
			}
			at += 12 + size
		}
		picture, err := png.Decode(&b)
		if err != nil || picture.Bounds().Dx() != 5*dots || picture.Bounds().Dy() != 2*dots || !found {
			t.Errorf("%d dots: %v, %v", dots, picture.Bounds(), err)
		}
	}
}
