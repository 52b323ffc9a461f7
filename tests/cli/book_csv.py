"""Holds `book export` against Python's own CSV reader and the same book as JSON.

    book_csv.py PROGRAM SOURCE_DIR
"""
import csv
import io
import json
import pathlib
import subprocess
import sys
import tempfile

program, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
NOTES = ['plain', 'a, b', 'he said "again"', '"', ',', 'two\nlines\n', ' spaced ', 'Ä €', 'tab\there', '""",\n"', '-4', '+2.5', 'a-b', '3=3', 'a; b']
# What a spreadsheet would work out (OWASP, "CSV Injection", from memory): written with an apostrophe before it.
RUN = ['=1+2', '@SUM(A1)', '+cmd', '-2+3', '-', '=', ' =1+2', '\t=1', '\n@x', '＝1+2', '－2+3', '=HYPERLINK("x";"y")', "=cmd|' /C x'!A0"]


def run(*args):
    return subprocess.run([program, "book", *args], capture_output=True, check=True).stdout.decode()


with tempfile.TemporaryDirectory() as folder:
    book = pathlib.Path(folder) / "book.json"
    book.write_text((source / "data/books/demo.json").read_text())
    for day, notes in enumerate(NOTES + RUN, 1):
        run("add", str(book), "--date", f"2026-05-{day:02}", "--club-speed", "82mph", "--attack", "1deg", "--dynamic-loft", "14deg",
            f"--notes={notes}")
    run("add", str(book), "--date", "2026-06-30", "--club-speed", "86mph", "--attack", "1deg", "--dynamic-loft", "14deg",
        "--pupil", str(source / "data/pupils/sleeve.json"))
    sessions = json.loads(run("list", str(book), "--json"))["sessions"]
    text, in_yards = run("export", str(book)), run("export", str(book), "--units", "yards")
    assert run("export", str(book), "--units", "metres") == text

# RFC 4180: every line ends in CRLF, and a line end inside quotes is as it was typed.
assert text.endswith("\r\n")
rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
assert len(rows) == len(sessions) == 6 + len(NOTES + RUN), len(rows)
assert [row["setting"] for row in rows if row["setting"]] == ["0"]  # of the last session alone
for row, session in zip(rows, sessions):
    assert None not in row and None not in row.values(), row
    shots, course = session["shots"] or {}, session["course"] or {}
    club, sleeve = dict(session["club"]), session["club"].get("setting", {})
    club.update(setting=sleeve.get("name"), head_loft_deg=sleeve.get("head_loft_deg"))
    wanted = {"session": session["session"], "date": session["date"], "notes": session["notes"], **club,
              **session["reference"], **session["delivery"], "delivery_inferred": session["delivery_inferred"],
              "shots": shots.get("counted"), "shots_file": shots.get("file"),
              **{key: course.get(key) for key in sessions[1]["course"]}}
    assert wanted.keys() == row.keys(), wanted.keys() ^ row.keys()
    for key, value in wanted.items():
        written = row[key]
        if value is None:
            same = written == ""
        elif isinstance(value, bool):
            same = written == json.dumps(value)
        elif isinstance(value, str):
            same = written == ("'" + value if value in RUN else value)
        else:
            same = float(written) == value
        assert same, f"{key}: {written!r}, in the JSON {value!r}"

# In yards every number is that of the table in metres by the definition of the unit (NIST SP 811, appendix B), 12 digits.
YARDS = {"carry_yd": ("carry_m", lambda v: v / 0.9144), "total_yd": ("total_m", lambda v: v / 0.9144),
         "club_speed_mph": ("club_speed_mps", lambda v: v / 0.44704), "wind_mph": ("wind_mps", lambda v: v / 0.44704),
         "altitude_ft": ("altitude_m", lambda v: v / 0.3048), "wind_height_ft": ("wind_height_m", lambda v: v / 0.3048),
         "temperature_f": ("temperature_c", lambda v: v * 1.8 + 32)}
other = list(csv.DictReader(io.StringIO(in_yards, newline=""), strict=True))
assert len(other) == len(rows) and len(other[0]) == len(rows[0])
for mine, theirs in zip(other, rows):
    for key, value in mine.items():
        source, to = YARDS.get(key, (key, None))
        assert source in theirs, key
        if to and value:
            assert abs(float(value) - to(float(theirs[source]))) <= 1e-10 * max(1, abs(float(value))), f"{key}: {value} for {theirs[source]}"
        else:
            assert value == theirs[source], key
assert set(YARDS) <= set(other[0]), other[0].keys()
