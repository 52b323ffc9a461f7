"""The books of the Hollin Mere academy's pupils, all invented: written by make.py beside its shot lists.

Each pupil has a mean swing, a follow and a speed cost of his own about the coach's, and a share of what is promised that he
reaches. The first session's shots become a pupil's file, `advise` answers it, and the answer is kept with the session; later
sessions go part of the way. So what `lessons` ought to find is known: COACH.
"""
import json
import math
import pathlib
import subprocess
import tempfile

# The coach's own: mean over pupils and standard deviation between them. Speed in mph a degree.
COACH = {"follow": (0.68, 0.08), "speed": (-0.15, 0.08), "reached": (0.65, 0.20)}
LOFT_BY_DAY, SPEED_BY_DAY = 0.4, 0.5  # deg, mph: beside what follows the attack
DEVICE_BY_DAY = {"attack": 0.28, "dynamic_loft": 0.35, "club_speed": 0.005}  # deg, deg, share: anew each day
SCATTER = {"club_speed": 1.3, "attack": 1.1, "dynamic_loft": 1.2}  # of single shots; half of loft's goes with attack

# file, name, club speed [mph], attack [deg], delivered loft [deg], loft of the driver [deg], sessions
PUPILS = [
    ("anneke-thole", "Anneke Thole", 68.2, -3.8, 11.9, 10.5, 4),
    ("bertil-oak", "Bertil Oak", 84.5, -4.6, 10.1, 9.0, 3),
    ("cleo-marsh", "Cleo Marsh", 73.0, -2.9, 12.4, 10.5, 5),
    ("dov-carrow", "Dov Carrow", 91.8, -3.5, 10.6, 9.0, 3),
    ("edda-finch", "Edda Finch", 65.1, -4.1, 13.0, 12.0, 4),
    ("fabian-lode", "Fabian Lode", 79.4, -5.2, 9.6, 9.0, 3),
    ("greta-holm", "Greta Holm", 70.7, -3.2, 12.8, 12.0, 3),
    ("hanno-reed", "Hanno Reed", 88.0, -2.4, 11.2, 9.0, 4),
    ("ines-vale", "Ines Vale", 75.9, -4.4, 11.0, 10.5, 3),
    ("jory-pike", "Jory Pike", 95.2, -3.9, 9.9, 9.0, 3),
    ("kirsa-dunn", "Kirsa Dunn", 67.3, -2.6, 13.1, 12.0, 4),
    ("loic-brand", "Loic Brand", 82.1, -3.0, 11.5, 10.5, 2),
]


def list_of_shots(swing, count, draws, day):
    """A device's list of a session: CSV. `day`: what the device adds to all of it."""
    lines = ["Club Speed (mph),Attack (deg),Dynamic Loft (deg)"]
    for _ in range(count):
        z = [draws.normal() for _ in range(3)]
        shot = {"club_speed": swing["club_speed"] + SCATTER["club_speed"] * z[0], "attack": swing["attack"] + SCATTER["attack"] * z[1],
                "dynamic_loft": swing["dynamic_loft"] + SCATTER["dynamic_loft"] * (0.5 * z[1] + math.sqrt(0.75) * z[2])}
        lines.append("{:.1f},{:.1f},{:.1f}".format(*(shot[key] + day[key] for key in ("club_speed", "attack", "dynamic_loft"))))
    return "\n".join(lines) + "\n"


def run(program, folder, *words):
    done = subprocess.run([program, *words, "--quiet"], cwd=folder, capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise RuntimeError(f"{words}: {done.stderr}")
    return done.stdout


def advice_on(program, folder, name, means, loft):
    """What advise says of a swing: the file, and its first choice."""
    pupil = {"format": "loftwright-pupil/1", "name": name, "measured_shots": 12, "club": {"loft_deg": loft},
             "delivery": {key: means[key] for key in means}, "lofts_on_offer_deg": [loft]}
    (folder / "pupil.json").write_text(json.dumps(pupil), encoding="utf-8")
    text = run(program, folder, "advise", "pupil.json", "--json", "--draws", "4096")
    (folder / "advice.json").write_text(text, encoding="utf-8")
    return json.loads(text)["choices"][0]


def book_of(program, pupil, draws):
    """A book's text."""
    file, name, speed, attack, loft, club, sessions = pupil
    name += " (invented)"
    mine = {key: mean + sd * draws.normal() for key, (mean, sd) in COACH.items()}
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        target = 0.0
        for number in range(sessions):
            way = mine["reached"] * target * min(1.0, (number + 1) / (sessions - 0.5)) if number else 0.0
            swing = {"club_speed": speed + mine["speed"] * way + SPEED_BY_DAY * draws.normal(), "attack": attack + way,
                     "dynamic_loft": loft + mine["follow"] * way + LOFT_BY_DAY * draws.normal()}
            day = {key: sd * draws.normal() for key, sd in DEVICE_BY_DAY.items()}
            day["club_speed"] *= swing["club_speed"]
            shots = f"session-{number + 1}.csv"
            (folder / shots).write_text(list_of_shots(swing, 12 + number % 4, draws, day), encoding="utf-8")
            words = ["book", "add", "book.json", "--date", f"2026-{number * 2 + 1:02d}-{10 + number:02d}", "--name", name,
                     "--loft", f"{club}deg", "--shots", shots]
            if number == 0:
                summary = json.loads(run(program, folder, "shots", shots, "--json"))
                advice = advice_on(program, folder, name, delivery_of(summary), club)
                target = advice["attack_deg"] - attack
                words += ["--advice", "advice.json", "--notes", "Invented. First visit."]
            run(program, folder, *words)
        return file, (folder / "book.json").read_text(encoding="utf-8")


def delivery_of(summary):
    """The delivery block of an answer of shots, with the keys of a pupil's file."""
    means = {r["reading"]: r["mean"] for r in summary["readings"]}
    return {"club_speed_mps": means["club_speed"], "attack_deg": means["attack"], "dynamic_loft_deg": means["dynamic_loft"]}


def books(program, draws_of):
    """Every book: file name and text."""
    return [(f"{file}.json", text) for file, text in (book_of(program, pupil, draws_of(pupil[0])) for pupil in PUPILS)]


def same_book(one, other):
    """Alike but for the program's version and the last digits of what a machine computes."""
    def alike(a, b):
        if isinstance(a, dict):
            return isinstance(b, dict) and a.keys() == b.keys() and all(k == "program" or alike(a[k], b[k]) for k in a)
        if isinstance(a, list):
            return isinstance(b, list) and len(a) == len(b) and all(map(alike, a, b))
        if isinstance(a, float) or isinstance(b, float):
            return abs(a - b) <= 1e-3 * max(1.0, abs(a))  # a gain over draws; the rest is alike to 1e-9
        return a == b
    return alike(json.loads(one), json.loads(other))
