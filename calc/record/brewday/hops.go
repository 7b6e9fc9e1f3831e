package brewday

import (
	"fmt"

	"skep/calc/boil"
	"skep/calc/record"
)

const (
	tinseth   = "G. Tinseth's table, as posted by home brewers"
	palmer    = "J. Palmer, How to Brew, ch. 5.5"
	malowicki = "Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434"
	hosom10   = "J.-P. Hosom, article 10, table 1"
	hosom13   = "J.-P. Hosom, article 13, table 3, week 3"
	hosom16   = "J.-P. Hosom, article 16, table"
)

// tinsethTable is every row read, SG 1.030 to 1.130 by 0.010.
var tinsethTable = [...]struct {
	minutes float64
	u       [11]float64
}{
	{0, [11]float64{}},
	{3, [11]float64{.034, .031, .029, .026, .024, .022, .020, .018, .017, .015, .014}},
	{6, [11]float64{.065, .059, .054, .049, .045, .041, .038, .035, .032, .029, .026}},
	{12, [11]float64{.116, .106, .097, .088, .081, .074, .068, .062, .056, .052, .047}},
	{15, [11]float64{.137, .125, .114, .105, .096, .087, .080, .073, .067, .061, .056}},
	{18, [11]float64{.156, .142, .130, .119, .109, .099, .091, .083, .076, .069, .063}},
	{24, [11]float64{.187, .171, .157, .143, .131, .120, .109, .100, .091, .083, .076}},
	{30, [11]float64{.212, .194, .177, .162, .148, .135, .124, .113, .103, .094, .086}},
	{33, [11]float64{.223, .203, .186, .170, .155, .142, .130, .119, .108, .099, .091}},
}

// Hops is utilisation, isomerisation and measured bitterness.
func Hops() []record.Row {
	var rows []record.Row
	for _, r := range tinsethTable {
		for i, u := range r.u {
			sg := 1.03 + 0.01*float64(i)
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("utilisation, %v min at SG %.3f", r.minutes, sg), Unit: "share", Published: u, Source: tinseth, Ours: boil.TinsethUtilisation(r.minutes, sg), Tolerance: 0.0005})
		}
	}
	const ounceG, gallonsL = 28.349523, 5 * 3.785412
	first := boil.Steep{AlphaPct: 6.4, MassG: 1.5 * ounceG, VolumeL: gallonsL, WortSG: 1.080}
	second := boil.Steep{AlphaPct: 4.6, MassG: ounceG, VolumeL: gallonsL, WortSG: 1.080}
	rows = append(rows,
		record.Row{Quantity: "1.5 oz of 6.4 % for 60 min in 5 US gal of 1.080", Unit: "IBU", Published: 25, Source: palmer, Ours: boil.IBU(first, 60, 100), Tolerance: 0.5},
		record.Row{Quantity: "1 oz of 4.6 % for 15 min in the same", Unit: "IBU", Published: 6, Source: palmer, Ours: boil.IBU(second, 15, 100), Tolerance: 0.5},
		record.Row{Quantity: "utilisation, 30 min at SG 1.057", Unit: "share", Published: 0.166, Source: palmer, Ours: boil.TinsethUtilisation(30, 1.057), Tolerance: 0.0005})
	rows = append(rows, isomerisation()...)
	return append(rows, measured()...)
}

func isomerisation() []record.Row {
	at := func(c, minutes float64) float64 { return boil.Isomerise(c, minutes).Iso }
	const hosom10text, hosom13text = "J.-P. Hosom, article 10", "J.-P. Hosom, article 13"
	rows := []record.Row{
		{Quantity: "isomerisation rate at 100 °C", Unit: "1/min", Published: 0.01249, Source: hosom10text, Ours: boil.IsoRate(100), Tolerance: 1e-5},
		{Quantity: "isomerisation rate at 92 °C", Unit: "1/min", Published: 0.00622, Source: hosom10text, Ours: boil.IsoRate(92), Tolerance: 2e-5},
		{Quantity: "iso-alpha after 30 min at 100 °C", Unit: "share", Published: 0.2976, Source: hosom10text, Ours: at(100, 30), Tolerance: 1e-4},
		{Quantity: "iso-alpha after 30 min at 198 °F", Unit: "share", Published: 0.1696, Source: hosom10text, Ours: at((198-32)/1.8, 30), Tolerance: 2e-4},
		{Quantity: "iso-alpha of 26.9 min over that of 12.0 min, 100 °C", Unit: "ratio", Published: 2.0, Source: hosom13text, Ours: at(100, 26.9) / at(100, 12), Tolerance: 0.005},
		{Quantity: "iso-alpha of 19.0 min over that of 12.0 min, 100 °C", Unit: "ratio", Published: 1.5, Source: hosom13text, Ours: at(100, 19) / at(100, 12), Tolerance: 0.005},
		{Quantity: "iso-alpha of 19 min at 62.8 °C over that at 100 °C", Unit: "ratio", Published: 0.034, Source: hosom13text, Ours: at(62.8, 19) / at(100, 19), Tolerance: 0.0005},
	}
	for _, r := range [...]struct {
		c, left30, left60, left90 float64
		iso                       [5]float64 // 10, 20, 30, 60, 90 min
	}{
		{60, .9918, .9836, .9755, [5]float64{.0027, .0055, .0082, .0163, .0244}},
		{65, .9861, .9724, .9590, [5]float64{.0046, .0093, .0139, .0275, .0409}},
		{70, .9770, .9545, .9325, [5]float64{.0077, .0154, .0230, .0453, .0670}},
		{75, .9625, .9263, .8916, [5]float64{.0127, .0251, .0374, .0731, .1072}},
		{80, .9399, .8835, .8304, [5]float64{.0204, .0403, .0597, .1150, .1663}},
		{85, .9057, .8204, .7430, [5]float64{.0323, .0634, .0932, .1757, .2485}},
		{90, .8554, .7317, .6259, [5]float64{.0504, .0977, .1420, .2585, .3534}},
		{95, .7840, .6146, .4819, [5]float64{.0772, .1468, .2097, .3623, .4708}},
		{100, .6875, .4726, .3249, [5]float64{.1156, .2141, .2976, .4759, .5745}},
		{110, .4237, .1795, .0760, [5]float64{.2392, .4012, .5066, .6172, .5814}},
		{130, .0185, .0003, .0000, [5]float64{.5762, .5341, .3941, .1218, .0355}},
	} {
		source := malowicki + ", constants worked out"
		for i, minutes := range [...]float64{10, 20, 30, 60, 90} {
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("iso-alpha after %v min at %v °C", minutes, r.c), Unit: "share", Published: r.iso[i], Source: source, Ours: at(r.c, minutes), Tolerance: 1e-4})
		}
		for i, left := range [...]float64{r.left30, r.left60, r.left90} {
			minutes := 30 * float64(i+1)
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("alpha left after %v min at %v °C", minutes, r.c), Unit: "share", Published: left, Source: source, Ours: boil.Isomerise(r.c, minutes).AlphaLeft, Tolerance: 1e-4})
		}
	}
	return rows
}

// measured is bitterness by a laboratory.
func measured() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ g, l, sg, alphaMgL, ibu float64 }{
		{20.98, 6.13, 1.0550, 277.1, 24.15}, {31.47, 6.13, 1.0550, 415.6, 31.0},
		{41.96, 6.25, 1.0540, 544.1, 38.8}, {52.45, 6.09, 1.0555, 697.0, 45.7},
	} {
		s := boil.Steep{AlphaPct: r.alphaMgL * r.l / r.g / 10, MassG: r.g, VolumeL: r.l, WortSG: r.sg}
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("bitterness of 12 min with %.0f mg/L of alpha acid", r.alphaMgL), Unit: "IBU", Published: r.ibu, Source: hosom13, Ours: boil.IBU(s, 12, 100), Tolerance: 0.05 * r.ibu, Verdict: Fitted, Why: "what alpha beyond 260 mg/L counts for is fitted to these"})
	}
	for _, r := range [...]struct{ c, sg, l, ibu float64 }{
		{100, 1.0658, 4.47, 33.3}, {92.7, 1.0645, 4.54, 28.9}, {88.4, 1.0645, 4.66, 30.8}, {85.2, 1.0641, 4.69, 25.5},
	} {
		row := record.Row{
			Quantity: fmt.Sprintf("bitterness of 10 min with 45.36 g of 5.75 %% hops at %v °C", r.c), Unit: "IBU", Published: r.ibu, Source: hosom10,
			Ours:      boil.IBU(boil.Steep{AlphaPct: 5.75, MassG: 45.36, VolumeL: r.l, WortSG: r.sg}, 10, r.c),
			Tolerance: 0.1 * r.ibu,
		}
		switch r.c {
		case 100: // free of the stands' constants
		case 88.4:
			row.Why = "the laboratory found more at 88.4 than at 92.7 °C; no curve that falls with temperature meets both"
		default:
			row.Verdict, row.Why = Fitted, "what does not come of heat is fitted to these"
		}
		rows = append(rows, row)
	}
	return rows
}

// Cooling is open kettles after flame-out, 15 minutes, room 13 °C.
func Cooling() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ l, cm2, cover, measured float64 }{
		{3.9, 1083.80, 0, 61.7}, {7.8, 710.33, 0, 78.4}, {7.8, 457.30, 0, 84.2}, {11.7, 710.33, 0, 83.9},
		{11.7, 1083.80, 0, 78.6}, {15.6, 710.33, 0, 86.8}, {15.6, 1083.80, 0, 81.8}, {15.6, 1083.80, 0, 82.8},
		{23.4, 1083.80, 0, 87.6}, {27.3, 1083.80, 0, 89.0}, {31.2, 1083.80, 0, 88.9},
		{15.4, 710.33, 25, 87.3}, {15.4, 710.33, 50, 88.2}, {15.5, 710.33, 75, 89.7},
		{23.4, 1083.80, 50, 87.8}, {31.2, 1083.80, 50, 90.8}, {31.2, 1083.80, 75, 92.4},
	} {
		k := boil.Kettle{VolumeL: r.l, SurfaceCM2: r.cm2, OpeningPct: 100 - r.cover, RoomC: 13}
		row := record.Row{Quantity: fmt.Sprintf("%v L, %v cm², %v %% covered, 15 min after the boil", r.l, r.cm2, r.cover), Unit: "°C", Published: r.measured, Source: hosom16, Ours: k.Cool(100, 15), Tolerance: 1.9, Why: "tolerance: the worst error of the source's own formula"}
		if r.cover == 0 {
			row.Verdict, row.Tolerance, row.Why = Fitted, 1.5, "two constants of our heat loss are fitted to the open kettles"
		}
		rows = append(rows, row)
	}
	k := boil.Kettle{VolumeL: 15.6, SurfaceCM2: 1083.80, OpeningPct: 100, RoomC: 13}
	warm := k
	warm.RoomC = 33
	rows = append(rows, record.Row{Quantity: "what a room 20 °C warmer adds after 15 min, 15.6 L", Unit: "°C", Published: 1.0, Source: "J.-P. Hosom, article 16", Ours: warm.Cool(100, 15) - k.Cool(100, 15), Tolerance: 0.2})
	const maker = "a heat-exchanger maker's page, worked out"
	rows = append(rows, record.Row{Quantity: "mean temperature difference, wort 95 to 20 °C against water 15 to 60", Unit: "K", Published: 15.417, Source: maker, Ours: boil.LMTD(35, 5), Tolerance: 0.001})
	for _, r := range [...][3]float64{{1, 1, .5}, {2, 1, .6667}, {3, 1, .75}, {2, .5, .7746}, {3, .5, .8744}, {5, .5, .9572}, {3, .75, .8171}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("counterflow effectiveness, %v transfer units, capacity ratio %v", r[0], r[1]), Unit: "share", Published: r[2], Source: maker, Ours: boil.Effectiveness(r[0], r[1]), Tolerance: 1e-4})
	}
	return rows
}
