"""What an answer says of the sleeve, held against the pupil's own file and against every setting tried by hand.

    sleeve_check.py MANY_COMMANDS SOURCE_DIR [PUPILS]

MANY_COMMANDS is the program for many command lines at once.
Drawn pupils of both hands, with settings by name or with a range, with and without the setting the club in hand is at. Loft, face,
delivered loft and price are reckoned from the file alone, in degrees, by addition (the definition in docs/pupil-file.md).
Pupils that do not scatter are answered without draws, and every setting of every head is struck with `strike` at the attack the
answer has: what is left after its price is then the most there is, and the club in hand does as well as is said.
"""
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile

YARD = 0.9144
FOLLOW = 0.85
NEAR = 2e-6  # [deg, m] answers are printed to that
STRUCK = 0.03  # [m] a centimetre each for two flights of advise (AdviseOptions::draw_tolerance) and what is rounded
LIMITS = {  # key of the file: (value in strike's answer, how near an end advise may see it on the other side: two of its slacks)
    "side_m": (lambda s: s["flight"]["rest_side_m"], 0.02),
    "spin_rpm": (lambda s: s["launch"]["spin_rpm"], 0.2),
    "launch_deg": (lambda s: s["launch"]["launch_deg"], 0.002),
    "face_to_path_deg": (lambda s: s["delivery"]["face_deg"] - s["delivery"]["path_deg"], 0.002),
}
QUANTITIES = ["club_speed_mph", "attack_deg", "path_deg", "face_deg", "dynamic_loft_deg", "toe_mm", "high_mm"]


def drawn_settings(rng):
    settings = [{"name": f"{turn:+d}", "loft_deg": turn, "face_deg": round(-0.7 * turn + rng.uniform(-0.3, 0.3), 2)}
                for turn in rng.sample([-2, -1, 1, 2], rng.randint(1, 4))]
    if rng.random() < 0.5:
        settings.append({"name": "flat", "loft_deg": 0, "face_deg": round(rng.uniform(-2, 2), 1)})
    if rng.random() < 0.5:
        settings.append({"name": "as marked", "loft_deg": 0, "face_deg": 0})
    return settings


def drawn_limits(rng, delivery):
    limits = {}
    if rng.random() < 0.2:
        limits["side_m"] = [-12, 12]
    if rng.random() < 0.15:
        limits["spin_rpm"] = [None, rng.choice([2400, 2800, 3200])]
    if rng.random() < 0.1:
        limits["launch_deg"] = [rng.choice([9, 10]), None]
    if rng.random() < 0.1:
        middle = round(delivery["face_deg"] - delivery["path_deg"])
        limits["face_to_path_deg"] = [middle - 1, middle + 1]
    return limits


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
    if rng.random() < 0.5:
        pupil["spread"] = dict.fromkeys(QUANTITIES, 0)
    if rng.random() < 0.3:
        pupil["prices"] = {"driver_yd": round(rng.uniform(1, 8), 1), "sleeve_yd": round(rng.uniform(0.5, 2), 1)}
    if rng.random() < 0.2:
        pupil["lofts_on_offer_deg"] = {"from": 9, "to": 14}
    if rng.random() < 0.2:
        pupil["sleeve"] = {"range_deg": [-round(rng.uniform(0, 2), 1), round(rng.uniform(0, 2), 1)], "face_per_loft": round(rng.uniform(-1, 0.5), 2)}
    else:
        pupil["sleeve"] = {"settings": drawn_settings(rng)}
        if rng.random() < 0.6:
            at = rng.choice(pupil["sleeve"]["settings"])
            pupil["club"]["setting"] = at["name"]
            pupil["delivery"]["dynamic_loft_deg"] = round(pupil["delivery"]["dynamic_loft_deg"] + at["loft_deg"], 1)
    limits = drawn_limits(rng, pupil["delivery"])
    if limits:
        pupil["limits"] = limits
    return pupil


def near(a, b):
    return abs(a - b) <= NEAR


def set_at(pupil):
    """(loft added, face) of the club in hand as it is played."""
    name = pupil["club"].get("setting")
    found = [s for s in pupil["sleeve"].get("settings", []) if s["name"] == name]
    return (found[0]["loft_deg"], found[0]["face_deg"]) if name else (0.0, 0.0)


def made_by(pupil, fit):
    """(loft, face) that the head and the setting named make, from the file; what is wrong with the name as text. The face is
    against that of the club as it is played."""
    head, sleeve, offer = fit["head_loft_deg"], pupil["sleeve"], pupil["lofts_on_offer_deg"]
    face_now = set_at(pupil)[1]
    if fit["setting"] is not None:
        found = [s for s in sleeve.get("settings", []) if s["name"] == fit["setting"]]
        if len(found) != 1:
            return f"there is no setting {fit['setting']}"
        return head + found[0]["loft_deg"], found[0]["face_deg"] - face_now
    of_range = isinstance(offer, dict) and not fit["in_hand"]
    if "settings" in sleeve or of_range:
        return head, -face_now
    turn = fit["loft_deg"] - head
    low, high = sleeve["range_deg"]
    return (fit["loft_deg"], sleeve["face_per_loft"] * turn) if low - NEAR <= turn <= high + NEAR else "turned beyond the range"


def wrong_words(pupil, fit):
    words, name, now = fit["sentence"], fit["setting"], pupil["club"].get("setting")
    turned = abs(fit["face_deg"]) >= 0.051
    out = []
    if name and name not in words:
        out.append("the setting is not named")
    if turned and ("open" if fit["face_deg"] > 0 else "closed") not in words:
        out.append("the face is not told")
    if fit["turned_from"] != (now if fit["in_hand"] else None):
        out.append(f"turned from {fit['turned_from']}")
    if fit["in_hand"] and now and f"turned from {now} to {name or 'as marked'}" not in words:
        out.append("where the turn starts is not told")
    return out


def wrong_in(pupil, kind, answer, fit, counted):
    marked, offer = pupil["club"]["loft_deg"], pupil["lofts_on_offer_deg"]
    club = marked + set_at(pupil)[0]
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
    if fit["in_hand"] != near(fit["head_loft_deg"], marked) and not isinstance(offer, dict):
        out.append(f"{kind}: in hand or not: {fit}")
    if not fit["in_hand"] and fit["head_loft_deg"] not in heads:
        out.append(f"{kind}: no such head")
    if fit["in_hand"] and fit["setting"] and fit["setting"] == pupil["club"].get("setting"):
        out.append(f"{kind}: turned to where it is")
    price = price_of(pupil, fit["in_hand"])
    if not near(attack, pupil["delivery"]["attack_deg"]):
        price += (3.0 + 1.0) * YARD
    if not near(answer["price_m"], price):
        out.append(f"{kind}: price {answer['price_m'] / YARD} yd, not {price / YARD}")
    if "dynamic_loft_deg" in answer:
        delivered = pupil["delivery"]["dynamic_loft_deg"] + loft - club + FOLLOW * (attack - pupil["delivery"]["attack_deg"])
        if not near(answer["dynamic_loft_deg"], delivered):
            out.append(f"{kind}: delivered loft {answer['dynamic_loft_deg']}, not {delivered}")
    out += [f"{kind}: {wrong}, said as '{fit['sentence']}'" for wrong in wrong_words(pupil, fit)]
    counted["in hand" if fit["in_hand"] else "bought"] += 1
    counted["named" if fit["setting"] else "not named"] += 1
    counted["from a setting"] += fit["turned_from"] is not None
    counted[pupil["handed"]] += 1
    return out


def price_of(pupil, in_hand):
    """[m]"""
    prices = pupil.get("prices", {})
    return YARD * (prices.get("sleeve_yd", 0.5) if in_hand else prices.get("driver_yd", 3.0))


# Every club there is: (loft, face beside now, in hand, is it as played), from the file alone. Ranges by tenths of a degree.
def clubs_of(pupil):
    marked, offer, sleeve = pupil["club"]["loft_deg"], pupil["lofts_on_offer_deg"], pupil["sleeve"]
    added, face_now = set_at(pupil)
    heads = {marked} | (set() if isinstance(offer, dict) else set(offer))
    if "settings" in sleeve:
        turns = [(s["loft_deg"], s["face_deg"]) for s in sleeve["settings"]] + [(0.0, 0.0)]
    else:
        low, high = sleeve["range_deg"]
        steps = round((high - low) / 0.1)
        turns = [(t, sleeve["face_per_loft"] * t) for t in [low + (high - low) * i / max(steps, 1) for i in range(steps + 1)] + [0.0]]
    clubs = [(head + loft, face - face_now, head == marked) for head in sorted(heads) for loft, face in turns]
    if isinstance(offer, dict):
        steps = round((offer["to"] - offer["from"]) / 0.1)
        clubs += [(offer["from"] + 0.1 * i, -face_now, False) for i in range(steps + 1)]
    return [(loft, face, own, own and near(loft, marked + added) and near(face, 0.0)) for loft, face, own in clubs]


def ran(program, lines):
    """What becomes of each line: code, out, err."""
    return json.loads(subprocess.run([program], input=json.dumps(lines), stdout=subprocess.PIPE, text=True, check=True).stdout)


class Strikes:
    """The goal of each club at an attack, by `strike`: None where a limit is broken. `doubtful`: something lay at an end of one."""

    def __init__(self, program, pupil, attacks):
        self.pupil, self.doubtful = pupil, False
        places = [(loft, face, attack) for attack in attacks for loft, face, *_ in clubs_of(pupil)]
        places.append((pupil["club"]["loft_deg"] + set_at(pupil)[0], 0.0, pupil["delivery"]["attack_deg"]))
        keys = list(dict.fromkeys(self.key(*place) for place in places))
        self.known = {key: json.loads(done["out"]) for key, done in zip(keys, ran(program, [self.line(*key) for key in keys]), strict=True)}

    @staticmethod
    def key(loft, face, attack):
        return round(loft, 7), round(face, 7), round(attack, 7)

    def line(self, loft, face, attack):
        p, d = self.pupil, self.pupil["delivery"]
        turned = face if p["handed"] == "right" else -face
        delivered = d["dynamic_loft_deg"] + loft - p["club"]["loft_deg"] - set_at(p)[0] + FOLLOW * (attack - d["attack_deg"])
        return ["strike", "--json", "--handed", p["handed"], "--club-speed", f"{d['club_speed_mph']}mph", "--attack", f"{attack!r}deg",
                "--dynamic-loft", f"{delivered!r}deg", "--path", f"{d['path_deg']}deg", "--face", f"{d['face_deg'] + turned!r}deg"]

    def goal(self, loft, face, attack):
        p = self.pupil
        answer = self.known[self.key(loft, face, attack)]
        for name, (low, high) in p.get("limits", {}).items():
            value, near_end = LIMITS[name][0](answer), LIMITS[name][1]
            within = min(math.inf if low is None else value - low, math.inf if high is None else high - value)
            self.doubtful = self.doubtful or abs(within) < near_end
            if within < 0.0:
                return None
        return answer["flight"]["carry_m" if p["goal"] == "carry" else "total_m"]


def tried_by_hand(strikes, pupil, kind, strategy, counted):
    """Whether any club at this attack leaves more than the one that is named, and what the club in hand can do there."""
    attack, clubs = strategy["attack_deg"], clubs_of(pupil)
    now = strikes.goal(pupil["club"]["loft_deg"] + set_at(pupil)[0], 0.0, pupil["delivery"]["attack_deg"])
    if now is None or not strategy["feasible"]:
        return []  # a limit is broken as is: gains are then of another kind
    swing = 0.0 if near(attack, pupil["delivery"]["attack_deg"]) else (3.0 + 1.0) * YARD
    best, turn, stay = -math.inf, -math.inf, None
    for loft, face, own, played in clubs:
        goal = strikes.goal(loft, face, attack)
        if goal is None:
            continue
        gain = goal - now
        if played:
            stay = gain
        else:
            best = max(best, gain - price_of(pupil, own) - swing)
            if own:
                turn = max(turn, gain)
    if strikes.doubtful:
        counted["at a limit's end"] += 1
        return []
    out = []
    left = strategy["gain_m"] - strategy["price_m"]
    if strategy["fit"] is not None:
        counted["tried by hand"] += 1
        if best > left + STRUCK:
            out.append(f"{kind}: {best:.3f} m can be left, {left:.3f} m is")
        if strategy["fit"]["in_hand"]:
            dear = max([strikes.goal(loft, face, attack) or 0.0 for loft, face, own, _ in clubs if not own], default=0.0) - now
            counted["turned where a driver goes further"] += dear > strategy["gain_m"] + STRUCK
    own = strategy["own_turn"]
    bought = strategy["fit"] is not None and not strategy["fit"]["in_hand"]
    if (own is not None) != (bought and any(c[2] and not c[3] for c in clubs)):
        return out + [f"{kind}: own_turn is {own}"]
    if own is None:
        return out
    counted["own turns"] += 1
    may = max(turn, -math.inf if stay is None else stay)
    if own["feasible"] != (may > -math.inf):
        out.append(f"{kind}: own turn feasible {own['feasible']}, by hand {may}")
    elif own["feasible"]:
        # Between the tenths of a range a limit may leave more.
        if own["gain_m"] < may - STRUCK or ("settings" in pupil["sleeve"] and own["gain_m"] > may + STRUCK):
            out.append(f"{kind}: own turn gains {own['gain_m']:.3f} m, by hand {may:.3f}")
        if own["fit"] is None and stay is not None and turn > stay + 0.05 * YARD + STRUCK:
            out.append(f"{kind}: no own turn, by hand {turn - stay:.3f} m more")
        counted["own turn helps"] += own["fit"] is not None
        if own["fit"] is not None:
            out += [f"{kind}, own: {w}" for w in wrong_words(pupil, own["fit"])]
            if not own["fit"]["in_hand"]:
                out.append(f"{kind}, own: another driver")
    return out


def wrong_of(program, pupil, done, counted):
    if done["code"] not in (0, 1):
        return [done["err"].strip()]
    answer = json.loads(done["out"])
    wrong = []
    for kind, strategy in answer["strategies"].items():
        wrong += wrong_in(pupil, kind, strategy, strategy["fit"], counted)
    for choice in answer["choices"]:
        wrong += wrong_in(pupil, choice["lever"], choice, choice["fit"], counted)
    leader = answer["choices"][0]
    fit, sentence = leader["fit"], answer["verdict"]["sentence"]
    if answer["feasible"] and fit and fit["setting"] and fit["setting"] not in sentence:
        wrong.append(f"verdict without its setting: {sentence}")
    if answer["verdict"]["lever"] == "both" and answer["verdict"]["first_step"] == "loft" and "limits" not in pupil:
        counted["first the loft"] += 1
        if len(set(re.findall(r"the (?:[0-9.]+ deg head|club in hand)", sentence))) > 1:
            wrong.append(f"two clubs, one after the other: {sentence}")
    assumed = any("sleeve of the club in hand is set" in a for a in answer["assumed"])
    if assumed != ("settings" in pupil["sleeve"] and "setting" not in pupil["club"]):
        wrong.append("the setting is assumed, or it is not told")
    if "spread" in pupil:
        kinds = {kind: answer["strategies"][kind] for kind in ("loft_only", "both")}
        strikes = Strikes(program, pupil, [strategy["attack_deg"] for strategy in kinds.values() if strategy["feasible"]])
        for kind, strategy in kinds.items():
            wrong += tried_by_hand(strikes, pupil, kind, strategy, counted)
        counted["strikes"] += len(strikes.known)
    return wrong


def main():
    program, count = sys.argv[1], int(sys.argv[3]) if len(sys.argv) > 3 else 100
    rng, failures = random.Random(20261126), []
    counted = dict.fromkeys(["in hand", "bought", "named", "not named", "left", "right", "from a setting", "tried by hand",
                             "turned where a driver goes further", "own turns", "own turn helps", "first the loft", "strikes", "at a limit's end"], 0)
    with tempfile.TemporaryDirectory() as folder:
        pupils = [drawn(rng, i) for i in range(count)]
        lines = []
        for i, pupil in enumerate(pupils):
            file = pathlib.Path(folder) / f"{i}.json"
            file.write_text(json.dumps(pupil))
            lines.append(["advise", str(file), "--json", "--draws", "0" if "spread" in pupil else "512"])
        for pupil, done in zip(pupils, ran(program, lines), strict=True):
            failures += [f"{pupil['name']} ({json.dumps(pupil)}): {w}" for w in wrong_of(program, pupil, done, counted)]
    print("\n".join(failures))
    print(f"{count} pupils; {counted}")
    counted.pop("at a limit's end")  # as it comes
    return 1 if failures or min(counted.values()) < 5 else 0


if __name__ == "__main__":
    sys.exit(main())
