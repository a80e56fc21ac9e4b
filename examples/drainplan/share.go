package drainplan

import (
	"fmt"
	"math"

	"pondwright.example/biomass"
)

// Share writes a share found in n draws with the interval that sampling leaves,
// nineteen times in twenty: 35 % (30-41). Unlike a standard error the interval
// does not shrink to nothing where no draw, or every draw, is a miss.
func Share(share float64, n int) string {
	low, high, err := biomass.BinomialInterval(int(math.Round(share*float64(n))), n, 0.95, biomass.ClopperPearson1934)
	if err != nil {
		return fmt.Sprintf("%.0f %%", 100*share)
	}
	return fmt.Sprintf("%.0f %% (%.0f-%.0f)", 100*share, math.Floor(100*low), math.Ceil(100*high))
}
