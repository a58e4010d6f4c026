"""Writes tests/reference/propagation.csv: linear propagation by the Python package uncertainties.

Run: python tests/reference/scripts/propagation.py > tests/reference/propagation.csv
"""

import random

import uncertainties
from uncertainties import ufloat

FORMULAS = {
    "x-y": lambda x, y, z: x - y,
    "x*y": lambda x, y, z: x * y,
    "x/y": lambda x, y, z: x / y,
    "x*y/z": lambda x, y, z: x * y / z,
    "x/(y*z)": lambda x, y, z: x / (y * z),
    "x-x*y/y": lambda x, y, z: x - x * y / y,
    "(x-y)*z": lambda x, y, z: (x - y) * z,
    "x*x/y": lambda x, y, z: x * x / y,
}


def main():
    rng = random.Random(20240229)
    print("# Linear propagation of uncertainty, inputs independent, formulas in which an input may occur twice")
    print("# Columns: case, number and formula; in_x, in_y, in_z with standard uncertainties in_ux, in_uy, in_uz;")
    print("# exp_value or exp_standard.")
    print("case,in_formula,in_x,in_ux,in_y,in_uy,in_z,in_uz,exp_value,exp_standard,tol_abs,tol_rel,source,mark")
    source = f"uncertainties {uncertainties.__version__}"
    number = 0
    for name, formula in FORMULAS.items():
        for _ in range(6):
            number += 1
            values = [round(rng.uniform(0.5, 90.0), 3) for _ in range(3)]
            doubts = [round(value * rng.uniform(0.001, 0.1), 4) for value in values]
            x, y, z = (ufloat(v, u) for v, u in zip(values, doubts))
            result = formula(x, y, z)
            inputs = ",".join(f"{v!r},{u!r}" for v, u in zip(values, doubts))
            print(f"{number} {name} value,{name},{inputs},{result.n!r},,1e-9,1e-9,{source},published")
            print(f"{number} {name} standard,{name},{inputs},,{result.s!r},1e-9,1e-9,{source},published")


main()
