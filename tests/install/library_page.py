"""The examples shown on docs/library.md are the files, and so is what they print: library_page.py SOURCE_DIR. With
LOFTWRIGHT_APPROVE=1 the page is written anew."""
import os
import pathlib
import re
import sys

docs = pathlib.Path(sys.argv[1]) / "docs"
page = docs / "library.md"
text = page.read_text(encoding="utf-8")
shown = []


def block(found):
    file = docs / "examples" / found[1]
    shown.append(file)
    language = "cpp" if file.suffix == ".cpp" else "text"
    return f"<!-- {found[1]} -->\n```{language}\n{file.read_text(encoding='utf-8')}```\n<!-- end -->"


written = re.sub(r"<!-- (\w+\.(?:cpp|txt)) -->\n.*?<!-- end -->", block, text, flags=re.DOTALL)
programs = list((docs / "examples").glob("*.cpp"))
missing = {f for program in programs for f in (program, program.with_suffix(".txt"))}
for file in sorted(missing - set(shown)):
    print(f"{page}: {file.name} is not shown")
if os.environ.get("LOFTWRIGHT_APPROVE"):
    page.write_text(written, encoding="utf-8")
elif written != text:
    print(f"{page}: an example is not as its file is; LOFTWRIGHT_APPROVE=1 writes the page anew")
    sys.exit(1)
sys.exit(1 if missing - set(shown) or not shown else 0)
