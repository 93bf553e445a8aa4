"""Strangers' files: whatever stands in them, a reason in words or a harmless Winter, and the rest goes on."""

from __future__ import annotations

import json
import struct
import time
import unicodedata
import warnings
import zipfile
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from gather.hand import change, houses, outcome, packed, put, raw, refused, review, winter

from reportgen import limits
from reportgen.gather.document import Unfit
from reportgen.gather.gathering import gather
from reportgen.gather.schema import winter_of
from reportgen.gather.things import things_of

NAN, INF = float("nan"), float("inf")
DAY = "2026-01-10"


def head(**more: Any) -> dict[str, Any]:
    """The season with something else in it."""
    return review()["season"] | more


def told(**more: Any) -> dict[str, Any]:
    """A review whose one change has an outcome with something else in it."""
    return review(changes=[change(DAY, "film", outcome("lift", 0.5) | more)])


# What stands in the file → words of the reason: where in it, and what was expected.
REFUSED: dict[str, tuple[object, tuple[str, ...]]] = {
    "a list": ([], ("no review", "one table")),
    "a number": (5, ("no review",)),
    "null": (None, ("no review",)),
    "another JSON": ({"name": "package", "version": "1.0"}, ("no review", "season")),
    "format 2": (review(format=2), ("format 2", "format 1")),
    "format 10^50": (review(format=10**50), ("format 1000",)),
    "format as text": (review(format="1"), ("format", "“1”")),
    "format true": (review(format=True), ("format", "true")),
    "format gone": ({k: v for k, v in review().items() if k != "format"}, ("format", "this key")),
    "season as list": (review(season=[]), ("season", "a list of 0", "a table")),
    "season as text": (review(season="winter"), ("season", "“winter”", "a table")),
    "title gone": (review(season={"first_day": DAY, "last_day": DAY}), ("season · title", "this key")),
    "title a number": (review(season=head(title=5)), ("season · title", "found 5", "text")),
    "title of 1 000 letters": (review(season=head(title="x" * 1000)), ("season · title", "1,000 letters", "200")),
    "title of controls": (review(season=head(title="\x00\x1b\u202e")), ("season · title", "words")),
    "half a sign": (review(season=head(title="film \ud800")), ("season · title", "whole signs")),
    "day as number": (review(season=head(first_day=20251101)), ("season · first_day", "a day such as")),
    "day of no calendar": (review(season=head(first_day="2025-02-30")), ("season · first_day", "2025-02-30")),
    "day with a time": (review(season=head(first_day="2025-11-01T00:00:00Z")), ("season · first_day",)),
    "day of year 1": (review(season=head(first_day="0001-01-01")), ("season · first_day", "1900 to 2100")),
    "last before first": (review(season=head(last_day="2024-01-01")), ("season", "before the last_day")),
    "a season of ten years": (review(season=head(first_day="2016-01-01")), ("season", "400 days")),
    "currency in words": (review(season=head(currency="<b>EUR</b>")), ("season · currency",)),
    "so far as text": (review(so_far="yesterday"), ("so_far", "“yesterday”")),
    "house as null": (review(house=None), ("house", "null", "a table")),
    "id no hash": (review(house={"id": "../../etc/passwd"}), ("house · id", "etc/passwd")),
    "id of 10 000": (review(house={"id": "a" * 10_000}), ("house · id",)),
    "label a list": (review(house={"label": ["Plot 1"]}), ("house · label", "a list of 1")),
    "label too long": (review(house={"label": "x" * 201}), ("house · label", "at most 200")),
    "heated as text": (review(house={"heated": "true"}), ("house · heated", "true or false")),
    "heated as 1": (review(house={"heated": 1}), ("house · heated", "true or false")),
    "area below 0": (review(house={"floor_area_m2": -3}), ("house · floor_area_m2", "above 0")),
    "area of a country": (review(house={"floor_area_m2": 1e12}), ("house · floor_area_m2", "at or below")),
    "area as text": (review(house={"floor_area_m2": "12"}), ("house · floor_area_m2", "a number")),
    "area true": (review(house={"floor_area_m2": True}), ("house · floor_area_m2", "a number")),
    "NaN": (review(weather={"mean_night_c": NAN}), ("weather · mean_night_c", "a number with an end")),
    "infinity": (review(weather={"mean_night_c": -INF}), ("weather · mean_night_c", "a number with an end")),
    "hotter than the sun": (review(weather={"coldest_c": 6000}), ("weather · coldest_c", "100")),
    "a number of 400 digits": (review(weather={"coldest_c": 10**400}), ("weather · coldest_c", "very many digits")),
    "money without end": (review(heat={"cost": 1e300}), ("heat · cost", "at or below")),
    "hours of two centuries": (review(damp={"hours_recorded": 2e6}), ("damp · hours_recorded",)),
    "120 %": (review(damp={"high_pct": 120}), ("damp · high_pct", "100")),
    "a band as list": (review(heat={"loss_w_per_k": [1, 2]}), ("heat · loss_w_per_k", "a table")),
    "failures as number": (review(frost={"failures": 3}), ("frost · failures", "a list")),
    "changes as table": (review(changes={"0": {}}), ("changes", "a table", "a list")),
    "changes of text": (review(changes=["film"]), ("changes 1", "“film”", "a table")),
    "an empty change": (review(changes=[{}]), ("changes 1 · when", "this key", "and 1 more")),
    "2 001 changes": (review(changes=[change(DAY, "film")] * 2001), ("changes", "a list of 2,001", "at most 2000")),
    "a word of 10 000": (review(changes=[change(DAY, "x" * 10_000)]), ("changes 1 · what", "10,000 letters")),
    "a kind of its own": (review(changes=[change(DAY, "film", kind="<script>")]), ("changes 1 · kind", "one of")),
    "another outcome": (told(outcome="happiness"), ("changes 1 · outcomes 1 · outcome", "happiness")),
    "effect as formula": (told(effect="=1+1"), ("changes 1 · outcomes 1 · effect", "“=1+1”", "a number")),
    "effect NaN": (told(effect=NAN), ("changes 1 · outcomes 1 · effect", "a number with an end")),
    "effect outside its interval": (told(effect=9.0), ("changes 1 · outcomes 1", "within its own interval")),
    "an error of nothing by way of the bed": (
        told(se=1e-6, through_bed=True), ("changes 1 · outcomes 1", "belongs to its interval")
    ),
    "an error of nothing": (told(se=1e-6), ("changes 1 · outcomes 1", "belongs to its interval")),
    "an error below 0": (told(se=-0.2), ("changes 1 · outcomes 1 · se", "at or above 0")),
    "no degree of freedom": (told(dof=0), ("changes 1 · outcomes 1 · dof", "at or above 1")),
    "half a day": (told(days_before=20.5), ("changes 1 · outcomes 1 · days_before", "a whole number")),
    "refused as number": (told(refused=1), ("changes 1 · outcomes 1 · refused", "text")),
    "rows as text": (review(winters={"rows": "none"}), ("winters · rows", "a list")),
    "many faults": (
        review(house={"id": 1, "label": 2, "kind": 3, "heated": 4, "glazing": 5}), ("house · id", "and 2 more")
    ),
}  # fmt: skip

# Bytes that are no review at all.
BYTES: dict[str, tuple[bytes, tuple[str, ...]]] = {
    "empty": (b"", ("empty",)),
    "spaces": (b"  \n", ("empty",)),
    "cut off": (raw(review(changes=[change(DAY, "film")]))[:150], ("cut off",)),
    "a page": (b"<!doctype html><html><body>404</body></html>", ("no JSON", "line 1")),
    "a comma too many": (b'{"format": 1,}', ("no JSON", "line 1")),
    "two documents": (raw(review()) * 2, ("no JSON",)),
    "UTF-16": (json.dumps(review()).encode("utf-16"), ("not UTF-8",)),
    "binary": (bytes(range(256)), ("not UTF-8",)),
    "nested lists": (b'{"format":1,"season":{},"x":' + b"[" * 200_000, ("nested deeper",)),
    "nested tables": (b'{"a":' * 200_000, ("nested deeper",)),
    "a key twice": (b'{"format": 1, "format": 2, "season": {}}', ("'format' twice",)),
    "a key twice, deep": (b'{"format":1,"season":{"title":"a","title":"b"}}', ("'title' twice",)),
    "an endless number": (b'{"format":1,"season":{"title":' + b"9" * 10_000 + b"}}", ("thousands of digits",)),
    "too long": (b'{"format":1,"x":"' + b"x" * 5_000_001 + b'"}', ("longer than a review", "5,000,000 bytes")),
    "10^6 findings": (b'{"format":1,"season":{},"findings":[' + b"{}," * 1_000_000 + b"{}]}", ("100,000 tables",)),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_review_is_told_with_its_place(name: str) -> None:
    """Where in the file, what was found, what was expected."""
    document, words = REFUSED[name]
    with pytest.raises(Unfit) as unfit:
        winter(document)
    assert [word for word in words if word not in str(unfit.value)] == [], str(unfit.value)
    assert len(str(unfit.value)) < 900 and str(unfit.value).isprintable()


@pytest.mark.parametrize("name", BYTES)
def test_what_is_no_json_is_told(name: str) -> None:
    """Without running out of memory or of stack."""
    data, words = BYTES[name]
    with pytest.raises(Unfit) as unfit:
        winter_of(data, "a.json")
    assert [word for word in words if word not in str(unfit.value)] == [], str(unfit.value)


def test_there_are_fifty_of_them() -> None:
    """The count that was asked for."""
    assert len(REFUSED) + len(BYTES) + len(ODD_TEXTS) + len(ZIPS) >= 50


ODD_TEXTS = {
    "markup": "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "a formula": '=HYPERLINK("http://example.invalid","x")',
    "an escape": "film\x1b[2J\x1b[31m",
    "a zero": "film\x00film",
    "turned about": "film \u202ecod.exe\u2066",
    "lines": "film\n[[thing]]\r\nname = 'x'\u2028y\x85z",
    "unseen": "fi\u200blm\ufeff\u00ad",
    "private and tags": "film \ue000\U000e0041",
    "a tower": "f" + "\u0301" * 150 + "ilm",
}


def texts(value: object) -> list[str]:
    """Every text in a frozen value."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, tuple):
        return [text for inner in value for text in texts(inner)]
    if is_dataclass(value):
        return [text for field in fields(value) for text in texts(getattr(value, field.name))]
    return []


@pytest.mark.parametrize("name", ODD_TEXTS)
def test_words_are_kept_on_one_line_and_obey_nobody(name: str) -> None:
    """In every place where a member's words are kept; markup and formulas stay as text, for the page to escape."""
    text = ODD_TEXTS[name]
    document = review(
        season=head(title=text), house={"label": text, "kind": text, "glazing": text},
        changes=[change(DAY, text, outcome("lift", 0.5, refused=text), thing=text, grouped_with=[text])],
        heat={"reasons": {"kwh": text}}, winters={"last": text, "rows": [{"what": text, "unit": "K"}]},
    )  # fmt: skip
    kept = texts(winter(document))
    assert sum("film" in word or "alert" in word or "HYPER" in word or "ilm" in word for word in kept) >= 9
    for word in kept:
        assert not {unicodedata.category(sign) for sign in word} & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
        assert len(word) < 100
        word.encode("utf-8")
    if name in ("markup", "a formula"):
        assert text in kept


def test_joiners_of_scripts_and_pictures_stay() -> None:
    """A family of four, and a Persian word with its joiner, are as they were written."""
    words = "\U0001f468\u200d\U0001f469\u200d\U0001f467 می\u200cخواهم"
    assert winter(review(season=head(title=words))).title == words


def bomb(inner: bytes) -> bytes:
    """A ZIP with zeros that unpack to ten thousand times their size, named as a review."""
    return packed({"review/data/review.json": inner})


def lying() -> bytes:
    """A ZIP that claims a small size for a large member."""
    data = bytearray(packed({"data/review.json": b" " * 6_000_000}))
    for sign, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        struct.pack_into("<I", data, data.rfind(sign) + at, 100)
    return bytes(data)


def locked() -> bytes:
    """A member that says it is locked with a password."""
    data = bytearray(packed({"data/review.json": raw(review())}))
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        struct.pack_into("<H", data, data.rfind(sign) + at, 1)
    return bytes(data)


def spoiled() -> bytes:
    """One byte of the packed review turned about."""
    data = bytearray(packed({"data/review.json": raw(review())}))
    data[60] ^= 0xFF
    return bytes(data)


def long_list() -> bytes:
    """An end record that claims a list of files of 300 megabytes."""
    data = bytearray(packed({"data/review.json": raw(review())}))
    struct.pack_into("<I", data, data.rfind(b"PK\x05\x06") + 12, 300_000_000)
    return bytes(data)


def large_form() -> bytes:
    """The locator of the form for very large files before the end record, which would overrule it."""
    data = packed({"data/review.json": raw(review())})
    at = data.rfind(b"PK\x05\x06")
    return data[:at] + b"PK\x06\x07" + b"\0" * 16 + data[at:]


def twice(*members: bytes) -> bytes:
    """Two members of one name."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return packed([("data/review.json", member) for member in members])


ZIPS: dict[str, tuple[Callable[[], bytes], str]] = {
    "no ZIP": (lambda: b"PK\x03\x04 and no more", "damaged"),
    "a page": (lambda: b"<html>sign in</html>", "damaged"),
    "empty": (lambda: b"", "damaged"),
    "cut off": (lambda: packed({"data/review.json": raw(review())})[:-30], "damaged"),
    "nothing in it": (lambda: packed({}), "without a review.json"),
    "photographs": (lambda: packed({"a.jpg": b"x"}), "without a review.json"),
    "a bomb": (lambda: bomb(b"\0" * 6_000_000), "unpacks to more"),
    "a size that lies": (lying, "damaged"),
    "a password": (locked, "password"),
    "a spoiled byte": (spoiled, "damaged"),
    "a long list": (long_list, "list of files"),
    "the large form": (large_form, "very large files"),
    "too many files": (lambda: packed([(f"{n}.txt", b"") for n in range(2_001)]), "2,001 files"),
    "out of the ZIP": (lambda: packed({"../../data/review.json": raw(review())}), "leads out"),
    "from the root": (lambda: packed({"/etc/data/review.json": raw(review())}), "leads out"),
    "from a drive": (lambda: packed({"C:/data/review.json": raw(review())}), "leads out"),
    "backslashes": (lambda: packed({"..\\..\\data\\review.json": raw(review())}), "leads out"),
    "packed otherwise": (
        lambda: packed({"data/review.json": raw(review())}, compression=zipfile.ZIP_LZMA), "does not use"
    ),
    "one name twice": (lambda: twice(raw(review(7)), raw(review(8))), "one name"),
    "JSON that is none": (lambda: packed({"data/review.json": b"{"}), "cut off"),
}  # fmt: skip


@pytest.mark.parametrize("name", ZIPS)
def test_a_hostile_zip_is_left_out_and_the_rest_goes_on(name: str, tmp_path: Path) -> None:
    """A reason for it, two good reviews read, nothing unpacked anywhere."""
    make, words = ZIPS[name]
    place = put(tmp_path / "in", a=review(1), b=review(2))
    (place / "c.zip").write_bytes(make())
    before = sorted(tmp_path.rglob("*"))
    group = gather([place])
    assert len(group.houses) == 2
    reasons = [one.reason for one in group.left_out]
    assert reasons and all(words in reason for reason in reasons), reasons
    assert sorted(tmp_path.rglob("*")) == before


def test_a_zip_above_the_limit_is_not_opened(tmp_path: Path) -> None:
    """A sparse file of 60 megabytes named .zip."""
    place = put(tmp_path, a=review(1), b=review(2))
    with (place / "c.zip").open("wb") as file:
        file.truncate(60_000_000)
    assert "50,000,000 bytes" in gather([place]).left_out[0].reason


def test_what_a_zip_unpacks_to_in_all_has_an_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """ZIPs in a ZIP share one allowance: the third of them is no longer unpacked."""
    monkeypatch.setattr(limits, "ZIP_UNPACKED", replace(limits.ZIP_UNPACKED, most=1_000_000))
    inner = packed({"x": b"\0" * 400_000, "data/review.json": b"{"}, compression=zipfile.ZIP_STORED)
    place = put(tmp_path, a=review(1), b=review(2))
    (place / "c.zip").write_bytes(packed({f"{n}.zip": inner for n in range(3)}))
    reasons = [one.reason for one in gather([place]).left_out]
    assert ["unpacks to more" in reason for reason in reasons] == [False, False, True]


def test_lines_that_take_each_other_back_come_to_an_end() -> None:
    """In a ring, on one day, and on a day that is none of the diary's."""
    ring = [change(DAY, "a", undoes="2026-01-11"), change("2026-01-11", "b", undoes=DAY)]
    day = [change(DAY, "a", undoes=DAY), change(DAY, "b", undoes=DAY), change(DAY, "c", undoes="2020-01-01")]
    assert len(things_of(houses(review(1, changes=ring), review(2, changes=day)))) == 1


def test_lists_as_long_as_they_may_be_are_read_soon() -> None:
    """2 000 lines beside 2 000 levers and 2 000 loggers: within five seconds of computing (a tenth is usual)."""
    lines = [change(DAY, f"x{n}", refused("lift", "for a"), undoes=DAY if n % 2 else None) for n in range(2_000)]
    told_by = [outcome("lift", 1.0)]
    levers = [{"name": f"x{n}", "entries": [DAY] * 20, "outcomes": told_by} for n in range(2_000)]
    record = {"channels": [{"logger": f"a logger's name {n}"} for n in range(2_000)]}
    document = review(1, changes=lines, levers=levers, record=record)
    things_of(houses(review(1, changes=lines[:1])))  # what it needs is loaded
    start = time.process_time()
    assert things_of(houses(document))
    assert time.process_time() - start < 5


def test_by_way_of_the_bed_an_interval_reaches_further_than_its_error() -> None:
    """Half of it is 20 standard errors: no interval of any error (at most 12.7, Student with one degree of freedom),
    unless the review says that an end holds what came by way of the bed."""
    ends = {"low": -3.5, "high": 4.5, "se": 0.2}
    (line,) = winter(told(**ends, through_bed=True)).lines
    assert (line.outcomes[0].low, line.outcomes[0].high, line.outcomes[0].se) == (-3.5, 4.5, 0.2)
    with pytest.raises(Unfit, match="belongs to its interval"):
        winter(told(**ends))
