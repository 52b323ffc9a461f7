"""Holds the signs of a lesson ladder against SciPy's distributions, and its set-up against the circle drawn in space, live.

    ladder_check.py PROGRAM SOURCE_DIR

`advise --ladder --json` of pupils drawn here: the sign of a step is the 20 % point of a normal distribution about its attack, the chance of
it on the step before a binomial tail, and the drives that tell a step from the one before the fewest whose mean lies on the right side
of the middle 95 times in a hundred (found by trying one number after the other). The clubhead is moved along its circle by small steps
in NumPy: where the ball lies it must move at the attack and the path of the step. Exit 77: SciPy is not installed.
"""
import json
import math
import pathlib
import subprocess
import sys
import tempfile

try:
    import numpy as np
    from scipy import stats
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
PUPILS, SEED = 24, 20261126
failures = []


def pupil(draw):
    attack, loft = draw.uniform(-6, 1), draw.uniform(9, 12)
    return {"format": "loftwright-pupil/1", "name": "Invented", "handed": "left" if draw.uniform() < 0.5 else "right",
            "goal": "total" if draw.uniform() < 0.5 else "carry",
            "delivery": {"club_speed_mph": draw.uniform(65, 105), "attack_deg": attack, "dynamic_loft_deg": loft + draw.uniform(-1, 2),
                         "path_deg": draw.uniform(-4, 4), "face_deg": draw.uniform(-2, 2)},
            "spread": {"club_speed_mph": 2, "attack_deg": draw.uniform(0.5, 3), "path_deg": 2, "face_deg": 2, "dynamic_loft_deg": 1.5,
                       "toe_mm": 10, "high_mm": 8},
            "club": {"loft_deg": loft}, "lofts_on_offer_deg": [9, 10.5, 12, 13.5],
            "reach": {"attack_deg": [attack - 1, attack + 6]},
            "arc": {"plane_deg": draw.uniform(40, 60), "radius_m": draw.uniform(1.3, 1.8)}}


def close(what, got, wanted, tolerance):
    if not abs(got - wanted) <= tolerance:
        failures.append(f"{what}: {got} instead of {wanted}")


def check_signs(name, steps, now, sd):
    before = now
    upward = steps[-1]["attack_deg"] >= now
    for n, step in enumerate(steps):
        where, attack = f"{name}, step {n + 1}", step["attack_deg"]
        sign = stats.norm.ppf(0.2, attack, sd) if upward else stats.norm.ppf(0.8, attack, sd)
        close(f"{where}: sign", step["sign_attack_deg"], sign, 1e-8)
        if step["new_club"]:
            assert step["drives_to_tell"] is None
            continue
        p = stats.norm.sf(sign, before, sd) if upward else stats.norm.cdf(sign, before, sd)
        close(f"{where}: chance on the step before", step["sign_by_chance"], stats.binom.sf(7, 10, p), 1e-9)
        drives = 1
        while stats.norm.cdf(0.5 * abs(attack - before), 0, sd / math.sqrt(drives)) < 0.95:
            drives += 1
        if step["drives_to_tell"] != drives:
            failures.append(f"{where}: {step['drives_to_tell']} drives instead of {drives}")
        before = attack


def check_circle(name, steps, arc, path, mirror):
    """The clubhead on a circle: x to the target, y to the right, z up; the plane leans about its base line."""
    psi, radius = math.radians(arc["plane_deg"]), arc["radius_m"]
    for n, step in enumerate(steps):
        base = math.radians(mirror * step["swing_direction_deg"])
        along = np.array([math.cos(base), math.sin(base), 0])  # of the base line
        # In the plane, upwards: towards the player, who stands left of the line.
        across = np.array([math.sin(base) * math.cos(psi), -math.cos(base) * math.cos(psi), math.sin(psi)])
        # Where the ball lies along the base line: the low point is that far ahead of it.
        phase = -math.asin(step["low_point_m"] / radius)
        at = lambda angle: radius * (math.sin(angle) * along - math.cos(angle) * across)
        small = 1e-6
        move = at(phase + small) - at(phase - small)
        attack = math.degrees(math.asin(move[2] / np.linalg.norm(move)))
        turned = math.degrees(math.atan2(move[1], move[0]))
        close(f"{name}, step {n + 1}: attack on the circle", step["attack_deg"], attack, 1e-6)
        close(f"{name}, step {n + 1}: path on the circle", mirror * path, turned, 1e-6)


draw = np.random.default_rng(SEED)
ladders = 0
with tempfile.TemporaryDirectory() as folder:
    for n in range(PUPILS):
        one = pupil(draw)
        file = pathlib.Path(folder) / f"{n}.json"
        file.write_text(json.dumps(one))
        done = subprocess.run([PROGRAM, "advise", file, "--ladder", "--draws", "256", "--json", "--quiet"], capture_output=True, text=True)
        answer = json.loads(done.stdout)
        steps = answer["ladder"]
        if not steps:
            assert answer["verdict"]["lever"] in ("leave", "loft"), answer["verdict"]
            continue
        ladders += 1
        now = answer["strategies"]["as_is"]["attack_deg"]
        lever = answer["verdict"]["lever"]
        target = answer["strategies"]["both" if lever == "both" else "technique_only"]
        close(f"pupil {n}: target", steps[-1]["attack_deg"], target["attack_deg"], 1e-9)
        changes = [b - a for a, b in zip([now] + [s["attack_deg"] for s in steps], [s["attack_deg"] for s in steps])]
        assert max(map(abs, changes)) <= 1.5 + 1e-9, changes
        check_signs(f"pupil {n}", steps, now, one["spread"]["attack_deg"])
        check_circle(f"pupil {n}", steps, one["arc"], one["delivery"]["path_deg"], -1 if one["handed"] == "left" else 1)

print(f"{ladders} ladders of {PUPILS} pupils held against SciPy {stats.norm.__module__.split('.')[0]}")
if ladders < 8:
    failures.append("too few ladders to show anything")
print("\n".join(failures))
sys.exit(bool(failures))
