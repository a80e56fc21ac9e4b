package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Bands outside which a plan draws attention to itself. All three are common
// practice without a source.
const (
	usualRatioLow  = 0.25 // kg of ice ordered per kg of product
	usualRatioHigh = 1.2
	largeShare     = 0.20 // of the melt, for make-up water; 0.30 for the leak
	largeLeak      = 0.30
	longHold       = 72 * time.Hour
)

// Crop is the mass of product expected, as three quantiles of one distribution.
type Crop struct {
	P10 units.Mass `json:"p10"` // one crop in ten is smaller
	P50 units.Mass `json:"p50"`
	P90 units.Mass `json:"p90"` // one crop in ten is larger
}

// Plan is the ice for a crop of uncertain size.
type Plan struct {
	Low     Balance        `json:"low"`    // at the P10 crop
	Median  Balance        `json:"median"` // at the P50 crop
	High    Balance        `json:"high"`   // at the P90 crop
	Order   units.Mass     `json:"order"`  // High.Order
	Check   CrossCheck     `json:"check"`
	Notices []units.Notice `json:"notices"`
}

// Validate reports every quantile that is not a mass or is out of order.
func (c Crop) Validate() error {
	const fn = "icing.Crop"
	err := errors.Join(
		bounds.Positive(fn, "p10", float64(c.P10), "kg"),
		bounds.Positive(fn, "p50", float64(c.P50), "kg"),
		bounds.Positive(fn, "p90", float64(c.P90), "kg"))
	if err != nil {
		return err
	}
	if c.P10 > c.P50 || c.P50 > c.P90 {
		return &units.InputError{Func: fn, Field: "p50", Value: float64(c.P50), Unit: "kg",
			Min: float64(c.P10), Max: float64(c.P90), Reason: "quantiles must rise: P10, P50, P90"}
	}
	return nil
}

// Plan returns the ice balance at the three crops and orders at P90: ice that
// runs out loses fish, ice left over costs only ice. The load's own Product is
// ignored. perContainer, when not zero, is the product that goes into one
// container and sets the number of containers of each crop; zero keeps the
// load's Containers.
//
// The balance is linear in the product apart from the step of one container, so
// a quantile of the crop gives the same quantile of the ice, all else fixed.
func (l Load) Plan(c Crop, perContainer units.Mass) (Plan, error) {
	err := errors.Join(units.AtField("crop", c.Validate()),
		bounds.Amount("icing.Load.Plan", "perContainer", float64(perContainer), "kg"))
	if err != nil {
		return Plan{}, err
	}
	var p Plan
	for _, at := range []struct {
		crop units.Mass
		into *Balance
	}{{c.P10, &p.Low}, {c.P50, &p.Median}, {c.P90, &p.High}} {
		l.Product = at.crop
		if perContainer > 0 {
			n := math.Ceil(float64(at.crop) / float64(perContainer))
			if err := units.Within("icing.Load.Plan", "perContainer", n, 0, 1e6, "containers"); err != nil {
				return Plan{}, err
			}
			l.Containers = int(n)
		}
		if *at.into, err = l.Balance(); err != nil {
			return Plan{}, err
		}
	}
	p.Order = p.High.Order
	l.Product = c.P50
	s, err := l.check()
	if err != nil {
		return Plan{}, err
	}
	p.Check = l.crossCheck(s)
	p.Notices = l.notices(s, p)
	return p, nil
}

// notices collects what the reader of a plan must know.
func (l Load) notices(s loadState, p Plan) []units.Notice {
	var out []units.Notice
	add := func(n units.Notice) { out = append(out, n) }
	if l.ProductSpecificHeat == 0 {
		add(units.Notice{Code: CodeSpecificHeat, Severity: units.Info, Field: "productSpecificHeat",
			Value: s.cp / 1e3, Limit: s.cp / 1e3, Unit: "kJ/(kg K)",
			Message: "specific heat of the product is assumed; the ice for the chill scales with it",
			Source:  "Choi & Okos (1986) for 0.72 to 0.80 water, rounded"})
	}
	m := p.Median
	if m.Ratio < usualRatioLow || m.Ratio > usualRatioHigh {
		limit := usualRatioLow
		if m.Ratio > usualRatioHigh {
			limit = usualRatioHigh
		}
		add(units.Notice{Code: CodeRatioUnusual, Severity: units.Caution, Field: "median.ratio",
			Value: m.Ratio, Limit: limit,
			Message: fmt.Sprintf("%.2f kg of ice per kg of product is outside the usual %.2f to %.1f: check temperatures, water and hours", m.Ratio, usualRatioLow, usualRatioHigh),
			Source:  "common practice, no source"})
	}
	if m.Melt > 0 {
		if share := float64(m.MakeUp) / float64(m.Melt); share > largeShare {
			add(units.Notice{Code: CodeMakeUpShare, Severity: units.Info, Field: "makeUpWater",
				Value: share, Limit: largeShare,
				Message: fmt.Sprintf("%.0f %% of the melt cools the tank's own water whatever the catch: start with less or colder water", 100*share)})
		}
		if share := float64(m.Leak) / float64(m.Melt); share > largeLeak {
			add(units.Notice{Code: CodeLeakShare, Severity: units.Caution, Field: "conductance",
				Value: share, Limit: largeLeak,
				Message: fmt.Sprintf("%.0f %% of the melt is heat through the walls: shade, insulate or shorten the hold", 100*share)})
		}
	}
	if l.Hold > longHold {
		add(units.Notice{Code: CodeHoldLong, Severity: units.Warning, Field: "hold",
			Value: l.Hold.Hours(), Limit: longHold.Hours(), Unit: "h",
			Message: "beyond three days re-icing, not one charge of ice, decides the quality; the balance assumes one charge",
			Source:  "common practice, no source"})
	}
	add(units.Notice{Code: CodeOrderAtMedian, Severity: units.Info, Field: "order",
		Value: float64(p.High.Order), Limit: float64(m.Order), Unit: "kg",
		Message: fmt.Sprintf("ordered for the P90 crop; the P50 crop would need %.0f kg", float64(m.Order))})
	if rule := p.Check.RuleOfThumb; rule > 0 && m.Chill > 0 {
		if got := m.ChillRatio; got < 0.8*rule {
			add(units.Notice{Code: CodeRatioRule, Severity: units.Caution, Field: "median.chillRatio",
				Value: got, Limit: rule,
				Message: "ice for the chill alone is more than 20 % below the trade's 0.0114 kg per kg and °C",
				Source:  "common practice; equals 3.8 kJ/(kg K) over 333.5 kJ/kg"})
		}
	}
	return out
}
