"""How wide words are in the widest of the usual fallback fonts, without the font: advances of DejaVu Sans 2.37.

Read once from the font's own horizontal metrics (OpenType table hmtx, no kerning) and rounded up to hundredths of an
em. Words kept apart by these widths stay apart in any narrower font that a reader may have.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

# hundredths of an em: characters
REGULAR: Mapping[int, str] = MappingProxyType(
    {
        20: "\u2009\u202f",
        23: "\u05d9′",
        28: "'ijlìíîïĩīĭįıĵĺļіїј\u05d5\u05df",
        29: "ł",
        30: "IJÌÍÎÏĨĪĬĮİĴΙΪІЇЈ",
        32: " ,.\u00a0·‘’‚",
        34: "/:;\\|¦ίι",
        35: "ŀ\u05d6",
        36: "fſ",
        37: "-‐\u2011",
        38: "ľ″",
        40: "()[]tţťŧț‹›",
        41: "!¡²³¹\u05e0",
        42: "rŕŗř\u05d2",
        46: '"',
        48: "ªº",
        50: "*_`§¨¯°´¸–†",
        52: "“”„",
        53: "szśŝşšźżžșгѓѕ\u05db",
        54: "?¿з\u05da\u05e5",
        55: "cçćĉċčέεζсэє\u05d3",
        56: "LĳĹĻĽĿΓνξ",
        57: "Ł\u05dc\u05e8",
        58: "Fkķĸΰυχ\u05d1",
        59: "Ĳκςвть•",
        60: "vxyýÿŷγλухчў\u05e6",
        61: "PÞΡπτЃЎГРУкяќ",
        62: "TYaeo«»ÝàáâãäåèéêëðòóôõöøāăąēĕėęěōŏőŢŤŦŶŸȚΤΥΫδθοТабеоѐё",
        63: "ßђ\u05e2\u05e4",
        64: "$0123456789ESbdghnpqu{}¢£¤¥µ¶ÈÉÊËñùúûüþďđĒĔĖĘĚĝğġģĥńņňŋŚŜŞŠũūŭůűųȘΕΞΣήβημρσЁЅЕлр\u05e3‒€",
        65: "Зийѝ\u05d8\u05e1",
        66: "KĶΚάαφψнпћџ\u05d4\u05d7\u05ea",
        67: "\u05d0\u05dd",
        68: "\u05de",
        69: "ABVXZÀÁÂÃÄÅĀĂĄŹŻŽΑΒΔΖΛΧАБВХЧЬц",
        70: "CRÇĆĈĊČħŔŖŘЄСЭЯд",
        71: "ЌКъ\u05e7\u05e9",
        74: "UÙÚÛÜŨŪŬŮŰŲ",
        75: "NÑŃŅŇŊΝЍИЙ",
        76: "HĤΗΠЏЛНПм",
        77: "Ω",
        78: "&DGÐĎĐĜĞĠĢЦ",
        79: "OQÒÓÔÕÖØŌŎŐΘΟΦΨЂЋДОы",
        82: "wŉŵ",
        84: "#+<=>^~¬±×÷ωЪ←↑→↓−≈≤≥",
        85: "ю",
        86: "ф",
        87: "MΜМФ",
        88: "○●",
        89: "Ы",
        90: "њ",
        91: "жљ",
        92: "Ħш",
        95: "щ■",
        96: "%",
        97: "¼½¾",
        98: "mÆ",
        99: "WæŴ",
        100: "@©®—…",
        103: "œ",
        105: "Њ",
        107: "ŒШ",
        108: "ЖЮ",
        110: "ЉЩ",
    }
)
BOLD: Mapping[int, str] = MappingProxyType(
    {
        20: "\u2009\u202f",
        27: "′",
        30: "\u05d9",
        31: "'",
        35: " ijl\u00a0ìíîïĩīĭįıĵĺļіїј\u05d5\u05df",
        37: "/\\|¦",
        38: ",.IJ·ÌÍÎÏĨĪĬĮİĴłΙΪІЇЈ‘’‚",
        39: "ίι",
        40: ":;",
        41: "\u05d6",
        42: "-‐\u2011‹›",
        44: "f²³¹ſ",
        45: "\u05d2″",
        46: "!()[]¡\u05e0",
        48: "tľţťŧț",
        50: "_`r§¨¯°´¸ŕŗř–†",
        53: '"*гѓ',
        56: "ŀέε",
        57: "ªº\u05db",
        58: "т\u05da",
        59: "?z¿źżžз\u05d3",
        60: "csçćĉċčśŝşšșζξςсэєѕ",
        61: "\u05d1\u05dc\u05e8",
        64: "L¤¶ĹĻĽĿΓΞλτЃГвь•",
        65: "x«»Łχхя",
        66: "vyýÿŷуў\u05e4\u05e6“”„",
        67: "kķĸ\u05e2\u05e5",
        68: "aeàáâãäåèéêëāăąēĕėęěΰυаекѐёќ\u05d8\u05e1\u05e3",
        69: "EFToÈÉÊËðòóôõöøĒĔĖĘĚĳōŏőŢŤŦȚΕΣΤάαγδθνοЁЕТоч\u05d4\u05d7\u05ea",
        70: "$0123456789¢£¥бнпџ\u05dd‒€",
        71: "ийѝ",
        72: "bdghnpqu{}ßñùúûüþďđĝğġģĥńņňŋũūŭůűųήβηκρЗрђ",
        73: "SYZÝŚŜŞŠŶŸŹŻŽȘΖΥΫЅ\u05d0\u05de",
        74: "CPµÇÞĆĈĊČΡμЄРСЭлћ\u05e7",
        75: "Ĳц",
        76: "ъ\u05e9",
        77: "BΒБВЬ",
        78: "AKRVXÀÁÂÃÄÅĀĂĄĶŔŖŘΑΔΚΛΧσЎАУХЯ",
        79: "φ",
        80: "ħπψ",
        81: "Чд",
        82: "UÙÚÛÜŨŪŬŮŰŲЌКм",
        83: "GĜĞĠĢ",
        84: "#+<=>DHN^~¬±ÐÑ×÷ĎĐĤŃŅŇŊΗΝΠЍЏИЙЛНП←↑→↓−≈≤≥",
        85: "Ψ",
        86: "OQÒÓÔÕÖØŌŎŐΘΟΦΩО",
        87: "ω",
        88: "&ЂЋ○●",
        90: "Д",
        91: "ы",
        93: "wŵЦ",
        94: "Ъ",
        95: "■",
        96: "њ",
        98: "Ħю",
        99: "ŉ",
        100: "@M©®ΜМФжфљ—…",
        101: "%",
        104: "¼½¾Ы",
        105: "mæ",
        107: "ш",
        109: "Æ",
        110: "œ",
        111: "WŴщ",
        113: "Њ",
        116: "Љ",
        117: "Œ",
        118: "Ю",
        123: "Ж",
        124: "Ш",
        133: "Щ",
    }
)

_EM = tuple(
    {character: hundredths / 100 for hundredths, characters in table.items() for character in characters}
    for table in (REGULAR, BOLD)
)
UNLISTED, PICTURE = 1.05, 1.4  # ems of a character that is not listed, and of an emoji


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Units that words take at most at that size of type."""
    return sum(_em(character, bold) for character in words) * size


@lru_cache(maxsize=4096)
def _em(character: str, bold: bool) -> float:
    known = _EM[bold].get(character)
    if known is not None:
        return known
    if unicodedata.category(character) in ("Mn", "Me", "Cf", "Cc"):
        return 0.0
    return PICTURE if ord(character) >= 0x1F000 else UNLISTED


def shorten(words: str, size: float, room: float, *, bold: bool = False) -> str:
    """Words cut to a width, at a space where there is one, with an ellipsis."""
    if width_of(words, size, bold=bold) <= room:
        return words
    cut = words
    while cut and width_of(f"{cut}…", size, bold=bold) > room:
        cut = cut[:-1]
    whole = cut.rpartition(" ")[0] if len(cut) < len(words) and words[len(cut)] != " " else cut
    return f"{(whole if len(whole) * 2 > len(cut) else cut).rstrip(' ,;:–')}…"


def wrap(words: str, size: float, room: float, *, bold: bool = False, most: int = 3) -> tuple[str, ...]:
    """Words in at most `most` lines of that width; what does not fit ends in an ellipsis."""
    lines = _filled(words, size, room, bold)
    if len(lines) > most:
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    return tuple(shorten(line, size, room, bold=bold) for line in lines)


def balanced(words: str, size: float, *, bold: bool = False, most: int = 3) -> list[tuple[str, ...]]:
    """The words in one, two … lines of about the same width."""
    out: list[tuple[str, ...]] = []
    whole = width_of(words, size, bold=bold)
    for many in range(1, most + 1):
        room = whole / many
        lines = _filled(words, size, room, bold)
        while len(lines) > many:
            room += size / 2
            lines = _filled(words, size, room, bold)
        if not out or len(lines) > len(out[-1]):
            out.append(tuple(lines))
    return out


def _filled(words: str, size: float, room: float, bold: bool) -> list[str]:
    lines = [""]
    for word in words.split(" "):
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if not lines[-1] or width_of(joined, size, bold=bold) <= room:
            lines[-1] = joined
        else:
            lines.append(word)
    return lines
