"""Draws the icons of the installed app from `static/trug.svg`: `python -m tests.browser.draw_icons`."""

import re
import shutil
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

STATIC = Path(__file__).resolve().parents[2] / "static"
PAPER = "#fdfcf7"
# Name: pixels, the share of the square that the trug takes, the radius of the corners as a share. A maskable
# icon may be cut to a circle of 80 %; some phones round the corners by themselves.
ICONS = {
    "trug-192": (192, 0.78, 0.18),
    "trug-512": (512, 0.78, 0.18),
    "trug-maskable-512": (512, 0.52, 0),
    "trug-touch-180": (180, 0.7, 0),
}


def page(size: int, share: float, radius: float) -> str:
    lines = "".join(re.findall(r"<path[^>]*>", (STATIC / "trug.svg").read_text(encoding="utf-8")))
    room = 64 / share
    corner = -(room - 64) / 2
    box = f"{corner} {corner + 1.5} {room} {room}"
    square = (
        f'<rect x="{corner}" y="{corner + 1.5}" width="{room}" height="{room}" rx="{room * radius}"'
        f' fill="{PAPER}" stroke="none"/>'
    )
    return (
        f'<body style="margin:0"><svg xmlns="http://www.w3.org/2000/svg" width="{size}" height="{size}"'
        f' viewBox="{box}" style="display:block" fill="none" stroke="#1b1f27" stroke-width="3.6"'
        f' stroke-linecap="round" stroke-linejoin="round">{square}{lines}</svg>'
    )


def main() -> None:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for name, (size, share, radius) in ICONS.items():
            tab = browser.new_page(viewport={"width": size, "height": size})
            tab.set_content(page(size, share, radius))
            drawn = Image.open(BytesIO(tab.screenshot(omit_background=True)))
            few = drawn.convert("RGBA").quantize(32, method=Image.Quantize.FASTOCTREE)
            few.save(STATIC / "icons" / f"{name}.png", optimize=True)
        browser.close()


if __name__ == "__main__":
    main()
