package drainplan

import (
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/plan"
)

const heronFlat = "../harvestday/heronflat"

// The whole night's plan and this package's drawdown read one folder: the odds
// without any doubt must be ready at the same minute.
func TestAgreesWithTheWholePlan(t *testing.T) {
	in, _, err := farm.Read(os.DirFS(heronFlat))
	if err != nil {
		t.Fatal(err)
	}
	in.Outlet.Doubt, in.Tide.Doubt, in.Tide.RangeDoubt, in.Pond.AreaDoubt = 0, 0, 0, 0
	odds, err := plan.Likelihood(in, []time.Time{in.Night.Opening}, plan.OddsOptions{Draws: 100})
	if err != nil {
		t.Fatal(err)
	}
	n, err := Compose(in)
	if err != nil {
		t.Fatal(err)
	}
	r, err := n.Plan.Run()
	if err != nil {
		t.Fatal(err)
	}
	if d := r.Ready.Sub(odds[0].P50).Abs(); d > time.Second || !r.Reached {
		t.Errorf("ready at %v, the whole plan says %v", r.Ready, odds[0].P50)
	}
	if n.OutletSD != 0 {
		t.Errorf("no doubt, but outlet SD %v", n.OutletSD)
	}
}

// Losses K in a full pipe pass a flow that goes as one over the root of K plus
// friction: a fifth more K takes between nothing and a tenth of the flow.
func TestOutletDoubt(t *testing.T) {
	n, err := Open(heronFlat)
	if err != nil {
		t.Fatal(err)
	}
	if most := math.Log(1.2) / 2; !(n.OutletSD > 0 && n.OutletSD < most) {
		t.Errorf("outlet SD %v, want between 0 and %v", n.OutletSD, most)
	}
}

func TestBadFolder(t *testing.T) {
	if _, err := Open("nowhere"); err == nil || !strings.Contains(err.Error(), "nowhere is not a folder") {
		t.Errorf("got %v", err)
	}
	if _, err := Compose(plan.Input{}); err == nil || !strings.Contains(err.Error(), "place.zone") {
		t.Errorf("got %v", err)
	}
}

func TestClockAfter(t *testing.T) {
	zone := time.FixedZone("UTC+07:00", 7*3600)
	from := time.Date(2027, 3, 14, 17, 0, 0, 0, zone)
	for in, want := range map[string]string{"17:00": "2027-03-14 17:00", "18:30": "2027-03-14 18:30", "03:00": "2027-03-15 03:00"} {
		got, err := ClockAfter(in, from)
		if err != nil || got.Format("2006-01-02 15:04") != want {
			t.Errorf("%s: %v %v, want %s", in, got, err, want)
		}
	}
	for _, bad := range []string{"", "24:00", "3 pm"} {
		if _, err := ClockAfter(bad, from); err == nil {
			t.Errorf("%q was read as a time", bad)
		}
	}
	if At(time.Time{}) != "-" || At(from) != "Sun 17:00" {
		t.Error("At", At(from))
	}
}

// No miss in 100 draws leaves up to 1 - 0.025^(1/100) = 3.6 %.
func TestShare(t *testing.T) {
	for _, c := range []struct {
		share float64
		n     int
		want  string
	}{{0, 100, "0 % (0-4)"}, {1, 100, "100 % (96-100)"}, {0.5, 10, "50 % (18-82)"}} {
		if got := Share(c.share, c.n); got != c.want {
			t.Errorf("Share(%v, %d) = %q, want %q", c.share, c.n, got, c.want)
		}
	}
}

func TestFold(t *testing.T) {
	text := strings.Repeat("word 5 % ", 60) + "end"
	folded := Fold(text, "  ")
	for line := range strings.Lines(folded) {
		if len(line) > columns+1 {
			t.Errorf("%d columns: %q", len(line), line)
		}
		if strings.HasPrefix(strings.TrimSpace(line), "%") {
			t.Errorf("broken before a per cent sign: %q", line)
		}
	}
	if strings.Join(strings.Fields(folded), " ") != strings.TrimSpace(text) {
		t.Error("folding lost words")
	}
}
