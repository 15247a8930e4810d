#!/usr/bin/python3
"""Recompute the recorded vectors of spring/gas.

Independent implementations write spring/gas/testdata: the 1976 standard
atmosphere of Debian's python3-fluids, and the reference equations of state of
air and nitrogen by its python3-iapws. With --check they compare the recorded
files instead and fail on drift.
"""
import csv
import pathlib
import sys
import warnings

import fluids
import iapws
from fluids.atmosphere import ATMOSPHERE_1976
from iapws.humidAir import Air
from iapws.iapws95 import MEoS

DATA = pathlib.Path(__file__).resolve().parents[2] / "spring/gas/testdata"
# Ten or seven digits are recorded; last-digit rounding may differ between libm versions.
RELATIVE = 1e-6

HOW = """\
# Regenerate: python3 .ci/vectors/gas.py    Compare: python3 .ci/vectors/gas.py --check
"""


class N2(MEoS):
    """Nitrogen after Span, Lemmon, Jacobsen, Wagner and Yokozeki (2000)."""
    name = "nitrogen"
    M, Tc, Pc, rhoc = 28.01348, 126.192, 3395.8, 11.1839014646 * 28.01348
    Tt, Tb, f_acent, momentoDipolar = 63.151, 77.355, 0.0372, 0
    Fi0 = {"ao_log": [1, 2.5], "pow": [0, 1, -1, -2, -3],
           "ao_pow": [-12.76952708, -0.00784163, -1.934819e-4, -1.247742e-5, 6.678326e-8],
           "ao_exp": [1.012941], "titao": [26.65788]}
    _constants = {
        "R": 8.31451, "Tref": 126.192, "rhoref": 11.183901464580624 * 28.01348,
        "nr1": [0.924803575275, -0.492448489428, 0.661883336938, -1.92902649201,
                -0.0622469309629, 0.349943957581],
        "d1": [1, 1, 2, 2, 3, 3], "t1": [0.25, 0.875, 0.5, 0.875, 0.375, 0.75],
        "nr2": [0.564857472498, -1.61720005987, -0.481395031883, 0.421150636384, -0.0161962230825,
                0.172100994165, 0.00735448924933, 0.0168077305479, -0.00107626664179,
                -0.0137318088513, 0.000635466899859, 0.00304432279419, -0.0435762336045,
                -0.0723174889316, 0.0389644315272, -0.021220136391, 0.00408822981509,
                -5.51990017984e-05, -0.0462016716479, -0.00300311716011, 0.0368825891208,
                -0.0025585684622, 0.00896915264558, -0.0044151337035, 0.00133722924858,
                0.000264832491957],
        "d2": [1, 1, 1, 3, 3, 4, 6, 6, 7, 7, 8, 8, 1, 2, 3, 4, 5, 8, 4, 5, 5, 8, 3, 5, 6, 9],
        "t2": [0.5, 0.75, 2, 1.25, 3.5, 1, 0.5, 3, 0, 2.75, 0.75, 2.5, 4, 6, 6, 3, 3, 6, 16, 11, 15,
               12, 12, 7, 4, 16],
        "c2": [1] * 12 + [2] * 6 + [3] * 4 + [4] * 4, "gamma2": [1] * 26,
        "nr3": [19.6688194015, -20.911560073, 0.0167788306989, 2627.67566274],
        "d3": [1, 1, 3, 2], "t3": [0, 1, 2, 3], "alfa3": [20, 20, 15, 25],
        "beta3": [325, 325, 300, 275], "gamma3": [1.16, 1.16, 1.13, 1.25], "epsilon3": [1] * 4}

    def _visco(self, *_):
        return 0

    def _thermo(self, *_):
        return 0


GASES = {"air": Air, "nitrogen": N2}
R = 8.31451  # J/(mol·K), the one both equations were fitted with


def at_density(gas, t, rho):
    return GASES[gas](T=t, rho=rho)


def at_pressure(gas, t, bar):
    """State by iteration on density, kg/m3; the libraries' own guess is for air only."""
    rho = bar * 1e5 / (R * t) * GASES[gas].M * 1e-3
    for _ in range(100):
        state = at_density(gas, t, rho)
        step = bar / 10 / state.P
        rho *= step
        if abs(step - 1) < 1e-13:
            break
    return at_density(gas, t, rho)


def z(s):
    return s.P * 1e6 * s.M * 1e-3 / (s.rho * R * s.T)


def exponent(s):
    return s.rho * s.w**2 / (s.P * 1e6)


def isentropic(gas, t, bar, ratio):
    """Compression to volume/ratio at constant entropy, by bisection on temperature."""
    start = at_pressure(gas, t, bar)
    low, high = t / 2, 4 * t
    while high - low > 1e-10 * t:
        middle = (low + high) / 2
        low, high = ((middle, high) if at_density(gas, middle, start.rho * ratio).s < start.s
                     else (low, middle))
    return at_density(gas, low, start.rho * ratio)


def atmosphere():
    for altitude in [-500, -250, 0, 100, 250, 500, 750, 1000, 1250, 1500, 1750, 2000, 2250, 2500,
                     3000, 3500, 4000, 4500, 5000, 6000, 7000, 8000, 9000, 10000, 11000]:
        air = ATMOSPHERE_1976(altitude)
        yield f"{altitude},{air.T:#.10g},{air.P:#.10g},{air.mu:#.10g},{air.k:#.10g}"


def air():
    for t in [250, 260, 270, 273.15, 280, 288.15, 290, 293.15, 298.15, 300, 303.15, 310, 313.15,
              320, 323.15, 330]:
        for bar in [1, 1.01325, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25]:
            s = at_pressure("air", t, bar)
            yield (f"{t},{bar},{s.rho:.8g},{z(s):.8f},{s.cp:.6f},{s.cv:.6f},{s.cp / s.cv:.6f},"
                   f"{s.w:.4f},{s.s:.7f},{exponent(s):.6f}")


def real_gas():
    for gas in GASES:
        for t in [220, 233, 250, 273.15, 300, 330, 400, 473.15, 600, 700]:
            for bar in [1, 10, 25, 40, 50, 60, 80, 100]:
                s = at_pressure(gas, t, bar)
                yield f"{gas},{t},{bar},{z(s):.7f},{exponent(s):.6f}"


def compression():
    for gas in GASES:
        for t, bar, ratio in [(293.15, 1.01325, 6), (293.15, 10.6, 2.8), (253.15, 9, 3.3),
                              (313.15, 12, 2.5), (293.15, 7, 3.3), (293.15, 3, 5),
                              (293.15, 7, 4), (293.15, 12, 4), (293.15, 12, 6)]:
            s = isentropic(gas, t, bar, ratio)
            yield f"{gas},{t},{bar},{ratio},{s.T:.5f},{s.P * 10:.6f}"


EQUATIONS = f"""\
# Air: Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331.
# Nitrogen: Span, Lemmon, Jacobsen, Wagner and Yokozeki, the same volume, 1361.
# Computed with iapws {iapws.__version__} (Debian python3-iapws); R = 8.31451 J/(mol K).
"""

RECORDS = [
    ("atmosphere.csv", f"""\
# U.S. Standard Atmosphere, 1976, at geometric altitude: temperature, pressure, viscosity, conductivity.
# Computed by fluids.atmosphere.ATMOSPHERE_1976 of fluids {fluids.__version__} (Debian python3-fluids),
# an evaluation of the standard's formula independent of this project.
""", "altitude_m,temperature_K,pressure_Pa,viscosity_Pas,conductivity_WmK", atmosphere),
    ("air_lemmon.csv", f"""\
# Dry air, Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331.
# Computed with iapws {iapws.__version__} (Debian python3-iapws); R = 8.31451 J/(mol K), M = 28.96546 g/mol.
""", "T_K,P_bar_abs,rho_kg_m3,Z,cp_kJ_kgK,cv_kJ_kgK,cp_over_cv,speed_of_sound_m_s,entropy_kJ_kgK,"
     "isentropic_exponent_rho_w2_over_P", air),
    ("realgas.csv", "# Compressibility and isentropic exponent over the whole range of the model.\n" + EQUATIONS,
     "gas,T_K,P_bar_abs,Z,isentropic_exponent", real_gas),
    ("compression.csv", "# End of a compression at constant entropy to 1/ratio of the volume.\n" + EQUATIONS,
     "gas,T1_K,P1_bar_abs,ratio,T2_K,P2_bar_abs", compression),
]


def write():
    DATA.mkdir(parents=True, exist_ok=True)
    for name, header, columns, rows in RECORDS:
        (DATA / name).write_text(header + HOW + columns + "\n" + "\n".join(rows()) + "\n", encoding="utf-8")


def drifted(recorded, computed):
    try:
        a, b = float(recorded), float(computed)
    except ValueError:
        return recorded != computed
    return abs(a - b) > RELATIVE * max(abs(b), 1e-2)


def check():
    drift = []
    for name, _, columns, rows in RECORDS:
        with (DATA / name).open(encoding="utf-8") as f:
            recorded = list(csv.reader(line for line in f if not line.startswith("#")))
        computed = [columns.split(",")] + [row.split(",") for row in rows()]
        if len(recorded) != len(computed):
            drift.append(f"{name}: {len(recorded)} lines recorded, {len(computed)} computed")
        drift += [f"{name}: recorded {a}, computed {b}" for a, b in zip(recorded, computed)
                  if len(a) != len(b) or any(map(drifted, a, b))]
    return drift


def main(args):
    warnings.filterwarnings("ignore")  # extrapolation notes of iapws
    if args == []:
        write()
        return 0
    if args != ["--check"]:
        print(f"usage: {sys.argv[0]} [--check]", file=sys.stderr)
        return 2
    drift = check()
    for line in drift:
        print(line, file=sys.stderr)
    return 1 if drift else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
