"""Writes tests/reference/distributions.csv: normal and Student t values by scipy.

Run: python tests/reference/scripts/distributions.py > tests/reference/distributions.csv
"""

import scipy
from scipy.stats import norm, t

X = [-37.0, -20.0, -8.0, -5.7, -3.0, -1.959963984540054, -1.0, -0.67, -0.3, -1e-5, 0.0, 0.1, 0.5, 0.66291, 0.68, 1.0, 1.644853626951472, 2.5, 4.0, 5.6, 5.7, 8.0]
P = [1e-300, 1e-20, 1e-10, 1e-4, 0.005, 0.025, 0.05, 0.074, 0.076, 0.25, 0.4, 0.5, 0.55, 0.75, 0.9, 0.924, 0.926, 0.95, 0.975, 0.99, 0.995, 0.999, 0.9999, 1 - 1e-9]
NU = [0.7, 1.0, 1.5, 2.0, 3.0, 4.0, 5.3, 9.0, 16.0, 29.5, 60.0, 121.0, 1000.0, 25000.0, 99999.0, 100001.0, 1e6, 1e9]
T = [-30.0, -6.0, -2.0, -0.4, 0.0, 1e-3, 0.7, 1.3, 1.8, 3.0, 12.0, 4000.0]
Q = [0.55, 0.6, 0.75, 0.9, 0.95, 0.975, 0.995, 0.9995, 0.999999]


def main():
    source = f"scipy {scipy.__version__} stats.norm and stats.t"
    print("# Normal and Student t distributions")
    print("# Columns: case, a function; in_x argument or probability; in_nu degrees of freedom; exp_value.")
    print("case,in_x,in_nu,exp_value,tol_abs,tol_rel,source,mark")
    for x in X:
        print(f"normal_cdf,{x!r},,{float(norm.cdf(x))!r},1e-18,1e-12,{source},published")
    for p in P:
        print(f"normal_quantile,{p!r},,{float(norm.ppf(p))!r},1e-18,1e-12,{source},published")
    for nu in NU:
        for x in T:
            print(f"student_cdf,{x!r},{nu!r},{float(t.cdf(x, nu))!r},1e-18,1e-12,{source},published")
        for p in Q:
            print(f"student_quantile,{p!r},{nu!r},{float(t.ppf(p, nu))!r},1e-18,1e-12,{source},published")


main()
