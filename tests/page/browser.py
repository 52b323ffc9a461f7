"""Debian's Chromium without a window, driven over its own protocol; what the page tests share."""
import base64
import json
import pathlib
import re
import sys
import urllib.parse

try:
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service
    from selenium.webdriver.common.by import By
    from selenium.webdriver.common.keys import Keys
except ImportError:
    print("python3-selenium is not installed: the page is not looked at")
    sys.exit(77)

CHROMIUM, DRIVER = pathlib.Path("/usr/bin/chromium"), pathlib.Path("/usr/bin/chromedriver")
if not (CHROMIUM.exists() and DRIVER.exists()):
    print("chromium and chromium-driver are not installed: the page is not looked at")
    sys.exit(77)

SHEETS = {"A4": (8.27, 11.69), "Letter": (8.5, 11)}  # [in]


class Browser:
    def __init__(self, profile=None):
        """`profile`: a folder that keeps what pages store from one browser to the next."""
        options = webdriver.ChromeOptions()
        if profile:
            options.add_argument(f"--user-data-dir={profile}")
        for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-dev-shm-usage"):
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.driver = webdriver.Chrome(options=options, service=Service(str(DRIVER)))
        self.run, self.cdp = self.driver.execute_script, self.driver.execute_cdp_cmd

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.driver.quit()

    def show(self, page, width=1280, dark=False, scripts=True):
        """Opens a file as a reader would; the width is in CSS pixels."""
        self.cdp("Emulation.setScriptExecutionDisabled", {"value": not scripts})
        self.look(width, dark)
        self.logs()
        self.driver.get(pathlib.Path(page).as_uri())

    def look(self, width, dark=False):
        """Looks at the page that is open in another way: no page has a script that minds the width or the scheme when it is opened."""
        self.cdp("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]})
        self.cdp("Emulation.setDeviceMetricsOverride", {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500})

    def logs(self):
        """What the console said and which addresses were asked for since last time."""
        said = [entry["message"] for entry in self.driver.get_log("browser")]
        events = [json.loads(entry["message"])["message"] for entry in self.driver.get_log("performance")]
        asked = [e["params"]["request"]["url"] for e in events if e["method"] == "Network.requestWillBeSent"]
        return said, asked

    def json(self, element_id):
        return json.loads(self.run("return document.getElementById(arguments[0]).textContent", element_id))

    def text(self, element_id):
        return self.run("return document.getElementById(arguments[0]).textContent", element_id)

    def find(self, css):
        return self.driver.find_element(By.CSS_SELECTOR, css)

    def nameless(self):
        """What has a name that is empty, in shadow trees too: axe passes over those."""
        return self.run("""const named = "[aria-label], caption, svg > title, svg > desc, h1, h2, h3, figcaption, legend, summary, label";
            const within = (root) => [...root.querySelectorAll("*")].flatMap((one) => [...(one.matches(named) ? [one] : []), ...(one.shadowRoot ? within(one.shadowRoot) : [])]);
            return within(document).filter((one) => !(one.ariaLabel ?? one.textContent).trim()).map((one) => one.closest("[id]")?.id + ": " + one.outerHTML.slice(0, 80))""")

    def press(self, *keys):
        webdriver.ActionChains(self.driver).send_keys(*keys).perform()

    def pages_printed(self, sheet):
        width, height = SHEETS[sheet]
        pdf = self.cdp("Page.printToPDF", {"paperWidth": width, "paperHeight": height, "printBackground": True, "preferCSSPageSize": False})
        return len(re.findall(rb"/Type\s*/Page\b(?!s)", base64.b64decode(pdf["data"])))

    def picture(self, file, width):
        height = self.run("return document.documentElement.scrollHeight")
        clip = {"x": 0, "y": 0, "width": width, "height": height, "scale": 1}
        shot = self.cdp("Page.captureScreenshot", {"captureBeyondViewport": True, "clip": clip})
        pathlib.Path(file).write_bytes(base64.b64decode(shot["data"]))
