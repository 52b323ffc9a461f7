"""Holds the CSV reader against Python's csv module, live. Usage: csv_check.py PROBE.

Two kinds of table: written by csv.writer and read back, and random text of the characters that matter, which both readers
must take apart alike or both refuse (csv.reader with strict=True). Left out of the random text is where the two differ on
purpose: spaces around cells, comments, and a carriage return alone.
"""
import csv
import io
import json
import random
import subprocess
import sys

rng = random.Random(20261125)
questions, expected = [], []


def ask(text, delimiter):
    """Notes what csv.reader makes of `text`: rows with the line each begins in, or None when it refuses."""
    rows, line = [], 1
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for row in reader:
            if any(row):
                rows.append({"line": line, "cells": row})
            line = reader.line_num + 1
    except csv.Error:
        rows = None
    questions.append({"what": "csv", "text": text, "delimiter": delimiter})
    expected.append(rows)


def cell():
    text = "".join(rng.choice('ab1,;\t"\n.-°é€') for _ in range(rng.randrange(8)))
    return text.strip(" \t#")


for _ in range(2000):
    delimiter = rng.choice(",;\t")
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=delimiter, lineterminator=rng.choice(["\n", "\r\n"]),
                        quoting=rng.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL, csv.QUOTE_NONNUMERIC]))
    rows = [["x" + cell()] + [cell() for _ in range(rng.randrange(6))] for _ in range(rng.randrange(1, 6))]
    writer.writerows(rows)
    ask(out.getvalue(), delimiter)
    assert [row["cells"] for row in expected[-1]] == rows

for _ in range(6000):
    ask("x" + "".join(rng.choice(["a", "1", ",", ",", '"', '"', "\n", "\r\n"]) for _ in range(rng.randrange(30))), ",")

answers = json.loads(subprocess.run([sys.argv[1]], input=json.dumps(questions), capture_output=True, text=True, check=True).stdout)
wrong = refused = 0
for question, answer, rows in zip(questions, answers, expected):
    refused += rows is None
    ours = None if isinstance(answer, dict) else answer
    if ours != rows:
        wrong += 1
        print(f"{question!r}\n  ours   {answer}\n  Python {rows}")
print(f"{len(questions)} tables held against Python's csv ({refused} refused by it), {wrong} wrong")
sys.exit(1 if wrong or refused < 500 or len(answers) != len(questions) else 0)
