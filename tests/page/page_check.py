"""Looks at the page as its readers do: in a browser, by keyboard, without scripts, in the dark, on a phone, on paper.

    page_check.py PROGRAM SOURCE_DIR WORK_DIR MANY_COMMANDS [--pictures]

WORK_DIR is for pages made here; MANY_COMMANDS is the program for many command lines at once. With --pictures the page is also
photographed at three widths, light and dark.
"""
import datetime
import itertools
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import time

from browser import SHEETS, Browser, Keys

program, source, work, many_commands = (pathlib.Path(a).resolve() for a in sys.argv[1:5])
work.mkdir(parents=True, exist_ok=True)
YARD, MPH = 0.9144, 0.44704
STRATEGIES = ["as_is", "loft_only", "technique_only", "both"]
MARKS = {"as_is": "circle"}  # the others are paths

# Everything a user can type, meant to break out of wherever it is put.
HOSTILE = {
    "format": "loftwright-pupil/1",
    "name": "\"><script>window.broken=1</script>'&amp; \u202eevil\u202c <b>(invented)",
    "notes": "for the coach alone: a sore back since March",
    "for_pupil": "</script></pre><img src=x onerror=\"window.broken=2\">]]><!-- ${window.broken=3} {{x}} @VAR@ \\u003c \u2028",
    "goal": "carry",
    "delivery": {"club_speed_mph": 95, "attack_deg": 3, "path_deg": 2, "face_deg": -1, "dynamic_loft_deg": 15, "toe_mm": 0, "high_mm": 4},
    "club": {"loft_deg": 10.5}, "lofts_on_offer_deg": [9, 10.5], "worthwhile_yd": 4,
    "reach": {"attack_deg": [2, 4], "follow": 0.6,
              "options": [{"name": "</li><iframe src=https://example.org></iframe>", "effort": 1, "club_speed_mph": 1}]},
}
IMPOSSIBLE = {
    "format": "loftwright-pupil/1", "goal": "total",
    "delivery": {"club_speed_mph": 70, "attack_deg": -6, "path_deg": 0, "face_deg": 0, "dynamic_loft_deg": 8, "toe_mm": 0, "high_mm": 0},
    "club": {"loft_deg": 9}, "lofts_on_offer_deg": [9, 10.5], "reach": {"attack_deg": [-7, -5]}, "limits": {"spin_rpm": [3500, 4000]},
}
TOPPED = {
    "format": "loftwright-pupil/1", "goal": "carry",
    "delivery": {"club_speed_mph": 60, "attack_deg": -8, "path_deg": 0, "face_deg": 0, "dynamic_loft_deg": 0, "toe_mm": 0, "high_mm": 0},
    "club": {"loft_deg": 9}, "lofts_on_offer_deg": [9, 10.5], "reach": {"attack_deg": [-9, -7]},
}

# What each kind of page says once, whoever reads it.
SAID = {"advice": ["Where your", "What each change adds", "Take care", "For the coach", "The four answers"],
        "book": ["Your progress", "How far it carries", "Take care", "For the coach", "session"],
        "compare": ["Before and after", "Every shot", "What made the change", "Take care", "For the coach", "What changed"],
        "heads": ["Heads side by side", "Every shot", "Against each other", "Head by head", "What to know", "Take care", "For the coach",
                  "What can be told apart"]}
SAID["chart"] = ["The loft to deliver", "Find the club speed along the bottom", "Carry", "What it holds for", "Take care", "The same in numbers"]
SAID["lessons"] = ["What your lessons do", "Was it promised rightly?", "The numbers", "Take care", "For the coach", "The books"]
SAID["clinic"] = ["The clinic", "Who should change what", "Who has most to gain", "Take care", "Abel Thorne"]
SAID["rack"] = ["The rack", "Where buying stops paying", "Who takes which", "What it holds for", "Take care", "Each pupil"]
PICTURES = {"lessons": ["calibration"], "clinic": ["gains"], "rack": ["lost", "served"], "chart": ["loft", "carry"], "advice": ["flights", "gains", "map", "finish", "try-picture svg"], "book": ["progress", "delivery"], "compare": ["shots", "change"], "heads": ["shots", "apart"]}

failures = []


def expect(holds, what):
    if not holds:
        failures.append(what)
        print(f"FAILED: {what}")


def run(*args, good=(0,)):
    done = subprocess.run([program, *map(str, args)], capture_output=True, text=True, cwd=source)
    assert done.returncode in good, (args, done.returncode, done.stderr)
    return done.stdout


def make_pages():
    """Name -> kind and file."""
    made = {"demo": ("advice", ["demo"]), "ladder": ("advice", ["demo", "--ladder"]), "clinic": ("advice", ["advise", "data/pupils/clinic.json", "--units", "metres"]),
            "book": ("book", ["book", "history", "data/books/demo.json"]),
            "lessons": ("lessons", ["lessons", "data/academy/books"]),
            "chart": ("chart", ["chart", "--quiet", "--json"]),
            "rack": ("rack", ["rack", "data/clinic", "--lofts", "7.5,9,10.5,12,13.5,15", "--places", 2, "--json"]),
            "wide-rack": ("rack", ["rack", "data/clinic", "--lofts", ",".join(str(7 + 0.5 * n) for n in range(20)), "--places", 8, "--json", "--units", "metres"]),
            "compare": ("compare", ["compare", "data/academy/ivo-before.csv", "data/academy/ivo-after.csv", "--pupil", "data/academy/ivo.json"]),
            "heads": ("heads", ["heads", "data/academy/ivo-heads.csv", "--pupil", "data/academy/ivo.json"]),
            "hostile-heads": ("heads", ["heads", make_list("<i>one</i>.csv", 30, 200), make_list("<script>alert(1)</script> & a very long name of a head.csv", 5, 190),
                                        make_list("three.csv", 12, 205), make_list("four.csv", 60, 150), "--units", "metres"]),
            "long-lists": ("compare", ["compare", make_list("<b>before</b>.csv", 5000, 160), make_list("after.csv", 400, 161), "--units", "metres"])}
    for name, pupil in (("hostile", HOSTILE), ("impossible", IMPOSSIBLE), ("topped", TOPPED)):
        file = work / f"{name}.json"
        file.write_text(json.dumps(pupil))
        made[name] = ("advice", ["advise", file])
    for name, sessions in (("hostile-book", 2), ("long-book", 150)):
        made[name] = ("book", ["book", "history", make_book(name, sessions), "--units", "metres"])
    for name, (_, args) in made.items():
        (work / f"{name}.out").write_text(run(*args, "--html", work / f"{name}.html", good=(0, 1)))
    (work / "summary.out").write_text(run("clinic", "data/clinic", "--json", "--html", work / "summary"))
    return {name: (kind, work / f"{name}.html") for name, (kind, _) in made.items()} | {"summary": ("clinic", work / "summary/index.html")}


def make_book(name, sessions):
    """A book of sessions that wander, its texts hostile: two are added by the program, the rest are copies of them."""
    file = work / f"{name}.json"
    for leftover in work.glob(f"{name}.json*"):
        leftover.unlink()
    for day in (1, 2):
        run("book", "add", file, "--name", HOSTILE["name"].replace("\u202e", "").replace("\u202c", ""), "--date", f"2020-01-0{day}",
            "--notes=" + HOSTILE["notes"], "--club-speed", f"{80 + day}mph", "--attack", "-2deg", "--dynamic-loft", "12deg")
    book = json.loads(file.read_text())
    rng = random.Random(3)
    for number in range(3, sessions + 1):
        session = json.loads(json.dumps(book["sessions"][number % 2]))
        session |= {"session": number, "date": f"{2020 + number // 300}-{1 + number // 28 % 12:02}-{1 + number % 28:02}", "notes": ""}
        session["reference"]["carry_m"] += rng.gauss(0, 6)
        book["sessions"].append(session)
    book["version"] = sessions
    book["sessions"].sort(key=lambda s: (s["date"], s["session"]))
    file.write_text(json.dumps(book))
    return file


def make_list(name, shots, carry):
    file = work / name.replace("/", "-")
    rng = random.Random(shots + carry)
    rows = [f"{82 + rng.gauss(0, 1.5):.1f},{-3 + rng.gauss(0, 1.2):.1f},{11 + rng.gauss(0, 1):.1f},{carry + rng.gauss(0, 9):.1f}" for _ in range(shots)]
    file.write_text("\n".join(["Club Speed (mph),Attack (deg),Dynamic Loft (deg),Carry (yd)", *rows]) + "\n")
    return file


def bytes_are_the_same(pages):
    again = work / "again.html"
    run("demo", "--html", again, "--threads", 2)
    expect(again.read_bytes() == pages["demo"][1].read_bytes(), "the same input gives the same bytes, whatever the number of threads")
    for name, (_, page) in pages.items():
        expect(page.stat().st_size < 400_000, f"{name}: under 400 kB, is {page.stat().st_size}")


def stands_alone(browser, name, page):
    """Through all that was done since it was opened."""
    said, asked = browser.logs()
    expect(not said, f"{name}: the console says nothing: {said}")
    others = [address for address in asked if address != page.as_uri()]
    expect(not others, f"{name}: nothing is fetched: {others}")
    expect(browser.run("return document.querySelectorAll('img,iframe,link,script[src],object,embed').length") == 0,
           f"{name}: nothing in the page points outside")
    expect(browser.run("return window.broken") is None, f"{name}: nothing that a user typed is run")


CUT = "return [...document.querySelectorAll('{}')].filter(t => t.scrollWidth > t.clientWidth + 1).map(t => t.getAttribute('aria-label'))"


def tables_have_room(browser, name):
    """Everything that has a name to say says it; no table is cut off on a desk, nor on a telephone one that stacks."""
    browser.look(1200)
    nameless = browser.nameless()
    expect(not nameless, f"{name}: without a name: {nameless[:3]}")
    if not name.startswith(("hostile", "wide", "long")):
        cut = browser.run(CUT.format(".wide"))
        expect(not cut, f"{name}: cut off on a desk: {cut}")
    browser.look(390)
    cut = browser.run(CUT.format(".wide:has(.stacks)"))
    expect(not cut, f"{name}: cut off on a telephone: {cut}")


def hostile_text_is_text(browser, page):
    browser.show(page)
    # But for marks that turn the direction of what follows them (UAX #9): those are left out everywhere.
    name = re.sub("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]", "", HOSTILE["name"])
    expect(name != HOSTILE["name"] and name in browser.run("return document.querySelector('.who').textContent"), "the name is shown as it was typed")
    expect(not browser.run("return /[\u202a-\u202e\u2066-\u2069]/.test(document.body.innerText)"), "no mark of direction is on the page")
    shown = browser.run("return document.getElementById('main').textContent").replace("\u2028", "")
    expect(HOSTILE["for_pupil"].replace("\u2028", "") in shown, "what is for the pupil is shown as it was typed")
    expect(HOSTILE["reach"]["options"][0]["name"] in shown, "the option's name is shown as it was typed")
    expect("sore back" not in browser.run("return document.documentElement.outerHTML"), "the coach's notes stand nowhere on the page")
    expect(json.loads(browser.text("input")) == {key: value for key, value in HOSTILE.items() if key != "notes"}, "the input can be taken from the page, but for the coach's notes")
    expect(browser.json("answer")["pupil"]["name"] == HOSTILE["name"], "the answer in the page is the program's own")


def data(browser, picture):
    """The scales a picture was drawn with."""
    return {k: float(v) for k, v in browser.run("return {...document.getElementById(arguments[0]).dataset}", picture).items()}


def progress_geometry(browser, name):
    sessions = browser.json("answer")["sessions"]
    scale = data(browser, "progress")
    marks = browser.run("return [...document.querySelectorAll('#progress .mark')].map(m => [m.cx.baseVal.value, m.cy.baseVal.value])")
    expect(len(marks) in (0, len(sessions)), f"{name}: a mark a session, or a line alone: {len(marks)} of {len(sessions)}")
    if not marks:
        line = browser.run("return document.querySelector('#progress .s-as_is.way').getAttribute('d')")
        marks = [[float(v) for v in spot.split()] for spot in re.split("[ML]", line)[1:]]
    days = [datetime.date.fromisoformat(session["date"]) for session in sessions]
    for day, session, (x, y) in zip(days, sessions, marks, strict=True):
        expect(abs(x - scale["x0"] - scale["xPerDay"] * (day - days[0]).days) < 0.02, f"{name}: session {session['session']} stands at {x}")
        expect(abs(y - scale["y0"] + scale["yPerM"] * session["carry_m"]) < 0.02, f"{name}: carry of session {session['session']} drawn at {y}")


def calibration_geometry(browser, name):
    promises = browser.json("answer")["calibration"]
    scale = data(browser, "calibration")
    drawn = browser.run("return [...document.querySelectorAll('#calibration .whisker')].map(w => { const b = w.getBBox(); return [b.x, b.x + b.width, b.y + b.height / 2] })")
    for promise, (left, right, y) in zip(promises, drawn, strict=True):
        expect(abs(left - scale["x0"] - scale["xPerM"] * promise["predicted_low_m"]) < 0.02, f"{name}: low end of {promise} drawn at {left}")
        expect(abs(right - scale["x0"] - scale["xPerM"] * promise["predicted_high_m"]) < 0.02, f"{name}: high end of {promise} drawn at {right}")
        expect(abs(y - scale["y0"] + scale["yPerM"] * promise["reached_m"]) < 0.02, f"{name}: reached {promise} drawn at {y}")


def compare_geometry(browser, name):
    answer = browser.json("answer")
    goal = next(r for r in answer["readings"] if r["reading"] == answer["goal"])
    scale = data(browser, "shots")
    for side, look in (("before", "as_is"), ("after", "both")):
        x = browser.run("const b = document.querySelector(`#shots .s-${arguments[0]}.mark`).getBBox(); return b.x + b.width / 2", look)
        expect(abs(x - scale["x0"] - scale["xPerM"] * goal[side]["mean"]) < 0.02, f"{name}: mean {side} drawn at {x}")
        dots = browser.run("return [...document.querySelectorAll(`#shots .s-${arguments[0]}.shot`)].map(c => [c.cx.baseVal.value, c.cy.baseVal.value, c.r.baseVal.value])", look)
        all_drawn = goal[side]["count"] <= 400
        expect(len(dots) == goal[side]["count"] if all_drawn else 350 < len(dots) <= 400, f"{name}: a dot a shot {side}: {len(dots)} of {goal[side]['count']}")
        mean = sum((x - scale["x0"]) / scale["xPerM"] for x, _, _ in dots) / len(dots)
        # of many shots every n-th is drawn, in order: their mean is that of all to a part of the scatter
        expect(abs(mean - goal[side]["mean"]) < (0.02 if all_drawn else 0.3), f"{name}: the dots {side} have the mean {mean}, not {goal[side]['mean']}")
        apart = min((math.dist(a[:2], b[:2]) for a, b in itertools.combinations(dots, 2)), default=9)
        expect(apart >= 2 * dots[0][2] - 0.02, f"{name}: dots {side} do not cover each other: {apart}")
    change, scale = answer["change"], data(browser, "change")
    wanted = [e for e in [*change["shares"].values(), change["modelled"], change["unexplained"]] if e and any(e[k] for k in ("m", "low_m", "high_m"))]
    bars = browser.run("return [...document.querySelectorAll('#change .bar, #change .whisker')].map(b => { const x = b.getBBox(); return [x.x, x.x + x.width] })")
    drawn = [x for e in wanted for x in ((min(e["m"], 0), max(e["m"], 0)), (e["low_m"], e["high_m"]))]
    for bar, ends in zip(bars, drawn, strict=True):
        for x, metres in zip(bar, ends):
            expect(abs(x - scale["x0"] - scale["xPerM"] * metres) < 0.02, f"{name}: {metres} m of a share drawn at {x}")


def clinic_links(browser, name, page):
    """Each row leads to a page that is there."""
    browser.show(page)
    pupils = json.loads((work / f"{name}.out").read_text())["pupils"]
    links = browser.run("return [...document.querySelectorAll('table a')].map(a => [a.textContent, a.href])")
    expect([text for text, _ in links] == [p["name"] for p in pupils], f"{name}: a link a pupil: {links}")
    for (text, address), pupil in zip(links, pupils, strict=True):
        browser.show(pathlib.Path(page).parent / address.rsplit("/", 1)[1])
        expect(browser.json("answer")["pupil"]["name"] == text, f"{name}: the link of {text} leads to their own page")


def clinic_geometry(browser, name):
    """Bars and their whiskers against the answer as JSON, most gain first."""
    pupils = json.loads((work / f"{name}.out").read_text())["pupils"]
    scale = data(browser, "gains")
    ranked = sorted(pupils, key=lambda p: -p["gain_m"])
    bars = browser.run("return [...document.querySelectorAll('#gains .bar')].map(b => { const x = b.getBBox(); return [x.x, x.x + x.width] })")
    whiskers = browser.run("return [...document.querySelectorAll('#gains .whisker')].map(b => { const x = b.getBBox(); return [x.x, x.x + x.width] })")
    for bar, pupil in zip(bars, ranked, strict=True):
        expect(abs(bar[1] - bar[0] - scale["xPerM"] * abs(pupil["gain_m"])) < 0.02, f"{name}: {pupil['name']}'s bar is {bar}")
    for line, pupil in zip(whiskers, [p for p in ranked if p["leader"] != "leave"], strict=True):
        for x, metres in zip(line, (pupil["gain_low_m"], pupil["gain_high_m"])):
            expect(abs(x - scale["x0"] - scale["xPerM"] * metres) < 0.02, f"{name}: {pupil['name']}'s interval is drawn at {line}")


def rack_geometry(browser, name):
    answer = json.loads((work / f"{name}.out").read_text())
    scale, pupils = data(browser, "lost"), len(answer["pupils"])
    marks = browser.run("return [...document.querySelectorAll('#lost .mark')].map(m => { const b = m.getBBox(); return [b.x + b.width / 2, b.y + b.height / 2] })")
    for (x, y), size in zip(marks, answer["by_places"], strict=True):
        expect(abs(x - scale["x0"] - scale["xPerLoft"] * size["places"]) < 0.02, f"{name}: {size['places']} lofts drawn at {x}")
        expect(abs(y - scale["y0"] + scale["yPerM"] * size["lost_m"] / pupils) < 0.02, f"{name}: lost with {size['places']} drawn at {y}")
    scale = data(browser, "served")
    dots = browser.run("return [...document.querySelectorAll('#served .dot')].map(c => c.cx.baseVal.value)")
    wanted = sorted(p["best_loft_deg"] for p in answer["pupils"] if p["loft_deg"] is not None)
    for x, loft in zip(sorted(dots), wanted, strict=True):
        expect(abs(x - scale["x0"] - scale["xPerDeg"] * loft) < 0.02, f"{name}: a best loft of {loft} drawn at {x}")
    squares = browser.run("return [...document.querySelectorAll('#served .mark')].map(m => { const b = m.getBBox(); return b.x + b.width / 2 })")
    for x, loft in zip(squares, answer["chosen_deg"], strict=True):
        expect(abs(x - scale["x0"] - scale["xPerDeg"] * loft) < 0.02, f"{name}: {loft} deg of the rack drawn at {x}")


def heads_geometry(browser, name):
    """A dot a shot, the mean and its interval under them; how much further each goes than the one it is held against."""
    answer = browser.json("answer")
    scale, goal = data(browser, "shots"), answer["goal"]
    x_of = lambda metres: scale["x0"] + scale["xPerM"] * metres
    dots = browser.run("return document.querySelectorAll('#shots .shot').length")
    expect(dots == sum(h["shots"] for h in answer["heads"]), f"{name}: a dot a shot: {dots}")
    marks = browser.run("return [...document.querySelectorAll('#shots .mark')].map(m => { const b = m.getBBox(); return b.x + b.width / 2 })")
    whiskers = browser.run("return [...document.querySelectorAll('#shots .whisker')].map(m => { const b = m.getBBox(); return [b.x, b.x + b.width] })")
    for head, mark, ends in zip(answer["heads"], marks, whiskers, strict=True):
        expect(abs(mark - x_of(head[f"{goal}_m"])) < 0.02, f"{name}: mean of {head['head']} drawn at {mark}")
        for x, metres in zip(ends, (head[f"{goal}_low_m"], head[f"{goal}_high_m"])):
            expect(abs(x - x_of(metres)) < 0.02, f"{name}: end of {head['head']} drawn at {x}")
    against = answer["in_hand"] or answer["heads"][0]["head"]
    scale = data(browser, "apart")
    bars = browser.run("return [...document.querySelectorAll('#apart .bar')].map(b => { const x = b.getBBox(); return [x.x, x.x + x.width] })")
    pairs = [p for h in answer["heads"] if h["head"] != against for p in answer["apart"] if {p["first"], p["second"]} == {h["head"], against}]
    for pair, bar in zip(pairs, bars, strict=True):
        metres = pair["difference_m"] * (1 if pair["second"] == against else -1)
        for x, end in zip(bar, sorted((0.0, metres))):
            expect(abs(x - scale["x0"] - scale["xPerM"] * end) < 0.02, f"{name}: {end} m of a difference drawn at {x}")


def chart_tables(browser, name):
    """Every cell of the loft and carry tables against the answer as JSON."""
    cells = json.loads((work / f"{name}.out").read_text())["cells"]
    tables = browser.run("""return Object.fromEntries([...document.querySelectorAll('table')].map(t => [t.caption.textContent,
        [...t.rows].map(r => [...r.cells].map(c => c.textContent))]))""")
    for title, value, rounding in (("Loft to deliver [deg]", lambda c: c["loft_deg"], 0.051), ("Carry [yd]", lambda c: c["carry_m"] / YARD, 0.51)):
        heads, *rows = tables[title]
        shown = {(float(speed), float(row[0])): row[i] for row in rows for i, speed in enumerate(heads) if i}
        expect(len(shown) == len(cells), f"{name}: {title} has {len(shown)} cells of {len(cells)}")
        for c in cells:
            at = min(shown, key=lambda k: abs(k[0] - c["club_speed_mps"] / MPH) + abs(k[1] - c["attack_deg"]))
            expect(abs(float(shown[at]) - value(c)) <= rounding, f"{name}: {title} at {at}: {shown[at]}, not {value(c)}")


def geometry(browser, name):
    """The pictures read back, against the numbers as JSON."""
    answer = browser.json("answer")
    goal = answer["goal"]
    shown = [k for k in STRATEGIES if k == "as_is" or answer["strategies"][k]["feasible"]]

    def middle(picture, kind):
        box = browser.run("""const b = document.querySelector(`#${arguments[0]} .s-${arguments[1]}.mark`).getBBox();
                             return [b.x, b.x + b.width, b.y, b.y + b.height]""", picture, kind)
        return (box[0] + box[1]) / 2, (box[2] + box[3]) / 2

    def near(value, wanted, what, by=0.02):
        expect(abs(value - wanted) <= by, f"{name}: {what}: drawn at {value}, should be at {wanted}")

    flights = data(browser, "flights")
    for kind in shown:
        flight = answer["strategies"][kind]["flight"]
        near(middle("flights", kind)[0], flights["x0"] + flights["xPerM"] * flight["carry_m"], f"landing of {kind}")
        box = browser.run("const b = document.querySelector(`#flights .s-${arguments[0]}.way`).getBBox(); return [b.x + b.width, b.y]", kind)
        near(box[0], flights["x0"] + flights["xPerM"] * flight["carry_m"], f"end of the flight of {kind}")
        # the path is a polyline of 49 points: the top lies at most an eighth of a step's bend above it
        near(box[1], flights["y0"] - flights["yPerM"] * flight["apex_m"], f"top of {kind}", 0.3)
        run_out = browser.run("const b = document.querySelectorAll(`#flights .s-${arguments[0]}.run`)[0].getBBox(); return [b.x, b.x + b.width]", kind)
        near(run_out[0], flights["x0"] + flights["xPerM"] * flight["carry_m"], f"start of the run of {kind}")
        near(run_out[1], flights["x0"] + flights["xPerM"] * flight["total_m"], f"end of the run of {kind}")
    gains = data(browser, "gains")
    for kind in shown[1:]:
        gain = answer["strategies"][kind]["gain_m"]
        bar = browser.run("const b = document.querySelector(`#gains .s-${arguments[0]}.bar`).getBBox(); return [b.x, b.x + b.width]", kind)
        near(bar[0], gains["x0"] + gains["xPerM"] * min(gain, 0), f"start of the bar of {kind}")
        near(bar[1], gains["x0"] + gains["xPerM"] * max(gain, 0), f"end of the bar of {kind}")
    if answer["feasible"]:
        whiskers = browser.run("return [...document.querySelectorAll('#gains .whisker')].map(w => { const b = w.getBBox(); return [b.x, b.x + b.width] })")
        judged = [answer["confidence"]["strategies"][kind] for kind in STRATEGIES[1:]]
        intervals = [j["gain"] for j in judged if j]  # what does not move has none
        for drawn, wanted in zip(whiskers, intervals, strict=True):
            near(drawn[0], gains["x0"] + gains["xPerM"] * wanted["low_m"], "low end of a whisker")
            near(drawn[1], gains["x0"] + gains["xPerM"] * wanted["high_m"], "high end of a whisker")
    chart = data(browser, "map")
    for kind in shown:
        s = answer["strategies"][kind]
        at = middle("map", kind)
        near(at[0], chart["x0"] + chart["xPerDeg"] * s["loft_deg"], f"loft of {kind} on the map")
        # a triangle's box reaches further up than down
        near(at[1], chart["y0"] - chart["yPerDeg"] * s["attack_deg"], f"attack of {kind} on the map", 0.8 if kind == "technique_only" else 0.02)
    finish = data(browser, "finish")
    centre = middle("finish", "as_is")
    mean = (finish["y0"] - centre[1]) / finish["perM"]
    near(mean, answer["strategies"]["as_is"]["average"]["total_m"], f"{name}: drives rest around the average total", 0.5)
    expect(browser.text("answer").strip() == json.dumps(answer) or answer["format"] == "loftwright-advise/2", "the answer has its format")
    numbers = browser.run("return [...document.querySelectorAll('.big b')].map(b => Number(b.textContent))")
    size = 1 if "metres" in browser.run("return document.title") else YARD
    near(numbers[0], answer["strategies"]["as_is"]["average"][f"{goal}_m"] / size, "the first big number", 0.5)


def labels_are_apart(browser, name, kind):
    """No two words in a picture touch, none leaves it, nothing makes the page wider than the screen; with the fonts there are."""
    for width in (360, 800, 1600):
        browser.look(width)
        wide = browser.run("return document.documentElement.scrollWidth")
        expect(wide <= width, f"{name}: at {width} px the page is {wide} px wide")
        for picture in PICTURES[kind]:
            boxes = browser.run("""const svg = document.querySelector(arguments[0]); if (!svg) return [];
                const [, , w, h] = svg.getAttribute("viewBox").split(" ").map(Number);
                return [...svg.querySelectorAll("text")].map(t => { const b = t.getBBox(); return [t.textContent, b.x, b.y, b.x + b.width, b.y + b.height, w, h] })""", f"#{picture}")
            expect(boxes or "try" in picture, f"{name}: {picture} has labels")
            for text, left, top, right, bottom, w, h in boxes:
                expect(left > -1 and right < w + 1 and top > -4 and bottom < h + 4, f"{name}: '{text}' leaves {picture} at {width} px")
            for a, b in itertools.combinations(boxes, 2):
                # a box is as tall as the font's tallest letter and deepest tail: two points of it are air
                apart = a[1] >= b[3] or b[1] >= a[3] or a[2] + 2 >= b[4] - 2 or b[2] + 2 >= a[4] - 2
                expect(apart, f"{name}: '{a[0]}' touches '{b[0]}' in {picture} at {width} px")


def without_scripts(browser, name, kind, page):
    browser.show(page, scripts=False)
    # Script is off for the page alone: the driver's own goes around it through the accessibility tree.
    nodes = browser.cdp("Accessibility.getFullAXTree", {})["nodes"]
    named = " ".join(str(n.get("name", {}).get("value", "")) for n in nodes if not n.get("ignored"))
    for words in SAID[kind]:
        expect(words in named, f"{name}: without scripts '{words}' is there")
    expect("Driver loft" not in named.replace("Driver loft,", ""), f"{name}: without scripts there are no dead sliders")
    pictures = [n for n in nodes if n.get("role", {}).get("value") == "image" and n.get("name", {}).get("value")]
    wanted = len([p for p in PICTURES[kind] if "try" not in p])
    expect(len(pictures) == wanted, f"{name}: {wanted} pictures with names without scripts: {len(pictures)}")


def keyboard(browser, page):
    """Tab reaches every control in the order of the page, each shows that it has the focus, arrows move the sliders."""
    browser.show(page, width=800)
    wanted = browser.run("""return [...document.querySelectorAll('a[href],button,input,select,summary,[tabindex="0"]')]
        .filter(e => !e.closest('[hidden],details:not([open]) > :not(summary)') && (e.type !== 'radio' || e.checked)).map(e => e.id || e.dataset.strategy || e.className || e.tagName)""")
    reached = []
    for _ in wanted:
        browser.press(Keys.TAB)
        where = browser.run("""const e = document.activeElement, s = getComputedStyle(e);
            return [e.id || e.dataset.strategy || e.className || e.tagName, s.outlineStyle, parseFloat(s.outlineWidth)]""")
        reached.append(where[0])
        expect(where[1] != "none" and where[2] >= 2, f"the focus on '{where[0]}' can be seen: {where[1:]}")
    expect(reached == wanted, f"Tab reaches every control in order: {reached}, should be {wanted}")
    small = browser.run("""return [...document.querySelectorAll('button,input[type=range],select,summary,fieldset label')]
        .map(e => [e.id || e.textContent, e.getBoundingClientRect()]).filter(([, b]) => b.width < 24 || b.height < 24).map(([n]) => n)""")
    expect(not small, f"every control is at least 24 px each way: {small}")


def strike(pupil, point, turf):
    """The line that has the program make the same drive."""
    speed, attack, loft = point
    delivery = pupil["delivery"]
    added, follow = delivery["dynamic_loft_deg"] - pupil["club"]["loft_deg"], pupil["reach"]["follow"]
    delivered = loft + added + follow * (attack - delivery["attack_deg"])
    args = ["strike", "--club-speed", f"{speed:.9f}m/s", "--attack", f"{attack:.9f}deg", "--dynamic-loft", f"{delivered:.9f}deg", "--turf", turf,
            "--path", f"{delivery['path_deg']}deg", "--face", f"{delivery['face_deg']}deg", "--toe", f"{delivery['toe_mm']}mm",
            "--high", f"{delivery['high_mm']}mm", "--handed", pupil["handed"], "--json"]
    c = pupil["conditions"]
    args += ["--altitude", f"{c.get('altitude_m', 0)}m", "--temperature", f"{c.get('temperature_c', 20)}C", "--humidity", f"{c.get('humidity_pct', 50)}%"]
    if "wind_mps" in c:
        args += ["--wind", f"{c['wind_mps']}m/s", "--wind-from", f"{c['wind_from_deg']}deg"]
    return args


def engine(pupil, point, turf):
    return json.loads(run(*strike(pupil, point, turf)))


def tables_keep_to_the_engine(browser, name, page, pupil, count):
    """Random places inside the sliders' range: the page's own script against 'strike'."""
    browser.show(page)
    grid = browser.json("grid")
    rng = random.Random(7)
    ends = [(axis["low"], axis["low"] + axis["step"] * (axis["count"] - 1)) for axis in grid["range"]]
    places = [([rng.uniform(*e) for e in ends], rng.choice(list(grid["run_m"]))) for _ in range(count)]
    read = browser.run("""const grid = JSON.parse(document.getElementById("grid").textContent), at = gridReader(grid);
        return arguments[0].map(([point, turf]) => at(point, turf))""", places)
    lines = json.dumps([strike(pupil, *place) for place in places])
    done = json.loads(subprocess.run(many_commands, input=lines, stdout=subprocess.PIPE, text=True, check=True).stdout)
    drives = [json.loads(one["out"]) for one in done]
    worst = {}
    for (point, turf), here, drive in zip(places, read, drives, strict=True):
        flight = drive["flight"]
        for what, page_says, engine_says, allowed in (
                ("carry", here["carry_m"], flight["carry_m"], 0.5 * YARD), ("total", here["total_m"], flight["total_m"], 0.5 * YARD),
                ("apex", here["apex_m"], flight["apex_m"], 0.03), ("landing", here["landing_deg"], flight["landing_deg"], 0.03),
                ("launch", here["launch_deg"], drive["launch"]["launch_deg"], 0.01), ("spin", here["spin_rpm"], drive["launch"]["spin_rpm"], 2.0),
                ("side at rest", here["rest_side_m"], flight["rest_side_m"], 0.2),
                ("ball speed", here["ball_speed_mps"], drive["launch"]["ball_speed_mps"], 0.01)):
            difference = abs(page_says - engine_says)
            worst[what] = max(worst.get(what, 0.0), difference)
            expect(difference <= allowed, f"{name}: {what} at {point} on {turf}: page {page_says}, strike {engine_says}")
    print(f"{name}: largest distances from 'strike' at {count} places: " + ", ".join(f"{k} {v:.3f}" for k, v in worst.items()))


def sliders_say_what_strike_says(browser, page, pupil):
    """By real keys: what stands on the page afterwards is what 'strike' answers."""
    browser.show(page)
    grid = browser.json("grid")
    for moves, turf, goal in (({"speed": 6}, "medium", "carry"), ({"attack": 9, "loft": 5}, "firm", "total"), ({"speed": -9, "loft": 3}, "soft", "carry")):
        browser.find("button[data-strategy=as_is]").click()
        for name, steps in moves.items():
            slider = browser.find(f"#try-{name}")
            slider.send_keys(*([Keys.ARROW_RIGHT if steps > 0 else Keys.ARROW_LEFT] * abs(steps)))
        browser.run("const s = document.getElementById('try-turf'); s.value = arguments[0]; s.dispatchEvent(new Event('change'))", turf)
        browser.find(f"input[name=try-goal][value={goal}]").click()
        point = [now + axis["step"] * moves.get(name, 0) for name, axis, now in zip(("speed", "attack", "loft"), grid["range"], grid["now"])]
        drive = engine(pupil, point, turf)
        flight, launch = drive["flight"], drive["launch"]
        for element, value, step in (("try-carry", flight["carry_m"] / YARD, 1), ("try-total", flight["total_m"] / YARD, 1),
                                     ("try-launch", launch["launch_deg"], 0.1), ("try-spin", launch["spin_rpm"], 10),
                                     ("try-apex", flight["apex_m"] / 0.3048, 1), ("try-landing", flight["landing_deg"], 0.1)):
            shown = float(browser.text(element).split()[0])
            allowed = step / 2 + (0.5 if element in ("try-carry", "try-total") else 0.02 * step)
            expect(abs(shown - value) <= allowed, f"sliders at {moves}: {element} says {shown}, strike {value}")
        big = float(browser.text("try-goal-number"))
        expect(abs(big - flight[f"{goal}_m"] / YARD) <= 1.0, f"sliders at {moves}: the big number says {big}, strike {flight[f'{goal}_m'] / YARD}")
        now = engine(pupil, grid["now"], turf)["flight"][f"{goal}_m"]
        difference = float(browser.text("try-difference").split()[0])
        expect(abs(difference - (flight[f"{goal}_m"] - now) / YARD) <= 0.55, f"sliders at {moves}: {difference} against now")
        time.sleep(0.7)
        expect(browser.text("try-goal-number") in browser.text("try-said"), "who listens is told the new number once the slider rests")
        expect(browser.find(f"#try-{next(iter(moves))}").get_attribute("aria-valuetext") == browser.text(f"try-{next(iter(moves))}-out"),
               "a slider tells its value with its unit")
        # the flight drawn ends where the number says
        box = browser.run("""const b = document.querySelectorAll('#try-picture .way')[1].getBBox(), m = document.querySelectorAll('#try-picture circle')[1].getBBox();
                             return [b.x + b.width, m.x + m.width / 2]""")
        expect(abs(box[0] - box[1]) < 0.2, f"sliders at {moves}: the flight ends at {box[0]}, its mark stands at {box[1]}")


def luminance(colour):
    parts = [int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one, other):
    """WCAG 2.2, success criterion 1.4.3."""
    a, b = sorted((luminance(one), luminance(other)), reverse=True)
    return (a + 0.05) / (b + 0.05)


def colours(browser, page):
    for dark in (False, True):
        browser.show(page, dark=dark)
        names = ["paper", "panel", "ink", "soft", "as-is", "loft", "technique", "both", "rough", "fairway", "focus"]
        colour = dict(zip(names, browser.run("const s = getComputedStyle(document.documentElement); return arguments[0].map(n => s.getPropertyValue('--' + n).trim())", names)))
        colour = {k: v if len(v) == 7 else "#" + "".join(2 * c for c in v[1:]) for k, v in colour.items()}
        scheme = "dark" if dark else "light"
        for words, ground in itertools.product(("ink", "soft"), ("paper", "panel", "rough", "fairway")):
            ratio = contrast(colour[words], colour[ground])
            expect(ratio >= 4.5, f"{scheme}: {words} on {ground} has a contrast of {ratio:.2f}, WCAG 1.4.3 wants 4.5")
        for line, ground in itertools.product(("as-is", "loft", "technique", "both", "focus"), ("paper", "panel")):
            ratio = contrast(colour[line], colour[ground])
            expect(ratio >= 3.0, f"{scheme}: {line} on {ground} has a contrast of {ratio:.2f}, WCAG 1.4.11 wants 3")
        looks = browser.run("""return ["as_is", "loft_only", "technique_only", "both"].map(k => {
            const s = getComputedStyle(document.querySelector(`#flights .s-${k}.way`)); return s.strokeDasharray + s.strokeWidth })""")
        expect(len(set(looks)) == 4, f"{scheme}: the four flights are told apart without colour: {looks}")


def outline_of_the_page(browser, name):
    levels = browser.run("return [...document.querySelectorAll('h1,h2,h3,h4')].map(h => Number(h.tagName[1]))")
    expect(levels[0] == 1 and levels.count(1) == 1, f"{name}: one first heading")
    expect(all(b - a <= 1 for a, b in zip(levels, levels[1:])), f"{name}: no level of headings is jumped: {levels}")
    ids = browser.run("return [...document.querySelectorAll('[id]')].map(e => e.id)")
    expect(len(ids) == len(set(ids)), f"{name}: ids are unique")


def paper(browser, name):
    for sheet in SHEETS:
        count = browser.pages_printed(sheet)
        most = 3 if name == "ladder" else 2  # the ladder is a sheet of its own
        expect(count <= most, f"{name}: at most {most} sheets of {sheet}, not {count}")


started = time.time()
pages = make_pages()
bytes_are_the_same(pages)
demo = json.loads((source / "data/pupils/demo.json").read_text())
clinic = json.loads((source / "data/pupils/clinic.json").read_text())
with Browser() as browser:
    for name, (kind, page) in pages.items():
        browser.show(page)
        {"advice": geometry, "book": progress_geometry, "lessons": calibration_geometry, "compare": compare_geometry, "heads": heads_geometry, "chart": chart_tables,
         "clinic": clinic_geometry, "rack": rack_geometry}[kind](browser, name)
        outline_of_the_page(browser, name)
        paper(browser, name)
        tables_have_room(browser, name)
        labels_are_apart(browser, name, kind)
        stands_alone(browser, name, page)
        without_scripts(browser, name, kind, page)
    page = {name: file for name, (_, file) in pages.items()}
    clinic_links(browser, "summary", page["summary"])
    hostile_text_is_text(browser, page["hostile"])
    browser.show(page["demo"], dark=True)
    paper(browser, "demo in the dark")
    keyboard(browser, page["demo"])
    colours(browser, page["demo"])
    sliders_say_what_strike_says(browser, page["demo"], demo)
    tables_keep_to_the_engine(browser, "demo", page["demo"], demo, 2000)
    tables_keep_to_the_engine(browser, "clinic", page["clinic"], clinic, 200)
    if "--pictures" in sys.argv:
        for (name, file), width, dark in itertools.product(page.items(), (360, 800, 1600), (False, True)):
            browser.show(file, width=width, dark=dark)
            browser.picture(work / f"{name}-{width}-{'dark' if dark else 'light'}.png", width)
print(f"{len(failures)} failures, {time.time() - started:.0f} s")
sys.exit(1 if failures else 0)
