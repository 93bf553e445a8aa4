"""The pen's pictures in Chromium: its own measure of every word, against the same laws as the width table's."""

from __future__ import annotations

from browser.opened import COLLIDING
from drawing.test_forms import DRAWN
from playwright.sync_api import Browser

from reportgen.site.resources import style, templates

# The box that the browser itself gives each line of words, in the drawing's own units.
OVER = """() => {
  const found = [];
  for (const svg of document.querySelectorAll('svg')) {
    const frame = svg.viewBox.baseVal;
    const texts = [...svg.querySelectorAll("text")].filter(t => t.textContent.trim());
    const lines = texts.map(t => [t.textContent, t.getBBox()]);
    for (const [words, b] of lines)
      if (b.x < -1 || b.y < -2 || b.x + b.width > frame.width + 1 || b.y + b.height > frame.height + 2)
        found.push(`${svg.id}: "${words}" is cut`);
    for (let i = 0; i < lines.length; i++) for (let k = i + 1; k < lines.length; k++) {
      const [a, p] = lines[i], [b, q] = lines[k];
      const wide = Math.min(p.x + p.width, q.x + q.width) - Math.max(p.x, q.x);
      const high = Math.min(p.y + p.height, q.y + q.height) - Math.max(p.y, q.y);
      if (wide > 0.5 && high > 0.5) found.push(`${svg.id}: "${a}" over "${b}"`);
    }
  }
  return found;
}"""
FONT = "svg{font-family:'DejaVu Sans',sans-serif;display:block!important;width:auto!important;margin-bottom:40px}"


def test_no_word_over_another_by_the_browsers_own_boxes(chromium: Browser) -> None:
    """Every view of every form on one page, in the widest font."""
    drawn = {name: draw() for name, draw in DRAWN.items()}
    svgs = "".join(svg.replace("<svg ", f'<svg id="{name}" ', 1) for name, svg in drawn.items())
    page = chromium.new_page(viewport={"width": 1280, "height": 900})
    try:
        page.set_content(f"<!doctype html><meta charset=utf-8><style>{FONT}</style>{svgs}")
        assert page.evaluate(OVER) == []
    finally:
        page.close()


def test_the_style_sheet_shows_one_size_at_a_time(chromium: Browser) -> None:
    """Wide on a desk, tall on a phone, no sideways scrolling at 320 px; nothing collides as it is shown."""
    drawn = "".join(draw() for name, draw in DRAWN.items() if name.endswith(", plain") and name.startswith("season "))
    sheet = (templates() / "drawing.css").read_text(encoding="utf-8")
    palette = style().split("*{")[0]
    page = chromium.new_page(viewport={"width": 1280, "height": 900})
    try:
        page.set_content(f"<!doctype html><meta charset=utf-8><style>{palette}{sheet}</style><main>{drawn}</main>")
        shown = "() => [...document.querySelectorAll('svg')].map(s => s.getBoundingClientRect().width > 0)"
        assert page.evaluate(shown) == [True, False, True]
        page.set_viewport_size({"width": 320, "height": 800})
        assert page.evaluate(shown) == [False, True, False]
        assert page.evaluate("() => document.documentElement.scrollWidth <= 320")
        assert page.evaluate(COLLIDING) == []
    finally:
        page.close()
