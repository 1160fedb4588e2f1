"""Second opinions on stack and tack by scipy: fixtures/reference/normal.json and trilateration.jsonl.

    python3 -m venv VENV && VENV/bin/pip install -r tests/reference/tack-requirements.txt
    VENV/bin/python tests/reference/tack.py SEED [SETS=1000]

Nothing of Tabwright's core is used. The holes' places are found by scipy.optimize.least_squares from the true ones, with
its own derivatives; the covariance is the inverse of J^T J there.
"""

import json
import math
import random
import sys

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import least_squares
from scipy.stats import norm

from frames import PROJECT, Frame, default_setup, with_changes

FOLDER = PROJECT / "fixtures" / "reference"
SIGMAS = norm.ppf(0.975)  # a reading's +- is so many standard deviations: 19 times in 20
ACCURACY = 0.1
ABOUT = 1.0  # a tab lies so well about the axle as designed, +- mm
READINGS = ["hole_1", "hole_2", "spacing", "neck_1", "neck_2"]
# Which of them each kind of set has, and how often each is read.
KINDS = [[1, 1, 1, 1, 1], [1, 1, 1, 0, 0], [2, 2, 1, 1, 3], [1, 1, 1, 1, 0], [1, 1, 2, 0, 1]]


def normal():
    rng = random.Random(1)
    zs = [round(z, 2) for z in np.arange(-8, 8.01, 0.25)]
    between = []
    for _ in range(60):
        mean, spread = round(rng.uniform(-3, 3), 3), round(rng.uniform(0.05, 2), 3)
        low, high = sorted(round(rng.uniform(-4, 4), 3) for _ in range(2))
        share = norm.cdf(high, mean, spread) - norm.cdf(low, mean, spread)
        if low > mean:
            share = norm.sf(low, mean, spread) - norm.sf(high, mean, spread)
        between.append([mean, spread, low, high, share])
    return {
        "below": [[z, norm.cdf(z)] for z in zs],
        "between": between,
        "shapes": [shape(adjust, effects) for adjust, effects in SHAPES],
    }


# The sideways adjustment, and the +- of independent dimensions.
SHAPES = [
    (0.5, [0.3, 0.15, 0.5, 0.1, 0.2]),
    (0.8, [0.3, 0.15, 0.5, 0.1, 0.2]),
    (0.3, [0.3, 0.15, 0.5, 0.1, 0.2]),
]


def shape(adjust, effects):
    """Share of sums within +-adjust: normal by the error function, uniform and triangular by their characteristic functions."""
    sinc = lambda t: np.sinc(t / math.pi)
    within = lambda cf: 2 / math.pi * quad(
        lambda t: adjust * sinc(t * adjust) * np.prod([cf(t * e) for e in effects]), 0, 400, limit=4000, epsabs=1e-11)[0]
    spread = math.sqrt(sum(e * e for e in effects)) / 3
    return [adjust, effects, norm.cdf(adjust / spread) - norm.cdf(-adjust / spread),
            within(sinc), within(lambda t: sinc(t / 2) ** 2)]


def model(setup, holes):
    """What each reading would be, and the turn about the axle against the design in mm."""
    b1, u1, b2, u2 = holes
    frame = Frame(setup)
    designed = [frame.in_wheel_plane(*hole) for hole in setup["caliper"]["holes"]]
    line, half = setup["fork"]["axle_offset"], setup["dropout"]["neck_width"] / 2
    side = [-1.0 if back < line else 1.0 for back, _ in designed]
    # The turn that brings the designed holes nearest to these: the angle of the sum of products as complex numbers.
    turned = sum(complex(u, b) * complex(du, db).conjugate() for (b, u), (db, du) in zip([(b1, u1), (b2, u2)], designed))
    radius = math.sqrt(sum(db * db + du * du for db, du in designed) / 2)
    return [
        math.hypot(b1, u1), math.hypot(b2, u2), math.hypot(b1 - b2, u1 - u2),
        side[0] * (b1 - line) - half, side[1] * (b2 - line) - half,
        math.atan2(turned.imag, turned.real) * radius,
    ]


def solve(setup, lists, start, with_design):
    """Holes and covariance by least squares; each list is the readings of one length."""
    used = [(i, np.mean(v), max(np.std(v, ddof=1) if len(v) > 1 else 0.0, ACCURACY / SIGMAS) / math.sqrt(len(v)))
            for i, v in enumerate(lists) if v]
    if with_design:
        used.append((5, 0.0, ABOUT / SIGMAS))

    def residuals(holes):
        values = model(setup, holes)
        return [(values[i] - mean) / sigma for i, mean, sigma in used]

    found = least_squares(residuals, start, jac="3-point", method="trf", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=2000)
    return found


def tells_the_turn(setup, lists, designed):
    """Whether the readings fix the turn about the axle better than the design does: by their covariance at the design."""
    sigmas = [max(np.std(v, ddof=1) if len(v) > 1 else 0.0, ACCURACY / SIGMAS) / math.sqrt(len(v)) for v in lists if v]
    normal_matrix = np.zeros((4, 4))
    used = [i for i, v in enumerate(lists) if v]
    step = 1e-5
    gradient = [[(model(setup, designed + step * e)[i] - model(setup, designed - step * e)[i]) / (2 * step) for e in np.eye(4)]
                for i in range(6)]
    for i, sigma in zip(used, sigmas):
        normal_matrix += np.outer(gradient[i], gradient[i]) / sigma**2
    if np.linalg.cond(normal_matrix) > 1e10:
        return False, math.inf
    about = math.sqrt(np.array(gradient[5]) @ np.linalg.inv(normal_matrix) @ np.array(gradient[5]))
    return about < ABOUT / SIGMAS, about


def one(seed, index):
    rng = random.Random(f"{seed} {index}")
    while True:
        side = rng.choice(["left", "right"])
        changes = {
            "side": side,
            "wheel": {"rotor_diameter": rng.choice([160, 180, 203, 220])},
            "fork": {"axle_offset": rng.choice([0, 0, 12.5, -8])},
            "tab": {"clock": round(rng.uniform(-179, 180), 1)},
        }
        setup = with_changes(default_setup(), changes)
        frame = Frame(setup)
        designed = np.array([x for hole in setup["caliper"]["holes"] for x in frame.in_wheel_plane(*hole)])
        true = designed + np.array([rng.gauss(0, 1.0) for _ in range(4)])
        counts = KINDS[index % len(KINDS)]
        exact = model(setup, true)
        noise = ACCURACY / SIGMAS
        lists = [[round(exact[i] + rng.gauss(0, noise), 3) for _ in range(count)] for i, count in enumerate(counts)]
        told, about = tells_the_turn(setup, lists, designed)
        # On the very line between the two, which it is hangs on rounding.
        if math.isfinite(about) and abs(about * SIGMAS / ABOUT - 1) < 0.05:
            continue
        found = solve(setup, lists, true, not told)
        covariance = np.linalg.inv(found.jac.T @ found.jac)
        upper = [covariance[i][j] * 1e6 for i in range(4) for j in range(i, 4)]
        short = lambda value: int(float(f"{value:.4g}")) if abs(value) >= 1000 else float(f"{value:.4g}")
        return [side[0], changes["wheel"]["rotor_diameter"], changes["fork"]["axle_offset"], changes["tab"]["clock"],
                lists, [round(float(x), 7) for x in found.x], [short(x) for x in upper]]


def main():
    seed, sets = int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    (FOLDER / "normal.json").write_text(json.dumps(normal(), separators=(",", ":")).replace("],[", "],\n[") + "\n")
    lines = [json.dumps(one(seed, index), separators=(",", ":")) for index in range(sets)]
    (FOLDER / "trilateration.jsonl").write_text("\n".join(lines) + "\n")
    print(f"scipy {scipy.__version__}, numpy {np.__version__}, Python {sys.version.split()[0]}, seed {seed}, {sets} sets")


if __name__ == "__main__":
    main()
