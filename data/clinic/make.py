#!/usr/bin/python3
"""Makes the twelve pupils of the seniors' clinic of the Hollin Mere academy, which is invented, as are its pupils and every
number here.

    make.py            writes a file for each beside this script
    make.py --check    compares them with what it would write; exit 1 when they differ

Each line below is what a notebook would hold after an hour on the range: the means of some drives, the driver in hand, and how
far the coach thinks the attack can be moved. Lofts on offer are those of the demo drivers that could be bought.
"""
import json
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
LOFTS = [9, 10.5, 12, 13.5, 15]

# name, age, hand, goal, drives, club speed mph, attack, path, face, dynamic loft deg, toe, high mm, loft in hand, attack within reach, skill
PUPILS = [
    ("Abel Thorne", 71, "right", "carry", 12, 78.4, -3.1, 0.8, 0.4, 10.9, 3, -2, 9, (-5, 2), "mid-handicap"),
    ("Bess Harrow", 68, "right", "carry", 10, 70.2, 1.8, 1.5, 0.6, 19.6, -4, 0, 13.5, (0, 3), "mid-handicap"),
    ("Cole Aldersey", 74, "right", "total", 14, 76.9, -3.4, -1.2, -0.3, 12.2, 2, -5, 10.5, (-5, 0), "high-handicap"),
    ("Dora Penhale", 66, "left", "carry", 12, 69.8, 1.4, 0.6, 0.2, 18.9, 0, 2, 10.5, (0, 4), "mid-handicap"),
    ("Edda Lunde", 70, "right", "carry", 9, 72.7, -2.6, 2.4, 1.4, 16.4, 6, -3, 10.5, (-3, -2.2), "high-handicap"),
    ("Finn Mayhew", 65, "right", "total", 15, 92.1, 0.5, 0.4, 0.0, 15.2, 1, 0, 10.5, (-1, 4), "mid-handicap"),
    ("Gita Osmund", 77, "right", "total", 8, 66.5, 0.3, 1.1, 0.8, 18.8, -2, 1, 13.5, (-1, 2), "high-handicap"),
    ("Hale Brindley", 69, "right", "carry", 12, 86.6, 3.2, -0.5, -0.4, 17.9, 4, 4, 10.5, (2, 5), "low-handicap"),
    ("Iris Marchbank", 72, "left", "total", 11, 70.3, -3.8, -0.9, -0.2, 14.8, -3, -2, 12, (-5, 1), "mid-handicap"),
    ("Jory Trask", 67, "right", "carry", 13, 94.9, -0.6, 0.2, 0.3, 13.6, 2, 1, 9, (-1.2, 0), "mid-handicap"),
    ("Kaye Amberley", 73, "right", "carry", 10, 74.8, -1.9, 1.8, 1.0, 20.4, 5, -1, 12, (-4, 1), "mid-handicap"),
    ("Lowe Pell", 76, "right", "total", 6, 68.1, -2.3, 0.0, 0.5, 16.2, 0, -4, 10.5, (-3, 0), "high-handicap"),
]
# What only some of them have.
MORE = {
    "Cole Aldersey": {"for_pupil": "Invented, to try the program with. The back first: ten minutes of warm-up, and no full swings on a cold morning."},
    "Finn Mayhew": {"sleeve": {"range_deg": [-1, 1.5], "face_per_loft": -0.5}},
    "Kaye Amberley": {"limits": {"spin_rpm": [None, 3800]}},
}


def pupil(name, age, handed, goal, drives, speed, attack, path, face, loft, toe, high, in_hand, reach, skill):
    return {
        "format": "loftwright-pupil/1",
        "name": name,
        "notes": f"Invented for the seniors' clinic of the Hollin Mere academy, which is invented too: {age} years.",
        "for_pupil": MORE.get(name, {}).get("for_pupil", "") or "Invented, to try the program with.",
        "handed": handed,
        "goal": goal,
        "delivery": {"club_speed_mph": speed, "attack_deg": attack, "path_deg": path, "face_deg": face, "dynamic_loft_deg": loft,
                     "toe_mm": toe, "high_mm": high},
        "measured_shots": drives,
        "skill": skill,
        "club": {"loft_deg": in_hand},
        "lofts_on_offer_deg": LOFTS,
        "reach": {"attack_deg": list(reach), "follow": 0.85, "speed_per_attack_deg_mph": 0},
        "conditions": {"altitude_m": 40, "temperature_c": 16, "humidity_pct": 60, "turf": "medium"},
        "ball": "reference",
        "worthwhile_yd": 3,
        **{key: value for key, value in MORE.get(name, {}).items() if key != "for_pupil"},
    }


def file_of(row):
    return row[0].split()[0].lower() + ".json"


def text_of(document):
    """A member a line, whatever is in it."""
    lines = [f"  {json.dumps(key)}: {json.dumps(value)}" for key, value in document.items()]
    return "{\n" + ",\n".join(lines) + "\n}\n"


different = []
for row in PUPILS:
    file, text = HERE / file_of(row), text_of(pupil(*row))
    if "--check" not in sys.argv:
        file.write_text(text, encoding="utf-8")
    elif not file.is_file() or file.read_text(encoding="utf-8") != text:
        different.append(file.name)
if "--check" in sys.argv:
    different += sorted(f.name for f in HERE.glob("*.json") if f.name not in map(file_of, PUPILS))
    print(f"{len(PUPILS)} pupils; different: {', '.join(different) or 'none'}")
sys.exit(1 if different else 0)
