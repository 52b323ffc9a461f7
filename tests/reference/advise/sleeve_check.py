"""What an answer says of the sleeve, held against the pupil's own file: the setting named makes the loft and the face angle named.

    sleeve_check.py PROGRAM SOURCE_DIR [PUPILS]

Drawn pupils of both hands, with settings by name or with a range. Loft, face, delivered loft and price are reckoned from the file
alone, in degrees, by addition (the definition in docs/pupil-file.md); nothing of the program is asked but its answers.
"""
import json
import pathlib
import random
import subprocess
import sys
import tempfile

YARD = 0.9144
FOLLOW = 0.85
NEAR = 2e-6  # [deg, m] answers are printed to that


def drawn(rng, number):
    loft = rng.choice([9, 9.5, 10.5, 12])
    pupil = {
        "format": "loftwright-pupil/1",
        "name": f"Drawn {number} (invented)",
        "handed": rng.choice(["right", "left"]),
        "goal": rng.choice(["carry", "total"]),
        "delivery": {
            "club_speed_mph": round(rng.uniform(65, 110), 1),
            "attack_deg": round(rng.uniform(-5, 2), 1),
            "path_deg": round(rng.uniform(-4, 4), 1),
            "face_deg": round(rng.uniform(-4, 4), 1),
            "dynamic_loft_deg": round(loft + rng.uniform(-3, 3), 1),
        },
        "club": {"loft_deg": loft},
        "lofts_on_offer_deg": sorted(rng.sample([9, 10, 10.5, 11, 12, 13.5], rng.randint(1, 3))),
        "skill": rng.choice(["low-handicap", "mid-handicap", "high-handicap"]),
    }
    if rng.random() < 0.3:
        pupil["prices"] = {"driver_yd": round(rng.uniform(1, 8), 1), "sleeve_yd": round(rng.uniform(0.5, 2), 1)}
    if rng.random() < 0.2:
        pupil["lofts_on_offer_deg"] = {"from": 9, "to": 14}
    if rng.random() < 0.25:
        pupil["sleeve"] = {"range_deg": [-round(rng.uniform(0, 2), 1), round(rng.uniform(0, 2), 1)], "face_per_loft": round(rng.uniform(-1, 0.5), 2)}
    else:
        settings = [{"name": f"{turn:+d}", "loft_deg": turn, "face_deg": round(-0.7 * turn + rng.uniform(-0.3, 0.3), 2)}
                    for turn in rng.sample([-2, -1, 1, 2], rng.randint(1, 4))]
        if rng.random() < 0.5:
            settings.append({"name": "flat", "loft_deg": 0, "face_deg": round(rng.uniform(-2, 2), 1)})
        if rng.random() < 0.5:
            settings.append({"name": "as marked", "loft_deg": 0, "face_deg": 0})
        pupil["sleeve"] = {"settings": settings}
    if rng.random() < 0.2:
        pupil["limits"] = {"side_m": [-12, 12]}
    return pupil


def near(a, b):
    return abs(a - b) <= NEAR


def made_by(pupil, fit):
    """(loft, face) that the head and the setting named make, from the file; what is wrong with the name as text."""
    head, sleeve, offer = fit["head_loft_deg"], pupil["sleeve"], pupil["lofts_on_offer_deg"]
    if fit["setting"] is not None:
        found = [s for s in sleeve.get("settings", []) if s["name"] == fit["setting"]]
        if len(found) != 1:
            return f"there is no setting {fit['setting']}"
        return head + found[0]["loft_deg"], found[0]["face_deg"]
    of_range = isinstance(offer, dict) and not fit["in_hand"]
    if "settings" in sleeve or of_range:
        return head, 0.0
    turn = fit["loft_deg"] - head
    low, high = sleeve["range_deg"]
    return (fit["loft_deg"], sleeve["face_per_loft"] * turn) if low - NEAR <= turn <= high + NEAR else "turned beyond the range"


def wrong_in(pupil, kind, answer, fit, counted):
    club, offer = pupil["club"]["loft_deg"], pupil["lofts_on_offer_deg"]
    if kind in ("as_is", "technique_only", "leave", "technique"):
        return [] if fit is None else [f"{kind} names something to fit"]
    attack, loft = answer["attack_deg"], answer["loft_deg"]
    if fit is None:
        return [] if near(loft, club) else [f"{kind}: another loft and nothing to fit"]
    made = made_by(pupil, fit)
    if isinstance(made, str):
        return [f"{kind}: {made}"]
    out = []
    if not near(made[0], fit["loft_deg"]) or not near(loft, fit["loft_deg"]):
        out.append(f"{kind}: loft {fit['loft_deg']} named, {made[0]} made, {loft} answered")
    if not near(made[1], fit["face_deg"]):
        out.append(f"{kind}: face {fit['face_deg']} named, {made[1]} made")
    heads = [fit["head_loft_deg"]] if isinstance(offer, dict) else offer
    if fit["in_hand"] != near(fit["head_loft_deg"], club) and not isinstance(offer, dict):
        out.append(f"{kind}: in hand or not: {fit}")
    if not fit["in_hand"] and fit["head_loft_deg"] not in heads:
        out.append(f"{kind}: no such head")
    prices = pupil.get("prices", {})
    price = prices.get("sleeve_yd", 0.5) if fit["in_hand"] else prices.get("driver_yd", 3.0)
    if not near(attack, pupil["delivery"]["attack_deg"]):
        price += 3.0 + 1.0
    if not near(answer["price_m"], price * YARD):
        out.append(f"{kind}: price {answer['price_m'] / YARD} yd, not {price}")
    if "dynamic_loft_deg" in answer:
        delivered = pupil["delivery"]["dynamic_loft_deg"] + loft - club + FOLLOW * (attack - pupil["delivery"]["attack_deg"])
        if not near(answer["dynamic_loft_deg"], delivered):
            out.append(f"{kind}: delivered loft {answer['dynamic_loft_deg']}, not {delivered}")
    words = fit["sentence"]
    turned = abs(fit["face_deg"]) >= 0.051
    if (fit["setting"] and fit["setting"] not in words) or (turned and ("open" if fit["face_deg"] > 0 else "closed") not in words):
        out.append(f"{kind}: said as '{words}'")
    counted["in hand" if fit["in_hand"] else "bought"] += 1
    counted["named" if fit["setting"] else "not named"] += 1
    counted[pupil["handed"]] += 1
    return out


def main():
    program, count = sys.argv[1], int(sys.argv[3]) if len(sys.argv) > 3 else 60
    rng, failures = random.Random(20261126), []
    counted = dict.fromkeys(["in hand", "bought", "named", "not named", "left", "right"], 0)
    with tempfile.TemporaryDirectory() as folder:
        for i in range(count):
            pupil, file = drawn(rng, i), pathlib.Path(folder) / f"{i}.json"
            file.write_text(json.dumps(pupil))
            done = subprocess.run([program, "advise", file, "--json", "--draws", "512"], capture_output=True, text=True)
            if done.returncode not in (0, 1):
                failures.append(f"{pupil['name']}: {done.stderr.strip()}")
                continue
            answer = json.loads(done.stdout)
            wrong = []
            for kind, strategy in answer["strategies"].items():
                wrong += wrong_in(pupil, kind, strategy, strategy["fit"], counted)
            for choice in answer["choices"]:
                wrong += wrong_in(pupil, choice["lever"], choice, choice["fit"], counted)
            leader = answer["choices"][0]
            fit, sentence = leader["fit"], answer["verdict"]["sentence"]
            if answer["feasible"] and fit and fit["setting"] and fit["setting"] not in sentence:
                wrong.append(f"verdict without its setting: {sentence}")
            failures += [f"{pupil['name']} ({json.dumps(pupil)}): {w}" for w in wrong]
    print("\n".join(failures))
    print(f"{count} pupils; fits {counted}")
    return 1 if failures or min(counted.values()) < 5 else 0


if __name__ == "__main__":
    sys.exit(main())
