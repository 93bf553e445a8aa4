"""Publishing: all or nothing, never over what is not ours, never inside a season."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

from reportgen.gather.target import check_target as for_a_group
from reportgen.site.publish import MARKER, PublishError, check_target, publish

# The package offers the function of the same name, so the module is asked for by its path.
publishing = import_module("reportgen.site.publish")
FIRST = {"index.html": b"one", "data/a.csv": b"1", "old.html": b"old"}
SECOND = {"index.html": b"two", "data/a.csv": b"2"}


def files(folder: Path) -> dict[str, bytes]:
    """What stands in a folder, without the marker."""
    there = {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}
    there.pop(MARKER, None)
    return there


def season(folder: Path) -> Path:
    """A folder that is a season."""
    folder.mkdir()
    (folder / "season.toml").write_text("format = 1\n", encoding="utf-8")
    return folder


def test_a_second_site_replaces_the_first_wholly(tmp_path: Path) -> None:
    """Afterwards nothing of the older site is left, and nothing lies beside it."""
    out = tmp_path / "deep" / "site"
    publish(FIRST, out)
    assert files(out) == FIRST
    publish(SECOND, out)
    assert files(out) == SECOND
    assert [p.name for p in out.parent.iterdir()] == ["site"]


def test_where_the_system_cannot_exchange_two_renames_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the system call the result is the same."""
    monkeypatch.setattr(publishing, "_swap", lambda stage, target: False)
    publish(FIRST, tmp_path / "site")
    publish(SECOND, tmp_path / "site")
    assert files(tmp_path / "site") == SECOND
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_locked_folder_is_replaced_file_by_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the folder cannot be renamed (an open page on some systems) each file is; old ones go."""
    publish(FIRST, tmp_path / "site")
    stage = tmp_path / "stage"
    publish(SECOND, stage)
    monkeypatch.setattr(publishing, "PAUSE_S", 0.0)

    def locked(self: Path, other: Path) -> Path:
        raise PermissionError(13, "in use", str(self))

    monkeypatch.setattr(Path, "rename", locked)
    publishing._two_renames(stage, tmp_path / "site")
    assert files(tmp_path / "site") == SECOND


@pytest.mark.parametrize("step", ["_fill", "_exchange"])
def test_a_failure_leaves_the_old_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str) -> None:
    """A full disk while writing or exchanging: told, the old site whole, no rests beside it."""
    publish(FIRST, tmp_path / "site")

    def full(*_: object) -> None:
        raise OSError(28, "no space left")

    monkeypatch.setattr(publishing, step, full)
    with pytest.raises(PublishError, match="old one stands"):
        publish(SECOND, tmp_path / "site")
    assert files(tmp_path / "site") == FIRST
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_what_is_not_ours_is_never_replaced(tmp_path: Path) -> None:
    """A foreign folder, and a file of the reader's own inside an older site: refused by name, both still there."""
    out, home = tmp_path / "site", season(tmp_path / "winter")
    out.mkdir()
    (out / "letter.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(PublishError, match=r"letter\.txt"):
        check_target(out, home)
    (out / "letter.txt").unlink()
    publish(FIRST, out)
    (out / "photo.jpg").write_bytes(b"x")
    for call in (lambda: check_target(out, home), lambda: publish(SECOND, out)):
        with pytest.raises(PublishError, match=r"photo\.jpg"):
            call()
    assert (out / "photo.jpg").read_bytes() == b"x"


def test_an_empty_folder_and_an_older_site_may_be_used(tmp_path: Path) -> None:
    """Neither is refused, nor is a folder that does not exist yet."""
    home, out = season(tmp_path / "winter"), tmp_path / "site"
    check_target(out, home)
    out.mkdir()
    check_target(out, home)
    publish(FIRST, out)
    check_target(out, home)


def test_the_pages_of_a_group_are_no_older_site_of_a_season(tmp_path: Path) -> None:
    """Refused in words; a group's pages may be replaced by a group's, and a review's by none of a group."""
    home, out = season(tmp_path / "winter"), tmp_path / "site"
    publish({**FIRST, "data/group.json": b"{}"}, out)
    with pytest.raises(PublishError, match="holds the pages of a group"):
        check_target(out, home)
    for_a_group(out, [home])
    publish({**FIRST, "data/review.json": b"{}"}, out)
    with pytest.raises(PublishError, match="holds the review of one house"):
        for_a_group(out, [home])
    check_target(out, home)


def test_no_site_inside_or_around_a_season_or_over_a_file(tmp_path: Path) -> None:
    """The season itself, a folder in it, a folder in another season, one that holds the season, and a file."""
    home, other = season(tmp_path / "winter"), season(tmp_path / "other")
    (tmp_path / "file").write_text("x", encoding="utf-8")
    for out in (home, home / "site", other / "a" / "b", tmp_path, tmp_path / "file"):
        with pytest.raises(PublishError):
            check_target(out, home)


def test_a_link_into_the_season_does_not_fool_it(tmp_path: Path) -> None:
    """The target is judged by where it really lies."""
    home = season(tmp_path / "winter")
    (tmp_path / "elsewhere").symlink_to(home, target_is_directory=True)
    with pytest.raises(PublishError):
        check_target(tmp_path / "elsewhere" / "site", home)
