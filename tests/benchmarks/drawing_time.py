"""How much computing each picture of the sample's site takes, all threads together.

Run by hand: python tests/benchmarks/drawing_time.py [SEASON]. Prints CPU seconds for every page (its frames, words and
charts put together) and for every picture that the chart engine draws, the first call of the engine apart since it
starts it; then the sum. Nothing is timed in the tests: a busy machine would decide them.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from reportgen.charts import NAMES, PAGES, page
from reportgen.charts.anatomy import arranged, halves
from reportgen.charts.embed import picture
from reportgen.charts.index import front
from reportgen.charts.types import Drawing, Page
from reportgen.pipeline import analyse
from reportgen.site.render import document_of

SAMPLE = Path(__file__).parents[2] / "sample_season"


def drawings(built: Page) -> list[tuple[Drawing, bool]]:
    """Every drawing of a page, and whether only its small width is drawn."""
    placed = arranged(built)
    out = [(placed.picture, False)] if isinstance(placed.picture, Drawing) else []
    for blocks in (placed.blocks, placed.rest):
        out += [(b, half) for b, half in zip(blocks, halves(blocks), strict=True) if isinstance(b, Drawing)]
    return out


def spent(begun: float, words: str, times: dict[str, float]) -> None:
    """Notes and prints what was used since."""
    times[words] = time.process_time() - begun
    print(f"{times[words]:7.3f}  {words}")


def main() -> None:
    """Pages first, then the pictures of each."""
    review = analyse(sys.argv[1] if len(sys.argv) > 1 else SAMPLE)
    times: dict[str, float] = {}
    pages = []
    for slug in PAGES:
        begun = time.process_time()
        pages.append(page(slug, review))
        spent(begun, f"page {NAMES[slug]}", times)
    begun = time.process_time()
    front(review, pages, document_of(review))
    spent(begun, "page Winter", times)
    first = True
    for built in pages:
        for drawing, half in drawings(built):
            begun = time.process_time()
            picture(drawing, narrow_only=half)
            drawn = not isinstance(drawing.narrow, str)
            spent(begun, f"{drawing.uid}{' with the start of the engine' if first and drawn else ''}", times)
            first = first and not drawn
    print(f"{sum(times.values()):7.3f}  all")


if __name__ == "__main__":
    main()
