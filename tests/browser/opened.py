"""A page of the built site as a reader opens it: its width, its colours, and all that went wrong on the way."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Page, Request

PHONE, DESK = 390, 1280

# Words of a shown picture that lie over one another or outside the picture. Boxes are taken 1 px smaller, since the
# box of a word has air above and below its letters.
COLLIDING = """() => {
  const found = [];
  for (const svg of document.querySelectorAll('svg')) {
    const frame = svg.getBoundingClientRect();
    if (!frame.width) continue;
    const name = (svg.closest('figure') || svg).id || svg.getAttribute('aria-label');
    const words = [...svg.querySelectorAll('text')].filter(t => t.textContent.trim())
      .map(t => [t.textContent.trim(), t.getBoundingClientRect()]).filter(([, r]) => r.width > 0);
    for (const [word, r] of words)
      if (r.left < frame.left - 1 || r.right > frame.right + 1 || r.top < frame.top - 2 || r.bottom > frame.bottom + 2)
        found.push(`${name}: "${word}" is cut`);
    for (let i = 0; i < words.length; i++) for (let k = i + 1; k < words.length; k++) {
      const [a, p] = words[i], [b, q] = words[k];
      const wide = Math.min(p.right, q.right) - Math.max(p.left, q.left);
      const high = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
      if (wide > 1.5 && high > 3.5) found.push(`${name}: "${a}" over "${b}"`);
    }
  }
  return found;
}"""


@dataclass
class Opened:
    """The page, what the console said, and what was asked for outside the site's folder."""

    page: Page
    said: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)


@contextmanager
def opened(browser: Browser, file: Path, *, width: int = DESK, **context: Any) -> Iterator[Opened]:
    """One page of the site, loaded from file:// in a window of its own."""
    window = browser.new_context(viewport={"width": width, "height": 900}, **context)
    try:
        found = Opened(page=window.new_page())

        def heard(message: ConsoleMessage) -> None:
            if message.type in ("error", "warning"):
                found.said.append(message.text)

        def sent(request: Request) -> None:
            inside = request.url.startswith((file.parent.as_uri(), "data:"))
            if not inside:
                found.asked.append(request.url)

        found.page.on("console", heard)
        found.page.on("pageerror", lambda error: found.said.append(str(error)))
        found.page.on("request", sent)
        found.page.goto(file.as_uri())
        yield found
    finally:
        window.close()
