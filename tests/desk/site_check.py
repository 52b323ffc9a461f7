"""The desk as a static site: after one visit it opens, answers and remembers without any network.

    site_check.py PROGRAM SOURCE_DIR DESK_DIR WORK_DIR
"""
import functools
import http.server
import pathlib
import sys
import threading

_, source, built, work = (pathlib.Path(a).resolve() for a in sys.argv[1:5])
sys.path.insert(0, str(source / "tests/page"))
from browser import Browser  # noqa: E402  (exits with 77 when there is none)
from watching import expect, finish, until  # noqa: E402

site = built / "site"
if not (site / "index.html").exists():
    print(f"{site} is not there (.ci/desk builds it)")
    sys.exit(77)

asked = []


class Handler(http.server.SimpleHTTPRequestHandler):
    def log_message(self, form, *args):
        asked.append(args[0])


server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Handler, directory=site))
threading.Thread(target=server.serve_forever, daemon=True).start()
address = f"http://localhost:{server.server_port}/"
with Browser() as browser:
    verdict = "return document.querySelector('.verdict')?.textContent"
    browser.driver.get(address)
    until(lambda: browser.run("return [...document.querySelectorAll('button')].find(b => b.textContent === 'Look at an invented pupil')"), "the desk opens").click()
    said = until(lambda: browser.run(verdict), "the invented pupil gets a verdict")
    until(lambda: browser.driver.execute_async_script("navigator.serviceWorker.ready.then(() => caches.keys()).then(k => arguments[0](k.length))"), "what it needs is kept")
    others = {line.split()[1] for line in asked} - {"/", "/icon-180.png", "/icon-512.png", "/manifest.webmanifest", "/sw.js"}
    expect(not others, f"nothing else is asked for: {others}")
    server.shutdown()
    server.server_close()
    browser.cdp("Network.enable", {})
    browser.cdp("Network.emulateNetworkConditions", {"offline": True, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0})
    browser.driver.refresh()
    expect(until(lambda: browser.run(verdict), "without network the desk opens and answers") == said, "and answers the same")
    console, _ = browser.logs()
    expect(not [line for line in console if "Content Security" in line], f"nothing is refused by the page's own policy: {console}")
finish()
