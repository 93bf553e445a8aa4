"""What is found among the places of an organiser: ZIPs, built sites and bare files; each once, nothing written."""

from __future__ import annotations

from pathlib import Path

import pytest
from gather.hand import packed, put, raw, review, season

from reportgen.gather import gathering
from reportgen.gather.gathering import gather
from reportgen.gather.types import Group
from reportgen.problems import SeasonError


def sources(group: Group) -> list[str]:
    """Where each winter was read."""
    return [winter.source for house in group.houses for winter in house.winters]


def left_out(group: Group) -> dict[str, str]:
    """Reason by file."""
    return {one.source: one.reason for one in group.left_out}


def test_the_invented_group(collected: Path) -> None:
    """Seven winters in three forms, six houses in their order, the broken file with its reason; group.toml found."""
    group = gather([collected])
    assert sources(group) == [
        "collected/plot-3/data/review.json", "collected/plot-7-2024.json", "collected/plot-7-2025.json",
        "collected/plot-9.zip: review/data/review.json", "collected/plot-12.zip: review/data/review.json",
        "collected/garden-e.json", "collected/garden-f.json",
    ]  # fmt: skip
    assert [house.label for house in group.houses] == ["Plot 3", "Plot 7", "Plot 9", "Plot 12", "A", "B"]
    assert [len(house.winters) for house in group.houses] == [1, 2, 1, 1, 1, 1]
    assert list(left_out(group)) == ["collected/plot-15.json"]
    assert "cut off" in left_out(group)["collected/plot-15.json"]
    assert group.title == "The gardens under the old brickworks" and group.story and group.mark is None


def test_figures_come_through_as_they_are(collected: Path) -> None:
    """The headlines of a house are those of its review; the house that hides its prices tells no money."""
    from gather.made_group import documents

    by_label = {house.label: house.newest for house in gather([collected]).houses}
    document, told = documents()["plot-3"], by_label["Plot 3"].headlines
    assert told.minimum_c == document["frost"]["minimum"]["temperature_c"]
    assert told.heat_kwh == document["heat"]["kwh"] and told.heat_cost == document["heat"]["cost"]
    assert told.hours_above_high.low == document["damp"]["hours_above_high"]["low"]
    assert told.kg_per_m2 == document["harvest"]["kg_per_m2"]
    assert by_label["Plot 12"].headlines.heat_cost is None and by_label["Plot 12"].headlines.heat_kwh
    assert by_label["A"].headlines.heat_kwh is None
    assert ("heat.kwh", document_reason(documents()["garden-e"])) in by_label["A"].headlines.reasons
    assert by_label["B"].sealed_burner and by_label["B"].burner and not by_label["Plot 3"].burner
    assert by_label["Plot 7"].last_winter == documents()["plot-7-2024"]["season"]["title"]
    assert by_label["Plot 7"].against_last and not by_label["Plot 3"].against_last


def document_reason(document: dict[str, dict[str, dict[str, str]]]) -> str:
    """Why that review knows no heat."""
    return document["heat"]["reasons"]["kwh"]


def test_a_file_a_site_and_a_zip_may_be_named_themselves(collected: Path) -> None:
    """Each kind as a place of its own, and one of them twice: it is read once."""
    places = [collected / "plot-9.zip", collected / "plot-3", collected / "garden-e.json", collected / "plot-9.zip"]
    group = gather(places)
    assert sorted(sources(group)) == ["garden-e.json", "plot-3/data/review.json", "plot-9.zip: review/data/review.json"]


def test_a_place_within_a_place_is_read_once(tmp_path: Path) -> None:
    """A folder, and a folder in it."""
    put(tmp_path / "all", a=review(1))
    put(tmp_path / "all" / "more", b=review(2))
    assert len(sources(gather([tmp_path / "all", tmp_path / "all" / "more"]))) == 2


def test_a_zip_of_zips(tmp_path: Path) -> None:
    """A shared folder is often fetched as one ZIP; one within each other is read, a third level is told."""
    inner = packed({"review/data/review.json": raw(review(1))})
    deep = packed({"deep.zip": packed({"deeper.zip": inner})})
    put(tmp_path, b=review(2))
    (tmp_path / "all.zip").write_bytes(packed({"Plot 1.zip": inner, "deep.zip": deep}))
    group = gather([tmp_path])
    name = tmp_path.name
    assert f"{name}/all.zip: Plot 1.zip: review/data/review.json" in sources(group)
    assert left_out(group) == {f"{name}/all.zip: deep.zip: deep.zip": "at most 2 ZIPs within each other are read"}


def test_what_systems_leave_beside_files_is_not_looked_at(tmp_path: Path) -> None:
    """Hidden files, resource forks of a ZIP: no word of them."""
    put(tmp_path, a=review(1), b=review(2))
    put(tmp_path / ".hidden", c=review(3))
    (tmp_path / "._a.json").write_bytes(b"\0\5\x16\7")
    (tmp_path / "c.zip").write_bytes(
        packed({"review/data/review.json": raw(review(4)), "__MACOSX/review/data/._review.json": b"\0\5\x16\7"})
    )
    group = gather([tmp_path])
    assert len(group.houses) == 3 and group.left_out == ()


def test_links_lead_nowhere_else(tmp_path: Path) -> None:
    """A link out of the place is left out and told; one within it is the same file and read once; a loop ends."""
    outside = put(tmp_path / "outside", secret=review(9))
    inside = put(tmp_path / "inside", a=review(1), b=review(2))
    (inside / "out.json").symlink_to(outside / "secret.json")
    (inside / "same.json").symlink_to(inside / "a.json")
    (inside / "gone.json").symlink_to(inside / "nothing.json")
    (inside / "folder").symlink_to(outside)
    (inside / "loop").symlink_to(inside)
    group = gather([inside])
    assert len(group.houses) == 2
    assert set(left_out(group)) == {"inside/out.json", "inside/gone.json"}
    assert "leads out" in left_out(group)["inside/out.json"]


def test_depth_has_an_end_and_says_so(tmp_path: Path) -> None:
    """Nine folders down nothing is read, and the folder is named."""
    put(tmp_path, a=review(1), b=review(2))
    put(tmp_path.joinpath(*"123456789"), c=review(3))
    group = gather([tmp_path])
    assert len(group.houses) == 2
    assert [one.reason for one in group.left_out] == [
        "at most 8 folders within each other below a folder of reviews are looked through"
    ]


def test_names_of_files_obey_nobody(tmp_path: Path) -> None:
    """A name with an escape or a byte that is no UTF-8 is told harmlessly."""
    put(tmp_path, a=review(1), b=review(2))
    (tmp_path / "x\x1b[31m\u202egnp.json").write_bytes(b"{")
    Path(str(tmp_path).encode().decode() + "/" + b"\xe4.json".decode("utf-8", "surrogateescape")).write_bytes(b"{")
    names = {one.source.removeprefix(f"{tmp_path.name}/") for one in gather([tmp_path]).left_out}
    assert names == {"x[31mgnp.json", "\\xe4.json"}


def test_all_that_is_wrong_at_once(tmp_path: Path) -> None:
    """Two places that are not there and a broken group.toml: three problems."""
    (tmp_path / "group.toml").write_text("titel = 'x'\n", encoding="utf-8")
    with pytest.raises(SeasonError) as stopped:
        gather([tmp_path / "a", tmp_path / "b"], tmp_path / "group.toml")
    assert sorted(p.slug for p in stopped.value.problems) == ["no-such-place", "no-such-place", "unknown-key"]


def test_one_winter_is_no_group(tmp_path: Path) -> None:
    """One review, or none: what was found and why the rest was left out."""
    put(tmp_path / "one", a=review(1), b={"format": 2, "season": {}})
    with pytest.raises(SeasonError) as stopped:
        gather([tmp_path / "one"])
    [problem] = stopped.value.problems
    assert problem.slug == "too-few-reviews" and "format 2" in problem.found
    (tmp_path / "none").mkdir()
    with pytest.raises(SeasonError):
        gather([tmp_path / "none"])


def test_five_winters_of_one_house_are_a_group(tmp_path: Path) -> None:
    """The grower with several winters: one house, its winters in their order."""
    files = {f"w{y}": review(1, season=season(f"{y}-11-01", f"{y + 1}-02-28")) for y in range(2025, 2020, -1)}
    group = gather([put(tmp_path, **files)])
    assert [[w.first_day.year for w in house.winters] for house in group.houses] == [[2021, 2022, 2023, 2024, 2025]]


def test_more_than_the_limit_is_a_problem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is cut off in silence."""
    from dataclasses import replace

    monkeypatch.setattr(gathering.limits, "REVIEWS", replace(gathering.limits.REVIEWS, most=2))
    with pytest.raises(SeasonError) as stopped:
        gather([put(tmp_path, a=review(1), b=review(2), c=review(3))])
    assert [p.slug for p in stopped.value.problems] == ["too-much"]


def test_the_mark(tmp_path: Path) -> None:
    """By its label, whatever its capitals; else the nearest is named."""
    put(tmp_path, a=review(1), b=review(2))
    assert gather([tmp_path], mark="plot 2").mark == "Plot 2"
    with pytest.raises(SeasonError) as stopped:
        gather([tmp_path], mark="Plot 22")
    assert "Plot 2" in stopped.value.problems[0].todo
