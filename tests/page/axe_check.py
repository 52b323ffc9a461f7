"""The page against axe-core (npm), which knows the machine-testable part of WCAG 2.2.

    axe_check.py PROGRAM SOURCE_DIR WORK_DIR

WORK_DIR is for pages made here and for axe-core itself, at the version of package-lock.json.
"""
import pathlib
import shutil
import subprocess
import sys

from browser import Browser

program, source, work = (pathlib.Path(a).resolve() for a in sys.argv[1:4])
work.mkdir(parents=True, exist_ok=True)
if not shutil.which("npm"):
    print("npm is not installed: axe-core is not run")
    sys.exit(77)
for name in ("package.json", "package-lock.json"):
    shutil.copy(source / "tests/page" / name, work)
subprocess.run(["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--prefer-offline", "--silent"], cwd=work, check=True)
axe = (work / "node_modules/axe-core/axe.min.js").read_text()

failures = 0
with Browser() as browser:
    for name, args in (("demo", ["demo"]), ("ladder", ["advise", "data/pupils/demo.json", "--ladder"]), ("clinic", ["advise", "data/pupils/clinic.json", "--units", "metres"]),
                       ("book", ["book", "history", "data/books/demo.json"]),
                       ("lessons", ["lessons", "data/academy/books"]),
                       ("chart", ["chart", "--quiet", "--speed-step", "20mph", "--attack-step", "4deg"]),
                       ("rack", ["rack", "data/clinic", "--lofts", "9,10.5,12,13.5,15", "--places", "2"]),
                       ("summary", ["clinic", "data/clinic", "--draws", "256"]),
                       ("heads", ["heads", "data/academy/ivo-heads.csv", "--pupil", "data/academy/ivo.json"]),
                       ("compare", ["compare", "data/academy/ivo-before.csv", "data/academy/ivo-after.csv"])):
        to = work / (name if args[0] == "clinic" else f"{name}.html")  # a folder, or a page
        page = to / "index.html" if args[0] == "clinic" else to
        subprocess.run([program, *args, "--html", to], cwd=source, check=True, stdout=subprocess.DEVNULL)
        browser.show(page)
        browser.run(axe)
        browser.run("document.querySelectorAll('details').forEach(d => d.open = true)")
        for width, dark in ((360, True), (1280, False)):
            browser.look(width, dark)
            for one in browser.nameless():
                failures += 1
                print(f"FAILED: {name}, {width} px: without a name: {one}")
            # Of each rule that is broken all its places, of what is right the number alone.
            result = browser.driver.execute_async_script("""const say = arguments[0];
                axe.run(document, {resultTypes: ["violations"]}).then(r => say({passes: r.passes.length, violations: r.violations}), e => say({error: String(e)}))""")
            assert "error" not in result, result
            assert result["passes"] > 20, "axe looked at the page"
            for violation in result["violations"]:
                failures += 1
                where = "; ".join(str(node["target"]) for node in violation["nodes"][:5])
                print(f"FAILED: {name}, {width} px, {'dark' if dark else 'light'}: {violation['impact']}: {violation['help']}: {where}")
print(f"{failures} failures")
sys.exit(1 if failures else 0)
