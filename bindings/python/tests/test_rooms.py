"""The rooms above the refrigerant: air, cylinder, estimate, visit, batch, demo, as Python has them."""

import decimal
import json
import math
import pickle
import subprocess
import sys
from pathlib import Path

import duckdb
import numpy as np
import pandas as pd
import polars as pl
import psychrolib
import pyarrow as pa
import pytest

import kingvalve as kv

EXAMPLES = Path(__file__).parents[3] / "examples" / "data"
SITE = kv.Site(barometer=kv.pascals(95_461.0))


def test_moist_air_against_psychrolib():
    psychrolib.SetUnitSystem(psychrolib.SI)
    dry, share = np.array([24.0, 13.0, 35.0, 27.0, 45.0]), np.array([0.5, 0.93, 0.4, 0.6, 0.1])
    air = kv.MoistAir.from_relative_humidity(kv.celsius(dry), kv.fraction(share), SITE)
    for row, (t, rh) in enumerate(zip(dry.tolist(), share.tolist(), strict=True)):
        ratio, wet, dew, _, enthalpy, volume, _ = psychrolib.CalcPsychrometricsFromRelHum(t, rh, 95_461.0)
        assert air.humidity_ratio.kilograms_per_kilogram[row] == pytest.approx(ratio, rel=1e-5)
        assert air.wet_bulb.celsius[row] == pytest.approx(wet, abs=2e-3)
        assert air.dew_point.celsius[row] == pytest.approx(dew, abs=2e-3)
        assert air.enthalpy.joules_per_kilogram[row] == pytest.approx(enthalpy, rel=1e-4)
        assert air.specific_volume.cubic_meters_per_kilogram[row] == pytest.approx(volume, rel=1e-5)
        one = kv.MoistAir.from_relative_humidity(kv.celsius(t), kv.fraction(rh), SITE)
        assert one.wet_bulb.kelvins == air.wet_bulb.kelvins[row]
    again = kv.MoistAir.from_wet_bulb(air.dry_bulb, air.wet_bulb, SITE)
    assert again.relative_humidity.fraction == pytest.approx(share, rel=1e-6)
    with pytest.raises(kv.OutOfRange, match="^row 1"):
        kv.MoistAir.from_relative_humidity(kv.celsius([20, 20]), kv.percent([50, 120]), SITE)


def test_tally():
    scale = kv.Instrument.resolution(kv.pounds(0.05))
    weights = [kv.Reading(kv.pounds(each), scale) for each in (14.5, 12.5, 11.0)]
    tally = kv.Tally.of({"A": weights})
    assert tally.total.value.pounds == pytest.approx(3.5)
    assert [name for name, _ in tally.steps] == ["A", "A"]
    with pytest.raises(kv.Inconsistent):
        kv.Tally.of({"A": weights[::-1]})
    with pytest.raises(kv.WrongKind, match="reading of mass"):
        kv.Tally.of({"A": [kv.pounds(1), kv.pounds(2)]})


def test_money():
    parts, labour = kv.Money("174.30 USD"), kv.Money("326.25 USD")
    assert str(parts + labour) == "500.55 USD"
    assert sum([parts, labour]) == kv.Money("500.55 USD")
    assert parts.amount == decimal.Decimal("174.30")
    assert parts < labour
    assert pickle.loads(pickle.dumps(parts)) == parts
    assert len({parts, kv.Money("174.3 USD")}) == 1
    assert parts != kv.Money("174.30 CAD")
    for refused in (lambda: parts + kv.Money("1 CAD"), lambda: parts < kv.Money("1 CAD")):
        with pytest.raises(kv.Inconsistent):
            refused()
    for refused in (lambda: parts + 1, lambda: 1.5 + parts):
        with pytest.raises(TypeError):
            refused()


def test_visit_is_the_demo_and_rust():
    text = (EXAMPLES / "no_cool_r454b.json").read_text(encoding="utf-8")
    visit = kv.Visit.from_json(text)
    assert visit.to_json() == kv.demo().to_json()
    assert kv.Visit.from_json(json.loads(text)).to_json() == visit.to_json()
    assert pickle.loads(pickle.dumps(visit)).to_json() == visit.to_json()
    found = visit.evaluate()
    assert found.to_json() == visit.evaluate().to_json()
    assert found.results == json.loads(found.to_json())["results"]
    assert found.cautions
    assert "<html" in found.sheet_html()
    assert found.sheet_text()
    assert len(found.report().splitlines()) > 20
    assert found.report().splitlines()[0] in found._repr_html_()
    with pytest.raises(kv.Unreadable):
        kv.Visit.from_json("{}")


def test_ways_and_prices():
    rates = kv.demo().record["rates"]
    card = kv.RateCard.from_json(rates)
    assert card.to_json() == kv.RateCard.from_json(card.to_json()).to_json()
    assert pickle.loads(pickle.dumps(card)) == card
    ways = kv.Situation("R-454B", kv.pounds(5.5), kv.pounds(6.8)).ways()
    assert len(ways) >= 4
    for way in ways:
        priced = way.price(card)
        low, high = priced.total
        zero = kv.Money(f"0 {card.currency}")
        lines = [part for part in priced.lines]
        assert sum((each for _, each, _ in lines), zero) <= low
        assert sum((each for _, _, each in lines), zero) <= high <= priced.not_to_exceed
        assert priced.title in priced._repr_html_().replace("&#x27;", "'").replace("&amp;", "&")
        assert set(priced.words) == {"includes", "does_not_fix", "uncertain", "cautions"}
    with pytest.raises(KeyError):
        card.fee("no such fee")


ROWS = {
    "suction_pressure": [119.0, 90.0, math.nan, 119.0],
    "suction_line": [56.1, 70.0, 60.0, 56.0],
    "liquid_pressure": [340.0, 330.0, 340.0, 1e9],
    "liquid_line": [93.0, 95.0, 93.0, 93.0],
    "indoor_wet_bulb": [67.0, 66.0, 67.0, 67.0],
    "outdoor": [91.0, 95.0, 91.0, 91.0],
}


def close(a, b):
    return all((math.isnan(x) and math.isnan(y)) or x == pytest.approx(y, rel=1e-12) for x, y in zip(a, b, strict=True))


def test_batch_rows_are_single_answers():
    r, site = kv.Refrigerant("R-410A"), kv.Site(elevation=kv.feet(130))
    found = kv.batch.evaluate(ROWS, refrigerant=r, site=site, target_subcooling=kv.delta_fahrenheit(10))
    for row in (0, 1):
        p = site.absolute(kv.psig(ROWS["suction_pressure"][row]))
        q = site.absolute(kv.psig(ROWS["liquid_pressure"][row]))
        assert found["superheat"][row] == pytest.approx(r.superheat(p, kv.fahrenheit(ROWS["suction_line"][row])).delta_fahrenheit, rel=1e-9)
        assert found["subcooling"][row] == pytest.approx(r.subcooling(q, kv.fahrenheit(ROWS["liquid_line"][row])).delta_fahrenheit, rel=1e-9)
        assert found["target"][row] == pytest.approx(10)
    assert found["verdict"][3] == "unusable"
    assert math.isnan(found["superheat"][2])
    assert math.isnan(found["probability_within"][3])
    for verdict, share in zip(found["verdict"], found["probability_within"], strict=True):
        assert (verdict == "within") == (share >= 0.95)
    orifice = kv.batch.evaluate(ROWS, refrigerant="R-410A", site=site)
    assert orifice["target"][0] != orifice["target"][1]
    assert orifice["superheat"] == pytest.approx(found["superheat"], nan_ok=True)


@pytest.mark.parametrize("make", [pl.DataFrame, pd.DataFrame, pa.table, lambda rows: duckdb.from_arrow(pa.table(rows))], ids=["polars", "pandas", "pyarrow", "duckdb"])
def test_batch_takes_every_table(make):
    wanted = kv.batch.evaluate(ROWS, refrigerant="R-410A")
    found = kv.batch.evaluate(make(ROWS), refrigerant="R-410A")
    assert hasattr(found, "__arrow_c_stream__")
    assert found.column_names[:6] == list(ROWS)
    for name in ("superheat", "subcooling", "target", "probability_within"):
        assert close(found[name].to_pylist(), wanted[name])
    assert found["verdict"].to_pylist() == wanted["verdict"]
    assert pl.DataFrame(found)["verdict"].cast(pl.String).to_list() == wanted["verdict"]


def test_batch_refuses_in_words():
    with pytest.raises(KeyError, match="suction_pressure"):
        kv.batch.evaluate({}, refrigerant="R-410A")
    with pytest.raises(KeyError, match="unknown columns"):
        kv.batch.evaluate(ROWS, refrigerant="R-410A", columns={"nonsense": "a"})
    with pytest.raises(ValueError, match="lengths"):
        kv.batch.evaluate(ROWS | {"outdoor": [1.0]}, refrigerant="R-410A")
    with pytest.raises(TypeError, match="Arrow"):
        kv.batch.evaluate(5, refrigerant="R-410A")
    renamed = {("T " + name if name == "outdoor" else name): column for name, column in ROWS.items()}
    assert kv.batch.evaluate(renamed, refrigerant="R-410A", columns={"outdoor": "T outdoor"}, prefix="kv ")["kv verdict"]


def test_checks_take_quantities():
    case = kv.check.example("superheat")
    plain = kv.check.run("superheat", case)
    case["suction_line"]["value"] = kv.Temperature(case["suction_line"]["value"])
    assert kv.check.run("superheat", case)["text"] == plain["text"]
    assert "<p>" in plain._repr_html_()


@pytest.mark.parametrize("name", kv.check.names())
def test_every_check_runs_on_its_example(name):
    assert kv.check.run(name, kv.check.example(name))


def test_the_season_loses_its_charge():
    season = kv.demo("season")
    found = kv.batch.evaluate(season, refrigerant="R-410A", target_subcooling=kv.delta_fahrenheit(10))
    assert found["verdict"][:60].count("below") == 0
    assert found["verdict"][-60:].count("below") > 30
    with pytest.raises(KeyError, match="season"):
        kv.demo("nothing")


def test_module_as_a_program():
    found = subprocess.run([sys.executable, "-m", "kingvalve"], capture_output=True, text=True, check=False)
    assert found.returncode == 0, found.stderr
    assert found.stdout.startswith(f"kingvalve {kv.__version__}")
    assert "passed" in found.stdout


def test_html():
    page = kv.Refrigerant("R-454B")._repr_html_()
    assert "R-1234yf" in page
    assert "A2L" in page
    part = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("10 %"))
    check = part.under_load(kv.volts(371.3), kv.amperes(0.6), kv.hertz(60))
    assert check.verdict.name in check.verdict._repr_html_()


def test_accuracy_gwp_split():
    r = kv.Refrigerant("R-410A")
    assert r.gwp("AR4").kilograms_per_kilogram == 2087.5
    assert r.gwp().carbon_dioxide_equivalent(kv.pounds(2)).metric_tons == pytest.approx(1.9, abs=0.05)
    assert r.accuracy().basis == "measured"
    assert len(r.accuracy().papers) == 2
    liquid = r.state(kv.psia(380), kv.fahrenheit(98))
    split = r.split_at_enthalpy(kv.psia(133), liquid.enthalpy)
    assert kv.percent(18) < split.vapour_share < kv.percent(26)
    assert sum((share for _, share in split.liquid), kv.percent(0)).percent == pytest.approx(100)
    assert r.kind in ("zeotrope", "azeotrope", "pure")
    with pytest.raises(KeyError):
        r.gwp("AR9")


class Foreign:
    """What pint and astropy quantities have in common, in the spelling of the latter."""

    def __init__(self, value, unit):
        self.value, self.unit = value, unit

    def to(self, unit):
        return Foreign(self.value * {("kPa", "Pa"): 1e3, ("lb", "kg"): 0.45359237}[self.unit, unit], unit)


def test_quantities_of_other_libraries():
    import pint

    ureg = pint.UnitRegistry()
    assert kv.Pressure.of(ureg.Quantity(100.0, "kPa")) == kv.kilopascals(100)
    assert kv.Temperature.of(ureg.Quantity(75.0, "degF")).fahrenheit == pytest.approx(75)
    assert kv.TemperatureDifference.of(ureg.Quantity(10.0, "delta_degF")).delta_fahrenheit == pytest.approx(10)
    assert kv.Mass.of(ureg.Quantity([1.0, 2.0], "lb")).pounds == pytest.approx([1, 2])
    assert kv.Pressure.of(Foreign(100.0, "kPa")).kilopascals == pytest.approx(100)
    assert kv.Mass.of(Foreign(np.array([1.0]), "lb")).pounds == pytest.approx([1])
    assert kv.Temperature.of(Foreign(20.0, "deg_C")) == kv.celsius(20)
    assert kv.pounds(2).to_pint(ureg).to("kg").magnitude == pytest.approx(0.90718474)
    assert kv.fahrenheit(75).to_pint(ureg).to("degF").magnitude == pytest.approx(75)
    assert kv.delta_fahrenheit(9).to_pint(ureg).to("delta_degF").magnitude == pytest.approx(9)
    for name, each in vars(kv).items():
        if isinstance(each, type) and issubclass(each, kv.Quantity) and each is not kv.Quantity:
            unit = next(iter(each.units()))
            one = each(f"1.5 {unit}")
            assert each.of(one.to_pint(ureg)).to(unit) == pytest.approx(1.5, rel=1e-9), name
    with pytest.raises(TypeError, match="no Pressure"):
        kv.Pressure.of(ureg.Quantity(1.0, "kg"))
    with pytest.raises(TypeError, match="magnitude"):
        kv.Pressure.of(5)
