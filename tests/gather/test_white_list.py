"""What a group gives away is on a white list of keys: a site handed over whole tells no more than a shared one."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from operator import attrgetter
from pathlib import Path
from typing import Any, get_args

import pytest
from gather.hand import change, houses, put, review, winter
from gather.made_group import documents
from gather.test_hostile import texts
from shared_folder import small
from test_contract import CONTRACT

from reportgen import pipeline
from reportgen.counsel.events_safety import UNVENTED
from reportgen.gather import keys
from reportgen.gather.gathering import gather
from reportgen.gather.schema import FUMES
from reportgen.pipeline import analyse
from reportgen.problems import SeasonError

SECRET = "Owlbarrow"
# Texts of a review that a group may print, by their place; a star is the number of an entry.
PRINTED = {
    "season.title", "season.currency", "house.id", "house.label", "house.kind", "house.glazing", "winters.last",
    "winters.rows.*.what", "winters.rows.*.unit", "changes.*.what", "changes.*.thing", "changes.*.kind",
    "changes.*.touches.*", "changes.*.hoped_for.*", "changes.*.grouped_with.*", "changes.*.verdict",
    "changes.*.outcomes.*.outcome", "changes.*.outcomes.*.unit", "changes.*.outcomes.*.refused", "levers.*.name",
    "levers.*.outcomes.*.outcome", "levers.*.outcomes.*.unit", "levers.*.outcomes.*.refused",
}  # fmt: skip
# … and those that are looked at and not kept, or kept as a date, or held to one of a few words.
LOOKED_AT = {
    "season.time_zone", "season.first_day", "season.last_day", "so_far", "changes.*.when", "changes.*.undoes",
    "levers.*.entries.*",
    "heat.sources.*.fuel", "events.*.kind", "events.*.cause", "record.channels.*.logger", "record.files.*.file",
    "record.files.*.logger",
}  # fmt: skip


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, list[Any] | dict[str, Any], Any]]:
    """Every text of a document: its place with stars, what holds it and its key there."""
    pairs: Any = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in pairs:
        here = f"{path}.{'*' if isinstance(key, int) else key}".lstrip(".")
        if isinstance(inner, dict | list):
            yield from leaves(inner, here)
        elif isinstance(inner, str):
            yield here, value, key


def spiked(document: dict[str, Any]) -> tuple[dict[str, Any], int]:
    """The document with a secret in every text that is neither printed nor looked at, and how many there are."""
    copy, count = json.loads(json.dumps(document)), 0
    for path, holder, key in list(leaves(copy)):
        told = re.sub(r"\.reasons\..*", ".reasons", path)
        if path not in PRINTED | LOOKED_AT and not told.endswith(".reasons"):
            holder[key] = f"{SECRET} {count}"
            count += 1
    return copy, count


@pytest.mark.parametrize("word", ["plot-3", "garden-f", "plot-12"])
def test_no_text_beside_the_white_list_is_kept(word: str) -> None:
    """A secret in every other text of a whole review, and in new keys of every table: none is in what is kept."""
    document, count = spiked(documents()[word])
    assert count > 100
    for table in [document, *(value for value in document.values() if isinstance(value, dict))]:
        table["note"] = {"name": SECRET, "latitude": 48.6}
        if table is not document["share"]:  # whose place is true or false
            table["place"] = table["note"]
    document["season"]["time_zone"] = f"Europe/{SECRET}"
    for one in (*document["changes"], *document["levers"], *document["events"]):
        one["note"] = one["diary"] = f"{SECRET} again"
    kept = winter(document)
    assert kept.lines
    assert [text for text in texts(kept) if SECRET in text] == []


def test_reasons_name_no_logger_and_no_file() -> None:
    """A logger may be called after the place; the reason says the same without its name."""
    document = review(
        record={"channels": [{"logger": f"{SECRET} bench"}, {"logger": "door"}], "files": [{"file": f"{SECRET}.csv"}]},
        damp={
            "reasons": {
                "hours_above_high.low": f"no accuracy given for door, {SECRET} bench",
                "hours_above_high.high": f"“{SECRET} bench” has a single reading",
                "hours_recorded": f"the soil probe of {SECRET} bench seems to hang in the air",
                "airing_hours": f"{SECRET}",
            }
        },
    )
    assert winter(document).headlines.reasons == (
        ("damp.hours_recorded", "the soil probe of a logger seems to hang in the air"),
        ("damp.hours_above_high.low", "no accuracy given for a logger, a logger"),
        ("damp.hours_above_high.high", "a logger has a single reading"),
    )


def test_where_one_was_and_what_befell_are_not_kept() -> None:
    """Absences, events and ideas are lines of the diary that set nothing."""
    kinds = ("change", "spell", "upkeep", "event", "away", "idea")
    lines = [change("2026-01-10", f"{SECRET} {kind}", kind=kind) for kind in kinds]
    assert [line.kind for line in winter(review(changes=lines)).lines] == ["change", "spell", "upkeep"]


def test_what_share_held_back_is_in_no_group(tmp_path: Path) -> None:
    """A season with a place, prices, notes and a story, shared as `review --share` does it: the group tells none of
    them. The ZIP beside its own site is one winter twice."""
    season = small(
        tmp_path / "season", place=SECRET, note=f"with the wind from {SECRET}", story=f"# {SECRET}\n\nOf {SECRET}.",
        logger=f"{SECRET} bench", file=f"loggers/{SECRET}.csv", label="Plot 1", thing="bubble film",
    )  # fmt: skip
    pipeline.review(season, tmp_path / "in" / "one", share=True)
    put(tmp_path / "in", other=review(2))
    with pytest.raises(SeasonError, match="winter-twice"):
        gather([tmp_path / "in"])
    shutil.rmtree(tmp_path / "in" / "one")
    group = gather([tmp_path / "in"])
    told = texts(group)
    assert "in/one.zip: review/data/review.json" in told and group.left_out == ()
    assert "Plot 1" in [house.label for house in group.houses] and "Bubble film" in told
    assert [text for text in told if SECRET in text or "wind" in text] == []


def test_a_whole_site_tells_no_more_than_a_shared_one(tmp_path: Path) -> None:
    """The same season not shared, with the place in the name of its logger, its file and its notes: still none."""
    season = small(
        tmp_path / "season", place=SECRET, note=f"wind from {SECRET}", story=f"# {SECRET}\n\nOf {SECRET}.",
        logger=f"{SECRET} bench", file=f"loggers/{SECRET}.csv",
    )  # fmt: skip
    document = analyse(season).to_dict()
    assert SECRET in json.dumps(document)
    assert [text for text in texts(winter(document)) if SECRET in text] == []


HELD = (
    "currency", "headlines.heat_cost", "headlines.balance_total", "headlines.balance_per_kg", "headlines.harvest_kg",
    "headlines.kg_per_m2", "headlines.weeks_at_half_or_more",
)  # fmt: skip


def rich() -> dict[str, Any]:
    """A review that has every sum and every weight; of the made winters the one beside an earlier one."""
    document: dict[str, Any] = json.loads(json.dumps(documents()["plot-7-2025"]))
    document["harvest"]["weeks_at_half_or_more"] = 3
    return document


def test_a_whole_site_gives_no_prices_and_no_harvest() -> None:
    """Handed over without --share: what [share] does not allow is gone, with the reason of a shared review."""
    document = rich()
    whole = winter(document)
    assert all(attrgetter(name)(whole) is not None for name in HELD)
    assert {"EUR", "kg"} <= {row.unit for row in whole.against_last}
    for prices, picked, gone in (
        (False, True, {"currency", "headlines.heat_cost", "headlines.balance_total", "headlines.balance_per_kg"}),
        (True, False, {"headlines.balance_per_kg", *HELD[4:]}),
        (False, False, set(HELD)),
    ):
        document["share"] |= {"prices": prices, "harvest": picked}
        kept = winter(document)
        assert {name for name in HELD if attrgetter(name)(kept) is None} == gone
        private = {path for path, why in kept.headlines.reasons if why == "kept private by the grower"}
        assert ("heat.cost" in private) is not prices and ("harvest.kg" in private) is not picked
        assert "balance.per_kg" in private
        units = {row.unit for row in kept.against_last}
        assert ("EUR" in units) is prices and ("kg" in units) is picked
        assert "EUR/kg" not in units and kept.headlines.heat_kwh == whole.headlines.heat_kwh


def test_it_tells_what_a_shared_one_of_the_same_winter_tells(tmp_path: Path) -> None:
    """Both ways of handing over one season, figures and reasons."""
    season = small(tmp_path / "season", share="prices = false")
    given, shared = analyse(season).to_dict(), analyse(season, share=True).to_dict()
    assert given["harvest"]["kg"] and given["balance"]["total"] and given["season"]["currency"]
    one, other = winter(given), winter(shared)
    assert all(attrgetter(name)(one) is attrgetter(name)(other) is None for name in HELD)
    of_books = ("harvest.kg", "harvest.kg_per_m2", "balance.")
    assert [r for r in one.headlines.reasons if r[0].startswith(of_books)] == [
        r for r in other.headlines.reasons if r[0].startswith(of_books)
    ]


def test_a_review_of_an_older_release_says_nothing_of_share() -> None:
    """A whole one is read as season.toml without [share] would be; one without its zone was made with --share and
    holds only what was allowed."""
    document = rich()
    del document["share"]
    assert document["season"]["time_zone"]
    assert all(attrgetter(name)(winter(document)) is None for name in HELD)
    document["season"]["time_zone"] = None
    assert all(attrgetter(name)(winter(document)) is not None for name in HELD)
    del document["season"]["time_zone"]
    assert all(attrgetter(name)(winter(document)) is None for name in HELD)


@pytest.mark.parametrize("field", ["title", "what", "kind"])
def test_one_whose_words_name_its_private_place_is_left_out(tmp_path: Path, field: str) -> None:
    """`--share` would have made none of it; where the place may go it is read."""
    season = small(tmp_path / "a", place=SECRET, **{field: f"A winter at {SECRET}"})
    group = gather([put(tmp_path / "in", a=analyse(season).to_dict(), b=review(2), c=review(3))])
    assert [SECRET in text for text in texts(group) if SECRET in text] == []
    assert len(group.left_out) == 1 and "review --share" in group.left_out[0].reason
    free = small(tmp_path / "b", place=SECRET, share="place = true", **{field: f"A winter at {SECRET}"})
    assert winter(analyse(free).to_dict()).lines


def test_the_words_of_fumes_are_those_of_the_reviews() -> None:
    """The event by which a group knows a burner in a tight house."""
    assert FUMES == UNVENTED
    shut = review(events=[{"kind": "safety", "cause": UNVENTED, "diary": [SECRET]}])
    assert houses(shut, review(2))[0].newest.sealed_burner


def model_in(annotation: Any) -> type[keys.Kept] | None:
    """The table that an annotation holds, through lists and unions."""
    if isinstance(annotation, type) and issubclass(annotation, keys.Kept):
        return annotation
    return next((model for inner in get_args(annotation) if (model := model_in(inner)) is not None), None)


def unknown(model: type[keys.Kept], found: Any, path: str = "") -> Iterator[str]:
    """Keys of the white list that the contract does not have; "seen" for each table that was looked into."""
    found = found[0] if isinstance(found, list) else found
    for name, field in model.model_fields.items():
        key = field.alias or name
        if key != "reasons" and key not in found:
            yield f"{path}.{key}"
        elif (inner := model_in(field.annotation)) is not None:
            yield "seen"
            yield from unknown(inner, found[key], f"{path}.{key}")


def test_every_key_of_the_white_list_is_one_of_the_contract() -> None:
    """A slip of the pen here would read nothing and be seen by nobody."""
    more = {"balance": {"total": "", "per_kg": ""}, "events": [{"kind": "", "cause": ""}]}
    found = list(unknown(keys.Review, CONTRACT | more))
    assert set(found) == {"seen"} and len(found) > 20
