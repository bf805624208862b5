package chart

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/image/draw"
)

var (
	update = flag.Bool("update", false, "rewrite the golden pictures")
	keep   = flag.String("keep", "", "folder to write each golden case into at full size, to look at")
)

// A golden picture is kept at phone width, where it is looked at. It may differ
// by the smoothing of an edge, not by a letter.
const (
	phoneWidth   = 390
	mostMeanDiff = 0.2    // mean difference of a colour channel, of 255
	mostDiffer   = 0.0001 // share of pixels more than noticeable apart
	noticeable   = 24
)

func phone(t testing.TB, raw []byte) *image.RGBA {
	t.Helper()
	src, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	b := src.Bounds()
	dst := image.NewRGBA(image.Rect(0, 0, phoneWidth, b.Dy()*phoneWidth/b.Dx()))
	draw.CatmullRom.Scale(dst, dst.Rect, src, b, draw.Src, nil)
	return dst
}

// difference gives the mean absolute difference of the channels and the share of
// pixels that differ to the eye.
func difference(a, b *image.RGBA) (mean, share float64) {
	if a.Rect != b.Rect {
		return 255, 1
	}
	sum, apart := 0, 0
	for i := 0; i < len(a.Pix); i += 4 {
		worst := 0
		for k := i; k < i+3; k++ {
			d := int(a.Pix[k]) - int(b.Pix[k])
			d = max(d, -d)
			sum += d
			worst = max(worst, d)
		}
		if worst > noticeable {
			apart++
		}
	}
	pixels := float64(len(a.Pix) / 4)
	return float64(sum) / pixels / 3, float64(apart) / pixels
}

func flat(src image.Image) *image.RGBA {
	dst := image.NewRGBA(src.Bounds())
	draw.Draw(dst, dst.Rect, src, src.Bounds().Min, draw.Src)
	return dst
}

func keepCase(t *testing.T, name string, raw []byte) {
	t.Helper()
	if *keep == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*keep, strings.ReplaceAll(name, " ", "_")+".png"), raw, 0o644); err != nil {
		t.Fatal(err)
	}
}

func checkGolden(t *testing.T, name string, raw []byte) {
	t.Helper()
	keepCase(t, name, raw)
	// Both sides go through the same packing, which keeps the kept ones small.
	packed := paletted(phone(t, raw), 256)
	got := flat(packed)
	path := filepath.Join("testdata", name+".png")
	if *update {
		var out bytes.Buffer
		enc := png.Encoder{CompressionLevel: png.BestCompression}
		if err := enc.Encode(&out, packed); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	kept, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if mean, share := difference(got, flat(kept)); mean > mostMeanDiff || share > mostDiffer {
		t.Errorf("%s: mean difference %.2f of 255, %.1f %% of pixels differ; if meant, run with -update and look at it", name, mean, share*100)
	}
}

// The goldens are worth nothing if a changed figure passes.
func TestDifferenceSeesSmallChanges(t *testing.T) {
	if raceOn {
		t.Skip("pictures are drawn by one goroutine and take long under the race detector; the run without it draws them")
	}
	style := Style{Zone: zone(t, "Europe/Berlin")}
	draw := func(change func(*SmokeData)) *image.RGBA {
		d := goodDay(t)
		change(&d)
		raw, err := Smoke(d, style)
		if err != nil {
			t.Fatal(err)
		}
		return flat(paletted(phone(t, raw), 256))
	}
	same := draw(func(*SmokeData) {})
	for name, change := range map[string]func(*SmokeData){
		"a letter of the title": func(d *SmokeData) { d.Flavour = "junipen" },
		"a minute of the finish": func(d *SmokeData) {
			d.Pieces[1].Finish.Typical = d.Pieces[1].Finish.Typical.Add(time.Minute)
		},
		"one reading":   func(d *SmokeData) { d.Pit[4].Temp += 2 },
		"no wood added": func(d *SmokeData) { d.Events = d.Events[1:] },
	} {
		mean, share := difference(same, draw(change))
		if mean <= mostMeanDiff && share <= mostDiffer {
			t.Errorf("%s: mean difference %.4f, %.4f %% of pixels: would pass", name, mean, share*100)
		}
	}
}

// Pictures share no state: drawn at once they come out the same.
func TestPicturesAtOnce(t *testing.T) {
	d, style := goodDay(t), Style{Dark: true}
	want, err := Smoke(d, style)
	if err != nil {
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			if got, err := Smoke(d, style); err != nil || !bytes.Equal(got, want) {
				t.Errorf("another picture when drawn at once with others (%v)", err)
			}
		})
	}
	wait.Wait()
}

func TestGoldenPictures(t *testing.T) {
	if raceOn {
		t.Skip("pictures are drawn by one goroutine and take long under the race detector; the run without it draws them")
	}
	berlin := Style{Zone: zone(t, "Europe/Berlin")}
	dark := Style{Dark: true, Zone: berlin.Zone}
	chicago := Style{Fahrenheit: true, Inches: true, Clock12: true, Zone: zone(t, "America/Chicago")}
	for _, c := range []struct {
		name string
		draw func() ([]byte, error)
	}{
		{"smoke_good_day", func() ([]byte, error) { return Smoke(goodDay(t), berlin) }},
		{"smoke_hard_day_dark", func() ([]byte, error) { s := chicago; s.Dark = true; return Smoke(hardDay(t), s) }},
		{"calendar", func() ([]byte, error) { return Calendar(running(t), berlin) }},
		{"calendar_dark", func() ([]byte, error) { s := chicago; s.Dark = true; return Calendar(running(t), s) }},
		{"summary", func() ([]byte, error) { return Summary(finished(t), berlin) }},
		{"summary_dark", func() ([]byte, error) { s := chicago; s.Dark = true; return Summary(finished(t), s) }},
		{"progress", func() ([]byte, error) { return Progress(slabOf(38, false, 3, 5, 8), berlin) }},
		{"progress_rind_dark", func() ([]byte, error) {
			s := chicago
			s.Dark = true
			return Progress(slabOf(50.8, true, 6, 9, 14, 21), s)
		}},
		{"smoke_full_pit_dark", func() ([]byte, error) { return Smoke(fullPit(t), dark) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			raw, err := c.draw()
			if err != nil {
				t.Fatal(err)
			}
			checkGolden(t, c.name, raw)
		})
	}
}
