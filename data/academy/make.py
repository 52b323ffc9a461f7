#!/usr/bin/python3
"""Makes the shot lists and books of the Hollin Mere academy, which is invented, as are its pupils and every number here.

    make.py PROGRAM            writes NAME-before.csv, NAME-after.csv and NAME-heads.csv beside this script, and books/NAME.json
    make.py PROGRAM --check    compares them with what it would write; exit 1 when they differ

Each shot is a delivery drawn about the pupil's mean (attack and loft go together, so do path and face), what the model
makes of it (PROGRAM strike --json, with the hand and the conditions of NAME.json), and on top of every reading what a device
adds, as large as DEVICE says. Draws come from a generator written out below, so that they are the same wherever the script runs; the
model's numbers may differ between machines by less than is printed, so --check allows one in the last digit.
"""
import json
import pathlib
import subprocess
import sys

import make_books

HERE = pathlib.Path(__file__).resolve().parent

# What a device adds to each reading: standard deviations, estimates.
DEVICE = {"club_speed": 0.3, "attack": 0.3, "dynamic_loft": 0.3, "path": 0.3, "face": 0.3, "toe": 1.0, "high": 1.0,
          "ball_speed": 0.2, "launch": 0.2, "azimuth": 0.2, "spin": 60, "tilt": 0.5, "carry": 1.0, "total": 2.0, "side": 1.0,
          "apex": 1.0, "landing": 0.5}  # mph, deg, mm, rpm, yd; apex in ft

# Means and standard deviations of deliveries: mph, deg, mm.
SENIOR = {"club_speed": 1.3, "attack": 1.0, "dynamic_loft": 1.2, "path": 1.8, "face": 1.8, "toe": 6, "high": 5}
STEADY = {"club_speed": 1.2, "attack": 0.9, "dynamic_loft": 0.9, "path": 1.4, "face": 1.4, "toe": 6, "high": 4}
SESSIONS = {
    # A lesson: the ball further forward and a higher tee, from down on the ball to a little up.
    "tamsin-before": (14, SENIOR, {"club_speed": 64.8, "attack": -3.6, "dynamic_loft": 13.0}, {}),
    "tamsin-after": (15, SENIOR, {"club_speed": 64.9, "attack": 0.6, "dynamic_loft": 15.6}, {}),
    # Another driver, 9 and then 12.5 deg, the same swing; and a warmer day.
    "ivo-before": (15, STEADY, {"club_speed": 78.2, "attack": -2.4, "dynamic_loft": 10.8, "path": 1.0, "face": 0.5}, {}),
    "ivo-after": (16, STEADY, {"club_speed": 78.0, "attack": -2.4, "dynamic_loft": 14.2, "path": 1.0, "face": 0.8},
                  {"temperature": "24C"}),
    # A lesson that has not arrived: half a degree.
    "brannoch-before": (12, SENIOR, {"club_speed": 88.3, "attack": -3.0, "dynamic_loft": 11.0}, {}),
    "brannoch-after": (12, SENIOR, {"club_speed": 88.1, "attack": -2.5, "dynamic_loft": 11.4}, {}),
    # From hitting down with much spin to hitting up with the same loft.
    "suvi-before": (16, STEADY, {"club_speed": 100.2, "attack": -4.2, "dynamic_loft": 13.4, "path": -2.0, "face": 0.5, "high": -5}, {}),
    "suvi-after": (16, STEADY, {"club_speed": 100.0, "attack": 1.4, "dynamic_loft": 13.8, "path": 0.5, "face": 0.8, "high": 2}, {}),
}

# A fitting: four drivers that take turns, three shots at a time; the same swing but for the loft. With the last one he
# met the ball low and towards the heel, which the device did not see: a bad day with that head.
FITTED = {**STEADY, "path": 2.6, "face": 3.4}
FITTINGS = {
    "ivo-heads": (12, 3, {
        "Own 9": (FITTED, {"club_speed": 78.2, "attack": -2.3, "dynamic_loft": 10.9, "path": 1.0, "face": 0.4}),
        "Demo 10.5": (FITTED, {"club_speed": 78.1, "attack": -2.3, "dynamic_loft": 12.4, "path": 1.0, "face": 0.6}),
        "Demo 12.5": (FITTED, {"club_speed": 77.9, "attack": -2.4, "dynamic_loft": 14.3, "path": 1.0, "face": 0.8}),
        "Demo 14": ({**FITTED, "toe": 9, "high": 6},
                    {"club_speed": 78.3, "attack": -2.3, "dynamic_loft": 15.6, "path": 1.0, "face": 0.8, "toe": -24, "high": -12}),
    }),
}


class Draws:
    """SplitMix64 (Steele, Lea & Flood 2014); a normal deviate is the sum of twelve uniform ones, less six."""

    def __init__(self, seed):
        self.state = seed

    def uniform(self):
        mask = 2**64 - 1
        self.state = (self.state + 0x9E3779B97F4A7C15) & mask
        z = self.state
        z = ((z ^ z >> 30) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ z >> 27) * 0x94D049BB133111EB) & mask
        return ((z ^ z >> 31) >> 11) * 2.0**-53

    def normal(self):
        return sum(self.uniform() for _ in range(12)) - 6.0


def delivery_of(means, scatter, draws):
    z = {key: draws.normal() for key in scatter}
    z["dynamic_loft"] = 0.6 * z["attack"] + 0.8 * z["dynamic_loft"]
    z["face"] = 0.6 * z["path"] + 0.8 * z["face"]
    return {key: means.get(key, 0.0) + sd * z[key] for key, sd in scatter.items()}


def struck(program, delivery, pupil, changed):
    """What the model makes of a delivery: every reading in the units of DEVICE."""
    conditions = pupil["conditions"]
    options = {"altitude": f"{conditions['altitude_m']}m", "temperature": f"{conditions['temperature_c']}C",
               "humidity": f"{conditions['humidity_pct']}%", "turf": conditions["turf"], "handed": pupil["handed"], **changed}
    line = [program, "strike", "--json"]
    for key, unit in (("club_speed", "mph"), ("attack", "deg"), ("dynamic_loft", "deg"), ("path", "deg"), ("face", "deg"),
                      ("toe", "mm"), ("high", "mm")):
        line.append(f"--{key.replace('_', '-')}={delivery[key]:.6f}{unit}")
    line += [f"--{key}={value}" for key, value in options.items()]
    answer = json.loads(subprocess.run(line, capture_output=True, text=True, check=True).stdout)
    launch, flight = answer["launch"], answer["flight"]
    return {**delivery, "ball_speed": launch["ball_speed_mps"] / 0.44704, "launch": launch["launch_deg"],
            "azimuth": launch["azimuth_deg"], "spin": launch["spin_rpm"], "tilt": launch["tilt_deg"],
            "carry": flight["carry_m"] / 0.9144, "total": flight["total_m"] / 0.9144, "side": flight["side_m"] / 0.9144,
            "apex": flight["apex_m"] / 0.3048, "landing": flight["landing_deg"]}


def session(program, name):
    """The shots of a session as a device reads them."""
    pupil = json.loads((HERE / f"{name.split('-')[0]}.json").read_text(encoding="utf-8"))
    draws = Draws(int.from_bytes(name.encode(), "big") % 2**64)

    def one(scatter, means, changed):
        shot = struck(program, delivery_of(means, scatter, draws), pupil, changed)
        return {key: value + DEVICE[key] * draws.normal() for key, value in shot.items()}

    if name in SESSIONS:
        count, scatter, means, changed = SESSIONS[name]
        return [one(scatter, means, changed) for _ in range(count)]
    count, at_a_time, heads = FITTINGS[name]
    return [{"head": head, **one(scatter, means, {})} for _ in range(count // at_a_time) for head, (scatter, means) in heads.items()
            for _ in range(at_a_time)]


def sided(value, decimals=0):
    return f"{abs(value):.{decimals}f} {'R' if value >= 0 else 'L'}"


def cell(value, decimals):
    text = f"{value:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def plain_list(shots, columns):
    """Commas, units in the heads. `columns`: reading, head, decimals."""
    lines = ["Shot," + ",".join(head for _, head, _ in columns)]
    for number, shot in enumerate(shots, 1):
        lines.append(f"{number}," + ",".join(cell(shot[key], decimals) for key, _, decimals in columns))
    return lines


def tamsin(shots, which):
    lines = plain_list(shots, [("club_speed", "Club Speed (mph)", 1), ("attack", "Attack (deg)", 1),
                               ("dynamic_loft", "Dynamic Loft (deg)", 1), ("ball_speed", "Ball Speed (mph)", 1),
                               ("launch", "Launch (deg)", 1), ("spin", "Spin (rpm)", 0), ("carry", "Carry (yd)", 0),
                               ("total", "Total (yd)", 0)])
    if which == "before":  # typed from the device's screen: once without its decimal point
        number, speed, rest = lines[6].split(",", 2)
        lines[6] = f"{number},{speed.replace('.', '')},{rest}"
    return lines


def ivo(shots, which):
    """Semicolons, decimal commas, a row of units, an average at the end; km/h and metres."""
    columns = [("club_speed", "Club Speed", "km/h", 1.609344, 1), ("attack", "Angle of Attack", "deg", 1, 1),
               ("path", "Swing Path", "deg", 1, 1), ("face", "Face to Target", "deg", 1, 1), ("dynamic_loft", "Loft at Impact", "deg", 1, 1),
               ("ball_speed", "Ball Speed", "km/h", 1.609344, 1), ("launch", "Launch", "deg", 1, 1),
               ("spin", "Spin", "rpm", 1, 0), ("carry", "Carry", "m", 0.9144, 1)]

    def row(first, values):
        cells = [cell(value * factor, decimals).replace(".", ",") for value, (*_, factor, decimals) in zip(values, columns)]
        return ";".join([first, *cells])

    lines = ["Nr;" + ";".join(head for _, head, *_ in columns), ";" + ";".join(unit for _, _, unit, *_ in columns)]
    lines += [row(str(n), [shot[c[0]] for c in columns]) for n, shot in enumerate(shots, 1)]
    return lines + [row("Average", [sum(shot[c[0]] for shot in shots) / len(shots) for c in columns])]


def ivo_heads(shots):
    """Commas, a column that names the driver, sides in words; the strike was not measured."""
    columns = [("club_speed", 1), ("attack", 1), ("path", 1), ("face", 1), ("dynamic_loft", 1), ("ball_speed", 1), ("launch", 1), ("spin", 0),
               ("carry", 0), ("total", 0)]
    lines = ["Club,Club Speed (mph),Attack (deg),Path (deg),Face (deg),Dynamic Loft (deg),Ball Speed (mph),Launch (deg),Spin (rpm),Carry (yd),"
             "Total (yd),Side (yd)"]
    for shot in shots:
        lines.append(",".join([shot["head"], *(cell(shot[key], decimals) for key, decimals in columns), sided(shot["side"])]))
    return lines


def brannoch(shots, which):
    """Ball numbers alone, sides in words, another club among the drives, a spin that was not picked up."""
    lines = ["Club,Ball Speed (mph),Launch,Spin,Carry (yd),Side (yd)"]
    for number, shot in enumerate(shots):
        spin = "-" if number == 7 and which == "before" else f"{shot['spin']:.0f}"
        lines.append(f"Driver,{shot['ball_speed']:.1f},{shot['launch']:.1f},{spin},{shot['carry']:.0f},{sided(shot['side'])}")
        if number == 3:
            lines.append("7 iron,98.1,19.6,5230,128,2 R")
    return lines


def suvi(shots, which):
    if which == "before":  # one that was topped
        shots[9] = {**shots[9], "ball_speed": 121.6, "launch": 1.2, "spin": 1240.0, "carry": 81.0, "total": 141.0, "apex": 6.0, "landing": 5.0,
                    "high": -24.0}
    return plain_list(shots, [("club_speed", "Club Speed (mph)", 1), ("attack", "Attack (deg)", 1), ("path", "Path (deg)", 1),
                              ("face", "Face (deg)", 1), ("dynamic_loft", "Dynamic Loft (deg)", 1), ("toe", "Toe (mm)", 0),
                              ("high", "High (mm)", 0), ("ball_speed", "Ball Speed (mph)", 1), ("launch", "Launch (deg)", 1),
                              ("azimuth", "Azimuth (deg)", 1), ("spin", "Spin (rpm)", 0), ("tilt", "Tilt (deg)", 1),
                              ("carry", "Carry (yd)", 0), ("total", "Total (yd)", 0), ("side", "Side (yd)", 0), ("apex", "Apex (ft)", 0)])


WRITERS = {"tamsin": tamsin, "ivo": ivo, "brannoch": brannoch, "suvi": suvi}


def list_of(program, name):
    who, which = name.split("-")
    shots = session(program, name)
    lines = ivo_heads(shots) if name in FITTINGS else WRITERS[who](shots, which)
    return "\n".join(["# Invented: a session of an invented pupil, made by make.py.", *lines]) + "\n"


def same(one, other):
    """Texts alike but for one in the last printed digit of a number."""
    a, b = ([c for line in text.splitlines() for c in line.replace(";", ",;,").split(",")] for text in (one, other))
    if len(a) != len(b):
        return False
    for x, y in zip(a, b):
        if x == y:
            continue
        digits = [text.strip(" RL").lstrip("-").partition(".") for text in (x, y)]
        if len(digits[0][2]) != len(digits[1][2]) or not all((d[0] + d[2]).isdigit() for d in digits):
            return False
        signs = [-1 if text.strip().startswith("-") or text.endswith("L") else 1 for text in (x, y)]
        values = [s * int(d[0] + d[2]) for s, d in zip(signs, digits)]
        if abs(values[0] - values[1]) > 1:
            return False
    return True


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    wrong = []
    for name in [*SESSIONS, *FITTINGS]:
        path, text = HERE / f"{name}.csv", list_of(program, name)
        if "--check" not in sys.argv:
            path.write_text(text, encoding="utf-8")
        elif not same(path.read_text(encoding="utf-8"), text):
            wrong.append(f"{path.name} is not what make.py makes")
    books = make_books.books(program, lambda name: Draws(int.from_bytes(name.encode(), "big") % 2**64))
    for name, text in books:
        path = HERE / "books" / name
        if "--check" not in sys.argv:
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        elif not path.exists() or not make_books.same_book(path.read_text(encoding="utf-8"), text):
            wrong.append(f"books/{name} is not what make.py makes")
    print("\n".join(wrong) or f"{len(SESSIONS) + len(FITTINGS)} lists, {len(books)} books")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
