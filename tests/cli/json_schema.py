"""Holds the JSON that the program writes against data/schema, and docs/json.md against the same schemas.

    json_schema.py PROGRAM SOURCE_DIR [--approve]

With --approve the key tables in docs/json.md are written anew instead of compared.
"""
import json
import pathlib
import re
import shlex
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print("python3-jsonschema is not installed: the schemas are not checked")
    sys.exit(77)

ANSWERS = {
    "fly": ["fly --ball-speed 118mph --launch 11deg --spin 2700rpm",
            "fly --ball-speed 118mph --launch -3deg --spin 2700rpm",
            "fly --ball-speed 5mph --launch 70deg --spin 12000rpm --pressure 900hPa --wind 9mph --wind-from left --temperature 3C"],
    "strike": ["strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg",
               "strike --club-speed 82mph --attack 5deg --dynamic-loft 18deg --toe 20mm --handed left --units metres",
               "strike --club-speed 98 --attack -8 --dynamic-loft 6 --versus 'club-speed=103 attack=3.2 turf=firm altitude=800m'",
               "strike --club-speed 98 --attack -8 --dynamic-loft 6 --club-loft 9 --versus 'attack=3 club-loft=11' --follow 1"],
    "advise": ["demo", "demo --units metres --draws 0", "advise data/pupils/demo.json --seed 7 --draws 256",
               "advise data/pupils/clinic.json", "advise data/pupils/sleeve.json --draws 512", "demo --ladder", "advise data/pupils/clinic.json --ladder --step 1 --draws 0",
               "advise --book data/books/demo.json", "advise data/pupils/demo.json --book data/books/demo.json --session 4 --ladder"],
    "chart": ["chart --speed-low 65mph --speed-high 95mph --speed-step 15mph --attack-step 3deg",
              "chart --goal total --pupil data/pupils/clinic.json --attack-step 6deg --speed-step 20mph --units metres"],
    "clinic": ["clinic data/clinic --draws 256", "clinic data/pupils --draws 0 --units metres"],
    "rack": ["rack data/clinic --lofts 9,10.5,12,13.5,15 --places 3",
             "rack data/pupils --lofts 12deg,9deg --places 2 --after-advice --draws 256 --units metres"],
    "tune": ["tune data/pupils/demo.json --shots data/shots/tuning.csv --folds 3 --quiet",
             "tune data/academy/suvi.json --shots data/academy/suvi-before.csv --units metres --quiet",
             "tune data/academy/brannoch.json --shots data/academy/brannoch-before.csv --quiet"],
    "arc": ["arc --low-point -4.7in --plane 50deg --radius 1.6m",
            "arc --attack 3deg --plane 50deg --radius 1.6m --handed left",
            "arc --attack -8deg --path 4deg --low-point 9.8in"],
    "book": ["book list data/books/demo.json", "book export data/books/demo.json"],
    "book-history": ["book history data/books/demo.json"],
    "shots": ["shots data/shots/lesson.csv", "shots data/academy/ivo-before.csv --handed left", "shots data/academy/suvi-before.csv --odd leave-out",
              "shots data/academy/brannoch-before.csv --club Driver --paste"],
    "heads": ["heads data/academy/ivo-heads.csv --pupil data/academy/ivo.json",
              "heads data/academy/ivo-before.csv data/academy/ivo-after.csv data/academy/tamsin-before.csv --goal total --units metres",
              "heads data/academy/brannoch-before.csv data/academy/brannoch-after.csv --club Driver --in-hand brannoch-before"],
    "compare": ["compare data/academy/tamsin-before.csv data/academy/tamsin-after.csv --pupil data/academy/tamsin.json --predicted 12yd",
                "compare data/academy/brannoch-before.csv data/academy/brannoch-after.csv --club Driver --club-loft 9deg",
                "compare data/academy/ivo-before.csv data/academy/ivo-after.csv --handed left --goal total --changed 'temperature=24C'"],
    "lessons": ["lessons data/academy/books", "lessons data/books --units metres"],
    "check": ["check data/pupils/demo.json", "check data/schema/fly.schema.json"],
}


def schemas(source):
    return {path.name.split(".")[0]: json.loads(path.read_text())
            for path in sorted((source / "data/schema").glob("*.schema.json"))}


def bundled(schema, all_schemas):
    """The schema with the parts it shares with others brought inside, so that any validator can follow its references."""
    shared = all_schemas["drive"]
    text = json.dumps({**schema, "$defs": {**shared["$defs"], **schema.get("$defs", {})}})
    return json.loads(text.replace(shared["$id"] + "#", "#"))


def check_answers(program, source, all_schemas):
    failures = []
    for name, lines in ANSWERS.items():
        schema = bundled(all_schemas[name], all_schemas)
        jsonschema.Draft202012Validator.check_schema(schema)
        validator = jsonschema.Draft202012Validator(schema)
        for line in lines:
            done = subprocess.run([program, *shlex.split(line), "--json"], cwd=source, capture_output=True, text=True)
            try:
                answer = json.loads(done.stdout, parse_constant=lambda word: failures.append(f"{line}: {word}"))
            except ValueError as error:
                failures.append(f"{line}: exit {done.returncode}, no JSON: {error}; {done.stderr.strip()}")
                continue
            for error in validator.iter_errors(answer):
                failures.append(f"{line}: /{'/'.join(map(str, error.absolute_path))}: {error.message}")
    return failures


def check_data(source, all_schemas):
    """The data files that ship keep to the schema their format names."""
    failures = []
    for path in sorted((source / "data").rglob("*.json")):
        document = json.loads(path.read_text())
        name = document.get("format", "").removeprefix("loftwright-").split("/")[0]
        if path.parent.name == "schema" or name not in all_schemas:
            continue
        for error in jsonschema.Draft202012Validator(all_schemas[name]).iter_errors(document):
            failures.append(f"{path.name}: /{'/'.join(map(str, error.absolute_path))}: {error.message}")
    return failures


def rows(schema, definitions, prefix=""):
    """One (key, type, meaning) a key; a part shared with other answers is named, not repeated."""
    out = []
    for key, value in schema.get("properties", {}).items():
        name = prefix + key
        if "/properties/" in value.get("$ref", ""):
            part, borrowed = value["$ref"].removeprefix("#/$defs/").split("/properties/")
            value = definitions[part]["properties"][borrowed]
        inner = next((v for v in [value, value.get("items", {}), *value.get("oneOf", [])] if "properties" in v), None)
        out.append((name, type_of(value), value.get("description", "")))
        if inner:
            out += rows(inner, definitions, name + ("[]." if value.get("type") == "array" else "."))
    return out


def type_of(value):
    if "const" in value:
        return f'`"{value["const"]}"`'
    if "enum" in value:
        return ", ".join("null" if word is None else f"`{word}`" if word else "nothing" for word in value["enum"])
    if "oneOf" in value:
        return " or ".join(type_of(v) for v in value["oneOf"] if v.get("type") != "null") + " or null"
    if "$ref" in value:
        name = value["$ref"].split("/")[-1]
        return f"[{name}](#{name})"
    if value.get("type") == "array":
        items = value.get("items", {})
        return "list of " + (type_of(items) if "$ref" in items or "type" in items else "values")
    kind = value.get("type", "")
    return " or ".join(kind) if isinstance(kind, list) else kind


def tables(all_schemas):
    out = {}
    for name in ANSWERS:
        schema = bundled(all_schemas[name], all_schemas)
        parts = {name: schema, **schema["$defs"]}
        for part, body in parts.items():
            lines = ["| key | value | meaning |", "|---|---|---|"]
            lines += [f"| `{key}` | {kind} | {meaning} |" for key, kind, meaning in rows(body, schema["$defs"])]
            out[part] = "\n".join(lines)
    return out


def check_document(path, wanted, approve):
    text = path.read_text()

    def fresh(match):
        return f"<!-- keys: {match[1]} -->\n{wanted[match[1]]}\n<!-- end -->"

    named = re.findall(r"<!-- keys: (\S+) -->", text)
    failures = [f"{path.name}: no table for {name}" for name in wanted if name not in named]
    new = re.sub(r"<!-- keys: (\S+) -->\n.*?<!-- end -->", fresh, text, flags=re.S)
    if approve:
        path.write_text(new)
    elif new != text:
        failures.append(f"{path.name} is not what data/schema says; run this script with --approve")
    return failures


def main():
    program, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    all_schemas = schemas(source)
    failures = check_document(source / "docs/json.md", tables(all_schemas), "--approve" in sys.argv)
    failures += check_answers(program, source, all_schemas)
    failures += check_data(source, all_schemas)
    print("\n".join(failures))
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
