package record_test

import (
	"fmt"
	"math"

	"skep/calc/carbonation"
	"skep/calc/packaging"
	"skep/calc/record"
)

// packagings is what equal readings can have missed, containers and heat.
func packagings() []record.Row {
	const (
		tail   = "exponential tail, worked out"
		heated = "Carroll, Slupsky & Mather 1991, formula worked out"
	)
	beer, err := packaging.HeatedBarAbs(2.5, 60)
	if err != nil {
		beer = math.NaN()
	}
	var rows []record.Row
	halfLives := [...]float64{0.5, 1, 2, 3, 5, 7, 14, 30}
	for _, r := range [...]struct {
		gap    float64
		points [8]float64
	}{
		{1, [8]float64{0.33, 1.00, 2.41, 3.85, 6.73, 9.61, 19.7, 42.8}},
		{2, [8]float64{0.07, 0.33, 1.00, 1.70, 3.13, 4.57, 9.61, 21.1}},
		{3, [8]float64{0.02, 0.14, 0.55, 1.00, 1.94, 2.89, 6.24, 13.9}},
		{5, [8]float64{0.00, 0.03, 0.21, 0.46, 1.00, 1.56, 3.56, 8.17}},
		{7, [8]float64{0.00, 0.01, 0.10, 0.25, 0.61, 1.00, 2.41, 5.70}},
		{14, [8]float64{0.00, 0.00, 0.01, 0.04, 0.17, 0.33, 1.00, 2.62}},
	} {
		for i, published := range r.points {
			rows = append(rows, record.Row{
				Quantity: fmt.Sprintf("still to come after equal readings %v d apart, half-life %v d", r.gap, halfLives[i]), Unit: "points",
				Published: published, Source: tail, Ours: packaging.MissedPoints(1, r.gap, halfLives[i]), Tolerance: 0.005 + 0.003*published,
			})
		}
	}
	rows = append(rows,
		record.Row{Quantity: "CK-6: the same in gas, 3 d apart, half-life 3 d", Unit: "volumes", Published: 0.50, Source: tail, Ours: packaging.VolumesPerPoint * packaging.MissedPoints(1, 3, 3), Tolerance: 0.005},
		record.Row{Quantity: "CK-7: the same in gas, 7 d apart, half-life 14 d", Unit: "volumes", Published: 1.2, Source: tail, Ours: packaging.VolumesPerPoint * packaging.MissedPoints(1, 7, 14), Tolerance: 0.05},
		record.Row{Quantity: "CK-9: a forced fermentation foretells the end, one sd", Unit: "points", Published: 1.4 / 1.96 / 1.4142, Source: "EBC trial, Hagen and Schwarz 1999: R95 2.9 % at 12 °P = 1.4 points between two places", Ours: packaging.ForcedSDPoints, Tolerance: 0.5},
		record.Row{Quantity: "CK-10: soft-drink bottle of 4.5 volumes at 20 °C", Unit: "bar gauge", Published: 4.1, Source: "BS 6119-1:1981, design limit, and Carroll worked out", Ours: carbonation.PressureKPa(20, 4.5)/100 - 1.01325, Tolerance: 0.05},
		record.Row{Quantity: "the same at 40 °C", Unit: "bar gauge", Published: 7.4, Source: "the same", Ours: carbonation.PressureKPa(40, 4.5)/100 - 1.01325, Tolerance: 0.05},
		record.Row{Quantity: "CK-11: 4.5 volumes of beer at 20 °C, in glass by British code TEC 7", Unit: "bar gauge", Published: 4.7, Source: "British Glass, TEC 7 (read): the most", Ours: carbonation.BottleBarGauge(20, 4.5), Bound: record.AtMost},
		record.Row{Quantity: "CK-12: closed bottle of beer with 2.5 volumes heated to 60 °C", Unit: "bar absolute", Published: 6.81 / 0.945, Source: heated + ", and 0.945 of it by the charts printed for beer (CK-13 to CK-19)", Ours: beer, Tolerance: 0.01},
		record.Row{Quantity: "CK-8: warmth of a forced fermentation", Unit: "°C", Published: 20, Source: "MEBAK, limit of attenuation (read): 20 °C and more", Ours: packaging.ForcedC, Bound: record.AtLeast},
	)
	marked := 0.0
	for _, c := range packaging.Containers() {
		if c.Key == "marked" {
			marked = carbonation.BottleBarGauge(20, c.RatedVolumes)
		}
	}
	rows = append(rows, record.Row{Quantity: "marked glass at its class, 20 °C, against the most of British glass code TEC 7", Unit: "bar gauge", Published: 4.7, Source: "TEC 7, read (a limit: ours may be lower)", Ours: marked, Tolerance: 1.2})
	volumes := [...]float64{2, 2.5, 3, 4}
	for _, r := range [...]struct {
		c   float64
		bar [4]float64
	}{
		{50, [4]float64{4.59, 5.74, 6.88, 9.17}}, {55, [4]float64{5.02, 6.27, 7.53, 10.03}},
		{60, [4]float64{5.45, 6.81, 8.17, 10.89}}, {65, [4]float64{5.88, 7.35, 8.81, 11.74}},
	} {
		for i, bar := range r.bar {
			name := fmt.Sprintf("closed bottle of water with %v volumes heated to %v °C", volumes[i], r.c)
			if r.c == 60 && volumes[i] == 2.5 {
				name = "CK-12: " + name
			}
			rows = append(rows, record.Row{Quantity: name, Unit: "bar absolute", Published: bar, Source: heated, Ours: carbonation.PressureKPa(r.c, volumes[i]) / 100, Tolerance: 0.01})
		}
	}
	return rows
}
