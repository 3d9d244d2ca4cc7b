"""Pages as `jointrom report` writes them, for classes and recordings with awkward names.

    check_pages.py text PROGRAM ROOT SCRATCH       well-formed, self-contained, escaped, the same bytes each time
    check_pages.py browser PROGRAM ROOT SCRATCH    in a headless Chromium; leaves with status 77 where there is none
"""
import base64
import hashlib
import html.parser
import os
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree

import browser

SCRIPT_NAME = "Tova <script>alert(1)</script>"
NAMES = [SCRIPT_NAME, "=1+1", 'Anouk "Q" & O\'Söhne', "]]><!--", "a" * 60]
RECORDINGS = ["P01_left_elbow.csv", "P01_right_elbow.csv", "P02_left_elbow.csv", "P03_left_elbow.csv", "P05_right_knee.csv"]

failures = []


def expect(condition, what):
    if not condition:
        failures.append(what)


def run(program, folder, *arguments):
    done = subprocess.run([program, *arguments], cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        sys.exit(f"{arguments}: {done.stderr}")
    return done.stdout


def make_pages(program, root, scratch):
    """Names of pages: one of a recording, one of a class, one of a class with codes."""
    shutil.rmtree(scratch, ignore_errors=True)
    os.makedirs(scratch)
    for name in RECORDINGS:
        shutil.copy(os.path.join(root, "data", "demo", name), scratch)
    shutil.copy(os.path.join(scratch, RECORDINGS[0]), os.path.join(scratch, "<script>&.csv"))
    quoted = ['"' + name.replace('"', '""') + '"' for name in NAMES]
    rows = ["file,participant,side,joint,condition,age,sex"]
    for place, file in enumerate(RECORDINGS + ["missing.csv"]):
        side = "left" if "left" in file else "right"
        rows.append(f"{file},{quoted[place % len(NAMES)]},{side},{'knee' if 'knee' in file else 'elbow'},=before,2{place},F")
    with open(os.path.join(scratch, "class.csv"), "w", encoding="utf-8") as manifest:
        manifest.write("\n".join(rows) + "\n")
    run(program, scratch, "batch", "class.csv", "--into", "results")
    run(program, scratch, "batch", "class.csv", "--into", "coded", "--pseudonymise", "key.csv")
    run(program, scratch, "report", "<script>&.csv", "--joint", "elbow", "--sex", "F", "--age", "20", "--output", "one.html")
    run(program, scratch, "report", "results", "--against", "passive", "--output", "class.html")
    run(program, scratch, "report", "coded")
    return [os.path.join(scratch, name) for name in ("one.html", "class.html", "coded.html")]


class Outline(html.parser.HTMLParser):
    """Elements that are opened and closed, ids, and whatever could ask for something."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.open, self.ids, self.links, self.count = [], [], [], {}

    def handle_starttag(self, tag, attributes):
        self.handle_startendtag(tag, attributes)
        self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.count[tag] = self.count.get(tag, 0) + 1
        for name, value in attributes:
            expect(not name.startswith("on") and name not in ("src", "style", "srcset", "action"), f"{tag} has {name}")
            self.ids += [value] if name == "id" else []
            self.links += [value] if name in ("href", "xlink:href") else []

    def handle_endtag(self, tag):
        expect(self.open and self.open.pop() == tag, f"</{tag}> closes another element")


def check_text(path):
    with open(path, encoding="utf-8") as file:
        text = file.read()
    xml.etree.ElementTree.fromstring(text)
    outline = Outline()
    outline.feed(text)
    name = os.path.basename(path)
    expect(not outline.open, f"{name}: not closed: {outline.open}")
    expect(len(set(outline.ids)) == len(outline.ids), f"{name}: an id stands there twice")
    for link in outline.links:
        expect(link.startswith("#") and link[1:] in outline.ids, f"{name}: {link} leads nowhere")
    expect(outline.count["script"] == 1 and outline.count["style"] == 1, f"{name}: scripts and styles of its own only")
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', text).group(1).replace("&#39;", "'")
    expect(policy.startswith("default-src 'none'; ") and "unsafe" not in policy, f"{name}: policy {policy}")
    for element in ("style", "script"):
        content = re.search(f"<{element}>(.*?)</{element}>", text, re.S).group(1)
        digest = base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()
        expect(f"{element}-src 'sha256-{digest}'" in policy, f"{name}: the policy does not allow its own {element}")
    urls = set(re.findall(r"\w+://[^\s\"<]+", text)) - {"http://www.w3.org/2000/svg"}
    expect(not urls, f"{name}: addresses {urls}")
    expect("not a diagnosis" in text, f"{name}: no caution")
    return text


def check_texts(program, root, scratch):
    one, whole, coded = [check_text(path) for path in make_pages(program, root, scratch)]
    expect("&lt;script&gt;&amp;.csv" in one, "the name of the recording is escaped")
    for name in NAMES:
        expect(f"<h3>{html.escape(name).replace('&#x27;', '&#39;')}</h3>" in whole, f"{name} has a card")
    expect("missing.csv: there is no such file" in whole, "a recording that failed has its reason")
    for name in NAMES + RECORDINGS + ["class.csv", scratch]:
        expect(html.escape(name).replace("&#x27;", "&#39;") not in coded, f"the page with codes says {name}")
    again = run(program, scratch, "report", "results", "--against", "passive", "--output", "-")
    expect(again == whole, "the same results give the same bytes")


def luminance(colour):
    parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


# Texts of the page with their colours, those of figures left out: an SVG paints its own ground.
COLOURS = """[...new Set([...document.querySelectorAll("body *")].filter((e) => !e.closest("svg") && e.checkVisibility() &&
    [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())).map((e) => {
      let ground = e;
      while (getComputedStyle(ground).backgroundColor === "rgba(0, 0, 0, 0)") ground = ground.parentElement;
      return getComputedStyle(e).color + "|" + getComputedStyle(ground).backgroundColor + "|" + e.className;
    }))]"""


def check_contrast(page, name):
    """WCAG 2.2, 1.4.3: 4.5 to 1 for text."""
    for entry in page.value(COLOURS):
        text, ground, what = entry.split("|")
        light, dark = sorted((luminance(text), luminance(ground)), reverse=True)
        expect((light + 0.05) / (dark + 0.05) >= 4.5, f"{name}: contrast of '{what}', {text} on {ground}")


# Blocks of text or tables that are wider than the window outside of a part that scrolls.
TOO_WIDE = """[...document.querySelectorAll("body *")].filter((e) => !e.closest(".scroll") && e.checkVisibility() &&
    e.getBoundingClientRect().right > innerWidth + 1).map((e) => e.tagName + "." + e.className).slice(0, 5)"""


def check_layout(page, path, name):
    for width in (360, 400, 1280):
        page.size(width)
        page.open(path)
        expect(page.value("document.documentElement.scrollWidth <= innerWidth"), f"{name}: scrolls sideways at {width} px")
        expect(page.value(TOO_WIDE) == [], f"{name}: too wide at {width} px: {page.value(TOO_WIDE)}")
        shown = page.value("[...document.querySelectorAll('figure div')].filter((e) => e.querySelector('svg') && "
                           "e.checkVisibility()).map((e) => e.className)")
        expect(set(shown) <= {"narrow" if width < 500 else "wide"}, f"{name}: figures at {width} px: {shown}")
    trouble = [event for event in page.events
               if event.get("method") in ("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown")]
    expect(not trouble, f"{name}: {trouble}")
    asked = [event["params"]["request"]["url"] for event in page.events
             if event.get("method") == "Network.requestWillBeSent"]
    expect(all(url == "file://" + path for url in asked), f"{name}: asked for {asked}")
    for scheme in ("light", "dark"):
        page.media(scheme=scheme)
        check_contrast(page, f"{name}, {scheme}")
    page.media("print", "dark")
    expect(page.value("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)", f"{name}: dark paper")
    expect(page.value("!document.querySelector('nav').checkVisibility()"), f"{name}: contents on paper")
    page.media()


FIRST_CELLS = "[...document.querySelectorAll('#recordings tbody tr')].map((row) => row.cells[{}].textContent)"


def check_sorting(page, path):
    page.size(1280)
    page.open(path)
    headings = page.value("[...document.querySelectorAll('#recordings thead th')].map((th) => th.textContent.trim())")
    arc = next(place for place, heading in enumerate(headings) if heading.startswith("arc"))
    page.value(f"document.querySelectorAll('#recordings thead button')[{arc}].focus()")
    for direction in ("ascending", "descending"):
        page.press("Enter", 13, "\r")
        cells = page.value(FIRST_CELLS.format(arc))
        numbers = [float(cell.split()[0]) for cell in cells if cell != "–"]
        expect(cells[-1] == "–" and len(numbers) == 5, f"sorting, {direction}: what is missing stays last: {cells}")
        expect(numbers == sorted(numbers, reverse=direction == "descending"), f"sorting, {direction}: {numbers}")
        expect(page.value(f"document.querySelectorAll('#recordings thead th')[{arc}].ariaSort") == direction, "aria-sort")
    expect(page.value("document.querySelectorAll('#recordings [aria-sort]').length") == 1, "one column is sorted by")


def check_without_script(page, path):
    page("Emulation.setScriptExecutionDisabled", value=True)
    page.open(path)
    expect(page.value("document.querySelectorAll('button').length") == 0, "no button does nothing")
    expect(page.value("document.querySelectorAll('#recordings tbody tr').length") == 6, "complete without script")
    page("Emulation.setScriptExecutionDisabled", value=False)


def check_focus(page, path):
    """The tabulator goes down the page."""
    page.open(path)
    tops = []
    for _ in range(12):
        page.press("Tab", 9)
        tops.append(page.value("(() => { const box = document.activeElement.getBoundingClientRect();"
                               " return Math.round(box.top + scrollY); })()"))
    expect(tops == sorted(tops), f"focus goes {tops}")


def check_in_browser(program, root, scratch):
    if browser.program() is None:
        sys.exit(77)
    one, whole, _ = make_pages(program, root, scratch)
    with browser.Browser() as page:
        check_layout(page, one, "recording")
        check_layout(page, whole, "class")
        check_sorting(page, whole)
        check_without_script(page, whole)
        check_focus(page, whole)
        page.pdf(os.path.join(scratch, "class.pdf"))
        expect(os.path.getsize(os.path.join(scratch, "class.pdf")) > 20000, "prints")


what, *where = sys.argv[1:]
{"text": check_texts, "browser": check_in_browser}[what](*map(os.path.abspath, where))
for failure in failures:
    print(failure)
sys.exit(1 if failures else 0)
