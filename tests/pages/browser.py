"""A headless Chromium, told what to do over a pipe (Chrome DevTools Protocol). Standard library only."""
import base64
import json
import os
import shutil
import subprocess
import tempfile
import time

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")


def program():
    """The path of a browser, or None."""
    return next(filter(None, map(shutil.which, NAMES)), None)


class Browser:
    def __init__(self):
        self.profile = tempfile.mkdtemp(prefix="pages-")
        to_browser, self.write_end = os.pipe()
        self.read_end, from_browser = os.pipe()

        def give_pipes():
            os.dup2(to_browser, 103)
            os.dup2(from_browser, 104)
            os.dup2(103, 3)
            os.dup2(104, 4)

        self.process = subprocess.Popen(
            [program(), "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
             "--hide-scrollbars", "--no-first-run", "--disable-extensions", "--remote-debugging-pipe",
             "--user-data-dir=" + self.profile, "about:blank"],
            preexec_fn=give_pipes, close_fds=False, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.pending = b""
        self.count = 0
        self.session = None
        self.events = []
        target = next(t for t in self("Target.getTargets")["targetInfos"] if t["type"] == "page")
        self.session = self("Target.attachToTarget", targetId=target["targetId"], flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self(domain + ".enable")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        try:
            self.session = None
            self("Browser.close")
        except (OSError, RuntimeError):
            self.process.kill()
        self.process.wait()
        shutil.rmtree(self.profile, ignore_errors=True)

    def receive(self):
        while b"\0" not in self.pending:
            piece = os.read(self.read_end, 1 << 16)
            if not piece:
                raise RuntimeError("the browser has gone")
            self.pending += piece
        message, self.pending = self.pending.split(b"\0", 1)
        return json.loads(message)

    def __call__(self, method, **params):
        self.count += 1
        number = self.count
        message = {"id": number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.write_end, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.receive()
            if answer.get("id") == number:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]
            self.events.append(answer)

    def open(self, path):
        """Loads a file and waits until it is done. What it logged or asked for is in `events`."""
        self.events.clear()
        url = "file://" + os.path.abspath(path)
        self("Page.navigate", url=url)
        while self.value("location.href + ' ' + document.readyState") != url + " complete":
            time.sleep(0.02)

    def size(self, width, height=900):
        self("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def media(self, kind="screen", scheme="light"):
        self("Emulation.setEmulatedMedia", media=kind, features=[{"name": "prefers-color-scheme", "value": scheme}])

    def value(self, expression):
        """What an expression of JavaScript gives. The page's policy does not bind it."""
        result = self("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in result:
            raise RuntimeError(f"{expression}: {result['exceptionDetails']}")
        return result["result"].get("value")

    def press(self, key, code, text=""):
        for kind in ("keyDown", "keyUp"):
            self("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=code, text=text)

    def picture(self, file, top=0, height=None):
        """Writes a PNG of the page from `top`, as high as `height` or the page."""
        box = self("Page.getLayoutMetrics")["cssContentSize"]
        clip = {"x": 0, "y": top, "width": box["width"], "height": height or box["height"] - top, "scale": 1}
        shot = self("Page.captureScreenshot", format="png", clip=clip, captureBeyondViewport=True)
        with open(file, "wb") as out:
            out.write(base64.b64decode(shot["data"]))

    def pdf(self, file):
        result = self("Page.printToPDF", preferCSSPageSize=True, printBackground=False)
        with open(file, "wb") as out:
            out.write(base64.b64decode(result["data"]))
