package reckon

import (
	"skep/calc/density"
	"skep/calc/water"
)

func salt(key string) Field {
	return number(key, "g", 0, 1000, "more no longer tastes of beer", "").orElse("0")
}

func salts(a *args) []float64 {
	i := water.Salts{
		GypsumG: a.num("gypsum_g"), CalciumChlorideG: a.num("calcium_chloride_g"), EpsomG: a.num("epsom_g"),
		TableSaltG: a.num("table_salt_g"), BakingSodaG: a.num("baking_soda_g"), ChalkG: a.num("chalk_g"),
	}.Ions(a.num("volume_l"))
	return []float64{i.CalciumMgL, i.MagnesiumMgL, i.SodiumMgL, i.ChlorideMgL, i.SulphateMgL, i.BicarbonateMgL}
}

func dilute(a *args) []float64 {
	sg, target := a.num("sg"), a.num("target_sg")
	if target > sg {
		return a.fail("target_sg", "target_sg = {target} is above sg = {sg}: water only thins, boil longer or add extract", plain(target), plain(sg))
	}
	massKg := a.num("volume_l") * density.KgM3FromSG(sg) / 1000
	waterKg := massKg * (density.PlatoFromSG(sg)/density.PlatoFromSG(target) - 1)
	return []float64{waterKg / density.WaterAt20KgM3 * 1000}
}
