"""What stands above the first page's picture, kept to its words: what goes, and what never does."""

from __future__ import annotations

from dataclasses import replace

from reportgen.charts.front_words import MOST_ABOVE, above, not_answered, spent, within, words_of
from reportgen.counsel import cautions
from reportgen.counsel.grounds import Answer, Told
from reportgen.site.care import cautions_of

WHY = "Less heat by a third; damper by some points; paid back in two winters; never with the gas heater lit"
ANSWER = Answer(ask="Does it pay?", about="film", answer="Yes", why=WHY, sure="Nine in ten: by counting.")
TOLD = Told(subject="lever", clause="With the film less heat", words="It.", sure="", page="changes", lever="film")


def test_a_long_reason_loses_its_last_part_but_no_warning_and_neither_side() -> None:
    """Both sides and the warning stay, however little room there is; with room nothing goes."""
    (kept,) = within([ANSWER], 0)
    assert kept.why == "Less heat by a third; damper by some points; never with the gas heater lit"
    assert within([ANSWER], spent([ANSWER])) == (ANSWER,)
    assert within([ANSWER], spent([ANSWER]) - 1) == (kept,)


def test_words_beside_an_answer_are_counted() -> None:
    """3 asked, 1 answered, 20 of reason, 3 of how sure, 3 of the link: by hand."""
    assert words_of([WHY]) == 20
    assert spent([ANSWER]) == 3 + 1 + 20 + 3 + 3


def test_what_has_a_date_stands_first_where_there_is_room() -> None:
    """It costs clauses of the heading, the last first; a list that is too long goes below the picture."""
    clauses = ("word " * 20, "word " * 60)
    for dated, first, left in ((["word " * 50], True, 1), (["word " * 200], False, 2), ([], False, 2)):
        found = above(["word " * 30], clauses, dated, [ANSWER])
        assert (found.dated_first, len(found.clauses)) == (first, left)
        words = words_of(["word " * 30, *found.clauses, *(dated if first else [])]) + spent(found.answers)
        assert words <= MOST_ABOVE


def test_the_heading_leaves_out_what_is_answered_below() -> None:
    """A lever by its name, the hold by its subject; never so much that a single clause is left."""
    event = replace(TOLD, subject="event", lever=None)
    hold = replace(TOLD, subject="hold", lever=None)
    assert not_answered([event, hold, TOLD, event], [ANSWER]) == [event, hold, event]
    assert not_answered([event, hold, event], [replace(ANSWER, about="hold")]) == [event, event]
    assert not_answered([event, TOLD], [ANSWER]) == [event, TOLD]


def test_no_caution_is_lost_in_its_few_words() -> None:
    """Each usual one has a short form of its own; of what is none of them every word stays."""
    ours = "Lift with two."
    few = [cautions.brief(words) for words in cautions.USUAL]
    assert all(few) and len(set(few)) == len(few)
    for words, short in zip(cautions.USUAL, few, strict=True):
        assert cautions.brief(f"{words} {ours}") == f"{short} {ours}"
        assert len(short.split()) < len(words.split())
    assert cautions.brief(ours) == ours and cautions.brief("") == ""


def test_whose_guidance_it_is_stands_once() -> None:
    """Several cautions share one last line that names every body and puts local codes first; one keeps its own."""
    told = cautions_of([cautions.FUEL, cautions.MAINS, cautions.SEAL])
    assert len(told) == 4 and not any("guidance" in line for line in told[:-1])
    for body in ("fire and gas safety bodies", "electrical safety bodies"):
        assert told[-1].count(body) == 1
    assert told[-1].endswith(cautions.LOCAL)
    assert cautions_of([cautions.ROOF]) == (cautions.ROOF.replace(cautions.LOCAL, "").strip(), cautions.LOCAL)
