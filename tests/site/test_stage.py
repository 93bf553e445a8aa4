"""Beside and inside the target: nothing is left by runs that end, nothing is touched that is somebody's own."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from reportgen.site.publish import MARKER, PublishError, check_target, publish, strangers
from reportgen.site.share import write_zip
from reportgen.site.stage import HELD, NEW, OLD, stage, tidy

# The package offers the function of the same name, so the module is asked for by its path.
publishing = import_module("reportgen.site.publish")
FIRST = {"index.html": b"one", "data/a.csv": b"1"}
SECOND = {"index.html": b"two", "data/a.csv": b"2"}
ON_LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="signals and links as on Linux")
RUN = """
import sys, time
from pathlib import Path
import click
from reportgen import console
from reportgen.site.stage import stage

@click.group(cls=console.Commands)
def main(): ...

@main.command()
@click.argument("out", type=click.Path(path_type=Path))
def wait(out):
    with stage(out) as room:
        (room / "half.html").write_text("half")
        print("ready", flush=True)
        time.sleep(60)

main()
"""


def names(folder: Path) -> list[str]:
    """What lies in a folder."""
    return sorted(path.name for path in folder.iterdir())


def begun(out: Path) -> subprocess.Popen[str]:
    """A run in a process of its own that has its stage and waits."""
    words = [sys.executable, "-c", RUN, "wait", str(out)]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    return process


@ON_LINUX
@pytest.mark.parametrize(("number", "code"), [(2, 130), (15, 143)])
def test_a_stopped_run_ends_in_one_sentence_and_leaves_nothing(tmp_path: Path, number: int, code: int) -> None:
    """Ctrl-C and SIGTERM, by the exit codes that shells expect."""
    process = begun(tmp_path / "site")
    process.send_signal(number)
    _, told = process.communicate(timeout=60)
    assert process.returncode == code
    assert told == "Stopped: nothing half done was left behind.\n"
    assert names(tmp_path) == []


@ON_LINUX
def test_what_a_killed_run_left_the_next_takes_away(tmp_path: Path) -> None:
    """As long as the run lives its stage is left alone; once it is killed the next run removes it."""
    process = begun(tmp_path / "site")
    publish(FIRST, tmp_path / "site")
    (left,) = [name for name in names(tmp_path) if name != "site"]
    assert left.startswith(".site-")
    process.kill()
    process.communicate(timeout=60)
    publish(SECOND, tmp_path / "site")
    assert names(tmp_path) == ["site"]


def test_folders_of_the_grower_beside_the_site_are_left_alone(tmp_path: Path) -> None:
    """Names that are only like those of a stage, one with content of its own, a link of such a name."""
    (tmp_path / ".site-abcdefgh").mkdir()
    (tmp_path / ".site-abcdefgh" / "mine.txt").write_text("mine", encoding="utf-8")
    (tmp_path / ".site-backup-of-may").mkdir()
    (tmp_path / ".site-ijklmnop").symlink_to(tmp_path / ".site-abcdefgh", target_is_directory=True)
    publish(FIRST, tmp_path / "site")
    assert names(tmp_path) == [".site-abcdefgh", ".site-backup-of-may", ".site-ijklmnop", "site"]
    assert (tmp_path / ".site-abcdefgh" / "mine.txt").read_text(encoding="utf-8") == "mine"


def test_an_old_site_set_aside_comes_back(tmp_path: Path) -> None:
    """Killed between the two renames there is no site: tidying brings the old one back before it takes the rest."""
    publish(FIRST, tmp_path / "site")
    room = tmp_path / ".site-abcdefgh"
    room.mkdir()
    (room / HELD).write_bytes(b"")
    (tmp_path / "site").rename(room / OLD)
    (room / NEW).mkdir()
    tidy(tmp_path / "site")
    assert names(tmp_path) == ["site"]
    assert (tmp_path / "site" / "index.html").read_bytes() == b"one"


def test_a_stop_while_tidying_still_tidies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The signal comes when the stage is being removed: it is removed to the end, then the run stops."""
    module = import_module("reportgen.site.stage")
    remove, calls = module._remove, []

    def once(*args: object) -> None:
        calls.append(args)
        if len(calls) == 1:
            raise KeyboardInterrupt
        remove(*args)

    monkeypatch.setattr(module, "_remove", once)
    with pytest.raises(KeyboardInterrupt), stage(tmp_path / "site") as room:
        (room / NEW).mkdir()
    assert names(tmp_path) == []


@ON_LINUX
def test_the_zip_is_written_through_no_link(tmp_path: Path) -> None:
    """A link by the name of an unfinished ZIP keeps its target; one by the name of the ZIP is replaced itself."""
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    for name in (".site.zip.part", "site.zip"):
        (tmp_path / name).symlink_to(tmp_path / "letter.txt")
    write_zip(FIRST, tmp_path / "site")
    assert (tmp_path / "letter.txt").read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "site.zip").is_symlink() and (tmp_path / "site.zip").stat().st_size > 100
    assert names(tmp_path) == [".site.zip.part", "letter.txt", "site.zip"]


def test_empty_folders_and_links_inside_an_old_site_are_refused(tmp_path: Path) -> None:
    """They are the grower's own: named, and still there afterwards."""
    out, home = tmp_path / "site", tmp_path / "winter"
    home.mkdir()
    publish(FIRST, out)
    (out / "keep").mkdir()
    (out / "photos").symlink_to(home, target_is_directory=True)
    (out / "data" / "b.csv").symlink_to(tmp_path / "nowhere")
    assert strangers(out) == ["data/b.csv", "keep/", "photos"]
    for call in (lambda: check_target(out, home), lambda: publish(SECOND, out)):
        with pytest.raises(PublishError, match=r"data/b\.csv"):
            call()
    assert (out / "keep").is_dir() and (out / "photos").is_symlink() and (out / "data" / "b.csv").is_symlink()
    assert (out / "index.html").read_bytes() == b"one"


def test_a_link_in_place_of_our_own_file_is_a_stranger(tmp_path: Path) -> None:
    """Even by the name of a page."""
    publish(FIRST, tmp_path / "site")
    (tmp_path / "site" / "index.html").unlink()
    (tmp_path / "site" / "index.html").symlink_to(tmp_path / "mine.html")
    assert strangers(tmp_path / "site") == ["index.html"]
    assert MARKER not in strangers(tmp_path / "site")


def test_a_mounted_folder_is_refused_with_what_to_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Seen beforehand, or told by the system when the folders are exchanged."""
    (tmp_path / "winter").mkdir()
    (tmp_path / "drive").mkdir()

    def busy(*_: object) -> None:
        raise OSError(16, "busy")

    monkeypatch.setattr(publishing, "_exchange", busy)
    with pytest.raises(PublishError, match="mounted"):
        publish(FIRST, tmp_path / "drive")
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path).name == "drive")
    with pytest.raises(PublishError, match=r"name a folder in it, such as .*drive.site"):
        check_target(tmp_path / "drive", tmp_path / "winter")
    assert names(tmp_path) == ["drive", "winter"]


@ON_LINUX
@pytest.mark.parametrize("out", ["loop", "loop/site", "n" * 300, "x/" * 3_000, "a\0b"])
def test_a_target_that_cannot_be_is_refused(tmp_path: Path, out: str) -> None:
    """A link to itself, a name too long, a path too deep, a zero byte: words, before anything is computed."""
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (tmp_path / "winter").mkdir()
    with pytest.raises(PublishError):
        check_target(tmp_path / out, tmp_path / "winter")
    with pytest.raises(PublishError):
        publish(FIRST, tmp_path / out)
    assert names(tmp_path) == ["loop", "winter"]


@ON_LINUX
def test_from_a_folder_that_is_gone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A target named from a deleted folder cannot be found: told."""
    here = tmp_path / "here"
    here.mkdir()
    (tmp_path / "winter").mkdir()
    monkeypatch.chdir(here)
    here.rmdir()
    with pytest.raises(PublishError, match="gone"):
        check_target(Path("site"), tmp_path / "winter")
    os.chdir(tmp_path)
