package canvas

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Frame is one of the pictures of a film.
type Frame struct {
	Draw func(draw.Canvas)
	For  int // how many times as long as the others it is shown; 0: once
}

// Film is pictures of one size that are shown in turn, over and over.
type Film struct {
	Frames []Frame
	Each   time.Duration
	Ground func(draw.Canvas) // what stays behind them all; nil: nothing
	Rest   int               // the frame that is shown where nothing moves: on paper, or to who asks for less motion
}

// Film writes a film as one SVG that moves by its style sheet alone, without a script; while
// somebody points at it, it stands. It fails as Write does, for another format, without a
// frame to rest at, and for frames that are shown for no time.
func (f Form) Film(w io.Writer, width, height vg.Length, m Film) error {
	if f.Format != "svg" {
		return fmt.Errorf("a picture of format %s does not move; want svg", f.Format)
	}
	if !(width > 0 && height > 0) || m.Rest < 0 || m.Rest >= len(m.Frames) || m.Each <= 0 {
		return errors.New("there is nothing to show: a film takes at least one frame, some time and a frame to rest at")
	}
	head, ground, err := f.parts(width, height, m.Ground)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.Write(head)
	b.WriteString(m.style())
	b.Write(ground)
	all, at := m.long(), 0
	for i, frame := range m.Frames {
		_, body, err := f.parts(width, height, frame.Draw)
		if err != nil {
			return err
		}
		shown := `class="frame" visibility="hidden"`
		if i == m.Rest {
			shown = `class="frame rest"`
		}
		fmt.Fprintf(&b, `<g %s style="animation-name:for%d;animation-delay:%.2fs">`+"\n", shown, frame.times(), (time.Duration(at-all) * m.Each).Seconds())
		b.Write(body)
		b.WriteString("</g>\n")
		at += frame.times()
	}
	b.WriteString("</svg>\n")
	_, err = w.Write(b.Bytes())
	return err
}

func (f *Frame) times() int { return max(f.For, 1) }

// long is how many times that of a frame the film takes.
func (m *Film) long() (sum int) {
	for i := range m.Frames {
		sum += m.Frames[i].times()
	}
	return sum
}

// style is the sheet by which frames are shown and hidden. Where it is not read, or no motion
// is wanted, the attributes of the frames leave one of them.
func (m *Film) style() string {
	var s strings.Builder
	all := m.long()
	s.WriteString("<style>\n.rest{visibility:visible}\n@media (prefers-reduced-motion:no-preference){\n")
	fmt.Fprintf(&s, ".frame{visibility:hidden;animation:%.2fs step-end infinite}\n", (time.Duration(all) * m.Each).Seconds())
	s.WriteString("svg:hover .frame{animation-play-state:paused}\n}\n")
	var times []int
	for i := range m.Frames {
		times = append(times, m.Frames[i].times())
	}
	slices.Sort(times)
	for _, n := range slices.Compact(times) {
		fmt.Fprintf(&s, "@keyframes for%d{0%%{visibility:visible}%.4g%%,100%%{visibility:hidden}}\n", n, 100*float64(n)/float64(all))
	}
	s.WriteString("</style>\n")
	return s.String()
}

// parts are the head of a page as SVG, and what is drawn on it.
func (f Form) parts(width, height vg.Length, fill func(draw.Canvas)) (head, body []byte, err error) {
	svg, err := pageSVG(width, height, func(c vg.Canvas) {
		if fill != nil {
			f.fill(c, width, height, fill)
		}
	})
	from, to := bytes.Index(svg, []byte("<g ")), bytes.LastIndex(svg, []byte("</svg>"))
	if err == nil && (from < 0 || to < from) {
		err = errors.New("a page as SVG has no group") // gonum draws all in one
	}
	if err != nil {
		return nil, nil, err
	}
	return svg[:from], svg[from:to], nil
}
