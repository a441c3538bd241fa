//go:build browser

package main

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	imagedraw "image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
)

var pictures = flag.Bool("pictures", false, "write the pictures of the README anew")

// picturesFolder is where the README's pictures are.
const picturesFolder = demoFolder + "pictures"

// mostPicture is how large, in bytes, a picture of the README may be.
const mostPicture = 100_000

// grays are the shades that a picture is kept in: the pages are black on white,
// and so many shades keep the edges of letters smooth.
const grays = 16

// The pictures of the README are of the pages as they are: written by
//
//	go test ./cmd/fullfree -run TestReadmePictures -pictures
//
// and looked at by whoever writes them. They depend on the machine's fonts, so
// nothing compares them; that they are there, and small, is tested.
func TestReadmePictures(t *testing.T) {
	folder, err := filepath.Abs(picturesFolder)
	require.NoError(t, err)
	unequal := demoText(t, demo.Unequal)
	t.Chdir(demoFolder) // the pages tell the file as it was named
	for _, picture := range []struct {
		name          string
		width, height int64
		show          func(b *tab)
	}{
		{"report.png", 400, 860, func(b *tab) {
			b.openBook(bookOf(t, "pedals.hcl"))
			b.slide(-18)
		}},
		{"sheet.png", 400, 860, func(b *tab) {
			b.openBook(bookOf(t, "pedals.hcl"))
			found[any](b, `document.querySelector(".sheet").scrollIntoView()`)
		}},
		{"page.png", 1040, 760, func(b *tab) {
			b.openWorkbench(serveWorkbench(t, unequal))
			for range 3 {
				b.click(endButton("in", "right-link.from"))
			}
			b.until(headline + `.includes("HOLDS")`)
			b.settle()
			found[any](b, `scrollTo(0, 0)`)
		}},
		{"measure.png", 400, 860, func(b *tab) {
			b.openPage(onePage(t))
			h := hands{b, true}
			b.tap(`.tabs > [data-part="measure"]`)
			h.nameParts()
			seen := h.showPhoto()
			h.hold("flap.horn", seen["flap.horn"])
		}},
	} {
		path := filepath.Join(folder, picture.name)
		if *pictures {
			b := newTab(t, picture.width)
			b.do(chromedp.EmulateViewport(picture.width, picture.height))
			picture.show(b)
			shot, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(path, inGrays(t, shot), 0o644))
		}
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Less(t, info.Size(), int64(mostPicture), picture.name)
	}
}

// inGrays is a picture in few shades, which takes little room.
func inGrays(t *testing.T, shot []byte) []byte {
	t.Helper()
	from, err := png.Decode(bytes.NewReader(shot))
	require.NoError(t, err)
	var shades color.Palette
	for i := range grays {
		shades = append(shades, color.Gray{uint8(i * 255 / (grays - 1))})
	}
	to := image.NewPaletted(from.Bounds(), shades)
	imagedraw.Draw(to, to.Bounds(), from, from.Bounds().Min, imagedraw.Src)
	var out bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, to))
	return out.Bytes()
}
