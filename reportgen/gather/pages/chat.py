"""The group's picture for a chat, 1080 × 1350: what was learnt, what to try together, who switches when."""

from __future__ import annotations

import re
from dataclasses import replace

from reportgen.drawing.together import Together, together_wide
from reportgen.gather.pages.sheet import Sheet
from reportgen.site.chat_parts import INNER, Block, heading, lines, rule
from reportgen.site.chat_picture import laid_out, png_of, room_left

SIZE, SMALL = 25, 24
READ = "Dots: houses, weather taken out. Bar: all together, 95\u00a0%. Broken line: the next house."
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def png(sheet: Sheet) -> bytes:
    """The picture's bytes; the same sheet gives the same bytes."""
    return png_of(svg(sheet))


def svg(sheet: Sheet) -> str:
    """The fullest choice that fits: cautions are never left out."""
    for clauses, rows, turns, open_ in (
        (3, 4, 8, 2), (3, 3, 6, 2), (3, 3, 4, 1), (3, 2, 4, 1), (2, 2, 4, 0), (2, 2, 3, 0), (2, 1, 2, 0), (1, 1, 1, 0),
        (1, 0, 0, 0),
    ):  # fmt: skip
        blocks = _blocks(sheet, clauses, rows, turns, open_)
        if room_left(blocks) >= 0:
            break
    return laid_out(blocks)


def _blocks(sheet: Sheet, clauses: int, rows: int, turns: int, open_: int) -> list[Block]:
    out = [lines([sheet.title], 26, color="ink2", most=1), heading(sheet.clauses[:clauses])]
    out += [lines([words], SIZE, bold=True, most=3) for words in sheet.apart]
    if sheet.chat and rows:
        out += [
            rule(),
            _picture(sheet.chat[min(rows, len(sheet.chat)) - 1]),
            lines([_read(sheet.chat[min(rows, len(sheet.chat)) - 1])], SMALL, color="ink2", most=2),
        ]
    if (sheet.turns and turns) or (sheet.open_ and open_):
        out += [rule(), lines([sheet.plan_title], 27, bold=True, most=2)]
        out += [lines([f"{who}: {when}"], SMALL, most=2) for who, when in sheet.turns[:turns]]
        if turns < len(sheet.turns):
            out.append(lines(["The other rows stand on the handout."], SMALL, color="ink2"))
        out += [lines([words], SMALL, color="ink2", most=3) for words in sheet.open_[:open_]]
    if sheet.care_brief:
        out.append(lines([sheet.care_brief], SMALL, color="ink2", most=4))
    return [*out, rule(), lines([sheet.closing], SMALL, color="ink2", most=2)]


def _read(view: Together) -> str:
    """How the picture is read; the sign of the marked house where it is there."""
    return f"{READ} Diamond: your house." if any(dot.ours for row in view.rows for dot in row.dots) else READ


def _picture(view: Together) -> Block:
    shorter = tuple(replace(row, ours="", said_next="") for row in view.rows)
    drawn = together_wide(replace(view, rows=shorter, folded=""), INNER, SIZE)
    found = _VIEW.search(drawn)
    assert found is not None
    return Block(inner=drawn, height=float(found[2]), nested=True)
