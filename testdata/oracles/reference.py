"""Answers questions, one a line: a name and numbers. 17 digits come back."""
import sys

from iapws.iapws97 import _PSat_T, _Region1, _Region2, _TSat_P
from mpmath import mp, mpf
from scipy import special, stats

mp.dps = 40


def refined(below, density, p, x):
    """The quantile of p: Newton's method in 40 digits, from what scipy says."""
    x, p = mpf(float(x)), mpf(p)
    for _ in range(3):
        x -= (below(x) - p) / density(x)
    return x


def normal(p):
    return refined(mp.ncdf, mp.npdf, p, special.ndtri(p))


def student(p, n):
    n = mpf(n)

    def density(t):
        return (1 + t * t / n) ** (-(n + 1) / 2) / (mp.sqrt(n) * mp.beta(n / 2, mpf(1) / 2))

    def below(t):
        tail = mp.betainc(n / 2, mpf(1) / 2, 0, n / (n + t * t), regularized=True) / 2
        return tail if t < 0 else 1 - tail

    return refined(below, density, p, stats.t.ppf(p, float(n)))


def chi_square(p, n):
    n = mpf(n)

    def density(x):
        return x ** (n / 2 - 1) * mp.exp(-x / 2) / (2 ** (n / 2) * mp.gamma(n / 2))

    return refined(lambda x: mp.gammainc(n / 2, 0, x / 2, regularized=True), density, p, stats.chi2.ppf(p, float(n)))


def f(p, a, b):
    a, b = mpf(a), mpf(b)

    def density(x):
        return (a * x / (a * x + b)) ** (a / 2) * (b / (a * x + b)) ** (b / 2) / (x * mp.beta(a / 2, b / 2))

    return refined(lambda x: mp.betainc(a / 2, b / 2, 0, a * x / (a * x + b), regularized=True), density, p, stats.f.ppf(p, float(a), float(b)))


answers = {
    "region1": lambda t, p: [_Region1(t, p)[k] for k in ("v", "h", "cp")],
    "region2": lambda t, p: [_Region2(t, p)[k] for k in ("v", "h", "cp")],
    "boiling-pressure": lambda t: [_PSat_T(t)],
    "boiling-temperature": lambda p: [_TSat_P(p)],
    "normal": lambda p: [normal(p)],
    "student-t": lambda p, n: [student(p, n)],
    "chi-square": lambda p, n: [chi_square(p, n)],
    "f": lambda p, a, b: [f(p, a, b)],
}
for line in sys.stdin:
    name, *numbers = line.split()
    print(*("%.17g" % x for x in answers[name](*map(float, numbers))))
