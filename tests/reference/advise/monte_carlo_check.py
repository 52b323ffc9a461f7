"""Holds the gains of `advise` and their intervals against a nested Monte Carlo written apart from the program, live.

    monte_carlo_check.py PROGRAM SOURCE_DIR

Impact, flight and run are written here a second time, from the equations of docs/model.md, for many drives at once in NumPy; SciPy's
DOP853 holds the flights, and the program's well-struck drives hold the whole. What is not known (theta) and the player's scatter (z) are
drawn by NumPy's generator where the program takes quasi-random points, and averaged shot by shot where the program fits a surface:

    G(theta) = mean over z of [ goal(choice; theta, z) - goal(as is; theta, z) ]

the mean and the 10 % and 90 % points of G over theta. Deviates come in pairs of opposite sign, theta's and z's; that thins out chance
and leaves every mean and share true. A mean over few z scatters itself, which sets quantiles of G too far apart, by a part that goes
as 1 / shots: twice the quantile of all shots less that of half of them is free of it (the jackknife of Gordy & Juneja, Management
Science 56 (2010) 1833; from memory). Standard errors: from batches of theta, beside every number. Exit 77: SciPy is not installed.
"""
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import time

for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
    os.environ.setdefault(name, "1")  # one core, as other tests run beside
try:
    import numpy as np
    import scipy
    from scipy.integrate import solve_ivp
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
SEED, THETA_PAIRS, SHOT_PAIRS, BATCHES = 20261126, 3000, 12, 20
YARD, MPH, DEG = 0.9144, 0.44704, math.pi / 180
GRAVITY = 9.80665

# How far the program may be from here. A chance of three standard errors must fit into a tolerance, or nothing is shown.
# Shares of drives are free of the program's surfaces, chances of being best lean on them.
MEAN, END, SHARE, CHANCE, REGRET = 0.5 * YARD, 1.0 * YARD, 0.015, 0.03, 0.2 * YARD
# Two integrations of the same drive: a millimetre or two, where half a yard is asked.
SAME_DRIVE, SAME_FLIGHT = 0.002, 0.001

# Invented: a slow senior who plays for total on firm turf, and scatters.
SENIOR = {
    "format": "loftwright-pupil/1", "name": "Ottilie Varga (invented)", "goal": "total", "skill": "high-handicap",
    "delivery": {"club_speed_mph": 64, "attack_deg": -2, "path_deg": 0, "face_deg": 0, "dynamic_loft_deg": 9.5, "toe_mm": 0, "high_mm": 0},
    "measured_shots": 10, "club": {"loft_deg": 9.5}, "lofts_on_offer_deg": [9.5, 11, 12.5, 14],
    "reach": {"attack_deg": [-4, 3], "follow": 0.85, "speed_per_attack_deg_mph": 0},
    "conditions": {"altitude_m": 0, "temperature_c": 20, "humidity_pct": 50, "turf": "firm"}, "ball": "reference"}

# Head, ball and ball's air: docs/model.md, 3 and 4.
HEAD = {"mass": 0.205, "inertia_normal": 2.8e-4, "inertia_up": 4.8e-4, "inertia_heel_toe": 2.6e-4, "depth": 0.036, "bulge": 0.305,
        "roll": 0.305, "e": 0.83, "e_speed": 48.77, "e_slope": 0.002, "grip": -0.20, "friction": 0.40}
MASS, RADIUS, DECAY, LEAST_UP = 0.04593, 0.021335, 2.0e-5, 1e-9
BALL_INERTIA = 0.4 * MASS * RADIUS**2
# Turf: docs/model.md, 5; what all three have in common beside it. Width: how much less is known of soft turf.
TURF = {"firm": (18.0, 0.60, 0.15, 0.010, 1.0), "medium": (21.4, 0.53, 0.23, 0.012, 1.0), "soft": (25.0, 0.40, 0.33, 0.016, 1.5)}
FADE, RISE, TURF_FRICTION = 2.5, 0.9, 1.0
# The usual scatter: estimates of docs/pupil-file.md; speed as a share.
USUAL = {"high-handicap": (0.03, 2.2, 3.5, 4.0, 2.4, 15, 10)}
SCATTERED = ("club_speed", "attack", "path", "face", "dynamic_loft", "toe", "high")

wrong, checked = [], 0


# --- the drive, for arrays of drives ---------------------------------------------------------------------------------

def along(elevation, azimuth):
    return np.stack([np.cos(elevation) * np.cos(azimuth), np.sin(elevation), np.cos(elevation) * np.sin(azimuth)], -1)


def crossing(r):
    """The matrix that crosses with r: crossing(r) @ v = r x v."""
    out = np.zeros(r.shape + (3,))
    out[..., 0, 1], out[..., 0, 2], out[..., 1, 2] = -r[..., 2], r[..., 1], -r[..., 0]
    out[..., 1, 0], out[..., 2, 0], out[..., 2, 1] = r[..., 2], -r[..., 1], r[..., 0]
    return out


def impact(d, head):
    """Ball velocity and spin vector after the blow, in a right-hander's frame."""
    looks = along(d["dynamic_loft"], d["face"])
    toeward = np.stack([-np.sin(d["face"]), np.zeros_like(d["face"]), np.cos(d["face"])], -1)
    upward = np.cross(toeward, looks)
    n = along(d["dynamic_loft"] + d["high"] / HEAD["roll"], d["face"] + d["toe"] / head["bulge"])
    arm_head = head["depth"][:, None] * looks + d["toe"][:, None] * toeward + d["high"][:, None] * upward
    arm_ball = -RADIUS * n
    axes = np.stack([looks, upward, toeward], -1)
    inertia = np.stack(np.broadcast_arrays(HEAD["inertia_normal"], head["inertia_up"], HEAD["inertia_heel_toe"]), -1)
    head_inverse = (axes / inertia[:, None, :]) @ np.swapaxes(axes, -1, -2)
    rh, rb = crossing(arm_head), crossing(arm_ball)
    mobility = (1 / MASS + 1 / HEAD["mass"]) * np.eye(3) - rb @ rb / BALL_INERTIA - rh @ head_inverse @ rh

    u = -d["club_speed"][:, None] * along(d["attack"], d["path"])
    speed_in = np.sum(u * n, -1)
    tangential = u - speed_in[:, None] * n
    e = head["e"] - HEAD["e_slope"] * (np.abs(speed_in) - HEAD["e_speed"])
    after = -(e * speed_in)[:, None] * n - head["grip"][:, None] * tangential
    j = np.linalg.solve(mobility, (after - u)[..., None])[..., 0]
    j_n = np.sum(j * n, -1)
    j_t = j - j_n[:, None] * n
    size = np.linalg.norm(j_t, axis=-1)
    slides = size > HEAD["friction"] * j_n
    if slides.any():
        way = n + HEAD["friction"] * j_t / np.maximum(size, 1e-300)[:, None]
        normal_share = np.sum(n * (mobility @ way[..., None])[..., 0], -1)
        j = np.where(slides[:, None], (-(1 + e) * speed_in / normal_share)[:, None] * way, j)
    return j / MASS, np.cross(arm_ball, j) / BALL_INERTIA


def launch_of(d, left, head):
    """Velocity, unit spin axis across it and rate of spin, on the course. A left-hander is the mirror image."""
    if left:
        d = {**d, "path": -d["path"], "face": -d["face"]}
    v, w = impact(d, head)
    if left:
        v, w = v * [1, 1, -1], w * [-1, -1, 1]
    w = w - (np.sum(w * v, -1) / np.sum(v * v, -1))[:, None] * v  # spin about the line of flight is left out
    spin = np.linalg.norm(w, axis=-1)
    return v, w / np.maximum(spin, 1e-300)[:, None], spin


def coefficients(air, speed, spin):
    """Cd and Cl of the reference ball."""
    s = np.minimum(RADIUS * spin / speed, 0.5)
    re = 2 * air["density"] * RADIUS / air["viscosity"] * speed
    return 0.181 + 0.543 * s - 0.021 * (re / 1e5 - 1.5), 0.7315 * np.exp(0.628 * np.log(np.maximum(s, 1e-300)))


def wind_share(y):
    """Of the wind at 10 m, over short grass."""
    rounded = lambda h: (h + np.sqrt(h * h + 16.0)) / 2
    return np.log(rounded(y) / 0.03) / math.log(rounded(10.0) / 0.03)


def forces(air, y, v, w, a, drag, lift):
    """Accelerations and the slowing of spin, from rows y, v (3), w, axis a (3) and the scales times rho A / 2 m."""
    vx, vy, vz = v
    if air["wind"] != (0.0, 0.0):
        share = wind_share(y)
        vx, vz = vx - air["wind"][0] * share, vz - air["wind"][1] * share
    speed = np.sqrt(vx * vx + vy * vy + vz * vz)
    cd, cl = coefficients(air, speed, w)
    d, l = drag * speed * cd, lift * speed * cl
    return (l * (a[1] * vz - a[2] * vy) - d * vx, l * (a[2] * vx - a[0] * vz) - d * vy - GRAVITY, l * (a[0] * vy - a[1] * vx) - d * vz), \
        -DECAY / RADIUS * w * speed


def fly(air, v0, axis, spin, drag, lift, step=0.25):
    """Where and how balls land, by classical Runge-Kutta steps and a cubic through the last one: rows x, z, v (3), spin. What
    leaves level or downward is on the ground at once."""
    count = len(spin)
    out = np.zeros((6, count))
    out[2:5], out[5] = v0.T, spin
    index = np.flatnonzero(v0[:, 1] > 0)
    scale = 0.5 * air["density"] * math.pi * RADIUS**2 / MASS
    kd, kl, a = scale * drag[index], scale * lift[index], axis[index].T.copy()
    p, v, w = np.zeros((3, len(index))), v0[index].T.copy(), spin[index].copy()
    flying = np.ones(len(index), bool)
    for _ in range(round(60 / step)):
        a1, w1 = forces(air, p[1], v, w, a, kd, kl)
        a1 = np.array(a1)
        v2 = v + step / 2 * a1
        a2, w2 = forces(air, p[1] + step / 2 * v[1], v2, w + step / 2 * w1, a, kd, kl)
        a2 = np.array(a2)
        v3 = v + step / 2 * a2
        a3, w3 = forces(air, p[1] + step / 2 * v2[1], v3, w + step / 2 * w2, a, kd, kl)
        a3 = np.array(a3)
        a4, w4 = forces(air, p[1] + step * v3[1], v + step * a3, w + step * w3, a, kd, kl)
        new_p = p + step * v + step**2 / 6 * (a1 + a2 + a3)
        new_v = v + step / 6 * (a1 + 2 * a2 + 2 * a3 + a4)
        new_w = w + step / 6 * (w1 + 2 * w2 + 2 * w3 + w4)
        landed = flying & (new_p[1] <= 0)
        if landed.any():
            p0, p1, m0, m1 = p[:, landed], new_p[:, landed], step * v[:, landed], step * new_v[:, landed]
            c3, c2 = 2 * (p0 - p1) + m0 + m1, 3 * (p1 - p0) - 2 * m0 - m1
            t = np.ones(p0.shape[1])
            for _ in range(8):  # from the end of the step, so that a first step finds its end and not its start
                t -= (((c3[1] * t + c2[1]) * t + m0[1]) * t + p0[1]) / ((3 * c3[1] * t + 2 * c2[1]) * t + m0[1])
            at = ((c3 * t + c2) * t + m0) * t + p0
            where = index[landed]
            out[0, where], out[1, where] = at[0], at[2]
            out[2:5, where] = ((3 * c3 * t + 2 * c2) * t + m0) / step
            out[5, where] = w[landed] + t * (new_w[landed] - w[landed])
            flying = flying & ~landed
            if not flying.any():
                return out
        p, v, w = new_p, new_v, new_w
        if np.count_nonzero(flying) < 0.9 * len(flying):
            index, p, v, w, a, kd, kl = index[flying], p[:, flying], v[:, flying], w[flying], a[:, flying], kd[flying], kl[flying]
            flying = flying[flying]
    raise AssertionError("a ball stayed up for a minute")


def run(air, forward, downward, backspin, turf, drag, lift):
    """Length of bounce and roll."""
    way = np.zeros_like(forward)
    f, u, w, running = forward.copy(), np.maximum(downward, 0.0), backspin.copy(), np.ones(len(forward), bool)
    scale = 0.5 * air["density"] * math.pi * RADIUS**2 / MASS
    for bounce in range(8):
        tilt = turf["tilt"] * (1 - np.exp(-u / turf["fade"]))
        sine, cosine = np.sin(tilt), np.cos(tilt)
        t, n = f * cosine - u * sine, f * sine + u * cosine
        e = turf["restitution"] / (1 + n / 9.0)
        slip = t + RADIUS * w
        # Friction takes 2/7 of the slip, which leaves the ball rolling, or the most it can; 2.5: m r^2 over the ball's inertia.
        taken = np.sign(slip) * np.minimum(2 / 7 * np.abs(slip), turf["friction"] * (1 + e) * n)
        t, w = t - taken, w - 2.5 * taken / RADIUS
        f, up = t * cosine - e * n * sine, t * sine + e * n * cosine
        running &= f > 0
        f = np.where(running, f, 0.0)
        limit = turf["rise"] * u
        with np.errstate(divide="ignore", invalid="ignore"):
            rise = np.where(u > LEAST_UP, up / (1 + (up / limit)**4)**0.25, 0.0)
        if bounce == 7:
            a = 5 / 7 * turf["rolling"] * GRAVITY
            return way + np.where(running, np.log1p(turf["grass"] * f * f / a) / (2 * turf["grass"]), 0.0)
        speed = np.maximum(np.hypot(f, rise), 1e-12)
        cd, cl = coefficients(air, speed, np.abs(w))
        pull = np.maximum(GRAVITY - np.sign(w) * scale * lift * cl * speed * f, GRAVITY / 4)
        k = scale * drag * cd
        growth = 1 + k * f * 2 * rise / pull
        way += np.where(running, np.log(growth) / k, 0.0)
        f, u = f / growth, np.where(running, rise, 0.0)


def drive(case, d, world):
    """Carry, total and side at rest of each delivery, a line of `world` to each."""
    v, axis, spin = launch_of(d, case["left"], world["head"])
    air = case["air"]
    x, z, vx, vy, vz, w = fly(air, v, axis, spin, world["drag"], world["lift"])
    level = np.hypot(vx, vz)
    backspin = w * (axis[:, 2] * vx - axis[:, 0] * vz) / level  # about the level axis across its way
    length = run(air, level, -vy, backspin, world["turf"], world["drag"], world["lift"])
    return x, x + length, z + length * vz / level


# --- what is drawn -----------------------------------------------------------------------------------------------------

def lopsided(u, below, above):
    """From a share 0..1: below or above zero as likely, each a triangle that falls to nothing at its end."""
    return np.where(u < 0.5, -below * (1 - np.sqrt(np.minimum(2 * u, 1.0))), above * (1 - np.sqrt(np.minimum(2 * (1 - u), 1.0))))


def unknown(case, normal, uniform):
    """What is not known, from functions that give standard normal deviates and shares. Widths: estimates all, docs/model.md, 2 to
    5, and docs/verdict.md."""
    tilt, e0, rolling, grass, width = TURF[case["turf"]]
    factor = lambda share, width=width: np.exp(math.log(1 + share) * width * normal())
    head = {"inertia_up": HEAD["inertia_up"] * factor(0.10, 1), "depth": np.clip(HEAD["depth"] + 0.004 * normal(), 0, 0.08),
            "bulge": HEAD["bulge"] * factor(0.08, 1), "e": HEAD["e"] + 0.010 * normal(), "grip": HEAD["grip"] + 0.05 * normal()}
    turf = {"tilt": np.clip(tilt * DEG + width * 2.5 * DEG * normal(), 0, 40 * DEG),
            "restitution": np.clip(e0 * factor(0.20), 0.05, 0.95),
            "rolling": np.clip(rolling * factor(0.35), 0.02, 1),
            "grass": np.clip(grass * factor(0.65), 0.0005, 0.2),
            "fade": np.clip(FADE * factor(0.5), 0.5, 10),
            "rise": np.clip(RISE + width * lopsided(uniform(), 0.3, 0.2), 0.3, 1.2),
            "friction": np.clip(TURF_FRICTION + width * lopsided(uniform(), 0.5, 0.0), 0.05, 1)}
    return {"off": {q: case["spread"][q] / math.sqrt(case["measured_shots"]) * normal() for q in SCATTERED},
            "drag": 1 + 0.03 * normal(), "lift": 1 + 0.06 * normal(), "head": head, "turf": turf,
            "follow": case["follow"] + lopsided(uniform(), min(0.4, case["follow"]), min(0.4, 1.3 - case["follow"])),
            "speed_cost": case["speed_cost"] + 0.15 * MPH / DEG * normal()}


def thetas(case, random, pairs):
    """`pairs` of draws, each beside its mirror image."""
    def normal():
        z = random.standard_normal(pairs)
        return np.stack([z, -z], -1).ravel()

    def uniform():
        u = random.uniform(size=pairs)
        return np.stack([u, 1 - u], -1).ravel()
    return unknown(case, normal, uniform)


def delivered(case, loft, attack, theta, shot):
    """The delivery with another loft and attack, as the hand has it: loft follows, speed is paid, and the hand errs."""
    change = attack - case["mean"]["attack"]
    d = {q: case["mean"][q] + theta["off"][q] + shot[q] for q in SCATTERED}
    d["attack"] = d["attack"] + change
    d["club_speed"] = d["club_speed"] + theta["speed_cost"] * change
    d["dynamic_loft"] = d["dynamic_loft"] + loft - case["club_loft"] + theta["follow"] * change
    return d


def lines(theta, pick):
    """The lines `pick` of everything in theta."""
    return {k: lines(v, pick) if isinstance(v, dict) else v[pick] for k, v in theta.items()}


def simulate(case, choices):
    """Goal and side of each drive: arrays (choices and as is first) x theta x shots."""
    random = np.random.default_rng([SEED, case["number"]])
    theta = thetas(case, random, THETA_PAIRS)
    count, shots = 2 * THETA_PAIRS, 2 * SHOT_PAIRS
    at_once = max(1, 16384 // shots)
    carry, total, side = (np.empty((len(choices), count, shots)) for _ in range(3))
    for first in range(0, count, at_once):
        rows = np.arange(first, min(first + at_once, count))
        z = random.standard_normal((7, len(rows), SHOT_PAIRS))
        z = np.stack([z, -z], -1).reshape(7, -1)  # a shot and its mirror image side by side
        shot = {q: case["spread"][q] * z[i] for i, q in enumerate(SCATTERED)}
        here = lines(theta, np.repeat(rows, shots))
        for k, (loft, attack) in enumerate(choices):
            for array, values in zip((carry, total, side), drive(case, delivered(case, loft, attack, here, shot), here)):
                array[k, rows] = values.reshape(len(rows), shots)
    return carry, total, side


# --- the program, and the comparison --------------------------------------------------------------------------------------

def case_of(number, pupil, answer):
    """What the model needs of a pupil, in SI; whatever this script does not know of must not be there."""
    d, c = pupil["delivery"], pupil["conditions"]
    assert answer["models"] == {"ball": "reference", "aero": "reference", "head": "modern-driver", "turf": c["turf"]}, answer["models"]
    assert not set(pupil) & {"sleeve", "tuned", "shots", "launch"} and "correlations" not in pupil.get("spread", {})
    assert answer["conditions"]["wind_height_m"] == 10 and answer["conditions"]["wind_profile"] == "logarithmic"
    to_si = {"club_speed_mph": MPH, "toe_mm": 1e-3, "high_mm": 1e-3}
    mean = {q: next(v * to_si.get(k, DEG) for k, v in d.items() if k.startswith(q + "_")) for q in SCATTERED}
    if "spread" in pupil:
        assert len(pupil["spread"]) == 7
        spread = {q: next(v * to_si.get(k, DEG) for k, v in pupil["spread"].items() if k.startswith(q + "_")) for q in SCATTERED}
    else:
        speed, *degrees, toe, high = USUAL[pupil["skill"]]
        spread = dict(zip(SCATTERED, [speed * mean["club_speed"], *(x * DEG for x in degrees), toe * 1e-3, high * 1e-3]))
    kelvin = c["temperature_c"] + 273.15
    viscosity = 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)  # Sutherland, constants of ISO 2533
    density = answer["conditions"]["air_density_kgpm3"]
    # An ideal mixture in the standard atmosphere (ISO 2533), with Magnus' formula for water (WMO-No. 8): 0.1 % of CIPM-2007.
    pressure = 101325 * (1 - 0.0065 * c["altitude_m"] / 288.15) ** (GRAVITY / (0.0065 * 287.05287))
    vapour = c["humidity_pct"] / 100 * 611.2 * math.exp(17.62 * c["temperature_c"] / (243.12 + c["temperature_c"]))
    ideal = (pressure - 0.378 * vapour) / (287.05 * kelvin)
    assert abs(density / ideal - 1) < 0.001, (density, ideal)
    blows, bearing = c.get("wind_mps", 0.0), c.get("wind_from_deg", 0.0) * DEG
    return {"number": number, "left": pupil.get("handed") == "left", "goal": pupil["goal"], "mean": mean, "spread": spread,
            "measured_shots": pupil.get("measured_shots", 10), "club_loft": pupil["club"]["loft_deg"] * DEG,
            "follow": pupil["reach"]["follow"], "speed_cost": pupil["reach"]["speed_per_attack_deg_mph"] * MPH / DEG, "turf": c["turf"],
            "air": {"density": density, "viscosity": viscosity, "wind": (-blows * math.cos(bearing), -blows * math.sin(bearing))},
            "fairway": answer["pupil"]["fairway_m"]}


def compare(where, what, got, expected, error, tolerance, unit):
    """A line of the table, in yards or as a share; three standard errors must fit into the tolerance."""
    global checked
    checked += 1
    size = YARD if unit == "yd" else 1.0
    good = abs(got - expected) <= tolerance and 3 * error <= tolerance
    print(f"  {where:<20} {what:<15} {got / size:9.3f} {expected / size:9.3f} +- {error / size:5.3f}  "
          f"off {(got - expected) / size:+6.3f} of {tolerance / size:g} {unit}{'' if good else '   WRONG'}")
    if not good:
        wrong.append(f"{where} {what}: {got / size:.4f}, here {expected / size:.4f} +- {error / size:.4f}, "
                     f"allowed {tolerance / size:g} {unit}")


def check_well_struck(name, case, answer):
    """No draws: the same equations give the same drive."""
    global checked
    theta, centred, worst = unknown(case, lambda: np.zeros(1), lambda: np.full(1, 0.5)), {q: np.zeros(1) for q in SCATTERED}, 0.0
    for key, s in answer["strategies"].items():
        found = drive(case, delivered(case, s["loft_deg"] * DEG, s["attack_deg"] * DEG, theta, centred), theta)
        for what, mine in zip(("carry", "total", "rest_side"), found):
            its = s["flight"][what + "_m"]
            checked += 1
            worst = max(worst, abs(its - mine[0]))
            if not abs(its - mine[0]) <= SAME_DRIVE:
                wrong.append(f"{name} {key} well struck, {what}: {its:.4f} m, here {mine[0]:.4f} m")
    print(f"  well-struck drives: at most {1e3 * worst:.3f} mm apart")


def check_flights(name, case):
    """The steps above against DOP853 at 1e-10, on scattered drives."""
    global checked
    random = np.random.default_rng([SEED, case["number"], 1])
    theta = thetas(case, random, 12)
    shot = {q: case["spread"][q] * random.standard_normal(24) for q in SCATTERED}
    d = delivered(case, case["club_loft"], case["mean"]["attack"], theta, shot)
    v, axis, spin = launch_of(d, case["left"], theta["head"])
    mine = fly(case["air"], v, axis, spin, theta["drag"], theta["lift"])
    scale, worst = 0.5 * case["air"]["density"] * math.pi * RADIUS**2 / MASS, 0.0
    for i in np.flatnonzero(v[:, 1] > 0):
        def rate(_, s):
            a, w = forces(case["air"], s[1], s[3:6], s[6], axis[i], scale * theta["drag"][i], scale * theta["lift"][i])
            return [*s[3:6], *a, w]

        def ground(t, s):
            return s[1] if t > 0 else 1.0
        ground.terminal, ground.direction = True, -1
        end = solve_ivp(rate, (0, 60), [0, 0, 0, *v[i], spin[i]], "DOP853", events=ground, rtol=1e-10, atol=1e-10).y_events[0][0]
        checked += 1
        apart = max(abs(end[0] - mine[0, i]), abs(end[2] - mine[1, i]), np.max(np.abs(end[3:6] - mine[2:5, i])))
        worst = max(worst, apart)
        if not apart <= SAME_FLIGHT:
            wrong.append(f"{name}: flight {i} is {apart:.4f} m or m/s from SciPy's")
    print(f"  flights: at most {1e3 * worst:.3f} mm or mm/s from SciPy's DOP853")


def jackknifed(of):
    """What `of` makes of means over shots, a column a theta, free of what few shots do to it."""
    def free(drives):
        return 2 * of(drives.mean(-1)) - np.mean([of(half.mean(-1)) for half in np.split(drives, 2, axis=-1)])
    return free


def with_error(of, drives):
    """Of all thetas, and its standard error from batches of them: the last but one axis, a pair's two thetas side by side."""
    batches = [of(part) for part in np.split(drives, BATCHES, axis=-2)]
    return of(drives), np.std(batches, ddof=1) / math.sqrt(BATCHES)


def check(number, name, path):
    began = time.process_time()
    pupil = json.loads(path.read_text(encoding="utf-8"))
    done = subprocess.run([PROGRAM, "advise", str(path), "--json", "--quiet"], capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr
    answer = json.loads(done.stdout)
    case = case_of(number, pupil, answer)
    print(f"{name}: goal {case['goal']}, {answer['confidence']['draws']} draws of the program, {2 * THETA_PAIRS} x {2 * SHOT_PAIRS} here")
    check_well_struck(name, case, answer)
    check_flights(name, case)

    choices = [c for c in answer["choices"] if c["feasible"] and c["lever"] != "leave"]
    assert choices, "nothing to judge"
    places = [(case["club_loft"], case["mean"]["attack"])] + [(c["loft_deg"] * DEG, c["attack_deg"] * DEG) for c in choices]
    carry, total, side = simulate(case, places)
    goal = {"carry": carry, "total": total}[case["goal"]]
    as_is = answer["strategies"]["as_is"]["average"]
    for what, array in (("carry", carry), ("total", total)):
        compare("as is", what, as_is[f"{what}_m"], *with_error(np.mean, array[0]), MEAN, "yd")
    for k, c in enumerate([None] + choices):
        held = np.abs(side[k] - side[k].mean()) <= case["fairway"] / 2
        where = "as is" if c is None else f"{c['lever']} {c['loft_deg']:.1f} {c['attack_deg']:+.1f}"
        its = as_is["fairway_share"] if c is None else c["fairway_share"]
        compare(where, "fairway", its, *with_error(np.mean, held), SHARE, "share")
        if c is None:
            continue
        gains = goal[k] - goal[0]
        compare(where, "gain", c["gain_m"], *with_error(np.mean, gains), MEAN, "yd")
        compare(where, "gain low", c["gain_low_m"], *with_error(jackknifed(lambda g: np.quantile(g, 0.1)), gains), END, "yd")
        compare(where, "gain high", c["gain_high_m"], *with_error(jackknifed(lambda g: np.quantile(g, 0.9)), gains), END, "yd")
        compare(where, "drives gaining", c["drives_gaining"], *with_error(np.mean, gains > 0), SHARE, "share")
        compare(where, "drive gain low", c["drive_gain_low_m"], *with_error(lambda g: np.quantile(g, 0.1), gains), END, "yd")
        compare(where, "drive gain high", c["drive_gain_high_m"], *with_error(lambda g: np.quantile(g, 0.9), gains), END, "yd")
    # How often each has the most net gain; leave may be had where the swing as is meets every limit. Then the verdict's leader: how
    # often nothing else has a yard more, and what choosing it costs against knowing all.
    feasible = [(0, c) for c in answer["choices"] if c["lever"] == "leave" and c["feasible"]]
    feasible += [(k + 1, c) for k, c in enumerate(choices)]
    nets = np.stack([goal[k] - goal[0] - c["price_m"] for k, c in feasible])
    for i, (_, c) in enumerate(feasible):
        best = with_error(jackknifed(lambda g: np.mean(np.argmax(g, 0) == i)), nets)
        compare(c["lever"], "best", c["best_probability"], *best, CHANCE, "share")
    lead = next(i for i, (_, c) in enumerate(feasible) if c is answer["choices"][0])
    verdict = answer["verdict"]
    compare("verdict", "probability", verdict["probability"],
            *with_error(jackknifed(lambda g: np.mean(g.max(0) - g[lead] <= YARD)), nets), CHANCE, "share")
    compare("verdict", "regret", verdict["regret_m"], *with_error(jackknifed(lambda g: np.mean(g.max(0) - g[lead])), nets), REGRET, "yd")
    print(f"  {time.process_time() - began:.1f} s of this core")


print(f"SciPy {scipy.__version__}, NumPy {np.__version__}; columns: the program, here +- standard error, difference of what is allowed")
check(1, "demo", SOURCE / "data/pupils/demo.json")
check(2, "clinic", SOURCE / "data/pupils/clinic.json")
with tempfile.TemporaryDirectory() as folder:
    senior = pathlib.Path(folder) / "senior.json"
    senior.write_text(json.dumps(SENIOR), encoding="utf-8")
    check(3, "slow senior", senior)
print("\n".join(wrong))
print(f"{checked} numbers held against a Monte Carlo written apart, {len(wrong)} wrong")
sys.exit(1 if wrong or checked < 100 else 0)
