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
    sessions = json.loads(run("list", str(book), "--json"))["sessions"]
    text = run("export", str(book))

# RFC 4180: every line ends in CRLF, and a line end inside quotes is as it was typed.
assert text.endswith("\r\n")
rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
assert len(rows) == len(sessions) == 5 + len(NOTES + RUN), len(rows)
for row, session in zip(rows, sessions):
    assert None not in row and None not in row.values(), row
    shots, course = session["shots"] or {}, session["course"] or {}
    wanted = {"session": session["session"], "date": session["date"], "notes": session["notes"], **session["club"],
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
