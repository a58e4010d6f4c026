"""The stubs say what the module has, and a type checker refuses what the library refuses."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent


def run(*arguments, cwd):
    return subprocess.run([sys.executable, "-m", *arguments], cwd=cwd, capture_output=True, text=True, check=False)


def test_stubs_match_the_module(tmp_path):
    found = run("mypy.stubtest", "kingvalve", "--allowlist", str(HERE / "stubtest_allowlist.txt"), cwd=tmp_path)
    assert found.returncode == 0, found.stdout + found.stderr


GOOD = """
site = kv.Site(elevation=kv.feet(130))
p: kv.Pressure = site.absolute(kv.psig(62))
rise: kv.TemperatureDifference = kv.fahrenheit(57) - kv.fahrenheit(41)
density: kv.Density = kv.pounds(2) / kv.cubic_feet(3)
total: kv.Mass | int = sum([kv.pounds(2), kv.ounces(8)])
ratio: float = kv.pounds(2) / kv.ounces(8)
column: kv.Column[kv.GaugePressure] = kv.psig([62.0, 70.0])
dew: kv.Column[kv.Temperature] = kv.Refrigerant("R-32").dew_temperature(site.absolute(column), errors="nan")
rises: kv.Column[kv.TemperatureDifference] = kv.fahrenheit([57.0, 58.0]) - kv.fahrenheit([41.0, 42.0])
mean: float = float(rises.delta_fahrenheit.mean())
one: float = kv.Refrigerant("R-32").plain().dew_pressure(300.0)
"""
REFUSED = [
    "kv.psig(62) + kv.psia(14.7)",
    "kv.psia(14.7) - kv.psig(62)",
    "kv.fahrenheit(50) + kv.fahrenheit(2)",
    "kv.fahrenheit(50) * 2",
    "kv.psig(50) * 2",
    "kv.pounds(5) + 1",
    "1 - kv.pounds(5)",
    "kv.pounds(5) < kv.feet(5)",
    "kv.Site().absolute(62)",
    "kv.Site().absolute(kv.psia(62))",
    "kv.Site(elevation=kv.feet(1), barometer=kv.psia(14))",
    "kv.Refrigerant('R-32').dew_temperature(kv.psig([62.0]))",
    "kv.psig('62')",
]


def test_type_checker_accepts_and_refuses(tmp_path):
    lines = ["import kingvalve as kv", *GOOD.strip().splitlines(), *REFUSED]
    (tmp_path / "use.py").write_text("\n".join(lines) + "\n")
    found = run("mypy", "--strict", "--no-error-summary", "use.py", cwd=tmp_path)
    wrong = {int(line.split(":")[1]) for line in found.stdout.splitlines() if ": error:" in line}
    assert {lines[number - 1] for number in wrong} == set(REFUSED), found.stdout + found.stderr


@pytest.mark.parametrize("line", REFUSED)
def test_the_library_refuses_the_same(line):
    import kingvalve as kv

    with pytest.raises(TypeError):
        eval(line, {"kv": kv})


def test_examples_pass_pyright_strict(tmp_path):
    examples = Path(__file__).parents[3] / "examples" / "python"
    for each in examples.glob("*.py"):
        if "spark" not in each.name:
            (tmp_path / each.name).write_text(each.read_text(encoding="utf-8"), encoding="utf-8")
    settings = {"include": ["*.py"], "typeCheckingMode": "strict"}
    (tmp_path / "pyrightconfig.json").write_text(json.dumps(settings), encoding="utf-8")
    found = run("pyright", "--pythonpath", sys.executable, "--outputjson", cwd=tmp_path)
    summary = json.loads(found.stdout)
    assert summary["summary"]["filesAnalyzed"] >= 2
    assert summary["generalDiagnostics"] == []


@pytest.mark.parametrize("example", sorted((Path(__file__).parents[3] / "examples" / "python").glob("*.py")), ids=lambda each: each.stem)
def test_examples_run(example, tmp_path):
    if "spark" in example.name:
        compile(example.read_text(encoding="utf-8"), example, "exec")
        return
    found = subprocess.run([sys.executable, str(example)], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert found.returncode == 0, found.stderr
    assert found.stdout
