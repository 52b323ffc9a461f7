"""Holds docs/pupil-file.md against the program: what `check` says of each mistake shown, and the pupil printed there.

    pupil_file_examples.py PROGRAM SOURCE_DIR [--approve]

With --approve the page's table and pupil are written anew instead of compared.
"""
import difflib
import json
import pathlib
import re
import subprocess
import sys
import tempfile


def patched(value, patch):
    """RFC 7386: the demonstration pupil with a change."""
    if not isinstance(patch, dict):
        return patch
    out = dict(value) if isinstance(value, dict) else {}
    for key, change in patch.items():
        if change is None:
            out.pop(key, None)
        else:
            out[key] = patched(out.get(key), change)
    return out


def file_text(written, demo):
    """A change is made to the demonstration pupil; what is no JSON (int refuses NaN too) is the whole file."""
    try:
        return json.dumps(patched(json.loads(demo), json.loads(written, parse_constant=int)))
    except ValueError:
        return written


def said_of(program, text):
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "pupil.json"
        file.write_text(text)
        done = subprocess.run([program, "check", "--json", file], capture_output=True, text=True)
    kind = {"warning": "warning: ", "error": ""}
    return "; ".join(kind[f["severity"]] + ": ".join(filter(None, (f["place"], f["message"])))
                     for f in json.loads(done.stdout)["findings"])


def main():
    program, source = sys.argv[1], pathlib.Path(sys.argv[2])
    page, demo = source / "docs/pupil-file.md", (source / "data/pupils/demo.json").read_text()
    text = page.read_text()
    head, rows, tail = re.fullmatch(r"(.*<!-- mistakes -->\n\|.*?\n\|.*?\n)(.*?)(<!-- end -->.*)", text, re.S).groups()
    mistakes = re.findall(r"^\| `(.*?)` \|", rows, re.M)
    new_rows = [f"| `{m}` | {said_of(program, file_text(m, demo))} |\n" for m in mistakes]
    pupil = re.compile(r"(<!-- data/pupils/demo.json -->\n```json\n).*?(```\n)", re.S)
    new = pupil.sub(lambda m: m[1] + demo + m[2], head) + "".join(new_rows) + tail
    if "--approve" in sys.argv:
        page.write_text(new)
        return 0
    silent = [m for m, row in zip(mistakes, new_rows) if row.endswith("|  |\n")]
    for mistake in silent:
        print(f"nothing is said of {mistake}")
    for diff in difflib.unified_diff(text.splitlines(), new.splitlines(), page.name, "the program", lineterm="", n=0):
        print(diff)
    return 0 if new == text and not silent and len(mistakes) >= 20 else 1


sys.exit(main())
