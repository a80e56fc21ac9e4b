package icing

import (
	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// coolingRows run the tables of bodies, balances and baths.
var coolingRows = map[string]func(check.Row) (float64, error){
	"Root": func(r check.Row) (float64, error) {
		return Root(shapeOf(r), r.Float("biot_1"), int(r.Float("index_1")))
	},
	"Amplitude": func(r check.Row) (float64, error) {
		return Amplitude(shapeOf(r), r.Float("biot_1"), int(r.Float("index_1")))
	},
	"Theta": func(r check.Row) (float64, error) {
		return Theta(shapeOf(r), r.Float("biot_1"), r.Float("fourier_1"), r.Float("position_1"))
	},
	"MeanTheta": func(r check.Row) (float64, error) {
		return MeanTheta(shapeOf(r), r.Float("biot_1"), r.Float("fourier_1"))
	},
	"FiniteCylinder.Theta": func(r check.Row) (float64, error) {
		return finiteCylinder(r).Theta(secondsOf(r.Float("time_s")), r.Float("radial_1"), r.Float("axial_1"))
	},
	"FiniteCylinder.MeanTheta": func(r check.Row) (float64, error) {
		return finiteCylinder(r).MeanTheta(secondsOf(r.Float("time_s")))
	},
	"Brick.Theta": func(r check.Row) (float64, error) {
		return brickOf(r).Theta(secondsOf(r.Float("time_s")))
	},
	"Body.CoreTime": func(r check.Row) (float64, error) {
		d, err := bodyOf(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"Body.Biot":    func(r check.Row) (float64, error) { return bodyOf(r).Biot() },
	"Body.Fourier": func(r check.Row) (float64, error) { return bodyOf(r).Fourier(secondsOf(r.Float("time_s"))) },
	"Body.Core": func(r check.Row) (float64, error) {
		v, err := bodyOf(r).Core(celsius(r, "start_c"), celsius(r, "medium_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Body.Mean": func(r check.Row) (float64, error) {
		v, err := bodyOf(r).Mean(celsius(r, "start_c"), celsius(r, "medium_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Body.MeanTime": func(r check.Row) (float64, error) {
		d, err := bodyOf(r).MeanTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"FiniteCylinder.CoreTime": func(r check.Row) (float64, error) {
		d, err := finiteCylinder(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"Brick.CoreTime": func(r check.Row) (float64, error) {
		d, err := brickOf(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"ThicknessForMass": func(r check.Row) (float64, error) {
		d, err := ThicknessForMass(units.Length(r.Float("half_m")), units.Mass(r.Float("mass1_kg")), units.Mass(r.Float("mass2_kg")))
		return float64(d), err
	},
	"Ice.Cooling": func(r check.Row) (float64, error) {
		q, err := iceOf(r).Cooling(celsius(r, "final_c"), units.SpecificHeat(optional(r, "water_cp_j_per_kgk", 0)))
		return float64(q), err
	},
	"Load.Balance": func(r check.Row) (float64, error) {
		b, err := loadOf(r).Balance()
		v, ok := map[string]float64{"heat_j": float64(b.Heat), "melt_kg": float64(b.Melt), "order_kg": float64(b.Order),
			"chill_kg": float64(b.Chill), "carried_kg": float64(b.Carried), "makeup_kg": float64(b.MakeUp), "leak_kg": float64(b.Leak),
			"leak_j": float64(b.Leak) * float64(b.Cooling), "ratio_1": b.Ratio}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"ChillRatio": func(r check.Row) (float64, error) {
		v, err := ChillRatio(units.SpecificHeat(r.Float("cp_j_per_kgk")), celsius(r, "start_c"), celsius(r, "end_c"), units.SpecificEnergy(r.Float("latent_j_per_kg")))
		if r.Has("inverse") && r.Text("inverse") == "yes" {
			v = 1 / v
		}
		return v * optional(r, "times_1", 1), err
	},
	"Equilibrium": func(r check.Row) (float64, error) {
		e, err := Equilibrium(bathOf(r))
		v, ok := map[string]float64{"final_c": e.Temperature.Kelvins() - zeroCelsius, "melted_kg": float64(e.Melted), "left_kg": float64(e.IceLeft)}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"Bath.Capacity": func(r check.Row) (float64, error) {
		b, p := bathOf(r)
		v, err := b.Capacity(p, celsius(r, "final_c"))
		return float64(v), err
	},
	"TwoLumps": func(r check.Row) (float64, error) {
		c1 := units.HeatCapacity(r.Float("product_kg") * r.Float("product_cp_j_per_kgk"))
		c2 := units.HeatCapacity(r.Float("water_kg") * r.Float("water_cp_j_per_kgk"))
		v, _, err := TwoLumps(c1, c2, units.ThermalConductance(r.Float("ua_w_per_k")), celsius(r, "product_c"), celsius(r, "water_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Body.HalfDimensionFor": func(r check.Row) (float64, error) {
		b := Body{Shape: shapeOf(r), Conductivity: units.ThermalConductivity(r.Float("k_w_per_mk")), Diffusivity: units.Diffusivity(r.Float("a_m2_per_s")),
			Film: units.HeatTransferCoefficient(r.Float("film_w_per_m2k"))}
		h, err := b.HalfDimensionFor(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"), secondsOf(r.Float("time_s")))
		return float64(h), err
	},
}
